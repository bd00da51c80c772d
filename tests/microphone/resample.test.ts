import { describe, expect, it } from 'vitest';
import { Resampler, resample } from '../../src/microphone/resample';

const tone = (hertz: number, rate: number, seconds = 1): Float32Array => Float32Array.from({ length: rate * seconds }, (_, i) => Math.sin((2 * Math.PI * hertz * i) / rate));
const rms = (samples: Float32Array): number => Math.sqrt(samples.reduce((sum, s) => sum + s * s, 0) / samples.length);

describe('resampling', () => {
  it.each([48_000, 44_100, 22_050, 8_000])('keeps a 1 kHz tone from %i Hz', (rate) => {
    const output = resample(tone(1_000, rate), rate, 16_000);
    const wanted = tone(1_000, 16_000);
    expect(output.length).toBe(16_000);
    const error = output.map((sample, i) => sample - (wanted[i] ?? 0)).subarray(500, -500);
    expect(20 * Math.log10(rms(error) / rms(wanted))).toBeLessThan(-40);
  });

  // Shannon 1949: what lies above half the new rate must go, or it comes back as another tone.
  it('takes out a 12 kHz tone on the way from 48 kHz to 16 kHz', () => {
    const output = resample(tone(12_000, 48_000), 48_000, 16_000).subarray(500, -500);
    expect(20 * Math.log10(rms(output) / Math.SQRT1_2)).toBeLessThan(-50);
  });

  it('gives the same whatever the chunks', () => {
    const input = tone(700, 44_100);
    const whole = new Resampler(44_100, 16_000).push(input);
    const chunked = new Resampler(44_100, 16_000);
    const parts: number[] = [];
    for (let at = 0; at < input.length; at += 333) parts.push(...chunked.push(input.subarray(at, at + 333)));
    expect(parts.length).toBe(whole.length);
    expect(Math.max(...parts.map((sample, i) => Math.abs(sample - (whole[i] ?? 0))))).toBeLessThan(1e-5);
  });
});
