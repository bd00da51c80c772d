import type { LibraryModel, LibraryRecogniser } from './library';

export const SAMPLE_RATE = 16_000;

/** A result as the library gives it: words with times in seconds of the session's own audio. */
export interface LibraryResult { readonly text?: string; readonly result?: readonly { readonly word: string; readonly start: number; readonly end: number; readonly conf: number }[] }

export interface SessionEvents {
  /** The text so far, and the seconds of the session's audio that it rests on. */
  readonly onPartial: (text: string, heard: number) => void;
  /** A finished utterance, or an empty result at the end of a long silence, and the seconds of audio that are done with it. */
  readonly onResult: (result: LibraryResult, heard: number) => void;
}

interface Waiting { readonly samples: number; readonly resolve: () => void; readonly reject: (error: Error) => void }

/**
 * One recogniser of the library, from making to removal. The library answers every message about audio with exactly
 * one message, in order; so answers are matched to questions by order, and an answer that stays away is a failure.
 */
export class Session {
  private readonly waiting: Waiting[] = [];
  private readonly recogniser: LibraryRecogniser;
  private watch: ReturnType<typeof setTimeout> | undefined;
  private closed = false;
  private heard = 0;
  private last: Promise<void> = Promise.resolve();

  /** @param answerTimeout seconds after which a missing answer counts as a hang */
  constructor(model: LibraryModel, phrases: readonly string[] | null, events: SessionEvents, private readonly answerTimeout: number) {
    // The library's own type says optional, but an explicit undefined is what its worker tests for.
    this.recogniser = new model.KaldiRecognizer(SAMPLE_RATE, phrases ? JSON.stringify(phrases) : undefined);
    this.recogniser.setWords(true);
    this.recogniser.on('partialresult', (message) => {
      if ('result' in message && 'partial' in message.result) events.onPartial(message.result.partial, this.hearing());
      this.answered();
    });
    this.recogniser.on('result', (message) => {
      if ('result' in message && 'text' in message.result) events.onResult(message.result, this.hearing());
      this.answered();
    });
    this.recogniser.on('error', (message) => this.answered(new Error(`The second engine failed: ${'error' in message ? message.error : 'no reason given'}`)));
  }

  /** Resolves when everything sent has been worked on. */
  idle(): Promise<void> { return this.last; }

  /** Messages that have not been answered yet. */
  get pending(): number { return this.waiting.length; }

  /** Sends audio. Resolves when it has been worked on. */
  send(audio: Float32Array): Promise<void> {
    return this.ask(audio.length, () => this.recogniser.acceptWaveformFloat(audio, SAMPLE_RATE));
  }

  /** Finishes what is being said and delivers it through onResult. On a new session: resolves once it is ready. */
  finish(): Promise<void> {
    return this.ask(0, () => this.recogniser.retrieveFinalResult());
  }

  /** Frees the recogniser inside the worker; answers that still come are dropped. */
  close(): void {
    if (this.closed) return;
    this.closed = true;
    clearTimeout(this.watch);
    this.recogniser.remove();
    for (const { reject } of this.waiting.splice(0)) reject(new Error('The second engine was closed.'));
  }

  private ask(samples: number, post: () => void): Promise<void> {
    if (this.closed) return Promise.reject(new Error('The second engine was closed.'));
    this.last = new Promise((resolve, reject) => {
      this.waiting.push({ samples, resolve, reject });
      if (this.waiting.length === 1) this.arm();
      post();
    });
    return this.last;
  }

  /** Seconds of audio up to the end of the message that is being answered. */
  private hearing(): number {
    return (this.heard + (this.waiting[0]?.samples ?? 0)) / SAMPLE_RATE;
  }

  private answered(error?: Error): void {
    const first = this.waiting.shift();
    this.heard += first?.samples ?? 0;
    this.arm();
    if (error) first?.reject(error); else first?.resolve();
  }

  private arm(): void {
    clearTimeout(this.watch);
    if (!this.waiting.length || this.closed) return;
    this.watch = setTimeout(() => {
      for (const { reject } of this.waiting.splice(0)) reject(new Error(`The second engine has not answered for ${this.answerTimeout} s.`));
    }, this.answerTimeout * 1000);
  }
}
