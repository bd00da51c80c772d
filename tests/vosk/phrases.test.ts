import { describe, expect, it } from 'vitest';
import { acceptor, type SpokenGrammar } from '../../src/grammar';
import { coveringSentences, phraseList, UNKNOWN, unwritable, writingOf } from '../../src/recogniser/vosk/phrases';
import { mapBack, mapBackText } from '../../src/recogniser/vosk/spelling-map';
import { projectLanguage, projectSpokenGrammar } from '../../src/setup/vosk-language';

/** A grammar by its arcs; '' is silent. */
const grammar = (final: number, arcs: readonly (readonly [number, string, number])[]): SpokenGrammar => ({
  name: 'test', states: final + 1, start: 0, final, pronunciations: new Map(),
  arcs: arcs.map(([from, word, to]) => ({ from, to, word: word || null, weight: 0 })),
});

/** Every pair of neighbouring words, first and last words marked, by walking the automaton: the slow and plain way. */
function pairsOf({ arcs, start, final }: SpokenGrammar): Set<string> {
  const reach = (states: readonly number[]): Set<number> => {
    const seen = new Set(states);
    for (const state of seen) for (const arc of arcs) if (arc.from === state && arc.word === null) seen.add(arc.to);
    return seen;
  };
  const pairs = new Set<string>();
  for (const state of reach([start])) for (const arc of arcs) if (arc.from === state && arc.word !== null) pairs.add(`^ ${arc.word}`);
  for (const arc of arcs) {
    if (arc.word === null) continue;
    const after = reach([arc.to]);
    if (after.has(final)) pairs.add(`${arc.word} $`);
    for (const on of arcs) if (on.word !== null && after.has(on.from)) pairs.add(`${arc.word} ${on.word}`);
  }
  return pairs;
}
const pairsIn = (sentences: readonly (readonly string[])[]): Set<string> =>
  new Set(sentences.flatMap((words) => ['^', ...words, '$'].slice(1).map((word, n, all) => `${n ? all[n - 1] : '^'} ${word}`)));

describe('covering sentences', () => {
  it('hold every pair of neighbours, every beginning and every end, and nothing else', () => {
    const small = grammar(4, [[0, 'left', 1], [0, 'right', 1], [0, '', 1], [1, 'thumb', 2], [1, 'index', 2], [2, 'numb', 3], [2, 'weak', 3], [3, 'and', 0], [3, '', 4], [2, '', 4]]);
    expect(pairsIn(coveringSentences(small))).toEqual(pairsOf(small));
  });

  it('pass by dead ends', () => {
    expect(coveringSentences(grammar(2, [[0, 'yes', 2], [0, 'no', 1]]))).toEqual([['yes']]);
  });

  it('hold for the whole language, each of them a sentence of it', () => {
    const whole = projectSpokenGrammar();
    const sentences = coveringSentences(whole);
    const isSentence = acceptor(whole);
    expect(sentences.filter((words) => !isSentence(words))).toEqual([]);
    expect(pairsIn(sentences)).toEqual(pairsOf(whole));
  });
});

describe('phrase list', () => {
  const table = new Map([['thenar', [['thin', 'are'], ['thee', 'nar']]]]);
  const writing = writingOf(new Set(['left', 'numb']), table);
  const small = grammar(3, [[0, 'left', 1], [1, 'thenar', 2], [1, 'tinel', 2], [2, 'numb', 3]]);

  it('writes words as the engine knows them, each spelling once, and the unknown word last', () => {
    expect(phraseList(small, writing)).toEqual(['left thin are numb', 'left thee nar numb', UNKNOWN]);
  });
  it('names what cannot be written', () => {
    expect(unwritable(small, writing)).toEqual(['tinel']);
  });
});

describe('mapping back', () => {
  const table = new Map([['thenar', [['thin', 'are']]], ['tinel', [['tin', 'ell']]]]);
  const heard = 'left thin are weak'.split(' ').map((word, n) => ({ word, start: n, end: n + 0.9, confidence: 1 - n / 10 }));

  it('joins times and takes the least confidence', () => {
    expect(mapBack(heard, table)).toEqual([heard[0], { word: 'thenar', start: 1, end: 2.9, confidence: 0.8 }, heard[3]]);
  });
  it('leaves parts that stand alone', () => {
    expect(mapBackText('tin are thin tin ell thin', table)).toBe('tin are thin tinel thin');
  });
});

describe('every word of the language', () => {
  it('survives spelling and mapping back in every covering sentence', async () => {
    const { soundsLike } = await import('../../src/recogniser/vosk/sounds-like');
    const { spellingTable } = await import('../../src/recogniser/vosk/spelling-map');
    const { grammarWords, lexicon, overrides } = projectLanguage();
    // Far worse than any model: it lacks one word in five, plain ones too.
    const lacking = new Set([...grammarWords.keys()].filter((_, n) => n % 5 === 0));
    const vocabulary = new Set([...lexicon.keys()].filter((word) => !lacking.has(word)));
    const found = soundsLike(grammarWords, vocabulary, lexicon, overrides);
    const table = spellingTable(found);
    const writing = writingOf(new Set(found.known), table);
    const sentences = coveringSentences(projectSpokenGrammar()).filter((words) => words.every((word) => writing(word).length));
    expect(sentences.length).toBeGreaterThan(50);
    const wrong = sentences.flatMap((words) => [0, 1, 2].flatMap((n) => {
      const written = words.map((word) => { const ways = writing(word); return ways[n % ways.length]!.join(' '); }).join(' ');
      const back = mapBackText(written, table);
      return back === words.join(' ') ? [] : [`${written} → ${back}`];
    }));
    expect(wrong).toEqual([]);
  });
});
