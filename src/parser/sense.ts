import { phraseTree, type Rules } from '../grammar';
import { readAtoms, tokenise } from './atoms';
import type { ParseUtterance } from './parse';
import { isPlaceKey } from './place';

/** Atoms that name something of the examination. */
const CLINICAL: ReadonlySet<string> = new Set(['sign', 'grade', 'nerve', 'move']);

/** What the language makes of a text that no grammar vouches for. */
export interface Sense {
  /** Whether it concerns the examination at all: it is understood in part, or names a sign, a place or a movement. */
  readonly concerns: boolean;
  /** Words that the language lacks where they stand; a wrong hearing of one that it has, perhaps. */
  readonly strange: readonly string[];
}

/** For words that were said freely. */
export function createSense(rules: Rules, parse: ParseUtterance): (text: string) => Sense {
  const tree = phraseTree(rules, 'phrase');
  return (text) => {
    const atoms = readAtoms(tokenise(text), tree);
    return {
      concerns: atoms.some(({ key }) => CLINICAL.has(key) || isPlaceKey(key)) || parse(text, { findings: [] }).some(({ type }) => type !== 'unparsed'),
      strange: atoms.flatMap(({ key, words }) => (key === 'unknown' ? [words] : [])),
    };
  };
}
