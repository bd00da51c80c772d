import type { Arc, SpokenGrammar } from '../grammar/spoken-grammar';
import type { Decoder } from './decoder';
import { estimateTransform, featuresOf, readCodebooks, type Aligned, type Transform } from './voice-profile';

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

/** Features of a reading and the phone of each frame; null when it does not fit the sentence at all. */
export function align(decoder: Decoder, { text, audio }: Reading, pronunciations: SpokenGrammar['pronunciations']): Aligned | null {
  decoder.setGrammar(phonesOf(text.split(' '), pronunciations));
  const [path] = decoder.decode(audio);
  if (!path) return null;
  const { values, bands } = decoder.logMel(audio);
  const features = featuresOf(values, bands);
  const phones = new Array<string | null>(features.length).fill(null);
  for (const { word, from, to } of path.words) phones.fill(word, from, to);
  return { features, phones };
}
