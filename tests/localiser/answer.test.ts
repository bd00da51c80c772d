import { describe, expect, it } from 'vitest';
import { LOCALISATION_CAUTION, localise } from '../../src/localiser';
import { gather } from '../../src/localiser/inference/evidence';
import { predictiveP, upperTail } from '../../src/localiser/inference/fit';
import { LESION_INDEX, configurationAt } from '../../src/localiser/inference/network';
import { priorsFor } from '../../src/localiser/inference/pairs';
import { posterior, weigh } from '../../src/localiser/inference/posterior';
import type { Finding, Side } from '../../src/vocabulary';
import { itemKey } from '../../src/vocabulary';
import { seeded } from '../bench/localiser/random';
import { findingsOf } from './findings';

const carpalTunnel = (side: Side) => findingsOf(side, 'light.touch@D2.pulp = reduced', 'light.touch@D3.pulp = reduced', 'light.touch@D5.pulp = normal', 'light.touch@PTH = normal', 'power@APB = 3', 'power@FPL = 5', 'power@FDP2 = 5', 'phalen@wrist = present');
const healthy = (side: Side) => findingsOf(side, 'light.touch@D2.pulp = normal', 'light.touch@D3.pulp = normal', 'light.touch@D5.pulp = normal', 'power@APB = 5', 'power@FPL = 5', 'phalen@wrist = absent');

describe('what would tell apart', () => {
  it('names the test that separates what the findings cannot: thenar base skin, above or below the palmar cutaneous branch (Wheeless [checked])', () => {
    const { cannotTellApart, wouldTellApart, sides } = localise(findingsOf('left', 'laceration@wrist.volar = present', 'power@APB = 0', 'power@OP = 0', 'light.touch@D2.pulp = absent', 'power@FPL = 5', 'power@FDP2 = 5', 'light.touch@D5.pulp = normal'));
    expect(cannotTellApart).toEqual(expect.arrayContaining(['median.forearm', 'median.carpal-tunnel']));
    expect(['light.touch@PTH', 'pinprick@PTH']).toContain(wouldTellApart[0]!.item);
    expect(wouldTellApart[0]!.separates).toEqual(expect.arrayContaining(['median.forearm', 'median.carpal-tunnel']));
    expect(sides.left!.words).toMatch(/Not told apart from: .*thenar base/s);
  });

  it('says nothing of it when one explanation stands alone', () => {
    const { cannotTellApart, wouldTellApart } = localise(carpalTunnel('right'));
    expect(cannotTellApart).toEqual([]);
    expect(wouldTellApart).toEqual([]);
  });
});

describe('left against right', () => {
  it('tells which hand, and which findings differ', () => {
    const { comparison } = localise([...carpalTunnel('left'), ...healthy('right')]);
    const { leftOnly, rightOnly, both, neither, differing, words } = comparison!;
    expect(leftOnly + rightOnly + both + neither).toBeCloseTo(1, 9);
    expect(leftOnly).toBeGreaterThan(0.5);
    expect(differing.map(({ item }) => item)).toEqual(expect.arrayContaining(['power@APB', 'light.touch@D2.pulp', 'phalen@wrist']));
    expect(differing.every(({ worse }) => worse === 'left')).toBe(true);
    expect(differing.find(({ item }) => item === 'power@APB')!.words).toBe('power, abductor pollicis brevis: left grade 3, right grade 5');
    expect(words).toMatch(/^A lesion in only the left hand: \d+ %\. Found differently: /);
  });

  it('says when both hands are alike, and is silent about a hand that was not examined', () => {
    const both = localise([...carpalTunnel('left'), ...carpalTunnel('right')]).comparison!;
    expect(both.both).toBeGreaterThan(0.8);
    expect(both.differing).toEqual([]);
    expect(both.alike.map(({ item }) => item)).toContain('power@APB');
    expect(localise(carpalTunnel('left')).comparison).toBeUndefined();
    expect(localise(carpalTunnel('left'), { injuredSide: 'both' }).comparison).toBeUndefined();
    expect(localise([...findingsOf('left', 'power@APB = 3'), ...findingsOf('right', 'power@DI1 = 3')]).comparison!.words).toContain('Nothing was examined on both sides.');
  });
});

