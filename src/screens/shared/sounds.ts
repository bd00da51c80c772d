/**
 * Short sounds, so that hands and eyes can stay on the patient. They differ in contour, not only in pitch,
 * and stay clear of the three- and five-note bursts that monitors use for alarms (IEC 60601-1-8, from memory).
 */
export const SOUNDS = ['accepted', 'queried', 'ignored', 'order', 'caution'] as const;
export type Sound = (typeof SOUNDS)[number];

interface Note { readonly hertz: number; readonly at: number; readonly lasts: number }
/** Seconds. Accepted rises; queried goes down, then up, and stays open; an order falls; ignored is one low tick; a caution is two long low-high sweeps. */
export const SCORE: Readonly<Record<Sound, readonly Note[]>> = {
  accepted: [{ hertz: 620, at: 0, lasts: 0.07 }, { hertz: 930, at: 0.08, lasts: 0.1 }],
  queried: [{ hertz: 700, at: 0, lasts: 0.12 }, { hertz: 560, at: 0.14, lasts: 0.12 }, { hertz: 840, at: 0.28, lasts: 0.2 }],
  ignored: [{ hertz: 240, at: 0, lasts: 0.05 }],
  order: [{ hertz: 520, at: 0, lasts: 0.08 }, { hertz: 390, at: 0.09, lasts: 0.1 }],
  caution: [{ hertz: 330, at: 0, lasts: 0.32 }, { hertz: 660, at: 0.33, lasts: 0.32 }, { hertz: 330, at: 0.8, lasts: 0.32 }, { hertz: 660, at: 1.13, lasts: 0.32 }],
};

let context: AudioContext | undefined;

/** Plays a sound; silent where the browser gives no audio output. */
export function play(sound: Sound, volume = 0.25): void {
  if (typeof AudioContext === 'undefined' || volume <= 0) return;
  context ??= new AudioContext();
  void context.resume().catch(() => undefined);
  const now = context.currentTime + 0.02;
  for (const { hertz, at, lasts } of SCORE[sound]) {
    const [oscillator, gain] = [context.createOscillator(), context.createGain()];
    oscillator.type = sound === 'caution' ? 'triangle' : 'sine';
    oscillator.frequency.value = hertz;
    gain.gain.setValueAtTime(0, now + at);
    gain.gain.linearRampToValueAtTime(volume, now + at + 0.012);
    gain.gain.setValueAtTime(volume, now + at + lasts - 0.02);
    gain.gain.linearRampToValueAtTime(0, now + at + lasts);
    oscillator.connect(gain).connect(context.destination);
    oscillator.start(now + at);
    oscillator.stop(now + at + lasts + 0.01);
  }
}

/** Plays an utterance for the reviewer; resolves when it ends. Call `stop` to cut it short. */
export function playUtterance(audio: Float32Array, rate = 16_000): { readonly ended: Promise<void>; readonly stop: () => void } {
  context ??= new AudioContext();
  void context.resume().catch(() => undefined);
  const buffer = context.createBuffer(1, Math.max(1, audio.length), rate);
  buffer.getChannelData(0).set(audio);
  const source = new AudioBufferSourceNode(context, { buffer });
  source.connect(context.destination);
  const ended = new Promise<void>((resolve) => { source.onended = () => resolve(); });
  source.start();
  return { ended, stop: () => source.stop() };
}
