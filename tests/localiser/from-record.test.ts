import { describe, expect, it } from 'vitest';
import { localise, localiseRecord } from '../../src/localiser';
import { project } from '../../src/record';
import type { Happening } from '../../src/record';
import { filed, log, setUp } from '../record/samples';
import { findingsOf } from './findings';

const findings = findingsOf('left', 'light.touch@D2.pulp = reduced', 'light.touch@D3.pulp = reduced', 'light.touch@D5.pulp = normal', 'power@APB = 3');
const begun: readonly Happening[] = [
  { type: 'begun', setUp: { ...setUp, onset: { value: 90, unit: 'd' } } },
  ...findings.flatMap((finding, at): Happening[] => [
    { type: 'heard', utterance: { id: `u${at}`, text: 'said', start: 0, end: 1, confidence: 0.95, verdict: 'accepted', words: [], alternatives: [], source: 'keyboard' }, statements: [] },
    { type: 'filed', findings: [filed(`f${at}`, finding, `u${at}`)] },
  ]),
];
const recordOf = (...more: readonly Happening[]) => project(log([...begun, ...more]));
const chance = (record: ReturnType<typeof recordOf>) => localiseRecord(record).sides.left!.ranked.find(({ id }) => id === 'median.carpal-tunnel')!.probability;

describe('localising an examination', () => {
  it('takes the findings that stand, the onset and the side complained of', () => {
    const { sides } = localiseRecord(recordOf());
    expect(sides).toEqual(localise(findings, { onset: { value: 90, unit: 'd' }, injuredSide: 'left' }).sides);
  });

  it('gives less weight to a finding whose utterance is in doubt, and the old weight once that is settled', () => {
    const doubt: Happening = { type: 'queried', utteranceId: 'u3', question: 'Another engine heard it otherwise.', options: [], gap: 'second opinion' };
    const sure = chance(recordOf());
    expect(chance(recordOf(doubt))).toBeLessThan(sure);
    expect(chance(recordOf(doubt, { type: 'answered', utteranceId: 'u3', option: null }))).toBeCloseTo(sure, 12);
  });
});
