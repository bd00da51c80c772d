import type { HeardWord, Verdict } from '../recogniser';
import { UNKNOWN } from './phrases';

export type Mode = 'grammar' | 'open';

/**
 * Limits on the engine's word confidence (its lattice posterior, 0 to 1). Design choices on the careful side:
 * they have not been calibrated, because that takes the model and human recordings.
 */
export const LIMITS = {
  /** Every word of a sentence of the grammar is at least this sure. */
  grammar: 0.8,
  /** The same for words said freely, which no grammar vouches for. */
  open: 0.9,
  /** With this share of unknown words the speech was meant for someone else. */
  unknown: 0.5,
  /** No hearing is surer than this, whatever the engine says: its 1 means only that its own search saw no other way. */
  surest: 0.99,
} as const;

export interface Judgement { readonly verdict: Verdict; readonly confidence: number; readonly why?: string }

/** What is known about the words beside their sound. */
export interface Known {
  /** Whether any word was put back from a spelling. */
  readonly restored: boolean;
  /** Whether the grammar has exactly these words as a sentence. */
  readonly isSentence: boolean;
  readonly mode: Mode;
}

/**
 * Decides what becomes of one recognised utterance. Free speech is weighed once more by what it means: see free-speech.ts.
 * @param words as heard, spellings already put back
 */
export function judge(words: readonly HeardWord[], { restored, isSentence, mode }: Known): Judgement {
  const known = words.filter(({ word }) => word !== UNKNOWN);
  const weakest = known.reduce<HeardWord | null>((least, word) => (least && least.confidence <= word.confidence ? least : word), null);
  const confidence = Math.min(LIMITS.surest, weakest?.confidence ?? 0);
  if (!weakest || (words.length - known.length) / words.length >= LIMITS.unknown) return { verdict: 'ignored', confidence, why: 'Speech that is not for the recorder.' };
  if (known.length < words.length) return { verdict: 'queried', confidence, why: 'Part of it was not understood.' };
  if (isSentence) return weakest.confidence >= LIMITS.grammar ? { verdict: 'accepted', confidence } : { verdict: 'queried', confidence, why: `Not sure of "${weakest.word}".` };
  if (mode === 'grammar') return { verdict: 'queried', confidence, why: 'These words make no sentence that the recorder knows.' };
  if (restored) return { verdict: 'queried', confidence, why: 'A clinical word was guessed from its sound.' };
  return weakest.confidence >= LIMITS.open ? { verdict: 'accepted', confidence } : { verdict: 'queried', confidence, why: `Not sure of "${weakest.word}".` };
}
