import type { SetUp } from '../../record';
import { recordingSource } from '../hearing/sources';
import type { Source } from '../hearing/ears';
import audioUrl from './examination.flac?url';
import scriptText from './script.txt?raw';

/** The demonstration's patient, who does not exist. */
export const demonstrationSetUp = (label: string): SetUp => ({
  label, injuredSide: 'left', handedness: 'right', mechanism: 'Cut by glass', onset: { value: 3, unit: 'h' }, protocol: 'wound',
});

export interface Line { readonly words: string; readonly toPatient: boolean }

/** The lines of script.txt: blank lines and remarks left out, speech to the patient marked. */
export const readScript = (text: string): readonly Line[] => text.split('\n').map((line) => line.trim()).filter((line) => line && !line.startsWith('#'))
  .map((line) => ({ words: line.replace(/^>\s*/, ''), toPatient: line.startsWith('>') }));

export const demonstrationScript: readonly Line[] = readScript(scriptText);
export const demonstrationSource = (): Source => recordingSource(audioUrl);
