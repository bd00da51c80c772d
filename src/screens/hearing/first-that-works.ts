import type { SpokenGrammar } from '../../grammar';
import { Listeners, type Recogniser, type RecogniserEvent } from '../../recogniser';

/** An engine to be tried, by its name in words. */
export interface Candidate { readonly words: string; readonly make: () => Recogniser }
export interface Candidates { readonly engines: readonly Candidate[]; /** Something worth saying before any was tried. */ readonly note?: string }

/**
 * One recogniser out of several: the first that loads and takes the grammar. An engine that can't be had must not leave the
 * examiner without ears; that another one hears instead is said in the note of its 'ready' event.
 */
export class FirstThatWorks implements Recogniser {
  private readonly listeners = new Listeners();
  readonly listen = this.listeners.add;
  private waiting: Candidate[] = [];
  private notes: string[] = [];
  private inner: Recogniser | null = null;
  private words = '';
  private disposed = false;

  /** @param find what to try, best first; asked each time the recogniser is loaded */
  constructor(private readonly find: () => Promise<Candidates>) {}

  get engine(): string { return this.inner?.engine ?? ''; }

  async load(): Promise<void> {
    const { engines, note } = await this.find();
    this.waiting = [...engines];
    this.notes = note ? [note] : [];
    await this.next();
  }

  async setGrammar(grammar: SpokenGrammar): Promise<void> {
    try { await this.loaded().setGrammar(grammar); } catch (error) {
      await this.instead(error);
      await this.setGrammar(grammar);
    }
  }

  push(audio: Float32Array): void { this.inner?.push(audio); }
  finish(): Promise<void> { return this.inner ? this.inner.finish() : Promise.resolve(); }

  dispose(): void {
    this.disposed = true;
    this.inner?.dispose();
    this.inner = null;
    this.listeners.clear();
  }

  private loaded(): Recogniser {
    if (!this.inner) throw new Error('No speech engine is loaded.');
    return this.inner;
  }

  /** Tries the next candidate, and the one after it if that fails. */
  private async next(): Promise<void> {
    const candidate = this.waiting.shift();
    if (!candidate) throw new Error('There is no speech engine to load.');
    const made = candidate.make();
    this.inner = made;
    this.words = candidate.words;
    made.listen((event) => { if (this.inner === made) this.tell(event); });
    try { await made.load(); } catch (error) { await this.instead(error); }
    if (this.disposed) made.dispose();
  }

  /** Moves on from an engine that failed; without another, its failure is the answer. */
  private async instead(error: unknown): Promise<void> {
    this.inner?.dispose();
    this.inner = null;
    const next = this.waiting[0];
    if (!next || this.disposed) throw error;
    this.notes.push(`The ${this.words} cannot be used, so the ${next.words} hears. ${error instanceof Error ? error.message : String(error)}`);
    await this.next();
  }

  private tell(event: RecogniserEvent): void {
    const notes = event.type === 'ready' ? [...this.notes, ...(event.note ? [event.note] : [])] : [];
    this.listeners.tell(notes.length ? { ...event, note: notes.join(' ') } as RecogniserEvent : event);
  }
}
