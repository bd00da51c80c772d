import { execFileSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { linkGrammars, spokenGrammar } from '../../src/grammar';
import { southernBritish } from '../../src/grammar/accents';
import { grammarSources } from '../../src/grammar/sources.node.ts';

describe('British pronunciations', () => {
  // Wells, Accents of English (1982), the standard lexical sets: NURSE, lettER, NEAR, FORCE, START, LOT, BATH; from memory.
  it.each([
    ['first', 'F ER S T', 'F AH S T'], ['finger', 'F IH NG G ER', 'F IH NG G AH'], ['severe', 'S AH V IH R', 'S AH V IH AH'],
    ['four', 'F AO R', 'F AO'], ['scars', 'S K AA R Z', 'S K AA Z'], ['not', 'N AA T', 'N AO T'], ['last', 'L AE S T', 'L AA S T'],
    ['reduced', 'R IH D UW S T', 'R IH D Y UW S T'], ['territory', 'T EH R IH T AO R IY', 'T EH R IH T AH R IY'],
  ])('%s: %s becomes %s', (word, american, british) => expect(southernBritish(word, american)).toBe(british));

  it.each([
    ['radial', 'R EY D IY AH L', null], ['forearm', 'F AO R AA R M', 'F AO R AA M'], ['two', 'T UW', null], ['palm', 'P AA M', null], ['hand', 'HH AE N D', null], ['or', 'AO R', null],
  ])('%s keeps its sounds before a vowel, and words without a British sound of their own stay as they are', (word, american, british) => {
    expect(southernBritish(word, american)).toBe(british);
  });

  it('are heard beside the American ones for every word that has them', () => {
    const { lexicon, base, grammars } = grammarSources();
    const { pronunciations } = spokenGrammar(linkGrammars(grammars), lexicon, base);
    expect(pronunciations.get('ulnar')).toEqual(expect.arrayContaining(['AH L N ER', 'AH L N AH']));
    expect(pronunciations.get('thirty')).toEqual(expect.arrayContaining(['TH ER T IY', 'TH AH T IY']));
  });
});

/** Phones of espeak-ng's British English (its documented mnemonics) in ARPAbet, for the sounds that tell the accents apart. */
const ESPEAK: readonly (readonly [RegExp, string])[] = [
  [/[',_:|;~-]/g, ''], [/tS/g, ' CH '], [/dZ/g, ' JH '], [/aI@3?/g, ' AY AH '], [/i@3|i@|e@/g, (' IH AH ')], [/U@/g, ' UH AH '], [/o@|O@/g, ' AO '], [/aU/g, ' AW '], [/aI/g, ' AY '], [/eI/g, ' EY '], [/OI/g, ' OY '], [/oU/g, ' OW '],
  [/aa/g, ' AE '], [/A@|A/g, ' AA '], [/3/g, ' AH '], [/@L/g, ' AH L '], [/@2|@5|@/g, ' AH '], [/I2|I/g, ' IH '], [/O2?/g, ' AO '], [/0/g, ' AO '], [/V/g, ' AH '], [/E2?/g, ' EH '], [/U/g, ' UH '], [/N/g, ' NG '], [/S/g, ' SH '], [/Z/g, ' ZH '], [/T/g, ' TH '], [/D/g, ' DH '],
  [/\ba\b|(?<=[a-z ])a(?=[a-z ])|a/g, ' AE '], [/i/g, ' IY '], [/u/g, ' UW '], [/j/g, ' Y '], [/([bdfghklmnprstvwz])/g, ' $1 '],
];
const arpabet = (phonemes: string): string[] => ESPEAK.reduce((text, [pattern, instead]) => text.replace(pattern, instead), phonemes).toUpperCase().replaceAll(' H ', ' HH ').split(/\s+/).filter(Boolean);

function distance(one: readonly string[], other: readonly string[]): number {
  let row = other.map((_, j) => j + 1);
  one.forEach((phone, i) => {
    let corner = i;
    let left = i + 1;
    row = row.map((above, j) => { const cost = Math.min(above + 1, left + 1, corner + (other[j] === phone ? 0 : 1)); corner = above; left = cost; return cost; });
  });
  return row.at(-1) ?? one.length;
}

function speaks(): boolean { try { execFileSync('espeak-ng', ['--version'], { stdio: 'ignore' }); return true; } catch { return false; } }

// Outside check: espeak-ng (Debian package), British English voice, every word of the spoken grammar.
describe.skipIf(!speaks())('British pronunciations beside espeak-ng', () => {
  it('are nearer to its British voice than the American ones are', () => {
    const { lexicon, base, grammars } = grammarSources();
    const { pronunciations } = spokenGrammar(linkGrammars(grammars), lexicon, base);
    const words = [...pronunciations].filter(([word, variants]) => word.length > 2 && variants.some((phones) => southernBritish(word, phones) !== null));
    const spoken = execFileSync('espeak-ng', ['-v', 'en-gb', '-q', '-x', words.map(([word]) => `${word}.`).join('\n')]).toString().trim().split('\n').map(arpabet);
    expect(spoken).toHaveLength(words.length);
    const outcome = words.map(([word, variants], i) => {
      const american = variants.filter((phones) => southernBritish(word, phones) !== null);
      const british = american.map((phones) => southernBritish(word, phones) ?? '');
      const nearest = (list: readonly string[]): number => Math.min(...list.map((phones) => distance(phones.split(' '), spoken[i] ?? [])));
      return { word, gain: nearest(american) - nearest(british) };
    });
    const farther = outcome.filter(({ gain }) => gain < 0);
    expect(outcome.filter(({ gain }) => gain > 0).length / outcome.length, `not nearer: ${outcome.filter(({ gain }) => gain <= 0).map(({ word, gain }) => `${word} ${gain}`).join(', ')}`).toBeGreaterThan(0.8);
    expect(farther.length / outcome.length, farther.map(({ word }) => word).join(' ')).toBeLessThan(0.05);
  });
});
