import { bandPower, BINS, SIZE, Spectrum } from './spectrum';

/**
 * Cuts a stream into utterances by how far its power in the speech band stands out from the noise. Unlike a speech/non-speech
 * classifier it works when the noise is speech itself (a busy bay): what stands out is whoever is close to the microphone.
 * Power in one band told six-talker babble from near speech better than averages over mel bands did (90 against 78 % of speech
 * frames above 99 % of noise frames at 10 dB, tuning voices).
 */
export const SAMPLE_RATE = 16_000;
const FRAME = 160; // 10 ms
const FRAMES_PER_SECOND = SAMPLE_RATE / FRAME;

export interface EndpointerSettings {
  /** Seconds of quiet that end an utterance: longer than the pauses inside a spoken list. */
  readonly hangOver: number;
  /**
   * Seconds of quiet after which the utterance is probably over and may be decoded ahead of time: a head start of what is left of
   * hangOver. On the tuning voices speech went on after all, in quiet, pink noise at 10 dB and babble at 20 and 10 dB, in 0, 0, 1 and 6 %
   * of utterances at 0.3 s, 0, 8, 4 and 27 % at 0.25 s, 0, 46, 36 and 94 % at 0.2 s. Below `tail` the stretch would still change.
   */
  readonly early: number;
  /** Seconds of audio kept before the first and after the last loud frame. */
  readonly lead: number;
  readonly tail: number;
  /** How far power must stand out to start an utterance: in dB, and in spreads of the noise itself. */
  readonly rise: number;
  readonly spreads: number;
  /** Seconds after which an utterance is cut whatever happens. */
  readonly longest: number;
  /** Seconds of sound below which it is a click, not speech. */
  readonly shortest: number;
}

export const ENDPOINTER: EndpointerSettings = { hangOver: 0.65, early: 0.25, lead: 0.25, tail: 0.2, rise: 3, spreads: 2.2, longest: 20, shortest: 0.1 };

/** A stretch of the stream, in samples from its start, and the power spectrum of the noise it stands in. */
export interface Stretch { readonly from: number; readonly to: number; readonly noise: Float64Array }

export type Endpoint =
  | { readonly type: 'started'; readonly at: number }
  /** Quiet for a while: the utterance probably ends here. */
  | { readonly type: 'pausing'; readonly stretch: Stretch }
  | { readonly type: 'resumed' }
  | { readonly type: 'ended'; readonly stretch: Stretch };

/** Power of a very quiet room; quieter ones count as this. */
const QUIETEST = 1e-5;
const DELAY = 15; // frames
const MEMORY = 3 * FRAMES_PER_SECOND;
const quantile = (sorted: readonly number[], share: number): number => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;

/** What the noise does: its mean spectrum, and how far it stands out from itself by chance. */
class Noise {
  readonly power = new Float64Array(BINS).fill(1e-6);
  private readonly chance: number[] = [];
  private count = 0;
  private usual = 0;
  private spread = 1;

  private readonly waiting: { power: Float64Array; standsOut: number }[] = [];

  /** Takes a frame for noise, but only learns from it when nothing has begun 150 ms later: the onset of a word is not noise. */
  add(power: Float64Array, standsOut: number): void {
    this.waiting.push({ power: power.slice(), standsOut });
    const settled = this.waiting.length > DELAY ? this.waiting.shift() : this.count < DELAY ? { power, standsOut } : undefined;
    if (settled) this.learn(settled.power, settled.standsOut);
  }
  /** Something has begun: what waits is not noise. */
  drop(): void { this.waiting.length = 0; }

  private learn(power: Float64Array, standsOut: number): void {
    this.count += 1;
    const rate = Math.max(0.015, 1 / (this.count + 1));
    for (let k = 0; k < BINS; k += 1) this.power[k] = (this.power[k] ?? 0) + ((power[k] ?? 0) - (this.power[k] ?? 0)) * rate;
    if (this.count < 12) return; // the first frames only say how loud it is
    this.chance.push(standsOut);
    if (this.chance.length > MEMORY) this.chance.shift();
    if (this.count % 10) return;
    const sorted = [...this.chance].sort((x, y) => x - y);
    this.usual = quantile(sorted, 0.5);
    this.spread = Math.min(4, Math.max(0.4, quantile(sorted, 0.84) - this.usual));
  }
  /** Level that noise seldom reaches. */
  limit(rise: number, spreads: number): number { return this.usual + Math.max(rise, spreads * this.spread); }
  get middle(): number { return this.usual; }
  get inBand(): number { return Math.max(QUIETEST, bandPower(this.power)); }
}

/** Feed it samples; it answers with what happened. It keeps no audio but the last frame: stretches count samples from the stream's start. */
export class Endpointer {
  private readonly settings: EndpointerSettings;
  private readonly noise = new Noise();
  private readonly spectrum = new Spectrum();
  private readonly tail = new Float32Array(SIZE);
  private filled = 0;
  private frame = 0;
  private smooth = 0;
  private loud = 0; // recent frames above the limit, leaky
  private first = -1; // first frame of the utterance, -1 between utterances
  private last = -1; // last loud frame
  private heard = 0; // loud frames in the utterance
  private peak = 0;
  private paused = false;
  private previousEnd = 0;
  private noiseAtStart: Float64Array = new Float64Array(BINS);

