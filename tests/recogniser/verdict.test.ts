import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { forRecorder, heardRight, judge, type Evidence } from '../../src/recogniser/verdict';

const clear: Evidence = { overLoop: 1, margin: 150, perToken: -1, frames: 250, spoken: 200, words: 6, snr: 40 };
const evidence = fc.record({ overLoop: fc.double({ min: -6, max: 3, noNaN: true }), margin: fc.option(fc.double({ min: 0, max: 400, noNaN: true })), perToken: fc.option(fc.double({ min: -12, max: 0, noNaN: true })), snr: fc.double({ min: -5, max: 60, noNaN: true }) })
  .map((part): Evidence => ({ ...clear, ...part }));

describe('the verdict', () => {
  it('accepts what both judges are sure of, asks about a close rival, ignores what fits nothing', () => {
    expect(judge(clear)).toMatchObject({ verdict: 'accepted' });
    expect(judge({ ...clear, margin: 5, perToken: -1.6, overLoop: -0.5 })).toMatchObject({ verdict: 'queried', why: 'Another reading sounds almost the same.' });
    expect(judge({ ...clear, overLoop: -1.2, perToken: -6.8, margin: 90 })).toMatchObject({ verdict: 'queried', why: 'Not heard clearly enough to be sure.' });
    expect(judge({ ...clear, overLoop: -3, perToken: -8 })).toMatchObject({ verdict: 'ignored' });
  });

  it('asks in loud noise where it would accept in quiet', () => {
    const unsure = { ...clear, margin: 40, perToken: -1.3, overLoop: -0.3 };
    expect(heardRight(unsure)).toBeGreaterThan(0.86);
    expect(heardRight(unsure)).toBeLessThan(0.93);
    expect([judge({ ...unsure, snr: 40 }).verdict, judge({ ...unsure, snr: 10 }).verdict]).toEqual(['accepted', 'queried']);
  });

  it('without the network keeps the stricter margin of the acoustic model alone', () => {
    expect(judge({ ...clear, perToken: null, margin: 37 }).verdict).toBe('queried');
    expect(judge({ ...clear, perToken: null, margin: 39 }).verdict).toBe('accepted');
  });

  it('never grows surer when the margin, the fit or the network\'s weight falls', () => {
    fc.assert(fc.property(evidence, fc.double({ min: 0, max: 5, noNaN: true }), (one, less) => {
      const worse = { ...one, overLoop: one.overLoop - less, perToken: one.perToken === null ? null : one.perToken - less, margin: one.margin === null ? 100 : Math.max(0, one.margin - 20 * less) };
      expect(heardRight(worse)).toBeLessThanOrEqual(heardRight(one) + 1e-12);
      expect(forRecorder(worse)).toBeLessThanOrEqual(forRecorder(one) + 1e-12);
      for (const each of [one, worse]) expect(judge(each).confidence).toBeGreaterThanOrEqual(0);
    }));
  });
});
