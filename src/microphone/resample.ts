/** Zero crossings of the sinc on each side: enough that what folds back stays 60 dB down. */
const REACH = 16;

/** Windowed-sinc interpolation (Smith, "Digital Audio Resampling", ccrma.stanford.edu/~jos/resample), for any ratio and any chunk length. */
export class Resampler {
  private readonly step: number;
  private readonly cutoff: number;
  private readonly half: number;
  private readonly kernels = new Map<number, Float32Array>();
  private history = new Float32Array(0);
  private position: number; // of the next output sample, in input samples from history[0]

  /** @param from rate of the input in Hz @param to rate wanted in Hz */
  constructor(from: number, to: number) {
    this.step = from / to;
    // Just below the lower of both Nyquist rates, so that nothing folds back.
    this.cutoff = Math.min(1, to / from) * (from === to ? 1 : 0.95);
    this.half = Math.ceil(REACH / this.cutoff);
    this.position = this.half;
    this.history = new Float32Array(this.half); // silence before the stream
  }

  /** Takes a chunk and gives what can be computed so far. */
  push(input: Float32Array): Float32Array {
    if (this.step === 1) return input;
    const joined = new Float32Array(this.history.length + input.length);
    joined.set(this.history);
    joined.set(input, this.history.length);
    const count = Math.max(0, Math.ceil((joined.length - this.half - this.position) / this.step));
    const output = new Float32Array(count);
    for (let i = 0; i < count; i += 1) output[i] = this.at(joined, this.position + i * this.step);
    this.position += count * this.step;
    const drop = Math.max(0, Math.floor(this.position) - this.half);
    this.history = joined.slice(drop);
    this.position -= drop;
    return output;
  }

  private at(samples: Float32Array, position: number): number {
    const centre = Math.floor(position);
    const kernel = this.kernel(position - centre);
    const first = centre - this.half + 1;
    let sum = 0;
    for (let i = 0; i < kernel.length; i += 1) sum += (samples[first + i] ?? 0) * (kernel[i] ?? 0);
    return sum;
  }

  /** The filter for one position between two samples. Common rates meet only a few hundred positions, so each is computed once. */
  private kernel(fraction: number): Float32Array {
    const key = Math.round(fraction * 1e6);
    const known = this.kernels.get(key);
    if (known) return known;
    const kernel = Float32Array.from({ length: 2 * this.half }, (_, i) => {
      const distance = i - this.half + 1 - fraction;
      const x = Math.PI * distance * this.cutoff;
      const sinc = Math.abs(x) < 1e-9 ? 1 : Math.sin(x) / x;
      return this.cutoff * sinc * (0.5 + 0.5 * Math.cos((Math.PI * distance) / (this.half + 1)));
    });
    if (this.kernels.size < 2000) this.kernels.set(key, kernel);
    return kernel;
  }
}

/** Resamples a whole recording; the length is exactly scaled. */
export function resample(samples: Float32Array, from: number, to: number): Float32Array {
  if (from === to) return samples;
  const resampler = new Resampler(from, to);
  const length = Math.round((samples.length * to) / from);
  const output = new Float32Array(length);
  const padded = new Float32Array(samples.length + 64 * Math.ceil(Math.max(1, from / to)));
  padded.set(samples);
  output.set(resampler.push(padded).subarray(0, length));
  return output;
}
