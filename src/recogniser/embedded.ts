import type { ContrastClass, SpokenGrammar } from '../grammar';
import type { SpeechModule } from './decoder';
import { Endpointer, SAMPLE_RATE, type Stretch } from './endpointer';
import { Listener, type Hearing, type ListenerSettings } from './listener';
import { Listeners } from './listeners';
import { reading } from './reading';
import type { Recogniser, Utterance } from './recogniser';
import type { Rescorer } from './rescorer/rescorer';
import { judge } from './verdict';
import type { VoiceProfile } from './voice-profile';

export const ENGINE = 'embedded';

export interface EmbeddedOptions {
  /** Starts the speech library. */
  readonly startModule: () => Promise<SpeechModule>;
  /** Opens the network that weighs sentences; null when it is not installed. */
  readonly openRescorer: () => Promise<Rescorer | null>;
  /** Folder or address of the model files, without a closing slash. */
  readonly modelDir: string;
  readonly modelName: string;
  readonly note?: string;
  readonly contrasts: readonly ContrastClass[];
  /** Whether two sentences mean the same; with it the check also covers every sentence one word away. */
  readonly sameMeaning?: (one: string, other: string) => boolean;
  readonly settings?: ListenerSettings;
  /** Of the speaker; one computed for another model is left aside. */
  readonly profile?: VoiceProfile;
  /** Told everything that a verdict was based on: for calibration. */
  readonly onHearing?: (hearing: Hearing | null, stretch: Stretch) => void;
  /** Show text while somebody speaks. */
  readonly partials?: boolean;
  readonly keepAudio?: boolean;
  /** Makes utterance ids; counts by default. */
  readonly newId?: () => string;
}

/** An utterance that is probably over, heard ahead of time. */
interface Early { readonly stretch: Stretch; readonly hearing: Promise<Hearing | null>; readonly abandoned: AbortController }

/** The network's memory grows with the square of a stretch; longer ones are judged by the acoustic model alone, with its own limits. */
const LONGEST_WEIGHED = 12 * SAMPLE_RATE;
const LOAD_SECONDS = 60;
/** Another examiner must be able to see that the recorder is set to somebody's voice. */
const PROFILE_USED = 'Set to the voice profile kept in this browser. If that is not your voice, delete it from the start.';
const PROFILE_ASIDE = 'The voice profile kept in this browser was made for another speech model and is not used: read it in again from the start.';
/** Said at the start, because it changes what can be trusted. */
const NO_NETWORK = 'The network that checks what was heard is not installed: expect more questions, above all in noise. Run "npm start" again with a network connection to fetch it.';
const round = (value: number): number => Math.round(value * 1000) / 1000;

/** Fails instead of waiting for ever. */
export async function within<T>(seconds: number, what: string, work: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => { timer = setTimeout(() => reject(new Error(`${what} took longer than ${seconds} seconds. Reload the page; if it happens again, close other programs.`)), seconds * 1000); });
  try { return await Promise.race([work, late]); } finally { clearTimeout(timer); }
}

/**
 * The embedded engine without any thread: in the page it lives in a worker, in Node it is used as it is.
 * Utterances come in the order in which they were said, once both judges have seen them; finish() waits for the last.
 */
export class EmbeddedRecogniser implements Recogniser {
  readonly engine = ENGINE;
  private readonly options: EmbeddedOptions;
  private readonly listeners = new Listeners();
  readonly listen = this.listeners.add;
  private listener: Listener | null = null;
  private endpointer = new Endpointer();
  private audio = new Float32Array(SAMPLE_RATE * 30);
  private origin = 0; // sample number of audio[0]
  private held = 0; // samples in audio
  private early: Early | null = null;
  private rescorer: Rescorer | null = null;
  /** Resolves when all that was said has been delivered. */
  private delivered: Promise<void> = Promise.resolve();
  private shown = '';
  private count = 0;

  constructor(options: EmbeddedOptions) { this.options = options; }

  async load(): Promise<void> {
    if (this.listener) return;
    const { profile, note, ...parts } = this.options;
    const fits = profile?.model === this.options.modelName;
    const open = async (): Promise<Listener> => Listener.open(await this.options.startModule(), this.options.modelDir, { ...parts, ...(profile && fits ? { profile } : {}) });
    try {
      this.listener = await within(LOAD_SECONDS, 'Loading the speech engine', open());
    } catch (error) {
      throw new Error(`The speech engine could not be loaded from ${this.options.modelDir}: ${error instanceof Error ? error.message : String(error)}`);
    }
    const without = await this.openRescorer();
    const notes = [note, without, profile && (fits ? PROFILE_USED : PROFILE_ASIDE)].filter((text) => text !== undefined);
    this.listeners.tell({ type: 'ready', engine: ENGINE, model: this.options.modelName, ...(notes.length ? { note: notes.join(' ') } : {}) });
  }

  async setGrammar(grammar: SpokenGrammar): Promise<void> { this.loaded().setGrammar(grammar); }

  push(audio: Float32Array): void {
    this.loaded();
    this.meter(audio);
    this.store(audio);
    for (const event of this.endpointer.push(audio)) {
      if (event.type === 'started') { this.early = null; this.shown = ''; this.loaded().begin(); this.listeners.tell({ type: 'speech started', at: round(event.at) }); }
      else if (event.type === 'pausing') this.early = this.ahead(event.stretch);
      else if (event.type === 'resumed') { this.early?.abandoned.abort(); this.early = null; }
      else this.deliver(event.stretch);
    }
    this.follow();
    this.forget();
  }

  async finish(): Promise<void> {
    for (const event of this.endpointer.finish()) if (event.type === 'ended') this.deliver(event.stretch);
    await this.delivered;
    this.endpointer = new Endpointer();
    this.origin = 0;
    this.held = 0;
    this.early = null;
  }

