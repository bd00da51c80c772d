import { acceptor, type SpokenGrammar } from '../../grammar';
import { Listeners } from '../listeners';
import type { HeardWord, Recogniser, Utterance } from '../recogniser';
import { doubtfulRivals } from './contrast';
import { INSTALL_COMMAND, type Installation } from './installed';
import { judge, type Mode } from './judge';
import { ANSWER_TIMEOUT, LOAD_TIMEOUT, type VoskOptions } from './options';
import { endModel, loadModel, type LibraryModel } from './library';
import { phraseList, unwritable, writingOf } from './phrases';
import { SAMPLE_RATE, Session, type LibraryResult } from './session';
import { someOf, type SoundsLike } from './sounds-like';
import { mapBack, mapBackText, spellingTable, type SpellingTable } from './spelling-map';
import { StreamClock } from './stream-clock';

/** Messages to the library's worker are costly, so audio goes in fifths of a second. */
const BATCH = SAMPLE_RATE / 5;
/** Most batches under way at once; more audio waits here. */
const UNDER_WAY = 10;
/** Most audio that waits: half a minute. Beyond it the newest is dropped, and said so. */
const MOST = 30 * SAMPLE_RATE;
/** Most audio that is kept, waiting or worked on, to be cut into utterances and heard anew: a minute, 4 MB. */
const KEPT = 2 * MOST;
const MARGIN = 0.2;
/** Speech that follows a broken-off start within this time may belong to it: "no …" – "wasting left". Seconds; a design choice, twice the engine's longest pause inside an utterance. */
const TOGETHER = 2;

/**
 * The second engine: vosk-browser in its own worker, with the same interface as the first.
 * It takes a phrase list, not a grammar, so what it hears is checked against the grammar afterwards; words that its
 * model lacks are listed under spellings from words it has (see soundsLike) and put back before anyone reads them.
 */
export class VoskRecogniser implements Recogniser {
  readonly engine = 'vosk';
  private readonly listeners = new Listeners();
  readonly listen = this.listeners.add;
  private readonly ending = new AbortController();
  private readonly clock = new StreamClock();
  private readonly mode: Mode;
  private soundsLike: SoundsLike | null = null;
  private table: SpellingTable = new Map();
  private model: LibraryModel | null = null;
  private session: Session | null = null;
  private isSentence: (words: readonly string[]) => boolean = () => false;
  private pronunciations: SpokenGrammar['pronunciations'] = new Map();
  private queue: Float32Array[] = [];
  private queued = 0;
  private dropping = false;
  private failed = false;
  /** The utterance so far, as the engine writes it. */
  private saying = '';
  /** Seconds of the session's audio that have been delivered. */
  private done = 0;
  private previous: Utterance | null = null;
  private count = 0;
  /** Grammar changes and finishing take turns. */
  private turn: Promise<void> = Promise.resolve();
  private held = false;

  /** @param archive absolute address of the model's archive, which the library's worker must be able to read */
  constructor(private readonly options: VoskOptions, private readonly found: Installation & { readonly archive: string }) {
    this.mode = options.mode ?? 'grammar';
  }

  async load(): Promise<void> {
    const { found } = this;
    if (this.mode === 'grammar' && !found.model.takesGrammar) throw new Error(`The model ${found.model.name} cannot be narrowed to a grammar. Choose free speech for it, or install the small English model with "${INSTALL_COMMAND}".`);
    this.soundsLike = found.soundsLike;
    this.table = spellingTable(found.soundsLike);
    this.model = await loadModel({
      url: found.archive,
      timeout: this.options.loadTimeout ?? LOAD_TIMEOUT,
      onCrash: (message) => this.fail(new Error(`The second engine stopped: ${message}`)),
      signal: this.ending.signal,
    });
    if (this.mode === 'open') await this.open(null);
    this.listeners.tell({ type: 'ready', engine: this.engine, model: `${found.model.name} (${found.model.licence})`, ...(this.mode === 'open' ? { note: 'Free speech: what is not a known sentence is asked about more often.' } : {}) });
  }

