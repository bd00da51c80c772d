import nlp from 'compromise/two';
import { doubleMetaphone } from 'double-metaphone';
import type { PhraseNode } from '../grammar';

/**
 * Spelling slips of typed text. The limit: one edit (a letter wrong, missing, too many, or two swapped) in words of
 * five to seven letters, two in longer ones, one more where both sound alike (Double Metaphone); shorter words never.
 * A word of general English is no slip, two equally near words are not guessed between, and nothing is ever
 * mended to a side, a number, a plus or minus or a denial.
 */
export interface Slips {
  readonly mend: (word: string) => string | undefined;
  /** The grammar has the word, if not in this phrase. */
  readonly knows: (word: string) => boolean;
}

const NEVER: ReadonlySet<string> = new Set(['side', 'neg', 'n', 'plus', 'minus', 'order', 'correct', 'cannot']);
const english: ReadonlySet<string> = new Set(Object.keys((nlp.model() as { one: { lexicon: object } }).one.lexicon));

export function createSlips(tree: PhraseNode): Slips {
  const known = new Map<string, string>();
  const gather = (node: PhraseNode): void => {
    for (const [word, next] of node.next) {
      const own = tree.next.get(word)?.tags ?? [];
      if (/^[a-z]{4,}$/.test(word) && !known.has(word) && !own.some((tag) => NEVER.has(tag.split('=')[0]!))) known.set(word, soundOf(word));
      gather(next);
    }
  };
  gather(tree);
  const words = [...known].filter(([word]) => word.length >= 5);
  const remembered = new Map<string, string | undefined>();
  const search = (word: string): string | undefined => {
    if (!/^[a-z]{5,}$/.test(word) || english.has(word)) return undefined;
    const limit = word.length >= 8 ? 2 : 1;
    const sound = soundOf(word);
    let best: string | undefined;
    let least = Infinity;
    let tied = false;
    for (const [candidate, its] of words) {
      if (Math.abs(candidate.length - word.length) > limit + 1) continue;
      const distance = edits(word, candidate, limit + 1);
      if (distance > limit && !(distance === limit + 1 && its === sound)) continue;
      if (distance < least) { best = candidate; least = distance; tied = false; }
      else if (distance === least) tied = true;
    }
    return tied ? undefined : best;
  };
  return {
    knows: (word) => known.has(word),
    mend: (word) => {
      if (!remembered.has(word)) {
        if (remembered.size > 5000) remembered.clear();
        remembered.set(word, search(word));
      }
      return remembered.get(word);
    },
  };
}

const soundOf = (word: string): string => doubleMetaphone(word)[0];

/** Optimal string alignment distance, given up above `most`. */
export function edits(a: string, b: string, most: number): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let row = 1; row <= a.length; row += 1) {
    const now = [row];
    let least = row;
    for (let column = 1; column <= b.length; column += 1) {
      const same = a[row - 1] === b[column - 1];
      let cost = Math.min(last[column]! + 1, now[column - 1]! + 1, last[column - 1]! + (same ? 0 : 1));
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) cost = Math.min(cost, beforeLast[column - 2]! + 1);
      now.push(cost);
      least = Math.min(least, cost);
    }
    if (least > most) return most + 1;
    beforeLast = last;
    last = now;
  }
  return last[b.length]!;
}
