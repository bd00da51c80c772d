import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { readDictionary } from '../../src/grammar';
import { phoneTree, soundsMostLike, WORD_COST } from '../../src/recogniser/vosk/lexicon-search';
import { editDistance, fromPhones, substitution, toPhones } from '../../src/recogniser/vosk/phones';
import { FARTHEST, overlaps, soundsLike, type Lexicon, type SoundsLike } from '../../src/recogniser/vosk/sounds-like';
import { projectLanguage, readOverrides } from '../../src/setup/vosk-language';
import { CLINICAL_WORDS, PLAIN_WORDS } from './clinical-words';

/** CMU Pronouncing Dictionary (speech.cs.cmu.edu/cgi-bin/cmudict), the copy inside the package soundswallower. */
const cmudict: Lexicon = readDictionary(readFileSync(new URL('../../node_modules/soundswallower/model/en-us/dict.txt', import.meta.url), 'utf8'), 'dict.txt');
const words: Lexicon = new Map([...CLINICAL_WORDS, ...PLAIN_WORDS]);
/** A stand-in for a model's word list: the dictionary without any of the clinical words. */
const vocabulary = new Set([...cmudict.keys()].filter((word) => !CLINICAL_WORDS.has(word)));

const distance = (a: string, b: string): number => editDistance(toPhones(a), toPhones(b));

describe('phonetic distance', () => {
  it('is a metric on the phones', () => {
    const phones = [...new Set([...cmudict.values()].flat().flatMap((text) => text.split(' ')))].map((phone) => toPhones(phone)[0]!);
    expect(phones).toHaveLength(39);
    const wrong: string[] = [];
    for (const a of phones) for (const b of phones) {
      if (substitution(a, b) !== substitution(b, a) || (substitution(a, b) === 0) !== (a === b)) wrong.push(fromPhones([a, b]));
      for (const c of phones) if (substitution(a, c) > substitution(a, b) + substitution(b, c) + 1e-12) wrong.push(fromPhones([a, b, c]));
    }
    expect(wrong).toEqual([]);
  });

  // Phonetics: pairs that differ in voicing alone lie nearer than pairs that differ in place and manner; vowels lie nearer to vowels than to stops
  // (any introduction to articulatory phonetics; International Phonetic Association, Handbook, 1999).
  it.each([['P', 'B', 'M'], ['T', 'D', 'L'], ['K', 'G', 'NG'], ['S', 'Z', 'T'], ['F', 'V', 'K'], ['IH', 'IY', 'P'], ['CH', 'JH', 'AA']])('%s is nearer to %s than to %s', (a, near, far) => {
    expect(distance(a, near)).toBeLessThan(distance(a, far));
  });

  it('counts a lost and an added phone as one each', () => {
    expect(distance('TH IY N ER', 'TH IY N')).toBe(1);
    expect(distance('N ER', 'TH IY N ER')).toBe(2);
    expect(distance('TH IY1 N ER0', 'TH IY N ER')).toBe(0);
  });

  it('gives up above a limit, and only there', () => {
    const list = [...CLINICAL_WORDS.values()].flat().map(toPhones);
    for (const a of list.slice(0, 20)) for (const b of list) {
      const whole = editDistance(a, b);
      expect(editDistance(a, b, whole)).toBe(whole);
      expect(editDistance(a, b, whole - 1e-9)).toBe(Infinity);
    }
  });

  it('names a phone that is none', () => expect(() => toPhones('TH XX')).toThrow('"XX" in "TH XX" is not an ARPAbet phone.'));
});

describe('search in the lexicon', () => {
  const small: Lexicon = new Map([['thin', ['TH IH N']], ['are', ['AA R', 'ER']], ['her', ['HH ER']], ['knee', ['N IY']], ['nurse', ['N ER S']], ['the', ['DH AH', 'DH IY']], ['thee', ['DH IY']]]);

  it('finds the same best answers as trying every sequence', () => {
    const sounds = [...small].flatMap(([word, list]) => list.filter((text) => text.includes(' ')).map((text) => [word, toPhones(text)] as const));
    const sequences = (length: number): (readonly (typeof sounds)[number][])[] => (length ? sequences(length - 1).flatMap((some) => sounds.map((one) => [...some, one])) : [[]]);
    for (const text of ['TH IY N ER', 'N ER S IH Z', 'DH AH N IY', 'HH ER']) {
      const target = toPhones(text);
      const plain = [1, 2, 3].flatMap(sequences).map((some) => editDistance(target, some.flatMap(([, phones]) => [...phones])) + WORD_COST * (some.length - 1));
      const [best] = soundsMostLike(target, phoneTree(small));
      expect(best!.cost + WORD_COST * (best!.words.length - 1)).toBeCloseTo(Math.min(...plain), 10);
      expect(editDistance(target, best!.phones)).toBeCloseTo(best!.cost, 10);
    }
  });

  it('gives answers in order, none above the limit', () => {
    const found = soundsMostLike(toPhones('TH IY N ER'), phoneTree(small), { limit: 1.5 });
    const costs = found.map(({ cost, words }) => cost + WORD_COST * (words.length - 1));
    expect(costs.length).toBeGreaterThan(3);
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    expect(Math.max(...costs)).toBeLessThanOrEqual(1.5);
  });
});