describe('how common explanations are where this is used', () => {
  const findings = findingsOf('right', 'power@DI1 = 2', 'power@ADM = 2', 'light.touch@D5u = reduced', 'power@APB = 5');
  const chance = (id: string, howCommon?: (id: string, usual: number) => number) => localise(findings, howCommon ? { howCommon } : {}).sides.right!.ranked.find(one => one.id === id)?.probability ?? 0;

  it('moves the answer, and excludes what is never met', () => {
    expect(chance('ulnar.guyon', (id, usual) => (id === 'ulnar.guyon' ? 20 * usual : usual))).toBeGreaterThan(chance('ulnar.guyon'));
    expect(chance('ulnar.elbow', (id, usual) => (id === 'ulnar.elbow' ? 0 : usual))).toBe(0);
    expect(chance('ulnar.elbow')).toBeGreaterThan(0);
  });

  it('takes what is no weight for the usual one', () => {
    for (const nonsense of [Number.NaN, -1, Infinity, 'often' as unknown as number]) expect(chance('ulnar.elbow', () => nonsense)).toBeCloseTo(chance('ulnar.elbow'), 12);
    expect(chance('ulnar.elbow', () => 0)).toBeCloseTo(chance('ulnar.elbow'), 12);
  });
});

describe('does any explanation fit?', () => {
  it('upper tail of the normal distribution: 0.5, 0.0249979, 0.00134990, 0.841345 (Abramowitz & Stegun 1964, table 26.1 [from memory])', () => {
    for (const [z, p] of [[0, 0.5], [1.96, 0.0249979], [3, 0.0013499], [-1, 0.8413447]] as const) expect(upperTail(z)).toBeCloseTo(p, 6);
  });

  /** Findings drawn from what the network itself expects of one explanation. */
  function replicate(id: string, items: readonly string[], random: ReturnType<typeof seeded>): readonly Finding[] {
    const evidence = gather(findingsOf('right', ...items), undefined);
    const configuration = configurationAt(0, LESION_INDEX.get(id)!, 3);
    return evidence.map(({ table, observations }) => {
      const state = random.weighted([0, 1, 2, 3].map(at => table.rows[configuration * 4 + at]!));
      const { finding, reading } = observations[0]!;
      const grades = Object.keys(reading.instrument.outcomes);
      const outcome = grades[random.weighted(grades.map(name => reading.instrument.outcomes[name]![state]!))]!;
      return { ...finding, result: reading.instrument.name === 'power' ? { kind: 'grade', grade: outcome as '0' } : { kind: 'level', level: outcome as 'normal' } };
    });
  }

  it('findings made by an explanation are seldom called improbable under it', () => {
    const items = ['power@APB = 5', 'power@OP = 5', 'power@FPL = 5', 'power@FDP2 = 5', 'power@DI1 = 5', 'power@ED = 5', 'light.touch@D2r = normal', 'light.touch@D3r = normal', 'light.touch@PTH = normal', 'light.touch@D5u = normal', 'light.touch@DR = normal', 'light.touch@FM = normal'];
    const random = seeded(9), n = 300;
    const ps = Array.from({ length: n }, () => { const weights = weigh(gather(replicate('median.carpal-tunnel', items, random), undefined), false); return predictiveP(weights, posterior([weights])[0]![0]!); });
    expect(ps.filter(p => p < 0.05).length / n).toBeLessThan(0.12);
    expect(ps.filter(p => p < 0.01).length / n).toBeLessThan(0.05);
    expect(ps.every(p => p >= 0 && p <= 1)).toBe(true);
  });

  it('an odd record says so and does not name the least bad; a usual one is not called odd', () => {
    const odd = localise(findingsOf('right', 'power@BR = 0', 'power@ADM = 0', 'power@FPL = 0', 'power@TRI = 5', 'power@ECRL = 5', 'power@ED = 5', 'power@DI1 = 5', 'power@ADP = 5', 'power@FDP2 = 5', 'power@FDP5 = 5', 'power@APB = 5', 'light.touch@D3r = absent', 'light.touch@D3u = normal', 'light.touch@FP = absent', 'light.touch@D5u = normal'));
    expect(odd.fit).toBe('poor');
    expect(odd.sides.right!.words).toMatch(/^Right: no single or double lesion of the list accounts for these findings\./);
    expect(localise(carpalTunnel('right')).fit).toBe('ok');
  });

  it('two lesions that explain everything together are no odd record', () => {
    const two = localise([...carpalTunnel('right'), ...findingsOf('right', 'power@DI1 = 2', 'power@ADM = 2', 'power@FDP5 = 3', 'light.touch@DU = reduced', 'light.touch@D5u = reduced', 'tinel@cubital.tunnel = present')].filter(({ site }) => site !== 'D5.pulp'));
    expect(two.sides.right!.ranked[0]!.id).toBe('median.carpal-tunnel+ulnar.elbow');
    expect(two.fit).toBe('ok');
  });
});

