import { expect, it } from 'vitest';
import { acceptor, createGenerator, spokenGrammar, type GeneratedSentence } from '../../src/grammar';
import { readFindings } from '../../src/parser/sentence';
import { readOrder } from '../../src/parser/order';
import type { Atom } from '../../src/parser/atoms';
import { checkFinding } from '../../src/vocabulary';
import { parse, rules, shortStatements, sources } from './say';

const accepts = acceptor(spokenGrammar(rules, sources.lexicon, sources.base));
const NOWHERE = { findings: [] };

/** Random sentences that the recogniser can hear, with the tags met on their way through the grammar. */
function* sentences(count: number, seed: number, rule = 'spoken'): Generator<GeneratedSentence & { text: string }> {
  const generate = createGenerator(rules, seed);
  for (let made = 0; made < count;) {
    const sentence = generate(rule);
    if (!accepts(sentence.words)) continue;
    made += 1;
    yield { ...sentence, text: sentence.words.join(' ') };
  }
}

/** The meaning by the way the sentence was made: its tags, without looking its words up. */
function meaningOfTags({ words, tags, tagAt, text }: GeneratedSentence & { text: string }) {
  // Tags that follow no new word belong to the phrase of the tag before.
  const atoms = tags.map((tag, index): Atom => {
    const [key = '', value = ''] = tag.split('=', 2);
    const first = tagAt.findIndex((at) => at === tagAt[index]);
    return { key, value, words: words.slice(tagAt[first - 1] ?? 0, tagAt[index]).join(' '), from: first, to: first + 1 };
  });
  return readOrder(atoms, () => '', text, NOWHERE)?.type ?? readFindings(atoms.filter((atom) => atom.key !== 'filler'), text, NOWHERE);
}

it('every heard sentence is understood: nothing unparsed, every finding sound', () => {
  for (const { text, words } of sentences(4000, 1)) {
    const statements = parse(text, NOWHERE);
    // A lone "cold" is kept as unparsed on purpose: it may be said to anybody.
    if (words.length === 1) continue;
    expect(statements.filter(({ type }) => type === 'unparsed'), text).toEqual([]);
    const findings = statements.flatMap((statement) => (statement.type === 'findings' ? statement.findings : statement.type === 'gap' ? statement.options.flat() : []));
    for (const finding of findings) expect(checkFinding(finding), text).toEqual([]);
  }
});

it('side words decide the sides of the findings, and without them none is filed', () => {
  for (const { text, words } of sentences(4000, 2, 'finding')) {
    const statements = parse(text, NOWHERE);
    const sides = new Set(statements.flatMap((statement) => (statement.type === 'findings' ? statement.findings.map(({ side }) => side) : [])));
    const said = words.find((word) => ['left', 'right', 'both'].includes(word));
    const wanted = said === 'both' ? ['left', 'right'] : said ? [said] : [];
    if (statements.some(({ type }) => type === 'gap') && said) continue;
    expect([...sides].sort(), text).toEqual(wanted);
  }
});

it('"no" and "not" make absent, and nothing else does what was not said', () => {
  for (const { text, words } of sentences(4000, 3, 'finding')) {
    const findings = parse(text, { findings: [], currentSide: 'left' }).flatMap((statement) => (statement.type === 'findings' ? statement.findings : []));
    const levels = findings.map(({ result }) => (result.kind === 'level' ? result.level : result.kind));
    // Between two grades "no" corrects the first.
    if (/\bno (grade |zero|one|two|three|four|five)/.test(text)) expect(levels, text).toEqual(levels.map(() => 'grade'));
    else if (words.includes('no') || words.includes('not')) for (const level of levels) expect(level, text).toBe('absent');
    else if (!words.some((word) => ['absent', 'negative', 'normal'].includes(word))) expect(levels, text).not.toContain('absent');
  }
});

it('a grade heard is the grade filed', () => {
  const names = ['zero', 'one', 'two', 'three', 'four', 'five'];
  for (const { text, words } of sentences(2000, 4, 'power_said')) {
    const at = words.findLastIndex((word) => names.includes(word));
    if (at < 0) continue;
    const wanted = `${names.indexOf(words[at]!)}${words[at + 1] === 'plus' ? '+' : words[at + 1] === 'minus' ? '-' : ''}`;
    for (const statement of parse(text, { findings: [], currentSide: 'right' })) {
      expect(statement.type, text).toBe('findings');
      if (statement.type === 'findings') for (const { result } of statement.findings) expect(result, text).toEqual({ kind: 'grade', grade: wanted });
    }
  }
});

it('reading the words gives the meaning that the sentence was made with', () => {
  let compared = 0;
  for (const sentence of sentences(6000, 5, 'finding')) {
    const { text } = sentence;
    const made = meaningOfTags(sentence);
    if (typeof made === 'string') continue;
    expect(shortStatements(parse(text, NOWHERE)), text).toEqual(shortStatements(made));
    compared += 1;
  }
  expect(compared).toBeGreaterThan(5000);
});
