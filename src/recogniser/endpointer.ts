/**
 * Cuts a stream into utterances by level against a running noise floor. Unlike a speech/non-speech classifier
 * it works when the noise is speech itself (a busy bay): what stands out is whoever is close to the microphone.
 */
export const SAMPLE_RATE = 16000;
const FRAME = 160; // 10 ms
const FRAMES_PER_SECOND = SAMPLE_RATE / FRAME;

export interface EndpointerSettings {
  /** Seconds of quiet that end an utterance: longer than the pauses inside a spoken list. */
  readonly hangOver: number;
  /** Seconds of quiet after which the utterance is probably over and may be decoded ahead of time. */
  readonly early: number;
  /** Seconds of audio kept before the first and after the last loud frame. */
  readonly lead: number;
  readonly tail: number;
  /** Decibels above the noise floor that start an utterance. */
  readonly rise: number;
  /** Seconds after which an utterance is cut whatever happens. */
  readonly longest: number;
  /** Seconds of sound below which it is a click, not speech. */
  readonly shortest: number;
}

export const ENDPOINTER: EndpointerSettings = { hangOver: 0.65, early: 0.3, lead: 0.2, tail: 0.2, rise: 7, longest: 20, shortest: 0.12 };

/** A stretch of the stream, in samples from its start. */
export interface Stretch { readonly from: number; readonly to: number }

export type Endpoint =
  | { readonly type: 'started'; readonly at: number }
  /** Quiet for a while: the utterance probably ends here. */
  | { readonly type: 'pausing'; readonly stretch: Stretch }
  | { readonly type: 'resumed' }
  | { readonly type: 'ended'; readonly stretch: Stretch };