  /** Takes effect on everything that has not been delivered as an utterance. See Recogniser. */
  async setGrammar(grammar: SpokenGrammar): Promise<void> {
    const { soundsLike } = this;
    if (!soundsLike || !this.model) throw new Error('The second engine is not loaded.');
    const known = new Set(soundsLike.known);
    const writing = writingOf(known, this.table);
    const deaf = unwritable(grammar, writing);
    const strange = deaf.filter((word) => !Object.hasOwn(soundsLike.unheard, word));
    if (this.mode === 'grammar' && strange.length) throw new Error(`The second engine has no spelling yet for ${someOf(strange.map((word) => `"${word}"`))}. Run "${INSTALL_COMMAND} -- --respell".`);
    if (this.mode === 'grammar') {
      const phrases = phraseList(grammar, writing);
      await this.inTurn(async () => { await this.open(phrases); this.understand(grammar); });
    } else this.understand(grammar);
    if (deaf.length) this.listeners.tell({ type: 'failed', message: `The second engine cannot hear ${someOf(deaf)}: give spellings in grammars/sounds-like.json, or use the built-in engine for them.`, fatal: false });
  }

  push(audio: Float32Array): void {
    if (this.failed || this.ending.signal.aborted || !audio.length) return;
    if (this.queued + audio.length > MOST) {
      this.clock.lost(audio.length);
      if (!this.dropping) this.listeners.tell({ type: 'failed', message: 'The second engine cannot keep up; what is said now is lost until it has caught up.', fatal: false });
      this.dropping = true;
      return;
    }
    this.dropping = false;
    this.queue.push(audio.slice());
    this.queued += audio.length;
    this.clock.keep(audio, KEPT);
    this.listeners.tell({ type: 'level', ...levelOf(audio) });
    this.pump();
  }

  finish(): Promise<void> {
    return this.inTurn(() => this.holding(() => this.flush()));
  }

  dispose(): void {
    if (this.ending.signal.aborted) return;
    this.ending.abort();
    this.session?.close();
    if (this.model) endModel(this.model);
    this.session = null;
    this.model = null;
    this.queue = [];
    this.queued = 0;
    this.clock.clear();
    this.listeners.clear();
  }

  private understand(grammar: SpokenGrammar): void {
    this.isSentence = acceptor(grammar);
    this.pronunciations = grammar.pronunciations;
  }

  private inTurn(work: () => Promise<void>): Promise<void> {
    const mine = this.turn.then(work);
    this.turn = mine.catch((error: Error) => this.fail(error));
    return mine;
  }

  /** Keeps new audio waiting while something is done with the session. */
  private async holding(work: () => Promise<void>): Promise<void> {
    this.held = true;
    try { await work(); } finally { this.held = false; }
    this.pump();
  }

  /**
   * Ends the session that is there and starts one with these phrases. Whatever has not been delivered yet is heard anew
   * by the new one: an utterance cut in two by a change of grammar could lose its "no".
   */
  private open(phrases: readonly string[] | null): Promise<void> {
    return this.holding(async () => {
      await this.session?.idle();
      if (!this.model) throw new Error('The second engine was closed.');
      this.session?.close();
      const again = this.clock.restart(this.done);
      this.done = 0;
      this.saying = '';
      if (again.length) this.queue.unshift(again);
      this.queued += again.length;
      this.session = new Session(this.model, phrases, { onPartial: (text, heard) => this.partial(text, heard), onResult: (result, heard) => this.result(result, heard) }, this.options.answerTimeout ?? ANSWER_TIMEOUT);
      await this.session.finish();
    });
  }

  /** Sends the audio that waits, however short, and asks for what remains of the utterance. */
  private async flush(): Promise<void> {
    if (!this.session) return;
    for (let left = this.queued; left > 0; left -= BATCH) await this.send(this.take(Math.min(BATCH, left)));
    await this.session.finish();
    this.saying = '';
  }

  private pump(): void {
    while (this.session && !this.held && this.queued >= BATCH && this.session.pending < UNDER_WAY)
      this.send(this.take(BATCH)).then(() => this.pump(), (error: Error) => this.fail(error));
  }

