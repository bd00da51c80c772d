import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LOCALISATION_CAUTION, PROPOSABLE, localise } from '../../src/localiser';
import type { Finding, Side } from '../../src/vocabulary';
import { SITES, SIGNS, checkFinding, itemKey, otherSide } from '../../src/vocabulary';
import { partsOf } from '../../src/localiser/observation/reading';
import { CORE_CASES } from './worked-cases/core-cases';
import { anyRecord, findingsOf } from './findings';

const carpalTunnel = (side: Side) => findingsOf(side, 'light.touch@D2.pulp = reduced', 'light.touch@D3.pulp = reduced', 'light.touch@D5.pulp = normal', 'light.touch@PTH = normal', 'power@APB = 3', 'power@FPL = 5', 'power@FDP2 = 5', 'phalen@wrist = present');
const top = (findings: readonly Finding[], side: Side) => localise(findings).sides[side]!.ranked;
const numbers = (value: unknown): number[] => (typeof value === 'number' ? [value] : Array.isArray(value) ? value.flatMap(numbers) : typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbers) : []);

describe('what comes out', () => {
  it('names structure, level and side in plain words, with what speaks for it and what it spares', () => {
    const { ranked, fit, caution, sides } = localise(carpalTunnel('left'), { onset: { value: 90, unit: 'd' } });
    const [first] = ranked;
    expect(first).toMatchObject({ id: 'median.carpal-tunnel', structure: 'median nerve', side: 'left', kind: 'nerve' });
    expect(first!.words).toMatch(/^Left: median nerve at the wrist or carpal tunnel/);
    expect(first!.for.map(({ finding }) => itemKey(finding))).toContain('light.touch@D2.pulp');
    expect(first!.spared.map(({ finding }) => itemKey(finding))).toEqual(expect.arrayContaining(['light.touch@PTH', 'power@FPL']));
    expect(fit).toBe('ok');
    expect(sides.left!.words).toContain('Probability');
    expect(caution).toBe(LOCALISATION_CAUTION);
  });

  it('gives the probabilities of one side so that they never exceed 1 together', () => {
    fc.assert(fc.property(anyRecord('right'), findings => {
      const { sides } = localise(findings);
      expect(sides.right!.ranked.reduce((sum, { probability }) => sum + probability, 0)).toBeLessThanOrEqual(1 + 1e-9);
    }), { numRuns: 25 });
  });

  it('says what it cannot tell apart and proposes tests that separate it, skipping what is done or not testable', () => {
    const findings = findingsOf('right', 'power@DI1 = 2', 'power@ADM = 2', 'light.touch@D5u = reduced', 'power@APB = 5');
    const done: Finding = { side: 'right', sign: 'power', site: 'FDP5', result: { kind: 'not testable', reason: 'splint' } };
    const { cannotTellApart, nextTests } = localise([...findings, done], { skip: [{ side: 'right', item: 'light.touch@FM' }] });
    expect(cannotTellApart.length).toBeGreaterThan(1);
    const proposed = nextTests.map(({ item }) => item);
    expect(proposed).toContain('light.touch@DU'); // above or below the dorsal branch: Botte 1990 [checked]
    for (const gone of ['power@FDP5', 'light.touch@FM', 'power@DI1', 'power@ADM']) expect(proposed).not.toContain(gone);
    for (const { gain, value } of nextTests) { expect(gain).toBeGreaterThan(0); expect(value).toBeGreaterThan(0); }
  });

  it('proposes only what the caller allows', () => {
    const { nextTests } = localise(carpalTunnel('right'), { candidates: ['light.touch@DU', 'power@PT'] });
    expect(nextTests.every(({ item }) => item === 'light.touch@DU' || item === 'power@PT')).toBe(true);
  });

  it('proposes only items of the vocabulary', () => {
    for (const item of PROPOSABLE) {
      const { sign, site } = partsOf(item);
      expect(Object.hasOwn(SIGNS, sign) && Object.hasOwn(SITES, site), item).toBe(true);
      expect(checkFinding({ side: 'left', sign, site, result: { kind: 'level', level: SIGNS[sign].levels[0]! } }), item).toEqual([]); // it may be answered as proposed
    }
  });

  it('tells on which finding the first place hangs', () => {
    const { stability } = localise(findingsOf('right', 'light.touch@D2r = reduced', 'light.touch@D3r = reduced', 'power@APB = 3', 'light.touch@PTH = reduced', 'power@FPL = 5', 'power@FDP2 = 5'));
    expect(stability.stable).toBe(false);
    expect(stability.hangsOn.map(itemKey)).toContain('light.touch@PTH'); // the palmar cutaneous branch decides between forearm and carpal tunnel: Wheeless [checked]
    expect(localise(CORE_CASES.find(({ id }) => id === 'H13')!.findings).stability.stable).toBe(true);
  });

  it('lets time since onset speak: wasting at once is odd, wasting after a year is not', () => {
    const findings = findingsOf('right', 'wasting@thenar = absent', 'power@APB = 0', 'light.touch@D2.pulp = absent', 'light.touch@PTH = normal');
    const completeAt = (days: number) => localise(findings, { onset: { value: days, unit: 'd' } }).sides.right!.ranked.find(({ id }) => id === 'median.carpal-tunnel')!.probability;
    expect(completeAt(1)).toBeGreaterThan(completeAt(365));
  });
});

