import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { SpokenGrammar } from '../../../src/grammar';
import { CACHE, loadRecording, narrowBand, synthesised, writeWav, type Found, type Recording } from './material';

/** People saying digits over a telephone band, put where a digit decides most: after "grade". */

const DIGITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
/** Grades of the Medical Research Council scale. */
const GRADES = DIGITS.slice(0, 6);
/** Lines of tests/speech/phrases/digit-carriers.txt: what stands before the digit and, if anything, after it. */
const CARRIERS: readonly (readonly [number, number | null])[] = [[0, null], [1, null], [2, null], [3, 5], [4, 6]];
/** Takes up to this one may be tuned on; the others are for measuring only. */
export const LAST_TUNING_TAKE = 4;

export interface Spoken extends Recording { readonly take: number }
export type Digits = { readonly recordings: readonly Spoken[] } | { readonly missing: string };

/** Nothing but a digit can be heard. */
export const digitGrammar = ({ pronunciations }: SpokenGrammar): SpokenGrammar =>
  ({ name: 'digits', states: 2, start: 0, final: 1, arcs: DIGITS.map((word) => ({ from: 0, to: 1, word, weight: 0 })), pronunciations });

interface Take { readonly path: string; readonly digit: number; readonly speaker: string; readonly take: number }
/** Files DIGIT_SPEAKER_TAKE.wav. */
const takesIn = (folder: string): Take[] => readdirSync(folder).sort().flatMap((file) => {
  const match = /^(\d)_(\w+?)_(\d+)\.wav$/.exec(file);
  return match ? [{ path: join(folder, file), digit: Number(match[1]), speaker: match[2] ?? '', take: Number(match[3]) }] : [];
});

/** Level of the part that is spoken: root mean square of the louder half of its 10 ms frames. */
function level(audio: Float32Array): number {
  const frames = Array.from({ length: Math.floor(audio.length / 160) }, (_, i) => audio.subarray(i * 160, (i + 1) * 160).reduce((sum, sample) => sum + sample * sample, 0) / 160).sort((a, b) => b - a);
  const loud = frames.slice(0, Math.max(1, frames.length >> 1));
  return Math.sqrt(loud.reduce((sum, power) => sum + power, 0) / loud.length);
}
const scaled = (audio: Float32Array, to: number): Float32Array => { const gain = to / (level(audio) || 1); return audio.map((sample) => sample * gain); };
/** synthesise.py leaves 0.3 s of quiet before the words and 0.9 s after. */
const wordsOnly = (audio: Float32Array): Float32Array => audio.subarray(4_800, audio.length - 14_400);
const silence = (seconds: number): Float32Array => new Float32Array(Math.round(seconds * 16_000));
const joined = (parts: readonly Float32Array[]): Float32Array => Float32Array.from(parts.flatMap((part) => [...part]));

/** Every digit alone, with the quiet that ends an utterance. */
export async function digitsAlone(folder: string): Promise<Digits> {
  return write(folder, 'alone', async ({ path, digit }) => ({ said: DIGITS[digit] ?? '', audio: joined([silence(0.3), scaled(await loadRecording(path), 0.1), silence(0.9)]) }), DIGITS.length);
}

/** Grades 0 to 5 between synthetic words in measuring voices, at one loudness and all in the telephone band, 60 ms between the voices. */
export async function digitsInSentences(folder: string): Promise<Digits> {
  const carriers: Found = synthesised('digit-carriers', 'digit-carriers.txt');
  if ('missing' in carriers) return carriers;
  const voices = [...new Set(carriers.recordings.map(({ voice }) => voice))].sort();
  const spoken = async (line: number, voice: string): Promise<{ said: string; audio: Float32Array } | null> => {
    const found = carriers.recordings.find(({ seed, voice: own }) => seed === line + 1 && own === voice);
    return found ? { said: found.said, audio: scaled(narrowBand(wordsOnly(await loadRecording(found.path))), 0.1) } : null;
  };
  return write(folder, 'in-sentences', async ({ path, digit, take }) => {
    const [before, after] = CARRIERS[(digit + take) % CARRIERS.length] ?? [0, null];
    const voice = voices[(digit + 2 * take) % voices.length] ?? '';
    const [head, tail] = [await spoken(before, voice), after === null ? null : await spoken(after, voice)];
    const human = scaled(await loadRecording(path), 0.1);
    return {
      said: [head?.said, DIGITS[digit], tail?.said].filter(Boolean).join(' '),
      audio: joined([silence(0.3), head?.audio ?? silence(0), silence(0.06), human, ...(tail ? [silence(0.06), tail.audio] : []), silence(0.9)]),
    };
  }, GRADES.length);
}

async function write(folder: string, name: string, make: (take: Take) => Promise<{ readonly said: string; readonly audio: Float32Array }>, digits: number): Promise<Digits> {
  const takes = existsSync(folder) ? takesIn(folder).filter(({ digit }) => digit < digits) : [];
  if (takes.length === 0) return { missing: `${folder} holds no files DIGIT_SPEAKER_TAKE.wav` };
  const out = join(CACHE, 'speech/human-digits', name);
  mkdirSync(out, { recursive: true });
  const recordings: Spoken[] = [];
  for (const [i, take] of takes.entries()) {
    const { said, audio } = await make(take);
    const path = join(out, `${take.digit}_${take.speaker}_${take.take}.wav`);
    writeWav(path, audio);
    recordings.push({ path, said, voice: take.speaker, seed: i + 1, take: take.take });
  }
  return { recordings };
}
