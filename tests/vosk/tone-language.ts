import type { SpokenGrammar } from '../../src/grammar';
import type { InstallOptions } from '../../src/setup/vosk-model';

/** A grammar from word arcs; its last state leads silently to the final one. */
export const grammar = (name: string, arcs: readonly (readonly [number, string, number])[], last: number): SpokenGrammar => ({
  name, states: last + 2, start: 0, final: last + 1, pronunciations: new Map(),
  arcs: [...arcs.map(([from, word, to]) => ({ from, to, word, weight: 0 })), { from: last, to: last + 1, word: null, weight: 0 }],
});

const SIDES = [[0, 'left', 1], [0, 'right', 1]] as const;
/** "left thumb numb", "right thenar weak" … */
export const FINDINGS = grammar('findings', [...SIDES, [1, 'thumb', 2], [1, 'index', 2], [1, 'thenar', 2], [2, 'numb', 3], [2, 'weak', 3]], 3);
/** "no left thumb" … */
export const DENIALS = grammar('denials', [[0, 'no', 1], [1, 'left', 2], [1, 'right', 2], [2, 'thumb', 3], [2, 'index', 3]], 3);

export const TONE_MODEL = new URL('./fixtures/tone-model/', import.meta.url).pathname;
const WORDS = ['left', 'right', 'thumb', 'index', 'thenar', 'numb', 'weak', 'no', 'hypothenar'];

/** What installs the tone model, with one clinical word spelled and one unheard. */
export const toneInstall = (filesDir: string): InstallOptions => ({
  manifest: { name: 'tone-model', title: 'Tones', licence: 'MIT', url: '', sha256: '' }, filesDir, from: TONE_MODEL,
  language: { grammarWords: new Map(WORDS.map((word) => [word, ['AH']])), lexicon: new Map(), overrides: { thenar: ['thin are'] } },
});
