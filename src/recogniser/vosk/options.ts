import type { ContrastClass } from '../../grammar';
import type { Mode } from './judge';

/** Seconds; see VoskOptions. */
export const LOAD_TIMEOUT = 120;
export const ANSWER_TIMEOUT = 20;

export interface VoskOptions {
  /** Words that must not be taken for one another (readContrasts of grammars/contrasts.txt). */
  readonly contrasts: readonly ContrastClass[];
  /** 'grammar' hears what the grammar allows; 'open' hears anything. */
  readonly mode?: Mode;
  /** Seconds until loading is given up. The model is unpacked each time. */
  readonly loadTimeout?: number;
  /** Seconds without an answer after which the engine counts as hung. */
  readonly answerTimeout?: number;
}