  dispose(): void {
    this.listener?.dispose();
    this.listener = null;
    void this.rescorer?.dispose();
    this.rescorer = null;
    this.listeners.clear();
  }

  /** Opens the network; returns what to say when there is none: without it the recorder works, only less well. */
  private async openRescorer(): Promise<string | undefined> {
    try {
      this.rescorer = await within(LOAD_SECONDS, 'Loading the network that weighs sentences', this.options.openRescorer());
      return this.rescorer ? undefined : NO_NETWORK;
    } catch (error) {
      return `${NO_NETWORK} (${error instanceof Error ? error.message : String(error)})`;
    }
  }

  private loaded(): Listener {
    if (!this.listener) throw new Error('The speech engine is not loaded yet: await load() first.');
    return this.listener;
  }

  private meter(audio: Float32Array): void {
    let energy = 0;
    let peak = 0;
    for (const sample of audio) { energy += sample * sample; peak = Math.max(peak, Math.abs(sample)); }
    if (audio.length) this.listeners.tell({ type: 'level', rms: Math.sqrt(energy / audio.length), peak, clipped: peak >= 0.99 });
  }

  private store(audio: Float32Array): void {
    if (this.held + audio.length > this.audio.length) {
      const larger = new Float32Array(Math.max(this.audio.length * 2, this.held + audio.length));
      larger.set(this.audio.subarray(0, this.held));
      this.audio = larger;
    }
    this.audio.set(audio, this.held);
    this.held += audio.length;
  }

  /** Drops audio that no utterance can need any more. */
  private forget(): void {
    const drop = this.endpointer.keepFrom - this.origin;
    if (drop < SAMPLE_RATE * 5) return;
    this.audio.copyWithin(0, drop, this.held);
    this.held -= drop;
    this.origin += drop;
  }

  /** A stretch of the audio held, until more is stored. */
  private view({ from, to }: Stretch): Float32Array { return this.audio.subarray(Math.max(0, from - this.origin), Math.min(this.held, to - this.origin)); }
  private cut(stretch: Stretch): Float32Array { return this.view(stretch).slice(); }

  private ahead(stretch: Stretch): Early {
    const abandoned = new AbortController();
    return { stretch, abandoned, hearing: this.hear(stretch, abandoned.signal) };
  }

  /** The acoustic model at once, the network after it, unless nobody waits for its answer any more. */
  private hear(stretch: Stretch, abandoned?: AbortSignal): Promise<Hearing | null> {
    const audio = this.cut(stretch);
    const hearing = this.loaded().hear(audio, stretch.noise);
    return hearing && this.rescorer && audio.length <= LONGEST_WEIGHED ? this.weighed(hearing, this.rescorer, audio, stretch, abandoned) : Promise.resolve(hearing);
  }

  /** Never fails: without the network the limits for hearing without it hold. */
  private async weighed(hearing: Hearing, rescorer: Rescorer, audio: Float32Array, { noise }: Stretch, abandoned?: AbortSignal): Promise<Hearing> {
    try {
      const weigh = await rescorer.hear(audio);
      if (abandoned?.aborted) return hearing;
      return await reading(hearing, { weigh, around: (text) => this.loaded().around(text, audio, noise), sameMeaning: this.options.sameMeaning });
    } catch (error) {
      this.rescorer = null;
      this.listeners.tell({ type: 'failed', fatal: false, message: `The network that checks what was heard stopped (${error instanceof Error ? error.message : String(error)}). Nothing is lost; expect more questions. Reload the page to start it again.` });
      return hearing;
    }
  }

  /** Hears along while somebody speaks. */
  private follow(): void {
    const { soFar } = this.endpointer;
    if (!soFar || this.early) return;
    const text = this.loaded().follow(this.view(soFar), soFar.noise);
    if (!text || text === this.shown || !this.options.partials) return;
    this.shown = text;
    this.listeners.tell({ type: 'partial', text });
  }

  private deliver(stretch: Stretch): void {
    const same = this.early && this.early.stretch.from === stretch.from && this.early.stretch.to === stretch.to;
    const hearing = same && this.early ? this.early.hearing : this.hear(stretch);
    this.early = null;
    const audio = this.options.keepAudio ? this.cut(stretch) : undefined;
    const tell = async (): Promise<void> => {
      const heard = await hearing;
      this.options.onHearing?.(heard, stretch);
      this.listeners.tell({ type: 'utterance', utterance: this.utterance(stretch, heard, audio) });
    };
    // Whoever listens may fail at one utterance: the next must still come.
    this.delivered = this.delivered.then(tell, tell);
  }

  private utterance(stretch: Stretch, hearing: Hearing | null, audio: Float32Array | undefined): Utterance {
    this.count += 1;
    const id = this.options.newId?.() ?? `u${this.count}`;
    const start = stretch.from / SAMPLE_RATE;
    const base = { id, start: round(start), end: round(stretch.to / SAMPLE_RATE), source: ENGINE, ...(audio ? { audio } : {}) };
    if (!hearing) return { ...base, text: '', confidence: 0, verdict: 'ignored', why: 'No sentence of the recorder fits what was said.', words: [], alternatives: [] };
    const { verdict, confidence, why } = judge(hearing.evidence);
    return {
      ...base, verdict, confidence, ...(why ? { why } : {}),
      text: hearing.path.words.map(({ word }) => word).join(' '),
      words: hearing.path.words.map(({ word, from, to }) => ({ word, start: round(start + from / 100), end: round(start + to / 100), confidence })),
      alternatives: hearing.alternatives,
    };
  }
}
