import FFT from 'fft.js';

/** Short-time power spectra of 16 kHz audio: 32 ms frames under a square-root Hann window, so that frames added back at half overlap give the signal again. */
export const SIZE = 512;
export const BINS = SIZE / 2 + 1;
export const WINDOW = Float32Array.from({ length: SIZE }, (_, i) => Math.sqrt(0.5 - 0.5 * Math.cos((2 * Math.PI * i) / SIZE)));

export class Spectrum {
  private readonly fft = new FFT(SIZE);
  private readonly input = new Array<number>(SIZE).fill(0);
  /** Interleaved real and imaginary parts of all SIZE bins. */
  readonly bins: number[] = this.fft.createComplexArray();
  readonly power = new Float64Array(BINS);

  /** Transforms SIZE samples from `at`; what lies outside counts as silence. */
  of(samples: Float32Array, at: number): void {
    for (let i = 0; i < SIZE; i += 1) this.input[i] = (samples[at + i] ?? 0) * (WINDOW[i] ?? 0);
    this.fft.realTransform(this.bins, this.input);
    for (let k = 0; k < BINS; k += 1) this.power[k] = (this.bins[2 * k] ?? 0) ** 2 + (this.bins[2 * k + 1] ?? 0) ** 2;
  }

  /** The windowed signal that the (changed) bins stand for. */
  back(): number[] {
    this.fft.completeSpectrum(this.bins);
    const out = this.fft.createComplexArray();
    this.fft.inverseTransform(out, this.bins);
    return out;
  }
}

/** 150 to 5500 Hz, where speech is. */
export const SPEECH_BINS = { from: Math.round((150 * SIZE) / 16_000), to: Math.round((5_500 * SIZE) / 16_000) } as const;

/** Power in the speech band of one spectrum. */
export function bandPower(power: Float64Array): number {
  let sum = 0;
  for (let k = SPEECH_BINS.from; k < SPEECH_BINS.to; k += 1) sum += power[k] ?? 0;
  return sum;
}

/** Power in the speech band, frame after frame (32 ms apart). */
export function framePower(audio: Float32Array): number[] {
  const spectrum = new Spectrum();
  const powers: number[] = [];
  for (let at = 0; at + SIZE <= audio.length; at += SIZE) {
    spectrum.of(audio, at);
    powers.push(bandPower(spectrum.power));
  }
  return powers;
}

/** Power of the louder half of a stretch over that of the noise before it, in dB. */
export function snrOf(audio: Float32Array, noise: Float64Array): number {
  const powers = framePower(audio).sort((a, b) => b - a);
  const loud = powers.slice(0, Math.max(1, powers.length >> 1));
  return 10 * Math.log10((loud.reduce((sum, power) => sum + power, 0) / loud.length + 1e-9) / (bandPower(noise) + 1e-9));
}
