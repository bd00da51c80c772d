import { describe, expect, it } from 'vitest';
import type { SpokenGrammar } from '../../src/grammar';
import { neighbourFinder, sentenceTree, withPhoneLoop } from '../../src/recogniser/automaton';
import { silentClosure } from '../../src/recogniser/decoder';

// (left | right) [no] (swelling | scar)
const arc = (from: number, to: number, word: string | null): SpokenGrammar['arcs'][number] => ({ from, to, word, weight: 0 });
const grammar: SpokenGrammar = {
  name: 'small', states: 5, start: 0, final: 4, pronunciations: new Map(),
  arcs: [arc(0, 1, 'left'), arc(0, 1, 'right'), arc(1, 2, 'no'), arc(1, 3, 'swelling'), arc(1, 3, 'scar'), arc(2, 3, 'swelling'), arc(2, 3, 'scar'), arc(3, 4, null)],
};

describe('rivals one word away', () => {
  const neighbours = (sentence: string): string[] => neighbourFinder(grammar)(sentence.split(' ')).map((words) => words.join(' ')).sort();
  it('swaps, adds and drops a word where the grammar allows it', () => {
    expect(neighbours('left swelling')).toEqual(['left no swelling', 'left scar', 'right swelling']);
    expect(neighbours('left no scar')).toEqual(['left no swelling', 'left scar', 'right no scar']);
  });
  it('never offers what the grammar does not hold', () => {
    for (const rival of neighbours('right no swelling')) expect(rival).toMatch(/^(left|right)( no)? (swelling|scar)$/);
  });
});

describe('a tree of sentences', () => {
  it('shares beginnings and gives every sentence its own end', () => {
    const { grammar: tree, ends } = sentenceTree([['left', 'hand'], ['left', 'hand', 'swelling'], ['left', 'wrist']], new Map());
    expect(tree.arcs.filter(({ word }) => word === 'left')).toHaveLength(1);
    expect(new Set(ends).size).toBe(3);
  });
});

it('the phone loop has the 39 phones of CMUdict (speech.cs.cmu.edu/cgi-bin/cmudict)', () => {
  const { grammar: both, loop } = withPhoneLoop(grammar);
  expect(both.pronunciations.size).toBe(39);
  expect(both.arcs.filter(({ from, to }) => from === loop && to === loop)).toHaveLength(39);
  expect(both.arcs.filter(({ from, to }) => (from === loop) !== (to === loop))).toEqual([{ from: grammar.start, to: loop, word: null, weight: 0 }]);
});

it('chains of silent steps are closed, with the best weight', () => {
  const chain = { states: 4, arcs: [{ from: 0, to: 1, word: null, weight: -1 }, { from: 1, to: 2, word: null, weight: -1 }, { from: 0, to: 2, word: null, weight: -5 }, { from: 2, to: 0, word: null, weight: -1 }] };
  expect(silentClosure(chain).get(0)).toEqual(new Map([[1, -1], [2, -2]]));
});
