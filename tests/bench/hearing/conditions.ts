import { addNoise, babble, clipped, far, inQuietRoom, pink } from '../../speech/mix';

/** Seconds-long changes to a recording, the same for the same seed. */
export type Change = (speech: Float32Array, seed: number, talkers: readonly Float32Array[]) => Float32Array;

/** inQuietRoom puts a second before the speech; clips have 0.3 s of quiet before and 0.9 s after the words. */
const LEAD = 16_000;
const spokenPart = (speech: Float32Array): [number, number] => [LEAD + 4_800, LEAD + speech.length - 14_400];
const quiet: Change = (speech, seed) => inQuietRoom(speech, seed);
const inPink = (snr: number): Change => (speech, seed) => addNoise(inQuietRoom(speech, seed), pink(speech.length + LEAD, seed), snr, ...spokenPart(speech));
const inBabble = (snr: number): Change => (speech, seed, talkers) => addNoise(inQuietRoom(speech, seed), babble(speech.length + LEAD, talkers, seed), snr, ...spokenPart(speech));

interface Condition { readonly change: Change; readonly aim?: string; readonly babble?: true }

/** What happens to the speech on its way, and what is aimed at there (exact, wrongly filed). */
export const CONDITIONS = {
  'quiet': { change: quiet, aim: '≥ 98, ≤ 0.3' },
  'pink noise 20 dB': { change: inPink(20), aim: '≥ 95, ≤ 0.5' },
  'pink noise 10 dB': { change: inPink(10), aim: '≥ 85, ≤ 1' },
  'pink noise 5 dB': { change: inPink(5) },
  'babble 20 dB': { change: inBabble(20), aim: '≥ 95, ≤ 0.5', babble: true },
  'babble 10 dB': { change: inBabble(10), aim: '≥ 85, ≤ 1', babble: true },
  'babble 5 dB': { change: inBabble(5), babble: true },
  'clipped': { change: (speech, seed) => clipped(inQuietRoom(speech, seed)) },
  'far microphone': { change: (speech, seed) => far(inQuietRoom(speech, seed), seed) },
} satisfies Readonly<Record<string, Condition>>;

export type ConditionName = keyof typeof CONDITIONS;
export const condition = (name: ConditionName): Condition => CONDITIONS[name];
export const CONDITION_NAMES = Object.keys(CONDITIONS) as ConditionName[];
