import { describe, expect, it } from 'vitest';
import type { Candidate, Hearing } from '../../src/recogniser/listener';
import { NETWORK_SHARE, reading } from '../../src/recogniser/reading';
import type { Weight } from '../../src/recogniser/rescorer/rescorer';

const candidate = (text: string, overLoop: number): Candidate => ({
  text, overLoop, path: { score: overLoop, frames: 200, words: text.split(' ').map((word, i) => ({ word, from: i * 20, to: i * 20 + 20 })) },
});
function heard(...candidates: readonly Candidate[]): Hearing {
  const [first = candidate('', 0)] = candidates;
  return { path: first.path, candidates, alternatives: [], evidence: { overLoop: 0, margin: null, perToken: null, frames: 200, spoken: 100, words: 3, snr: 40 } };
}
/** A network that finds these sentences as probable as said, and everything else far less. */
const network = (totals: Readonly<Record<string, number>>) => {
  const asked: string[][] = [];
  const weigh = async (sentences: readonly string[]): Promise<Weight[]> => {
    asked.push([...sentences]);
    return sentences.map((sentence) => ({ total: totals[sentence] ?? -90, perToken: (totals[sentence] ?? -90) / 6 }));
  };
  return { weigh, asked };
};
const none = (): Candidate[] => [];

describe('two judges of one stretch', () => {
  it('agree: what was heard stays, and the margin is that of both', async () => {
    const { evidence, candidates, alternatives } = await reading(heard(candidate('no wasting left', 10), candidate('no wasting right', -20)), { ...network({ 'no wasting left': -4, 'no wasting right': -9 }), around: none });
    expect(candidates[0]?.text).toBe('no wasting left');
    expect(evidence.margin).toBeCloseTo(30 + NETWORK_SHARE * 5);
    expect(evidence.perToken).toBeCloseTo(-4 / 6);
    expect(alternatives).toEqual([{ text: 'no wasting right', margin: (30 + NETWORK_SHARE * 5) / 200 }]);
  });

  it('differ: a candidate that the network finds far more probable takes the lead, with its own words and times', async () => {
    const { path, evidence, alternatives } = await reading(heard(candidate('middle tip left', 10), candidate('little finger tip left', 4)), { ...network({ 'middle tip left': -20, 'little finger tip left': -5 }), around: none });
    expect(path.words.map(({ word }) => word)).toEqual(['little', 'finger', 'tip', 'left']);
    expect(evidence).toMatchObject({ words: 4, spoken: 80, overLoop: 4 / 80 });
    expect(alternatives[0]?.text).toBe('middle tip left');
  });

  it('look around a new leader, which may have a better neighbour that the first one had not', async () => {
    const { weigh, asked } = network({ 'a b': -40, 'a c': -20, 'd c': -4 });
    const around = (text: string): Candidate[] => (text === 'a c' ? [candidate('a c', 8), candidate('d c', 9)] : []);
    const { candidates } = await reading(heard(candidate('a b', 10), candidate('a c', 8)), { weigh, around });
    expect(candidates[0]?.text).toBe('d c');
    // Nothing is weighed twice.
    expect(asked.flat().sort()).toEqual(['a b', 'a c', 'd c']);
  });

  it('take no rival for one that means the same', async () => {
    const { evidence, alternatives } = await reading(heard(candidate('left wrist', 10), candidate('on left wrist', 9)), { ...network({ 'left wrist': -4, 'on left wrist': -4 }), around: none, sameMeaning: () => true });
    expect(evidence.margin).toBeNull();
    expect(alternatives).toEqual([]);
  });

  it('fail loudly when the network weighs nothing', async () => {
    await expect(reading(heard(candidate('left wrist', 10)), { weigh: async () => [], around: none })).rejects.toThrow('weighed no candidate');
  });
});