  constructor(settings: EndpointerSettings = ENDPOINTER) { this.settings = settings; }

  /** What has been said so far of the utterance under way. */
  get soFar(): Stretch | null { return this.first < 0 ? null : this.stretch(); }
  /** First sample that may still be needed. */
  get keepFrom(): number { return Math.max(0, (this.first >= 0 ? this.first : this.frame - 40) * FRAME - this.settings.lead * SAMPLE_RATE); }

  push(audio: Float32Array): Endpoint[] {
    const events: Endpoint[] = [];
    for (let at = 0; at < audio.length;) {
      const take = Math.min(FRAME - this.filled, audio.length - at);
      this.tail.copyWithin(0, take);
      this.tail.set(audio.subarray(at, at + take), SIZE - take);
      this.filled += take;
      at += take;
      if (this.filled === FRAME) { this.filled = 0; this.step(events); }
    }
    return events;
  }

  /** The stream is over: ends the utterance under way. */
  finish(): Endpoint[] {
    const events: Endpoint[] = [];
    if (this.first >= 0) this.end(events);
    return events;
  }

  /** How far this frame stands out from the noise, in dB. */
  private measure(): number {
    this.spectrum.of(this.tail, 0);
    return 10 * Math.log10(Math.max(QUIETEST, bandPower(this.spectrum.power)) / this.noise.inBand);
  }

  private step(events: Endpoint[]): void {
    const { hangOver, early, rise, spreads, longest } = this.settings;
    const standsOut = this.measure();
    this.smooth += (standsOut - this.smooth) * 0.3;
    const digitalSilence = this.spectrum.power.every((power) => power < 1e-12);
    if (this.first < 0) {
      const limit = this.noise.limit(rise, spreads);
      // The smoothed level must stand out and the frame itself too, or a click would ring on.
      this.loud = this.frame > 12 && this.smooth > limit && standsOut > limit / 2 ? this.loud + 1 : Math.max(0, this.loud - 2);
      // Digital silence is a muted or missing microphone, not a quiet room: it teaches nothing about the noise.
      if (!digitalSilence) this.noise.add(this.spectrum.power, this.smooth);
      if (this.loud >= 7) {
        this.first = Math.max(0, this.frame - this.loud - 4);
        this.last = this.frame;
        this.heard = this.loud;
        this.peak = this.smooth;
        this.paused = false;
        this.noise.drop();
        this.noiseAtStart = this.noise.power.slice();
        events.push({ type: 'started', at: (this.first * FRAME) / SAMPLE_RATE });
      }
    } else {
      this.peak = Math.max(this.smooth, this.peak - 0.02);
      const above = this.noise.middle + Math.max(0.6 * (this.noise.limit(rise, spreads) - this.noise.middle), Math.min(8, 0.3 * (this.peak - this.noise.middle)));
      if (this.smooth > above) {
        this.loud += 1;
        // A lone spike of babble does not carry the utterance on; some frames in a row do.
        if (this.loud >= 4) {
          this.last = this.frame;
          this.heard += 1;
          this.noise.drop();
          if (this.paused) { this.paused = false; events.push({ type: 'resumed' }); }
        }
      } else {
        this.loud = 0;
        if (this.frame - this.last > 15 && !digitalSilence) this.noise.add(this.spectrum.power, this.smooth);
      }
      const quiet = (this.frame - this.last) / FRAMES_PER_SECOND;
      if (!this.paused && quiet >= early) { this.paused = true; events.push({ type: 'pausing', stretch: this.stretch() }); }
      if (quiet >= hangOver) this.end(events);
      else if ((this.frame - this.first) / FRAMES_PER_SECOND >= longest) {
        // Nobody speaks that long without a breath: the noise has changed, and this is what it sounds like now.
        for (let i = 0; i < FRAMES_PER_SECOND; i += 1) this.noise.add(this.spectrum.power, this.noise.middle);
        this.end(events);
      }
    }
    this.frame += 1;
  }

  private stretch(): Stretch {
    // A frame's spectrum looks back over SIZE samples, so what stands out began before the frame it shows in.
    const from = Math.max(this.previousEnd, this.first * FRAME - Math.round(this.settings.lead * SAMPLE_RATE), 0);
    return { from, to: Math.min((this.frame + 1) * FRAME, (this.last + 1) * FRAME + Math.round(this.settings.tail * SAMPLE_RATE)), noise: this.noiseAtStart };
  }

  private end(events: Endpoint[]): void {
    const stretch = this.stretch();
    if (this.heard / FRAMES_PER_SECOND >= this.settings.shortest) events.push({ type: 'ended', stretch });
    this.previousEnd = Math.min(stretch.to, this.frame * FRAME);
    this.first = -1;
    this.loud = 0;
    this.smooth = this.noise.middle;
  }
}
