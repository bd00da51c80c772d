import { BINS, SIZE, Spectrum, WINDOW } from './spectrum';

/** How far noise is turned down at most (amplitude): more would cut into soft consonants. */
const LEAST_GAIN = 0.12;
const HOP = SIZE / 2;
/** A priori signal-to-noise ratio of speech where there is speech (15 dB) and smoothing, after Gerkmann and Hendriks, IEEE TASLP 20(4):1383-1393, 2012. */
const SPEECH_SNR = 10 ** 1.5;
const DECISION = 0.97;

/** Exponential integral E1 for x > 0 (Abramowitz and Stegun 5.1.53 and 5.1.56). */
function e1(x: number): number {
  if (x < 1) return -Math.log(x) - 0.57721566 + x * (0.99999193 + x * (-0.24991055 + x * (0.05519968 + x * (-0.00976004 + x * 0.00107857))));
  const top = x * (x * (x * (x + 8.5733287401) + 18.059016973) + 8.6347608925) + 0.2677737343;
  const bottom = x * (x * (x * (x + 9.5733223454) + 25.6329561486) + 21.0996530827) + 3.9584969228;
  return (Math.exp(-x) / x) * (top / bottom);
}

/** Gain by a posteriori (g) and a priori (x) ratio: log-spectral amplitude estimator, Ephraim and Malah, IEEE TASSP 33(2):443-445, 1985. */
function gain(x: number, g: number): number {
  const ratio = x / (1 + x);
  return Math.min(1, ratio * Math.exp(0.5 * e1(Math.max(1e-6, ratio * g))));
}

/** Turns steady noise down in audio that comes in pieces (16 kHz mono). */
export class Denoiser {
  private readonly spectrum = new Spectrum();
  private readonly floor: Float64Array;
  private readonly before = new Float64Array(BINS).fill(1); // squared gain times a posteriori ratio of the last frame
  private readonly presence = new Float64Array(BINS).fill(0.5);
  private waiting = new Float32Array(HOP); // input from the start of the next frame on; before the audio there is silence
  private overlap = new Float32Array(SIZE); // output from there on, as far as frames have added to it
  private due = -HOP; // number of the sample that comes out next

  /** @param noise power spectrum of the noise before the utterance, as Spectrum gives it; it is followed on from there */
  constructor(noise: Float64Array) { this.floor = Float64Array.from(noise, (power) => Math.max(power, 1e-7)); }

  /** Takes more audio; returns what is finished, about 30 ms behind. */
  push(audio: Float32Array): Float32Array {
    const input = new Float32Array(this.waiting.length + audio.length);
    input.set(this.waiting);
    input.set(audio, this.waiting.length);
    const frames = Math.max(0, Math.floor((input.length - SIZE) / HOP) + 1);
    const output = new Float32Array(frames * HOP);
    for (let frame = 0; frame < frames; frame += 1) {
      this.add(input, frame * HOP);
      output.set(this.overlap.subarray(0, HOP), frame * HOP);
      this.overlap.copyWithin(0, HOP);
      this.overlap.fill(0, SIZE - HOP);
    }
    this.waiting = input.slice(frames * HOP);
    const early = Math.min(output.length, Math.max(0, -this.due));
    this.due += output.length;
    return output.subarray(early);
  }

  /** The rest, once no more audio comes. */
  finish(): Float32Array {
    const rest = this.waiting.length - Math.max(0, -this.due);
    return this.push(new Float32Array(SIZE)).subarray(0, rest);
  }

  /** Adds one cleaned frame of the input to what comes out. */
  private add(input: Float32Array, at: number): void {
    const { spectrum, floor, before, presence } = this;
    spectrum.of(input, at);
    for (let k = 0; k < BINS; k += 1) {
      const power = spectrum.power[k] ?? 0;
      const level = floor[k] ?? 1e-7;
      const posterior = Math.min(1e4, power / level);
      const prior = Math.max(0.003, DECISION * (before[k] ?? 0) + (1 - DECISION) * Math.max(0, posterior - 1));
      const g = Math.max(LEAST_GAIN, gain(prior, posterior));
      before[k] = g * g * posterior;
      const speech = 1 / (1 + (1 + SPEECH_SNR) * Math.exp((-posterior * SPEECH_SNR) / (1 + SPEECH_SNR)));
      presence[k] = 0.9 * (presence[k] ?? 0.5) + 0.1 * speech;
      const likely = (presence[k] ?? 0) > 0.99 ? Math.min(0.99, speech) : speech;
      floor[k] = 0.85 * level + 0.15 * (likely * level + (1 - likely) * power);
      spectrum.bins[2 * k] = (spectrum.bins[2 * k] ?? 0) * g;
      spectrum.bins[2 * k + 1] = (spectrum.bins[2 * k + 1] ?? 0) * g;
    }
    const back = spectrum.back();
    for (let i = 0; i < SIZE; i += 1) this.overlap[i] = (this.overlap[i] ?? 0) + (back[2 * i] ?? 0) * (WINDOW[i] ?? 0);
  }
}

/**
 * Turns steady noise down in a whole utterance.
 * @param audio 16 kHz mono
 * @param noise power spectrum of the noise before it, as Spectrum gives it
 */
export function denoise(audio: Float32Array, noise: Float64Array): Float32Array {
  const denoiser = new Denoiser(noise);
  const output = new Float32Array(audio.length);
  const first = denoiser.push(audio);
  output.set(first);
  output.set(denoiser.finish(), first.length);
  return output;
}
