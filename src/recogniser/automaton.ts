import type { Arc, SpokenGrammar } from '../grammar';

/** The 39 phones of CMUdict. */
const PHONES = 'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split(' ');

/** Sentences side by side, so that one pass over the audio scores them all: the state that each ends in. They share their beginnings. */
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
    return at;
  });
  return { grammar: { name: 'sentences', states: children.length, start, final: ends[0] ?? start, arcs, pronunciations }, ends };
}

/**
 * Adds a branch that takes any sounds at all: what the audio is worth without a grammar. It is a state of its own (`loop`), so that
 * one pass scores both against the same reference. The loop fits most audio better than any sentence, so such a pass must not prune.
 */
export function withPhoneLoop(grammar: SpokenGrammar): { readonly grammar: SpokenGrammar; readonly loop: number } {
  const loop = grammar.states;
  const sound = (phone: string): string => `(${phone})`;
  return {
    loop,
    grammar: {
      ...grammar, states: loop + 1,
      arcs: [...grammar.arcs, { from: grammar.start, to: loop, word: null, weight: 0 }, ...PHONES.map((phone): Arc => ({ from: loop, to: loop, word: sound(phone), weight: 0 }))],
      pronunciations: new Map([...grammar.pronunciations, ...PHONES.map((phone): [string, string[]] => [sound(phone), [phone]])]),
    },
  };
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
