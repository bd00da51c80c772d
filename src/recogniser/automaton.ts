import type { Arc, SpokenGrammar } from '../grammar/spoken-grammar';

/** A phone as a word of its own, for the free phone loop. */
const loopWord = (phone: string): string => `(${phone})`;

/** The check pass: many sentences and a free phone loop side by side, each with an end state of its own. */
export interface CheckAutomaton { readonly grammar: SpokenGrammar; /** End state of each sentence, in the order given. */ readonly ends: readonly number[]; readonly loopEnd: number }

/**
 * Builds the automaton of the check pass.
 * The sentences share their beginnings; the phone loop takes any sounds at all, and so tells what this audio is worth without a grammar.
 * @param loopWeight natural-log weight of each phone of the loop
 */
export function checkAutomaton(sentences: readonly (readonly string[])[], phones: Iterable<string>, pronunciations: SpokenGrammar['pronunciations'], loopWeight: number): CheckAutomaton {
  const arcs: Arc[] = [];
  const children: Map<string, number>[] = [];
  const state = (): number => children.push(new Map()) - 1;
  const start = state();
  const ends = sentences.map((sentence) => {
    let at = start;
    for (const word of sentence) {
      const known = children[at]?.get(word);
      const next = known ?? state();
      if (known === undefined) {
        children[at]?.set(word, next);
        arcs.push({ from: at, to: next, word, weight: 0 });
      }
      at = next;
    }
    const end = state();
    arcs.push({ from: at, to: end, word: null, weight: 0 });
    return end;
  });
  const loop = state();
  const loopEnd = state();
  const all = new Map(pronunciations);
  arcs.push({ from: start, to: loop, word: null, weight: 0 });
  for (const phone of phones) {
    const word = loopWord(phone);
    all.set(word, [phone]);
    arcs.push({ from: loop, to: loop, word, weight: loopWeight });
  }
  arcs.push({ from: loop, to: loopEnd, word: null, weight: 0 });
  return { grammar: { name: 'check', states: children.length, start, final: loopEnd, arcs, pronunciations: all }, ends, loopEnd };
}
