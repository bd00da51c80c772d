import type { SpokenGrammar } from '../grammar/spoken-grammar';

/**
 * The one interface that every speech engine implements, and what it delivers.
 * Audio is mono Float32 in [-1, 1] at 16 kHz. Times are seconds from the start of the stream.
 */

export interface HeardWord { readonly word: string; readonly start: number; readonly end: number; readonly confidence: number }

/** Another reading of the same audio, best first, with its score margin below the chosen one (log-likelihood per 10 ms frame). */
export interface Alternative { readonly text: string; readonly margin: number }

/**
 * Three outcomes, decided in one place (src/recogniser/verdict.ts):
 * accepted = may be filed; queried = ask back or leave for the reviewer; ignored = not for the recorder.
 */
export type Verdict = 'accepted' | 'queried' | 'ignored';

export interface Utterance {
  readonly id: string;
  readonly text: string;
  readonly start: number;
  readonly end: number;
  /** Calibrated probability that text is what was said to the recorder, 0 to 1. */
  readonly confidence: number;
  readonly verdict: Verdict;
  /** Why it was queried or ignored, in words for the screen. */
  readonly why?: string;
  readonly words: readonly HeardWord[];
  readonly alternatives: readonly Alternative[];
  /** Where it came from: an engine's name, or the keyboard. */
  readonly source: string;
  /** 16 kHz mono PCM of the utterance for the reviewer, if kept. */
  readonly audio?: Float32Array;
}

export type RecogniserEvent =
  | { readonly type: 'ready'; readonly engine: string; readonly model: string; readonly note?: string }
  | { readonly type: 'level'; readonly rms: number; readonly peak: number; readonly clipped: boolean }
  | { readonly type: 'speech started'; readonly at: number }
  | { readonly type: 'partial'; readonly text: string }
  | { readonly type: 'utterance'; readonly utterance: Utterance }
  | { readonly type: 'failed'; readonly message: string; readonly fatal: boolean };

export interface Recogniser {
  readonly engine: string;
  /** Loads engine and model. Rejects with a message that says what happened and what to do; never hangs. */
  load(): Promise<void>;
  /** Sets what can be heard. Rejects naming the word at fault. */
  setGrammar(grammar: SpokenGrammar): Promise<void>;
  /** Feeds audio, any chunk length. */
  push(audio: Float32Array): void;
  /** Ends the stream: whatever was being said is finished and delivered. Resolves when all utterances are out. */
  finish(): Promise<void>;
  /** Calls back for every event; returns how to stop listening. */
  listen(listener: (event: RecogniserEvent) => void): () => void;
  /** Frees engine, worker and memory; safe to call twice. */
  dispose(): void;
}
