import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkFinding } from '../../src/vocabulary';
import { parse, rules } from './say';
import { phraseTree, type PhraseNode } from '../../src/grammar';

const CONTEXT = { findings: [], currentSide: 'left' } as const;
const found = (text: string) => parse(text, CONTEXT).flatMap((statement) => (statement.type === 'findings' ? statement.findings : []));

describe('any text at all', () => {
  it('is read without a crash, keeps its words and gives only sound findings', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (text) => {
      for (const finding of found(text)) expect(checkFinding(finding)).toEqual([]);
    }), { numRuns: 1500, seed: 11 });
  });

  it('of binary, controls, emoji and right-to-left script gives no finding', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => { expect(found(text)).toEqual([]); }), { numRuns: 1000, seed: 12 });
    for (const text of ['\u0000\u0007\u001b[2J', '🖐️🤚 👍🏽', 'כף היד הימנית כואבת', 'اليد اليسرى ضعيفة', '\u202Eleft thumb numb\u202C', '‮', '\ud800']) expect(found(text), text).toEqual([]);
  });

  it('of ten thousand characters is read to its end', () => {
    expect(parse('left '.repeat(2_000), CONTEXT).map(({ type }) => type)).not.toContain('findings');
    expect(parse('x'.repeat(10_000), CONTEXT)).toEqual([{ type: 'unparsed', text: 'x'.repeat(10_000) }]);
    expect(found('a p b four. '.repeat(800)).length).toBe(800);
    const long = 'no wasting or '.repeat(700);
    expect(() => parse(long, CONTEXT)).not.toThrow();
  });
});

it('rows of random grammar words never throw, and every finding is sound', () => {
  const words = new Set<string>();
  const gather = (node: PhraseNode): void => { for (const [word, next] of node.next) { words.add(word); gather(next); } };
  gather(phraseTree(rules, 'phrase'));
  fc.assert(fc.property(fc.array(fc.constantFrom(...words), { maxLength: 14 }), (row) => {
    for (const finding of found(row.join(' '))) expect(checkFinding(finding)).toEqual([]);
  }), { numRuns: 4000, seed: 13 });
});

describe('rows of random grammar phrases', () => {
  const rows: string[] = [];
  const gather = (node: PhraseNode, words: readonly string[]): void => { if (node.tags) rows.push(words.join(' ')); for (const [word, next] of node.next) gather(next, [...words, word]); };
  gather(phraseTree(rules, 'phrase'), []);
  const SIDED = /\b(left|right|lt|rt|l|r|lefthand|righthand|both|bilateral\w*|bilat|each|either|plural|radials|other|opposite|contralateral|same|normal hand|(swap|change|switch) (hands|sides|over))\b/;
  const sideless = rows.filter((row) => !SIDED.test(row));
  const row = (among: readonly string[]) => fc.array(fc.constantFrom(...among), { minLength: 1, maxLength: 5 }).map((phrases) => phrases.join(' '));

  it('file nothing without a side said or current', () => {
    fc.assert(fc.property(row(sideless), (text) => {
      expect(parse(text, { findings: [] }).filter(({ type }) => type === 'findings'), text).toEqual([]);
    }), { numRuns: 4000, seed: 14 });
  });

  it('file nothing of the other hand than the current one when no side is said', () => {
    let filed = 0;
    fc.assert(fc.property(row(sideless), (text) => { for (const { side } of found(text)) { expect(side, text).toBe('left'); filed += 1; } }), { numRuns: 4000, seed: 15 });
    expect(filed).toBeGreaterThan(25);
  });

  it('give only sound findings, and are never filed when a strange word stands among them', () => {
    fc.assert(fc.property(row(rows), fc.nat(), (text, at) => {
      for (const finding of found(text)) expect(checkFinding(finding), text).toEqual([]);
      const words = text.split(' ');
      words.splice(at % (words.length + 1), 0, 'zzz');
      // What follows "because" is a reason in any words, and a semicolon or a question ends what it is strange to.
      if (!/\b(because|due|owing|account|secondary|result|since|given|as)\b/.test(text)) expect(found(words.join(' ')), words.join(' ')).toEqual([]);
    }), { numRuns: 4000, seed: 16 });
  });
});

it('one strange word makes a sentence no finding', () => {
  for (const word of ['yesterday', 'supposedly', 'nurse', 'if', 'was it', 'zzz']) for (const text of [`left thumb ${word} numb`, `${word} left thumb numb`, `left thumb numb ${word}`]) expect(found(text), text).toEqual([]);
});