  private send(audio: Float32Array): Promise<void> {
    this.clock.sent(audio.length);
    return this.session ? this.session.send(audio) : Promise.reject(new Error('The second engine was closed.'));
  }

  private take(length: number): Float32Array {
    const batch = new Float32Array(length);
    for (let filled = 0; filled < length;) {
      const first = this.queue[0] as Float32Array;
      const part = first.subarray(0, length - filled);
      batch.set(part, filled);
      filled += part.length;
      if (part.length === first.length) this.queue.shift(); else this.queue[0] = first.subarray(part.length);
    }
    this.queued -= length;
    return batch;
  }

  private partial(text: string, heard: number): void {
    if (!text || text === this.saying) return;
    if (!this.saying) this.listeners.tell({ type: 'speech started', at: this.clock.toStream(heard) });
    this.saying = text;
    this.listeners.tell({ type: 'partial', text: mapBackText(text, this.table) });
  }

  private result({ result }: LibraryResult, heard: number): void {
    this.saying = '';
    this.done = heard;
    if (!result?.length) return;
    const written = result.map(({ word, start, end, conf }): HeardWord => ({ word, start: this.clock.toStream(start), end: this.clock.toStream(end), confidence: Math.min(1, Math.max(0, conf)) }));
    const words = mapBack(written, this.table);
    const texts = words.map(({ word }) => word);
    const restored = texts.some((word) => this.table.has(word));
    const start = words[0]?.start ?? 0;
    const end = words.at(-1)?.end ?? start;
    const utterance = this.withStart(this.withRivals({
      id: `${this.engine}-${Date.now().toString(36)}-${this.count++}`,
      text: texts.join(' '), start, end, words, alternatives: [], source: this.engine,
      ...judge(words, { restored, isSentence: this.isSentence(texts), mode: this.mode }),
      audio: this.clock.cut(start - MARGIN, end + MARGIN),
    }));
    this.previous = utterance;
    this.listeners.tell({ type: 'utterance', utterance });
  }

  /** Asks about an utterance whose critical word is a spelling and has a neighbour that would make a sentence too. */
  private withRivals(utterance: Utterance): Utterance {
    if (utterance.verdict !== 'accepted') return utterance;
    const { isSentence, pronunciations, options: { contrasts } } = this;
    const rivals = doubtfulRivals(utterance.text.split(' '), { contrasts, isSentence, pronunciations, isSpelled: (word) => this.table.has(word) });
    if (!rivals.length) return utterance;
    return { ...utterance, verdict: 'queried', why: `It sounds almost like "${rivals[0]}".`, alternatives: rivals.map((text) => ({ text, margin: 0 })) };
  }

  /** Asks about an utterance that may go on from a start that was left hanging just before, so that a "no" before a pause is never lost. */
  private withStart(utterance: Utterance): Utterance {
    const { previous } = this;
    if (utterance.verdict !== 'accepted' || !previous || utterance.start - previous.end > TOGETHER) return utterance;
    const hanging = previous.verdict !== 'accepted' || previous.words.length === 1;
    const joined = `${previous.text} ${utterance.text}`;
    if (!hanging || !this.isSentence(joined.split(' '))) return utterance;
    return { ...utterance, verdict: 'queried', why: `It may go on from "${previous.text}".`, alternatives: [{ text: joined, margin: 0 }, ...utterance.alternatives] };
  }

  private fail(error: Error): void {
    if (this.failed || this.ending.signal.aborted) return;
    this.failed = true;
    this.listeners.tell({ type: 'failed', message: `${error.message} Switch to the built-in engine, or reload the page.`, fatal: true });
  }
}

function levelOf(audio: Float32Array): { rms: number; peak: number; clipped: boolean } {
  let sum = 0;
  let peak = 0;
  for (const sample of audio) {
    sum += sample * sample;
    peak = Math.max(peak, Math.abs(sample));
  }
  return { rms: Math.sqrt(sum / audio.length), peak, clipped: peak >= 0.999 };
}
