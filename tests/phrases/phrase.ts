import type { Context, Statement } from '../../src/parser/statement';

/** A statement as the sets write it down: without the words it came from and the question to ask. */
type Bare<S> = S extends Statement ? Omit<S, 'text' | 'question'> : never;
export type Expected = Bare<Exclude<Statement, { type: 'unparsed' }>>;

/** One line of a .jsonl set. */
export interface Phrase {
  readonly id: string;
  readonly text: string;
  readonly kind: 'finding' | 'order' | 'side' | 'not testable' | 'gap' | 'nonfinding';
  readonly forms: readonly string[];
  readonly context?: Partial<Context>;
  readonly expect: readonly Expected[];
  /** Findings: other lists of findings that mean the same. Other kinds: other lists of statements. */
  readonly accept?: readonly (readonly unknown[])[];
}