describe('spellings for clinical words that a model lacks', () => {
  let found: SoundsLike;
  beforeAll(() => { found = soundsLike(words, vocabulary, cmudict); });

  it('has at least 60 words to find, and leaves none unheard', () => {
    expect(CLINICAL_WORDS.size).toBeGreaterThanOrEqual(60);
    expect(found.unheard).toEqual({});
    expect(Object.keys(found.spellings).sort()).toEqual([...CLINICAL_WORDS.keys()].sort());
    expect(found.known).toEqual([...PLAIN_WORDS.keys()].sort());
  });

  it('says them as the published dictionary does, where it has them', () => {
    const shared = [...CLINICAL_WORDS].filter(([word]) => cmudict.has(word));
    expect(shared.length).toBeGreaterThan(5);
    for (const [word, [said]] of shared) expect(Math.min(...cmudict.get(word)!.map((text) => distance(text, said!))), word).toBeLessThanOrEqual(1);
  });

  it('uses one to three words of the model each, none of them a word of the grammar', () => {
    for (const [word, list] of Object.entries(found.spellings)) for (const spelling of list) {
      expect(spelling.words.length, word).toBeGreaterThanOrEqual(1);
      expect(spelling.words.length, word).toBeLessThanOrEqual(3);
      for (const part of spelling.words) {
        expect(vocabulary.has(part), `${part} for ${word}`).toBe(true);
        expect(words.has(part), `${part} for ${word}`).toBe(false);
      }
    }
  });

  it('reports the distance that the dictionary gives for them', () => {
    for (const [word, list] of Object.entries(found.spellings)) for (const { words: parts, sounds, distance: reported } of list) {
      expect(parts.reduce((ways, part) => ways.flatMap((way) => cmudict.get(part)!.map((next) => `${way} ${next}`.trim())), ['']), `${parts.join(' ')} is said so`).toContain(sounds);
      expect(distance(sounds, CLINICAL_WORDS.get(word)![0]!), word).toBeCloseTo(reported, 10);
      expect(reported / toPhones(CLINICAL_WORDS.get(word)![0]!).length, word).toBeLessThanOrEqual(FARTHEST);
    }
  });

  it('shares none between two words, and none begins with another', () => {
    const all = Object.values(found.spellings).flat().map((spelling) => spelling.words);
    all.forEach((a, n) => all.forEach((b, m) => { if (n !== m) expect(overlaps(a, b), `${a.join(' ')} / ${b.join(' ')}`).toBe(false); }));
  });

  it('sounds more like its own word than like any other', () => {
    for (const [word, list] of Object.entries(found.spellings)) for (const spelling of list) {
      const rivals = [...words].filter(([other]) => other !== word).map(([, [other]]) => distance(spelling.sounds, other!));
      expect(Math.min(...rivals), `${spelling.words.join(' ')} for ${word}`).toBeGreaterThan(spelling.distance);
      expect(spelling.rival?.distance).toBeCloseTo(Math.min(...rivals), 10);
    }
  });

  it('keeps the dangerous pairs apart by a whole phone', () => {
    for (const [a, b] of [['abduction', 'adduction'], ['abductor', 'adductor'], ['thenar', 'hypothenar'], ['supination', 'pronation']] as const)
      for (const { sounds } of found.spellings[a]!) for (const other of found.spellings[b]!) expect(distance(sounds, other.sounds), `${a} / ${b}`).toBeGreaterThanOrEqual(0.9);
  });
});

describe('spellings by hand', () => {
  const few = new Map([['thenar', ['TH IY N ER']], ['hypothenar', ['HH AY P OW TH IY N ER']], ['left', ['L EH F T']]]);

  it('go before the search', () => {
    const found = soundsLike(few, vocabulary, cmudict, { thenar: ['thin her'] });
    expect(found.spellings.thenar).toMatchObject([{ words: ['thin', 'her'], by: 'hand', rival: { word: expect.any(String) as string } }]);
    expect(found.spellings.thenar![0]!.distance).toBeCloseTo(distance('TH IH N HH ER', 'TH IY N ER'), 10);
  });

  it.each([
    [{ thenar: ['xyzzyq her'] }, /the model does not have "xyzzyq"/],
    [{ thenar: ['left her'] }, /"left" is a word of the grammar itself/],
    [{ thenar: ['thin her'], hypothenar: ['thin her'] }, /it runs into the spelling "thin her"/],
    [{ thenar: ['thin'], hypothenar: ['thin her'] }, /it runs into the spelling "thin"/],
  ])('that cannot work are named: %j', (overrides, message) => {
    expect(() => soundsLike(few, vocabulary, cmudict, overrides as Record<string, string[]>)).toThrow(message);
  });

  it('are read from a file with a plain message for a wrong shape', () => {
    expect(readOverrides('{"thenar": ["thin are"]}')).toEqual({ thenar: ['thin are'] });
    expect(() => readOverrides('{"thenar": "thin are"}')).toThrow('"thenar" needs a list of spellings');
    expect(() => readOverrides('[]')).toThrow('must be an object');
  });
});

it('says why a word stays unheard', () => {
  expect(soundsLike(new Map([['thenar', ['TH IY N ER']]]), new Set(['hello']), cmudict).unheard).toEqual({ thenar: 'no words of the model sound enough like it' });
});

it('every word of the recorder\'s own grammar that the dictionary lacks has a spelling', () => {
  const { grammarWords, lexicon } = projectLanguage();
  const known = new Set([...lexicon.keys()].filter((word) => cmudict.has(word)));
  const lacking = [...grammarWords.keys()].filter((word) => !known.has(word));
  expect(lacking.length).toBeGreaterThan(10);
  const { spellings, unheard } = soundsLike(grammarWords, known, cmudict);
  expect(unheard).toEqual({});
  expect(Object.keys(spellings).sort()).toEqual(lacking.sort());
});