describe('each hand for itself', () => {
  it('mirrors: the other side gives the same answer there', () => {
    fc.assert(fc.property(anyRecord('right'), findings => {
      const mirrored = findings.map(finding => ({ ...finding, side: otherSide(finding.side) }));
      const ids = (side: Side, list: readonly Finding[]) => top(list, side).map(({ id, probability }) => [id, probability.toFixed(9)]);
      expect(ids('left', mirrored)).toEqual(ids('right', findings));
    }), { numRuns: 25 });
  });

  it('order of findings never matters', () => {
    fc.assert(fc.property(anyRecord('right').chain(findings => fc.tuple(fc.constant(findings), fc.shuffledSubarray(findings, { minLength: findings.length }))), ([one, other]) => {
      expect(top(other, 'right')).toEqual(top(one, 'right'));
    }), { numRuns: 25 });
  });

  it('an irrelevant normal finding never changes the order of the first two', () => {
    for (const { id, findings, expect: { side } } of CORE_CASES) {
      if (side === 'both') continue;
      const before = top(findings, side).slice(0, 2).map(lesion => lesion.id);
      // Knuckle creases and nails speak about nothing that the first two lesions differ in.
      const irrelevant: Finding[] = [{ side, sign: 'nail.change', site: 'D2.nail', result: { kind: 'level', level: 'absent' } }, { side, sign: 'nodes.heberden', site: 'DIPs', result: { kind: 'level', level: 'absent' } }];
      expect(top([...findings, ...irrelevant], side).slice(0, 2).map(lesion => lesion.id), id).toEqual(before);
    }
  });

  it('a finding on one hand leaves the other hand without a lesion', () => {
    const { sides, ranked } = localise([...carpalTunnel('left'), ...findingsOf('right', 'light.touch@D2.pulp = normal', 'light.touch@D5.pulp = normal', 'light.touch@DR = normal', 'power@APB = 5', 'power@DI1 = 5', 'power@EPL = 5')], { injuredSide: 'left' });
    expect(sides.left!.ranked[0]!.id).toBe('median.carpal-tunnel');
    expect(sides.right!.ranked[0]!.id).toBe('normal');
    expect(ranked[0]).toMatchObject({ side: 'left', id: 'median.carpal-tunnel' });
  });

  it('two hands with carpal tunnel syndrome are two lesions, not a polyneuropathy', () => {
    const { sides } = localise([...carpalTunnel('left'), ...carpalTunnel('right')]);
    for (const side of ['left', 'right'] as const) expect(sides[side]!.ranked[0]!.id).toBe('median.carpal-tunnel');
  });
});

