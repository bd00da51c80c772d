import type { Arc, SpokenGrammar } from '../grammar';

/** The 39 phones of CMUdict. */
const PHONES = 'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split(' ');

/** An automaton that takes any sounds at all: what the audio is worth without a grammar. */
export const PHONE_LOOP: SpokenGrammar = {
  name: 'phone loop', states: 2, start: 0, final: 1,
  arcs: [...PHONES.map((phone): Arc => ({ from: 0, to: 0, word: `(${phone})`, weight: 0 })), { from: 0, to: 1, word: null, weight: 0 }],
  pronunciations: new Map(PHONES.map((phone) => [`(${phone})`, [phone]])),
};

/** Sentences side by side, each with an end state of its own, so that one pass over the audio scores them all. They share their beginnings. */
export function sentenceTree(sentences: readonly (readonly string[])[], pronunciations: SpokenGrammar['pronunciations']): { readonly grammar: SpokenGrammar; readonly ends: readonly number[] } {
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
  return { grammar: { name: 'sentences', states: children.length, start, final: ends[0] ?? start, arcs, pronunciations }, ends };
}

/**
 * Finds every sentence of a (deterministic) grammar that differs by one word: another, one less or one more.
 * These are what a mishearing of one word would have given.
 */
export function neighbourFinder(grammar: SpokenGrammar): (words: readonly string[]) => string[][] {
  const next = Array.from({ length: grammar.states }, () => new Map<string, number>());
  const accepting = new Array<boolean>(grammar.states).fill(false);
  for (const { from, to, word } of grammar.arcs) if (word === null) accepting[from] = true; else next[from]?.set(word, to);
  const fits = (state: number | undefined, rest: readonly string[]): boolean => {
    let at = state;
    for (const word of rest) {
      if (at === undefined) return false;
      at = next[at]?.get(word);
    }
    return at !== undefined && accepting[at] === true;
  };
  return (words) => {
    const found: string[][] = [];
    let state: number | undefined = grammar.start;
    for (let i = 0; i <= words.length && state !== undefined; i += 1) {
      const [before, word, after] = [words.slice(0, i), words[i], words.slice(i + 1)];
      for (const [other, to] of next[state] ?? []) {
        if (word !== undefined && other !== word && fits(to, after)) found.push([...before, other, ...after]);
        if (fits(to, words.slice(i))) found.push([...before, other, ...words.slice(i)]);
      }
      if (word === undefined) break;
      if (words.length > 1 && fits(state, after)) found.push([...before, ...after]);
      state = next[state]?.get(word);
    }
    return found;
  };
}