describe('two nerves compressed at once', () => {
  it('are named together when the signs of both are there, before a disease of all nerves in one hand (double crush, Upton & McComas 1973 [from memory])', () => {
    const { ranked } = localise(findingsOf('right', 'light.touch@D2.pulp = reduced', 'light.touch@D5.pulp = reduced', 'power@APB = 4', 'power@DI1 = 4', 'phalen@wrist = present', 'tinel@cubital.tunnel = present', 'light.touch@DU = reduced', 'light.touch@PTH = normal'), { onset: { value: 300, unit: 'd' } }).sides.right!;
    expect(ranked[0]!.id).toBe('median.carpal-tunnel+ulnar.elbow');
  });
});

describe('in words', () => {
  it('does not say "no lesion" of a hand in which something was found', () => {
    const { words } = localise(findingsOf('left', 'light.touch@FL = reduced', 'light.touch@DR = normal', 'light.touch@D1.pulp = normal', 'light.touch@FM = normal', 'power@BIC = 5', 'power@BR = 5', 'power@PT = 5', 'power@ECRL = 5')).sides.left!;
    expect(words).toMatch(/^Left: no lesion stands out \(\d+ %\)\. Left without a cause: light touch, lateral forearm: reduced\. Look again; if it holds, think first of lateral cutaneous nerve of the forearm/);
  });

  it('names at most three of the findings that the answer hangs on', () => {
    const { stability } = localise(findingsOf('right', 'power@FPL = 1', 'power@FDP2 = 5', 'power@PQ = 5', 'power@APB = 5', 'light.touch@D2r = normal', 'power@DI1 = 5', 'power@BR = 1', 'power@TRI = 5'));
    expect(stability.words.split(';').length).toBeLessThanOrEqual(4);
  });

  it('never speaks of a healthy hand as if all of it had been examined', () => {
    expect(localise(healthy('right')).sides.right!.words).toMatch(/^Right: no lesion found in what was examined\./);
  });
});

describe('the caution', () => {
  it.each<[string, readonly unknown[], object]>([
    ['an ordinary record', carpalTunnel('left'), {}], ['both hands', [...carpalTunnel('left'), ...healthy('right')], {}], ['an empty record', [], {}], ['nonsense', [null, 7, {}, { side: 'left', sign: 'power', site: 'APB', result: { kind: 'grade', grade: '9' } }], {}],
    ['no list', undefined as unknown as [], {}], ['a record without evidence', findingsOf('left', 'nail.change@D2.nail = present'), {}], ['an onset that is none', carpalTunnel('left'), { onset: { value: -3, unit: 'd' } }], ['a contradiction', [...carpalTunnel('left'), ...findingsOf('left', 'power@APB = 5')], {}],
  ])('stands on the answer to %s: support, no diagnosis; local protocols and licensed practice decide', (_, findings, options) => {
    const { caution } = localise(findings as Finding[], options);
    expect(caution).toBe(LOCALISATION_CAUTION);
    expect(caution).toMatch(/does not diagnose/);
    expect(caution).toMatch(/local protocols.*licensed practice/);
  });
});

describe('live use', () => {
  it('answers anew after every finding, and from the same findings always the same', () => {
    const findings = carpalTunnel('right');
    const answers = findings.map((_, at) => localise(findings.slice(0, at + 1)));
    expect(answers.map(({ sides }) => sides.right!.ranked[0]?.id ?? 'none').at(-1)).toBe('median.carpal-tunnel');
    expect(new Set(answers.map(({ sides }) => JSON.stringify(sides.right!.ranked.map(({ id, probability }) => [id, probability])))).size).toBe(findings.length);
    expect(JSON.stringify(localise(findings))).toBe(JSON.stringify(answers.at(-1)));
  });

  it('proposes nothing that was just found', () => {
    const findings = carpalTunnel('right').slice(0, 3);
    const { nextTests } = localise(findings);
    for (const { item } of nextTests) expect(findings.map(itemKey)).not.toContain(item);
  });
});

describe('priors', () => {
  it('add up to one, pairs included', () => {
    for (const { single, logPair, logOneLesion } of [priorsFor((_, usual) => usual), priorsFor(() => 1)]) {
      expect(single.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 9);
      expect(logPair.reduce((sum, log) => sum + Math.exp(log), 0) + Math.exp(logOneLesion)).toBeCloseTo(1, 9);
    }
  });
});
