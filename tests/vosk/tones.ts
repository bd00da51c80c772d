import { readFileSync } from 'node:fs';

/** The tone language of fixtures/tone-model: which tones make a word. */
const { hertz, words } = JSON.parse(readFileSync(new URL('./fixtures/tones.json', import.meta.url), 'utf8')) as { hertz: Record<string, number>; words: Record<string, string> };

const RATE = 16_000;
const LOUD = 0.15;
const HISS = 0.0002;

/** Noise that is the same in every run (mulberry32). */
function noise(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 31 - 1;
  };
}

/** Seconds of one tone's half of a word, of the pause between words, and of silence before and after. */
export const HALF = 0.21;
export const PAUSE = 0.12;
export const EDGE = 0.4;

/** Says a sentence in tones: mono, 16 kHz. The word "~" is loud noise, as of a voice that is no word. */
export function say(sentence: string, seed = 1): Float32Array {
  const hiss = noise(seed);
  const out: number[] = [];
  const sound = (seconds: number, wave: (n: number) => number): void => { for (let n = 0; n < Math.round(seconds * RATE); n += 1) out.push(wave(n) + HISS * hiss()); };
  const silence = (seconds: number): void => sound(seconds, () => 0);
  silence(EDGE);
  sentence.split(' ').filter(Boolean).forEach((word, n) => {
    if (n) silence(PAUSE);
    if (word === '~') { sound(2 * HALF, () => LOUD * hiss()); return; }
    const tones = words[word];
    if (!tones) throw new Error(`The tone language has no word "${word}".`);
    for (const tone of tones) sound(HALF, (at) => LOUD * Math.sin((2 * Math.PI * hertz[tone]! * at) / RATE));
  });
  silence(EDGE);
  return Float32Array.from(out);
}

/** A quiet room. */
export function quiet(seconds: number, seed = 2): Float32Array {
  const hiss = noise(seed);
  return Float32Array.from({ length: Math.round(seconds * RATE) }, () => HISS * hiss());
}

/** Seconds at which the n-th word of a sentence begins and ends in `say`. */
export const placeOf = (n: number): { start: number; end: number } => ({ start: EDGE + n * (2 * HALF + PAUSE), end: EDGE + n * (2 * HALF + PAUSE) + 2 * HALF });
