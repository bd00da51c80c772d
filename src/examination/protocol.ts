import type { ItemKey, SignCode } from '../vocabulary';

/** One thing to examine, on each side that the stage holds. */
export interface Item {
  readonly id: string;
  readonly name: string;
  /** Findings that mark it done; the first is its canonical key. */
  readonly keys: readonly [ItemKey, ...ItemKey[]];
  /** Signs that mark it done wherever they were found: "swelling over the knuckles" answers "swelling?". */
  readonly anywhere?: readonly SignCode[];
}

export interface Stage {
  readonly id: string;
  readonly name: string;
  readonly items: readonly Item[];
  /** Affected = the injured side alone, when there is one; both sides otherwise. */
  readonly sides: 'both' | 'affected';
}

/** Which items an examination holds, in which order. */
export interface Protocol {
  readonly id: string;
  readonly name: string;
  readonly purpose: string;
  readonly stages: readonly Stage[];
}
