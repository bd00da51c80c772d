/**
 * Spoken read-back with the browser's own voices. Only voices that run on this device are used:
 * others would send the text to a server. While it speaks, `onSpeaking(true)` closes the ears, so that it never hears itself.
 */
export function readAloud(text: string, onSpeaking: (speaking: boolean) => void): { readonly possible: boolean; readonly stop: () => void } {
  const synthesis = typeof speechSynthesis === 'undefined' ? null : speechSynthesis;
  const voice = synthesis?.getVoices().find((candidate) => candidate.localService && candidate.lang.startsWith('en'));
  if (!synthesis || !voice || !text) return { possible: false, stop: () => undefined };
  const words = new SpeechSynthesisUtterance(text);
  words.voice = voice;
  words.lang = voice.lang;
  // The tail keeps the room's echo out as well.
  const done = (): void => { setTimeout(() => onSpeaking(false), 250); };
  words.onend = done;
  words.onerror = done;
  onSpeaking(true);
  synthesis.cancel();
  synthesis.speak(words);
  return { possible: true, stop: () => synthesis.cancel() };
}
