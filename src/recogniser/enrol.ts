import type { Arc, SpokenGrammar } from '../grammar/spoken-grammar';
import { withPhoneLoop } from './automaton';
import { framesInWords, type Decoder } from './decoder';
import { estimateTransform, featuresOf, type Aligned, type Codebooks, type VoiceProfile } from './voice-profile';

/** A sentence that was shown, and what was heard of it: 16 kHz mono. */
export interface Reading { readonly text: string; readonly audio: Float32Array }

/** One sentence as an automaton of phones, every pronunciation of every word: its best path says which phone was when. */
export function phonesOf(sentence: readonly string[], pronunciations: SpokenGrammar['pronunciations']): SpokenGrammar {
  const arcs: Arc[] = [];
  const phones = new Set<string>();
  let states = 1;
  let from = 0;
  for (const word of sentence) {
    const variants = pronunciations.get(word);
    if (!variants?.length) throw new Error(`"${word}" has no pronunciation.`);
    const to = states;
    states += 1;
    for (const variant of variants) {
      const names = variant.split(' ');
      names.reduce((at, phone, i) => {
        phones.add(phone);
        const next = i === names.length - 1 ? to : states++;
        arcs.push({ from: at, to: next, word: phone, weight: 0 });
        return next;
      }, from);
    }
    from = to;
  }
  return { name: 'phones', states, start: 0, final: from, arcs, pronunciations: new Map([...phones].map((phone) => [phone, [phone]])) };
}

/** What the enrolment needs of the engine: a decoder on the unchanged model, and the model's Gaussians. */
export interface Enroller {
  readonly decoder: Decoder;
  readonly pronunciations: SpokenGrammar['pronunciations'];
  readonly means: Codebooks;
  readonly variances: Codebooks;
}

/** A reading as the estimate takes it, and how well it fits its sentence: score over that of any sounds at all, in nats per spoken frame. */
export interface Fitted extends Aligned { readonly fit: number }

/** Below this another sentence was read, or none: see the fits in tests/bench/results/voice-profile.txt. */
export const LEAST_FIT = -4;

/** Finds the phone of each frame of a reading; null when it does not fit the sentence. */
export function align({ decoder, pronunciations }: Pick<Enroller, 'decoder' | 'pronunciations'>, { text, audio }: Reading, least = LEAST_FIT): Fitted | null {
  const { grammar, loop: anySounds } = withPhoneLoop(phonesOf(text.split(' '), pronunciations));
  decoder.setGrammar(grammar);
  const [path, loop] = decoder.decode(audio, [grammar.final, anySounds]);
  if (!path) return null;
  const spoken = framesInWords(path);
  const fit = loop ? (path.score - loop.score) / Math.max(1, spoken) : -Infinity;
  if (fit < least) return null;
  const { values, bands } = decoder.logMel(audio);
  const features = featuresOf(values, bands);
  const phones = new Array<string | null>(features.length).fill(null);
  for (const { word, from, to } of path.words) phones.fill(word, from, to);
  return { features, phones, fit };
}

/** Readings needed for a profile: with fewer the map mostly learns the sentences. */
export const LEAST_READINGS = 6;

/** A profile from readings that fit. Throws when there are too few. */
export function profileOf({ means, variances }: Pick<Enroller, 'means' | 'variances'>, readings: readonly Aligned[], model: string, made: Date): VoiceProfile {
  if (readings.length < LEAST_READINGS) throw new Error(`Only ${readings.length} sentences could be used. Read at least ${LEAST_READINGS} of them.`);
  const frames = readings.reduce((sum, { phones }) => sum + phones.filter((phone) => phone !== null).length, 0);
  return { version: 1, model, made: made.toISOString(), frames, transform: estimateTransform(means, variances, readings) };
}

/** The sentences to read: one a line, comments after "#". */
export const readPrompts = (text: string): string[] => text.split('\n').map((line) => line.trim()).filter((line) => line && !line.startsWith('#'));
