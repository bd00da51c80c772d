import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/grammar';
import type { Decoder } from '../../src/recogniser/decoder';
import { denoise } from '../../src/recogniser/denoise';
import { FirstPass } from '../../src/recogniser/first-pass';
import { BINS } from '../../src/recogniser/spectrum';

const random = seededRandom(3);
const speech = Float32Array.from({ length: 50_000 }, () => random() - 0.5);
const still = new Float64Array(BINS);
const noisy = new Float64Array(BINS).fill(1);

/** Writes down what it is fed, one list of samples for each stream begun. */
function recorder(): { readonly decoder: Decoder; readonly streams: { readonly beginning: number; readonly fed: number[] }[] } {
  const streams: { beginning: number; fed: number[] }[] = [];
  const never = (): never => { throw new Error('not called by the first pass'); };
  return {
    streams,
    decoder: {
      setGrammar: () => {}, dispose: () => {}, decode: never, logMel: never,
      stream(beginning) {
        const own = { beginning: beginning.length, fed: [] as number[] };
        streams.push(own);
        return { feed: (audio) => { own.fed.push(...audio); }, words: () => [String(own.fed.length)], end: () => null };
      },
    },
  };
}

function speak(pass: FirstPass, noise: Float64Array, audio = speech, step = 777): void {
  for (let to = step; to < audio.length; to += step) pass.follow(audio.subarray(0, to), noise);
  pass.finish(audio, noise);
}

describe('the first pass', () => {
  it('searches every sample once, with the mean of the first 2 s, however the audio comes in', () => {
    for (const step of [160, 777, 30_000]) {
      const { decoder, streams } = recorder();
      speak(new FirstPass(decoder, 28), still, speech, step);
      expect(streams.at(-1)?.beginning).toBeGreaterThanOrEqual(32_000);
      expect(Float32Array.from(streams.at(-1)?.fed ?? [])).toEqual(speech);
    }
  });
  it('takes the mean of all of a short utterance', () => {
    const { decoder, streams } = recorder();
    speak(new FirstPass(decoder, 28), still, speech.subarray(0, 20_000));
    expect(streams.at(-1)).toMatchObject({ beginning: 20_000 });
  });
  it('turns noise down in pieces as in one', () => {
    const { decoder, streams } = recorder();
    speak(new FirstPass(decoder, 28), noisy);
    expect(Float32Array.from(streams.at(-1)?.fed ?? [])).toEqual(denoise(speech, noisy));
  });
  it('does not carry an utterance that came to nothing on into the next', () => {
    const { decoder, streams } = recorder();
    const pass = new FirstPass(decoder, 28);
    pass.follow(speech.subarray(0, 40_000), still);
    pass.drop();
    const next = speech.subarray(10_000);
    speak(pass, still, next);
    expect(Float32Array.from(streams.at(-1)?.fed ?? [])).toEqual(next);
  });
});
