import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/grammar';
import { denoise } from '../../src/recogniser/denoise';
import { Endpointer, SAMPLE_RATE, type Stretch } from '../../src/recogniser/endpointer';

/** White noise, and bursts of a buzz with syllables: enough to stand for a voice here; real speech is in the clip tests. */
function scene(seconds: number, noise: number, spoken: readonly (readonly [number, number])[], level = 0.2): Float32Array {
  const random = seededRandom(5);
  return Float32Array.from({ length: seconds * SAMPLE_RATE }, (_, i) => {
    const t = i / SAMPLE_RATE;
    const on = spoken.some(([from, to]) => t >= from && t < to);
    const buzz = on ? (Math.sin(2 * Math.PI * 140 * t) + Math.sin(2 * Math.PI * 420 * t) + Math.sin(2 * Math.PI * 980 * t)) * (0.6 + 0.4 * Math.sin(2 * Math.PI * 5 * t)) : 0;
    return noise * (random() * 2 - 1) + (level * buzz) / 3;
  });
}

function cut(audio: Float32Array, chunk = 1000): Stretch[] {
  const endpointer = new Endpointer();
  const stretches: Stretch[] = [];
  const keep = (events: ReturnType<Endpointer['push']>): void => { for (const event of events) if (event.type === 'ended') stretches.push(event.stretch); };
  for (let at = 0; at < audio.length; at += chunk) keep(endpointer.push(audio.subarray(at, at + chunk)));
  keep(endpointer.finish());
  return stretches;
}
const inSeconds = ({ from, to }: Stretch): [number, number] => [from / SAMPLE_RATE, to / SAMPLE_RATE];

describe('endpointing', () => {
  it.each([['a quiet room', 0.0005], ['a noisy room', 0.04]])('cuts two utterances out of %s', (_, noise) => {
    const stretches = cut(scene(8, noise, [[1.5, 3], [5, 6]])).map(inSeconds);
    expect(stretches).toHaveLength(2);
    expect(stretches[0]?.[0]).toBeGreaterThan(1);
    expect(stretches[0]?.[0]).toBeLessThan(1.55);
    expect(stretches[0]?.[1]).toBeGreaterThan(2.95);
    expect(stretches[0]?.[1]).toBeLessThan(3.5);
  });
  it('keeps a list with pauses of 0.4 s together', () => expect(cut(scene(8, 0.002, [[1.5, 2.2], [2.6, 3.3], [3.7, 4.4]]))).toHaveLength(1));
  it('hears nothing in steady noise', () => expect(cut(scene(10, 0.05, []))).toHaveLength(0));
  it('hears nothing in digital silence', () => expect(cut(new Float32Array(5 * SAMPLE_RATE))).toHaveLength(0));
  it('does not take a click for speech', () => {
    const audio = scene(4, 0.001, []);
    audio.fill(0.9, 2 * SAMPLE_RATE, 2 * SAMPLE_RATE + 80);
    expect(cut(audio)).toHaveLength(0);
  });
  it('gives the same stretches whatever the chunks', () => {
    const audio = scene(6, 0.01, [[1.5, 3]]);
    expect(cut(audio, 37).map(inSeconds)).toEqual(cut(audio, 16_000).map(inSeconds));
  });
  it('delivers what was being said when the stream ends', () => expect(cut(scene(3, 0.002, [[1.5, 3]]))).toHaveLength(1));
});

describe('noise suppression', () => {
  it('turns steady noise down by 6 dB or more and leaves the voice within 2 dB', () => {
    const spoken: [number, number] = [1.5, 3];
    const noisy = scene(4, 0.05, [spoken]);
    const [stretch] = cut(noisy);
    if (!stretch) throw new Error('nothing was cut out');
    const power = (audio: Float32Array, from: number, to: number): number => { let sum = 0; for (let i = from; i < to; i += 1) sum += (audio[i] ?? 0) ** 2; return 10 * Math.log10(sum / (to - from)); };
    const clean = denoise(noisy, stretch.noise);
    const [start, end] = [1.6 * SAMPLE_RATE, 2.9 * SAMPLE_RATE];
    expect(power(noisy, 0.5 * SAMPLE_RATE, SAMPLE_RATE) - power(clean, 0.5 * SAMPLE_RATE, SAMPLE_RATE)).toBeGreaterThan(6);
    expect(Math.abs(power(noisy, start, end) - power(clean, start, end))).toBeLessThan(2);
  });
});