const QUIETEST = -80; // dB full scale: below it everything is silence
const FLOOR_SECONDS = 3;
const quantile = (sorted: readonly number[], share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? QUIETEST;

/** Follows the level of what is not speech: the median and the spread of the last seconds. */
class NoiseFloor {
  private readonly levels: number[] = [];
  private median = QUIETEST;
  private spread = 1;
  private fresh = 0;
  add(level: number): void {
    this.levels.push(level);
    if (this.levels.length > FLOOR_SECONDS * FRAMES_PER_SECOND) this.levels.shift();
    this.fresh += 1;
    if (this.fresh < 10 && this.levels.length > 20) return;
    this.fresh = 0;
    const sorted = [...this.levels].sort((a, b) => a - b);
    this.median = quantile(sorted, 0.5);
    this.spread = Math.max(0.5, (quantile(sorted, 0.84) - quantile(sorted, 0.16)) / 2);
  }
  get level(): number { return this.median; }
  /** Level that noise alone seldom reaches. */
  above(rise: number): number { return this.median + Math.max(rise, 2.5 * this.spread); }
}

/**
 * Feed it samples; it answers with what happened. It keeps no audio: stretches count samples from the stream's start.
 */
export class Endpointer {
  private readonly settings: EndpointerSettings;
  private readonly floor = new NoiseFloor();
  private pending = new Float32Array(FRAME);
  private filled = 0;
  private previousSample = 0;
  private frame = 0;
  private smooth = QUIETEST;
  private loud = 0; // recent frames above the start level, leaky
  private first = -1; // first frame of the utterance, -1 between utterances
  private last = -1; // last loud frame
  private heard = 0; // loud frames in the utterance
  private peak = QUIETEST; // level of the utterance, slowly forgetting
  private paused = false;
  private recent: number[] = [];
  private previousEnd = 0;

  constructor(settings: EndpointerSettings = ENDPOINTER) { this.settings = settings; }

  get inSpeech(): boolean { return this.first >= 0; }
  /** What has been said so far of the utterance under way. */
  get soFar(): Stretch | null { return this.first < 0 ? null : this.stretch(); }
  /** Frame samples that may still be needed by a coming utterance start before this sample. */
  get keepFrom(): number { return Math.max(0, (this.first >= 0 ? this.first : this.frame - 30) * FRAME - (this.settings.lead + 0.1) * SAMPLE_RATE); }

  push(audio: Float32Array): Endpoint[] {
    const events: Endpoint[] = [];
    for (let at = 0; at < audio.length;) {
      const take = Math.min(FRAME - this.filled, audio.length - at);
      this.pending.set(audio.subarray(at, at + take), this.filled);
      this.filled += take;
      at += take;
      if (this.filled === FRAME) { this.filled = 0; this.step(this.levelOf(this.pending), events); }
    }
    return events;
  }

  /** The stream is over: ends the utterance under way. */
  finish(): Endpoint[] {
    const events: Endpoint[] = [];
    if (this.first >= 0) this.end(events);
    return events;
  }

  /** Level in dB full scale after pre-emphasis, which weighs consonants like vowels and drops hum. */
  private levelOf(frame: Float32Array): number {
    let energy = 0;
    for (const sample of frame) {
      const high = sample - 0.9 * this.previousSample;
      this.previousSample = sample;
      energy += high * high;
    }
    return Math.max(QUIETEST, 10 * Math.log10(energy / FRAME + 1e-9));
  }

  private step(level: number, events: Endpoint[]): void {
    const { hangOver, early, rise, longest } = this.settings;
    this.smooth += (level - this.smooth) * (level > this.smooth ? 0.5 : 0.3);
    if (this.frame < 5) this.smooth = Math.min(level, -45); // the stream may begin in the middle of a word
    if (this.first < 0) {
      const start = this.floor.above(rise);
      this.loud = this.smooth > start ? this.loud + 1 : Math.max(0, this.loud - 2);
      this.floor.add(Math.min(level, this.frame < 20 ? -40 : 0));
      if (this.loud >= 6) {
        this.first = Math.max(0, this.frame - this.loud - 4);
        this.last = this.frame;
        this.heard = this.loud;
        this.peak = level;
        this.paused = false;
        this.recent = [];
        events.push({ type: 'started', at: (this.first * FRAME) / SAMPLE_RATE });
      }
    } else {
      this.peak = level > this.peak ? this.peak + (level - this.peak) * 0.3 : this.peak - 0.03;
      const drop = Math.min(15, Math.max(4, 0.35 * (this.peak - this.floor.level)));
      if (this.smooth > Math.max(this.floor.level + drop, QUIETEST + 6)) {
        this.loud += 1;
        // A lone spike of babble does not go on with the utterance; three frames in a row do.
        if (this.loud >= 3) {
          this.last = this.frame;
          this.heard += 1;
          this.recent = [];
          if (this.paused) { this.paused = false; events.push({ type: 'resumed' }); }
        }
      } else this.loud = 0;
      if (this.frame - this.last > 10) this.recent.push(level);
      const quiet = (this.frame - this.last) / FRAMES_PER_SECOND;
      if (!this.paused && quiet >= early) { this.paused = true; events.push({ type: 'pausing', stretch: this.stretch() }); }
      if (quiet >= hangOver || (this.frame - this.first) / FRAMES_PER_SECOND >= longest) this.end(events);
    }
    this.frame += 1;
  }

  private stretch(): Stretch {
    const from = Math.max(this.previousEnd, this.first * FRAME - Math.round(this.settings.lead * SAMPLE_RATE), 0);
    return { from, to: Math.min((this.frame + 1) * FRAME, (this.last + 1) * FRAME + Math.round(this.settings.tail * SAMPLE_RATE)) };
  }

  private end(events: Endpoint[]): void {
    const stretch = this.stretch();
    if (this.heard / FRAMES_PER_SECOND >= this.settings.shortest) events.push({ type: 'ended', stretch });
    // The quiet after the utterance belongs to the floor; a cut utterance was perhaps noise, and then it does too.
    for (const level of this.recent) this.floor.add(level);
    if (this.recent.length < 10) for (let i = 0; i < FRAMES_PER_SECOND; i += 1) this.floor.add(this.peak - 6);
    this.previousEnd = Math.min(stretch.to, this.frame * FRAME);
    this.first = -1;
    this.loud = 0;
  }
}
