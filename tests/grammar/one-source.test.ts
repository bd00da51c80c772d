import { describe, expect, it } from 'vitest';
import { acceptor, compileRule, createGenerator, linkGrammars, phraseTree, readContrasts, rivalsOf, spokenGrammar } from '../../src/grammar';
import { createParser } from '../../src/parser';
import { QUALIFIERS, isSignCode, isSiteCode } from '../../src/vocabulary';
import { everyPart } from '../../src/grammar/rules';
import { grammarSources } from '../../src/grammar/sources.node.ts';

const sources = grammarSources();
const rules = linkGrammars(sources.grammars);
const lexicon = (text: string) => ({ file: 'lexicon.dict', text });

describe('the grammars as one source', () => {
  it('link, give every spoken word a pronunciation, and let no phrase mean two things', () => {
    const grammar = spokenGrammar(rules, sources.lexicon, sources.base);
    for (const { word } of grammar.arcs) if (word !== null) expect(grammar.pronunciations.get(word), word).not.toHaveLength(0);
    expect(() => phraseTree(rules, 'phrase')).not.toThrow();
  });

  it('compile to an automaton with one final state that nothing leaves and that every state can reach', () => {
    const grammar = spokenGrammar(rules, sources.lexicon, sources.base);
    const reaches = new Set([grammar.final]);
    for (let before = 0; before !== reaches.size;) {
      before = reaches.size;
      for (const arc of grammar.arcs) if (reaches.has(arc.to)) reaches.add(arc.from);
    }
    expect(reaches.size).toBe(grammar.states);
    expect(grammar.arcs.filter((arc) => arc.from === grammar.final)).toEqual([]);
    expect(new Set(grammar.arcs.map((arc) => `${arc.from} ${arc.word}`)).size).toBe(grammar.arcs.length);
  });

  it('accept every generated sentence with at most one side, and none that names two', () => {
    const accept = acceptor(spokenGrammar(rules, sources.lexicon, sources.base));
    const generate = createGenerator(rules, 7);
    const sides = new Set(['left', 'right', 'both']);
    for (let count = 0; count < 3000; count += 1) {
      const { words } = generate('spoken');
      expect(accept(words), words.join(' ')).toBe(words.filter((word) => sides.has(word)).length <= 1);
    }
  });

  it('give the rivals that a contrast check must beat', () => {
    const accept = acceptor(spokenGrammar(rules, sources.lexicon, sources.base));
    const rivals = rivalsOf('right thumb abduction grade three'.split(' '), readContrasts(sources.contrasts), accept).map((words) => words.join(' '));
    expect(rivals).toEqual(expect.arrayContaining(['left thumb abduction grade three', 'right thumb adduction grade three', 'right thumb abduction grade two', 'right thumb abduction grade three plus']));
    expect(rivals).not.toContain('right thumb abduction grade six');
  });
});

