import type { SetUp } from '../../record';
import { recordingSource } from '../hearing/sources';
import type { Source } from '../hearing/ears';
import audioUrl from './examination.flac?url';
import { readScript } from './demonstration-script';
import type { Line } from './demonstration-script';
import scriptText from './script.txt?raw';

/** The demonstration's patient, who does not exist. */
export const demonstrationSetUp = (label: string): SetUp => ({
  label, injuredSide: 'left', handedness: 'right', mechanism: 'Cut by glass', onset: { value: 3, unit: 'h' }, protocol: 'wound',
});

export const demonstrationScript: readonly Line[] = readScript(scriptText);
export const demonstrationSource = (): Source => recordingSource(audioUrl);
