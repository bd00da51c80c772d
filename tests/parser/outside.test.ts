import { describe, expect, it } from 'vitest';
// @ts-expect-error The library ships no types.
import { toWords } from 'number-to-words';
import { ucum } from '@atomic-ehr/ucum';
import nlp from 'compromise';
import { readDictionary } from '../../src/grammar';
import { SIGNS, SITES, UNITS, type SignCode, type SiteCode } from '../../src/vocabulary';
import { parse, read, sources } from './say';

describe('number words, against the library number-to-words', () => {
  it.each(Array.from({ length: 180 }, (_, index) => index + 1))('%i degrees', (value) => {
    // British "one hundred and five" beside the library's American "one hundred five".
    const american = (toWords as (value: number) => string)(value).replace(/-/g, ' ');
    const british = american.replace(/hundred (?=\w)/, 'hundred and ');
    for (const words of [american, british]) expect(read(`right elbow flexion ${words} degrees`), words).toEqual([`R range@elbow.flexion = ${value} deg`]);
  });
  it('and decimals, against compromise', () => {
    for (const words of ['two point five', 'zero point five', 'twelve point two five', 'three and a half']) {
      const [number] = (nlp(words).numbers().get() as unknown as (number | string)[]);
      expect(read(`laceration ${words} centimetres left palm`), words).toEqual([`L laceration@palm = ${number} cm`]);
    }
  });
});

describe('units, against the UCUM library @atomic-ehr/ucum', () => {
  it.each(UNITS)('%s is a UCUM expression', (unit) => expect(ucum.validate(unit).valid).toBe(true));
  it('and what is no UCUM code is refused there', () => { for (const wrong of ['sec', 'degrees', 'mil']) expect(ucum.validate(wrong).valid, wrong).toBe(false); });
  it('minutes turn into seconds as UCUM has it', () => {
    const [value, unit] = /(\d+) (\w+)$/.exec(read('phalen positive at two minutes left')[0]!)!.slice(1);
    expect([Number(value), unit]).toEqual([ucum.convert(2, 'min', 's'), 's']);
  });
});

it('names of units read as their UCUM codes', () => {
  const names: Record<(typeof UNITS)[number], string> = { mm: 'millimetres', cm: 'centimetres', s: 'seconds', min: 'minutes', h: 'hours', d: 'days', deg: 'degrees', kg: 'kilograms', '{filament}': '' };
  expect(Object.keys(names).sort()).toEqual([...UNITS].sort());
  expect(read(`capillary refill two ${names.s} left`)).toEqual(['L refill@hand = 2 s']);
  expect(read(`left wound two ${names.mm} palm`)).toEqual(['L wound@palm = 2 mm']);
  expect(read(`left wound two ${names.cm} palm`)).toEqual(['L wound@palm = 2 cm']);
  expect(read(`left wrist flexion ten ${names.deg}`)).toEqual(['L range@wrist.flexion = 10 deg']);
  expect(read(`left grip ten ${names.kg}`)).toEqual(['L power@grip = 10 kg']);
  expect(read('monofilament two point eight three left index tip')).toEqual(['L monofilament@D2.pulp = 2.83 {filament}']);
  // UCUM: 1 min = 60 s.
  expect(read(`phalen positive at one minute left`)).toEqual(['L phalen@wrist = present at 60 s']);
});

describe('pronunciations, against CMUdict (speech.cs.cmu.edu/cgi-bin/cmudict, as shipped with the engine)', () => {
  const own = readDictionary(sources.lexicon.text, 'lexicon.dict');
  const cmu = readDictionary(sources.base.text, 'dict.txt', new Set([...own.keys(), 'duct', 'conductor', 'reflex', 'extension', 'reflection', 'spinal', 'longest', 'pollen']));
  const VOWELS = new Set('AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW'.split(' '));
  const skeleton = (phones: string): string => phones.split(' ').filter((phone) => !VOWELS.has(phone)).join(' ');
  it('words that it has are said with the same consonants', () => {
    const shared = [...own.keys()].filter((word) => cmu.has(word));
    expect(shared.length).toBeGreaterThan(10);
    // Abduction is also spelled out ("A B duction"), to be told from adduction.
    for (const word of shared) expect(own.get(word)!.some((variant) => cmu.get(word)!.some((theirs) => skeleton(theirs) === skeleton(variant))) || word === 'abduction', word).toBe(true);
  });
  it('every word is spelled with as many syllables as vowels said, give or take two', () => {
    for (const [word, variants] of own) for (const variant of variants) {
      const said = variant.split(' ').filter((phone) => VOWELS.has(phone)).length;
      const written = word.match(/[aeiouy]+/g)?.length ?? 0;
      expect(Math.abs(said - written), `${word} ${variant}`).toBeLessThanOrEqual(2);
    }
  });
});

describe('MRC grades (Medical Research Council, Memorandum 45, 1976) said in words', () => {
  it.each([['no contraction in the left a p b', 'absent'], ['flicker only left a p b', '1'], ['left a p b gravity eliminated', '2'], ['left a p b antigravity only', '3'], ['left a p b four out of five', '4'], ['full strength left a p b', 'normal']])('%s', (said, result) =>
    expect(read(said)).toEqual([`L power@APB = ${result}`]));
});

describe('names of the vocabulary are read', () => {
  const about = (text: string) => parse(text, { findings: [], currentSide: 'left' }).flatMap((statement) => (statement.type === 'findings' ? statement.findings : []));
  it.each(Object.entries(SITES).map(([code, { kind, name }]) => ({ code: code as SiteCode, kind, name })))('$code: $name', ({ code, kind, name }) => {
    const sentence = kind === 'muscle' || kind === 'muscle group' || kind === 'movement' ? `power of ${name} four` : kind === 'nerve' ? `${name} intact` : kind === 'vessel' ? `${name} pulse present` : `${kind === 'skin' ? 'reduced light touch' : 'tenderness over the'} ${name.replace(/ \(.*/, '')}`;
    const sites = about(sentence).map(({ site }) => site);
    // One name for a muscle and for its surface; a skin area named as its region.
    const alike: Partial<Record<SiteCode, SiteCode>> = { DI1: 'DI1', 'DI1.belly': 'DI1.belly', pronator: 'pronator' };
    expect(sites, sentence).toEqual([alike[code] ?? code]);
  });
  const PLAIN = /^[A-Za-z' -]+$/;
  // Their names say the result already.
  const SAYS_RESULT: readonly string[] = ['cascade', 'mcp.squeeze'];
  // Named by what is said in sum; the wording of the finding says so, no examiner does.
  const IN_SUM = /^summary\./;
  it.each(Object.entries(SIGNS).filter(([code, { name, category, levels }]) => PLAIN.test(name) && !SAYS_RESULT.includes(code) && !IN_SUM.test(code) && category !== 'power' && category !== 'reflex' && levels.includes('absent')).map(([code, { name, site, kinds }]) => ({ code: code as SignCode, name, where: ['pain', 'numbness', 'tingling'].includes(code) ? 'index finger' : code === 'laxity' ? 'thumb ulnar collateral ligament' : site ? '' : kinds.length === 1 && kinds[0] === 'vessel' ? 'radial artery' : kinds.includes('movement') ? 'wrist flexion' : 'index finger' })))('$code: $name', ({ code, name, where }) => {
    expect(about(`${name} ${where} absent`).map(({ sign }) => sign)).toEqual([code]);
  });
});
