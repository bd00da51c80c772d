import { rivalsOf, type ContrastClass } from '../../grammar';
import { editDistance, toPhones } from './phones';

/** Contrasted words nearer than this, in phones, may be taken for one another once one of them is only a spelling. A design choice: abduction and adduction are 1 apart, pronation and supination 2. */
export const NEAR = 1.5;

export interface ContrastParts {
  readonly contrasts: readonly ContrastClass[];
  readonly isSentence: (words: readonly string[]) => boolean;
  /** Whether the engine hears the word only through a spelling. */
  readonly isSpelled: (word: string) => boolean;
  readonly pronunciations: ReadonlyMap<string, readonly string[]>;
}

/**
 * Sentences that differ from this one in a word that must not be mistaken, that sound almost the same, and that the engine
 * can't vouch for: it gives no score for what it did not choose, and a word known only by its spelling has no sound model of its own.
 */
export function doubtfulRivals(words: readonly string[], { contrasts, isSentence, isSpelled, pronunciations }: ContrastParts): string[] {
  const ways = (some: readonly string[]): number[][] =>
    some.reduce<number[][]>((all, word) => all.flatMap((before) => (pronunciations.get(word) ?? []).map((next) => [...before, ...toPhones(next)])), [[]]);
  return rivalsOf(words, contrasts, isSentence).filter((rival) => {
    const [mine, theirs] = [words.filter((word) => !rival.includes(word)), rival.filter((word) => !words.includes(word))];
    if (![...mine, ...theirs].some(isSpelled)) return false;
    if (![...mine, ...theirs].every((word) => pronunciations.has(word))) return true;
    return ways(mine).some((a) => ways(theirs).some((b) => editDistance(a, b, NEAR) < NEAR));
  }).map((rival) => rival.join(' '));
}