describe('bad input gets a clear answer', () => {
  const bad = (...findings: readonly unknown[]) => localise(findings as Finding[]);

  it.each([
    ['nothing at all', []],
    ['a finding that is not testable', [{ side: 'left', sign: 'power', site: 'APB', result: { kind: 'not testable', reason: 'pain' } }]],
    ['a sign the localiser knows nothing about', findingsOf('left', 'nail.change@D2.nail = present')],
  ])('%s: too little, and no name', (_, findings) => {
    const { fit, ranked } = localise(findings as Finding[]);
    expect(fit).toBe('too little');
    expect(ranked).toEqual([]);
  });

  it('an unknown code, an impossible grade, no side, no result, no object: left out and named', () => {
    const { problems, fit } = bad({ side: 'left', sign: 'power', site: 'XYZ', result: { kind: 'grade', grade: '5' } }, { side: 'left', sign: 'power', site: 'APB', result: { kind: 'grade', grade: '7' } }, { side: 'middle', sign: 'power', site: 'APB', result: { kind: 'grade', grade: '3' } }, { side: 'left', sign: 'power', site: 'APB' }, null, 5, {});
    expect(problems).toHaveLength(7);
    expect(problems.join(' ')).toMatch(/XYZ.*"7" is not an MRC grade.*say left or right/s);
    expect(fit).toBe('too little');
  });

  it('a list that is none, an onset that is no time', () => {
    expect(localise(undefined as unknown as Finding[]).problems).toEqual(['The findings are not a list.']);
    expect(localise([], { onset: { value: Number.NaN, unit: 'd' } }).problems).toHaveLength(1);
    expect(localise([], { onset: { value: 3, unit: 'kg' } }).problems[0]).toContain('not a time');
  });

  it('a contradiction is said, counts half, and keeps the order-independence', () => {
    const findings = [...carpalTunnel('right'), ...findingsOf('right', 'power@APB = 5')];
    const { problems } = localise(findings);
    expect(problems.join()).toMatch(/Contradiction: .*abductor pollicis brevis/);
    expect(top([...findings].reverse(), 'right')).toEqual(top(findings, 'right'));
  });

  it('the same finding twice counts once', () => {
    expect(top([...carpalTunnel('right'), ...carpalTunnel('right')], 'right')).toEqual(top(carpalTunnel('right'), 'right'));
  });

  it('findings that follow no anatomy: says so instead of naming the least bad', () => {
    const odd = findingsOf('right', 'power@BR = 0', 'power@ADM = 0', 'power@FPL = 0', 'power@TRI = 5', 'power@ECRL = 5', 'power@ED = 5', 'power@DI1 = 5', 'power@ADP = 5', 'power@FDP2 = 5', 'power@FDP5 = 5', 'power@APB = 5', 'power@PT = 0', 'light.touch@D3r = absent', 'light.touch@D3u = normal', 'light.touch@FP = absent', 'light.touch@D5u = normal', 'light.touch@DR = normal');
    expect(localise(odd).sides.right!.fit).toBe('poor');
  });

  it('queried findings carry less', () => {
    const findings = carpalTunnel('right');
    const sure = top(findings, 'right')[0]!.probability;
    const unsure = localise(findings, { trust: () => 0.3 }).sides.right!.ranked.find(({ id }) => id === 'median.carpal-tunnel')!.probability;
    expect(unsure).toBeLessThan(sure);
  });

  it('never gives a number that is none, whatever comes', () => {
    fc.assert(fc.property(anyRecord('right', 40), anyRecord('left', 10), (one, other) => {
      expect(numbers(localise([...one, ...other])).every(Number.isFinite)).toBe(true);
    }), { numRuns: 25 });
  });
});