describe('a faulty grammar is refused with the place to mend', () => {
  const base = { file: 'dict.txt', text: 'left L EH F T\nhand HH AE N D\n' };
  const link = (body: string) => linkGrammars({ 'toy.jsgf': `#JSGF V1.0;\ngrammar toy;\n${body}` });
  it.each([
    ['an undefined rule', 'public <a> = left <b>;', 'toy.jsgf:3: rule <a> uses <b>, which is not defined.'],
    ['recursion', 'public <a> = left <a>;', 'toy.jsgf:3: rule <a> contains itself (a > a)'],
    ['an unreachable rule', 'public <a> = left;\n<b> = hand;', 'toy.jsgf:4: rule <b> is never used'],
    ['a rule defined twice', 'public <a> = left;\npublic <a> = hand;', 'toy.jsgf:4: rule <a> is defined already in toy.jsgf:3.'],
    ['an empty alternative', 'public <a> = left | ;', 'toy.jsgf:3: an alternative is empty'],
    ['capitals', 'public <a> = Left;', 'toy.jsgf:3: "Left" must be in lower case'],
    ['a missing semicolon', 'public <a> = left', 'toy.jsgf:3: ";" expected'],
  ])('%s', (_, body, message) => expect(() => link(body)).toThrow(message));

  it('a word without pronunciation', () => {
    expect(() => spokenGrammar(link('public <a> = left thenar;'), lexicon(''), base, 'a')).toThrow('toy.jsgf:3: rule <a>: "thenar" has no pronunciation; add it to lexicon.dict.');
    expect(spokenGrammar(link('public <a> = left thenar;'), lexicon('thenar TH IY N ER\nthenar(2) TH IY N AA R'), base, 'a').pronunciations.get('thenar')?.slice(0, 2)).toEqual(['TH IY N ER', 'TH IY N AA R']);
  });
  it('a phone that the acoustic model lacks', () => {
    expect(() => spokenGrammar(link('public <a> = thenar;'), lexicon('thenar TH IY N OE'), base, 'a')).toThrow('lexicon.dict:1: "thenar": "OE" is not an ARPAbet phone.');
  });
  it('one phrase with two meanings', () => {
    expect(() => phraseTree(link('public <p> = <a> | <b>;\n<a> = left hand {x=1};\n<b> = left [hand] {x=2};'), 'p')).toThrow('"left hand" has two meanings: {x=1} in <a> of toy.jsgf and {x=2} in <b> of toy.jsgf.');
  });
});

describe('a fault planted in the real grammars is found, with file and line', () => {
  const planted = (file: string, from: string, to: string) => {
    const text = sources.grammars[file]!;
    expect(text, `${file} has no "${from}" to plant a fault at`).toContain(from);
    return { ...sources.grammars, [file]: text.replace(from, to) };
  };
  it('a word that no dictionary says', () =>
    expect(() => spokenGrammar(linkGrammars(planted('signs.jsgf', '= swelling {sign=swelling}', '= swellingish {sign=swelling}')), sources.lexicon, sources.base)).toThrow(/^signs\.jsgf:\d+: rule <look_noun>: "swellingish" has no pronunciation/));
  it('a written phrase with two meanings', () =>
    expect(() => phraseTree(linkGrammars(planted('text-places.jsgf', 'elbow joint {site=elbow.joint}', '(elbow joint | wrists) {site=elbow.joint}')), 'phrase')).toThrow(/"wrists" has two meanings/));
  it('a rule that nothing uses', () =>
    expect(() => linkGrammars(planted('words.jsgf', '<no>  =', '<orphan> = stray {q=mild};\n<no>  ='))).toThrow(/^words\.jsgf:\d+: rule <orphan> is never used/));
  it('a sign that the vocabulary lacks', () => {
    const parse = createParser(linkGrammars(planted('signs.jsgf', 'swelling {sign=swelling}', 'swelling {sign=swollenness}')));
    expect(() => parse('left thumb swelling', { findings: [] })).toThrow('The grammar names a sign "swollenness" that the vocabulary lacks.');
  });
});

it('names only signs and sites that the vocabulary has', () => {
  const tags = [...new Set([...rules.values()].flatMap((rule) => [...everyPart(rule.expansion)].flatMap((part) => (part.kind === 'tag' ? [part.tag] : []))))];
  const of = (key: string) => tags.filter((tag) => tag.startsWith(`${key}=`)).map((tag) => tag.slice(key.length + 1));
  expect(of('sign').filter((code) => !isSignCode(code))).toEqual([]);
  expect(of('site').filter((code) => !isSiteCode(code))).toEqual([]);
  expect(of('q').filter((code) => !(QUALIFIERS as readonly string[]).includes(code))).toEqual([]);
});

it('minimises: equal tails are one', () => {
  const rules = linkGrammars({ 'toy.jsgf': '#JSGF V1.0;\ngrammar toy;\npublic <a> = (one | two) (three | four) | five three | five four;' });
  expect(compileRule(rules, 'a').next).toHaveLength(3);
});
