import { seededRandom } from '../../src/grammar';

/** Makes speech harder, always in the same way for the same seed. Audio is 16 kHz mono. */
type Random = () => number;
const gaussian = (random: Random): number => Math.sqrt(-2 * Math.log(random() + 1e-12)) * Math.cos(2 * Math.PI * random());
const power = (audio: Float32Array): number => audio.reduce((sum, sample) => sum + sample * sample, 0) / Math.max(1, audio.length);

/** Pink noise by three leaky sums (P. Kellet's economy filter, musicdsp.org, from memory); within 0.5 dB of 1/f over the speech band. */
export function pink(length: number, seed: number): Float32Array {
  const random = seededRandom(seed);
  let [a, b, c] = [0, 0, 0];
  return Float32Array.from({ length }, () => {
    const white = gaussian(random);
    a = 0.99765 * a + white * 0.099046;
    b = 0.963 * b + white * 0.2965164;
    c = 0.57 * c + white * 1.0526913;
    return a + b + c + white * 0.1848;
  });
}

/** Six people talking at once, cut together from other recordings. */
export function babble(length: number, talkers: readonly Float32Array[], seed: number): Float32Array {
  const random = seededRandom(seed);
  const sum = new Float32Array(length);
  for (let talker = 0; talker < 6; talker += 1)
    for (let at = -Math.floor(random() * 16_000); at < length;) {
      const speech = talkers[Math.floor(random() * talkers.length)] ?? new Float32Array(16_000);
      for (let i = Math.max(0, -at); i < speech.length && at + i < length; i += 1) sum[at + i] = (sum[at + i] ?? 0) + (speech[i] ?? 0);
      at += Math.max(8_000, speech.length - 12_000); // without the quiet end
    }
  return sum;
}

/** Adds noise at a signal-to-noise ratio in dB, taken over the spoken part (from, to: samples). */
export function addNoise(speech: Float32Array, noise: Float32Array, snr: number, from = 0, to = speech.length): Float32Array {
  const gain = Math.sqrt(power(speech.subarray(from, to)) / 10 ** (snr / 10) / power(noise));
  return speech.map((sample, i) => 0.7 * (sample + gain * (noise[i] ?? 0)));
}

/** A quiet room: one second of it before, and never digital silence. */
export function inQuietRoom(speech: Float32Array, seed: number): Float32Array {
  const random = seededRandom(seed);
  return Float32Array.from({ length: speech.length + 16_000 }, (_, i) => (speech[i - 16_000] ?? 0) + 0.0003 * gaussian(random));
}

/** Ten times too loud: a fifth or more of the peaks cut off. */
export const clipped = (speech: Float32Array): Float32Array => speech.map((sample) => Math.max(-1, Math.min(1, sample * 8)));

/** Two metres away in a hard-walled room: direct sound and exponentially decaying echoes (reverberation time 0.4 s). */
export function far(speech: Float32Array, seed: number): Float32Array {
  const random = seededRandom(seed);
  const length = 6_400;
  const echoes = Array.from({ length: 300 }, () => { const at = 80 + Math.floor(random() ** 1.5 * (length - 80)); return { at, gain: 0.12 * gaussian(random) * 10 ** ((-3 * at) / length) }; });
  return Float32Array.from(speech, (sample, i) => 0.5 * (sample + echoes.reduce((sum, { at, gain }) => sum + gain * (speech[i - at] ?? 0), 0)));
}
