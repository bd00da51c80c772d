export interface Line { readonly words: string; readonly toPatient: boolean }

/** The lines of script.txt: blank lines and remarks left out, speech to the patient marked. */
export const readScript = (text: string): readonly Line[] => text.split('\n').map((line) => line.trim()).filter((line) => line && !line.startsWith('#'))
  .map((line) => ({ words: line.replace(/^>\s*/, ''), toPatient: line.startsWith('>') }));
