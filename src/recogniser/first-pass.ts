import type { SpokenGrammar } from '../grammar';
import type { Decoder, Path, Stream } from './decoder';
import { Denoiser } from './denoise';
import { snrOf } from './spectrum';

/**
 * Samples of an utterance whose mean cepstrum is good enough for all of it. Exact sentences on the tuning voices, in quiet, pink noise
 * at 10 dB and babble at 20 dB, with the mean of the first
 *   0.8 s 34, 33, 35;   1.2 s 36, 32, 35;   1.6 s 37, 32, 36;   the whole utterance 37, 31, 36 (of 40 each)
 *   1.6 s 57, 51, 49;   2.0 s 57, 52, 49;   2.4 s 57, 51, 49;   the whole utterance 57, 50, 49 (of 60 others each)
 */
const ENOUGH = 2 * 16_000;
/** Samples that are enough to show words by, until there are more. */
const ENOUGH_TO_SHOW = 0.8 * 16_000;

/** An utterance under way: its search, and what turns down its noise if that is needed. */
interface Under { readonly stream: Stream; readonly denoiser: Denoiser | null; readonly begun: number; fed: number }

/**
 * Finds the best sentence of the grammar while it is being spoken, so that at its end little is left to do, and what it sounds
 * like so far can be shown for nothing.
 */
export class FirstPass {
  private readonly decoder: Decoder;
  private readonly denoiseBelow: number;
  private under: Under | null = null;

  /** @param denoiseBelow signal-to-noise ratio in dB below which steady noise is turned down */
  constructor(decoder: Decoder, denoiseBelow: number) {
    this.decoder = decoder;
    this.denoiseBelow = denoiseBelow;
  }

  setGrammar(grammar: SpokenGrammar): void {
    this.drop();
    this.decoder.setGrammar(grammar);
  }

  /** Forgets the utterance under way: what comes next is another. */
  drop(): void { this.under = null; }

  /** Takes an utterance as far as it has been spoken, from its beginning; returns its words so far. */
  follow(audio: Float32Array, noise: Float64Array): string[] {
    if (audio.length < ENOUGH_TO_SHOW) return [];
    if (!this.under || (this.under.begun < ENOUGH && audio.length >= ENOUGH)) this.under = this.begin(audio, noise);
    this.feed(this.under, audio);
    return this.under.stream.words();
  }

  /** The best sentence of a whole utterance, of which some may have been followed. */
  finish(audio: Float32Array, noise: Float64Array): Path | null {
    const under = this.under && this.under.begun >= ENOUGH ? this.under : this.begin(audio, noise);
    this.drop();
    this.feed(under, audio);
    if (under.denoiser) under.stream.feed(under.denoiser.finish());
    return under.stream.end();
  }

  dispose(): void { this.decoder.dispose(); }

  private begin(audio: Float32Array, noise: Float64Array): Under {
    const noisy = snrOf(audio, noise) < this.denoiseBelow;
    const denoiser = noisy ? new Denoiser(noise) : null;
    const beginning = denoiser ? denoiser.push(audio) : audio;
    const stream = this.decoder.stream(beginning);
    stream.feed(beginning);
    return { stream, denoiser, begun: audio.length, fed: audio.length };
  }

  private feed(under: Under, audio: Float32Array): void {
    const more = audio.subarray(under.fed);
    under.fed += more.length;
    under.stream.feed(under.denoiser ? under.denoiser.push(more) : more);
  }
}
