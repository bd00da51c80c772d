import { describe, expect, it } from 'vitest';
import { checkFinding, DIGITS, findingInWords, itemKey, MRC_GRADES, MUSCLES, SENSORY_GRADES, SIGN_CODES, SIGNS, SITES, SKIN_AREAS, UNITS, type Finding } from '../../src/vocabulary';

const grade3: Finding = { side: 'left', sign: 'power', site: 'APB', result: { kind: 'grade', grade: '3' } };

describe('terms', () => {
  it('knows the MRC grades 0 to 5, plus and minus on 2 to 5 only (MRC Memorandum 45, 1976; the plus and minus: O\'Brien 2010, from memory)', () => {
    expect(MRC_GRADES.filter((grade) => /^\d$/.test(grade))).toEqual(['0', '1', '2', '3', '4', '5']);
    for (const wrong of ['6', '0+', '1-', '5+', 'five']) expect(MRC_GRADES).not.toContain(wrong);
  });

  it('knows the sensory grades S0 to S4 (Medical Research Council 1954: Cochrane review CD012574, PMC9728628; S1+, S2+ and S3+: Mackinnon & Dellon 1988, from memory)', () => {
    expect(SENSORY_GRADES.filter((grade) => /^S\d$/.test(grade))).toEqual(['S0', 'S1', 'S2', 'S3', 'S4']);
    expect(SENSORY_GRADES.filter((grade) => grade.endsWith('+'))).toEqual(['S1+', 'S2+', 'S3+']);
  });

  it('has three flexor and five extensor zones in the thumb, two and five in a finger (Kleinert & Verdan 1983; thumb flexors: RCEM learning module)', () => {
    const zones = (stem: string): number => Object.keys(SITES).filter((site) => new RegExp(`^${stem}\\d$`).test(site)).length;
    expect([zones('flexor.zoneT'), zones('extensor.zoneT'), zones('D2.flexor.zone'), zones('D2.extensor.zone'), zones('flexor.zone'), zones('extensor.zone')]).toEqual([3, 5, 2, 5, 5, 8]);
  });

  it('has UCUM codes for its units (ucum.org: mm, cm, s, min, h, d, deg, kg; an annotation in braces for what has none)', () => {
    expect([...UNITS].sort()).toEqual(['cm', 'd', 'deg', 'h', 'kg', 'min', 'mm', 's', '{filament}']);
  });

  it('has both sides of five digits (ten palmar digital nerves: Gray\'s Anatomy 2020, from memory)', () => {
    expect(SKIN_AREAS.filter((area) => /^D[1-5][ru]$/.test(area))).toHaveLength(10);
    expect(DIGITS).toHaveLength(5);
  });

  it('has four lumbricals, four dorsal and three palmar interossei (three-muscle count: Gray\'s Anatomy 2020, from memory)', () => {
    const count = (stem: string): number => MUSCLES.filter((muscle) => new RegExp(`^${stem}\\d$`).test(muscle)).length;
    expect([count('LUM'), count('DI'), count('PI'), count('FDS'), count('FDP')]).toEqual([4, 4, 3, 4, 4]);
  });

  it.each(SIGN_CODES)('%s may be found at its usual site with each of its levels', (sign) => {
    const entry = SIGNS[sign];
    const site = entry.site ?? (Object.keys(SITES) as (keyof typeof SITES)[]).find((code) => entry.kinds.includes(SITES[code].kind));
    expect(site, 'a sign that can be nowhere').toBeDefined();
    for (const level of entry.levels) expect(checkFinding({ side: 'right', sign, site: site!, result: { kind: 'level', level } })).toEqual([]);
  });
});

describe('checkFinding', () => {
  it('passes a sound finding', () => expect(checkFinding(grade3)).toEqual([]));

  const wrong: [string, unknown, RegExp][] = [
    ['no side', { ...grade3, side: undefined }, /Side/],
    ['both as a side', { ...grade3, side: 'both' }, /Side/],
    ['a site that does not exist', { ...grade3, site: 'tail' }, /Unknown site/],
    ['a sign that does not exist', { ...grade3, sign: 'mood' }, /Unknown sign/],
    ['a grade above 5', { ...grade3, result: { kind: 'grade', grade: '6' } }, /MRC grade/],
    ['a grade for a skin sign', { ...grade3, sign: 'light.touch', site: 'D2.pulp' }, /takes no power grade/],
    ['a place the sign is not examined at', { ...grade3, site: 'D2.pulp' }, /not examined at/],
    ['a level the sign cannot take', { ...grade3, result: { kind: 'level', level: 'pale' } }, /cannot be/],
    ['a unit the sign is not measured in', { side: 'left', sign: 'two.point', site: 'D2', result: { kind: 'quantity', quantity: { value: 4, unit: 'kg' } } }, /not measured in/],
    ['a measurement that is not a number', { side: 'left', sign: 'two.point', site: 'D2', result: { kind: 'quantity', quantity: { value: Number.NaN, unit: 'mm' } } }, /not a measurement/],
    ['an extent of what has none', { ...grade3, upTo: 'wrist' }, /does not reach/],
    ['an extent to where it began', { side: 'left', sign: 'scar', site: 'palm', upTo: 'palm', result: { kind: 'level', level: 'present' } }, /does not reach/],
    ['an extent to nowhere', { side: 'left', sign: 'scar', site: 'palm', upTo: 'tail', result: { kind: 'level', level: 'present' } }, /Unknown site/],
    ['no result', { side: 'left', sign: 'power', site: 'APB' }, /no result/],
    ['no reason', { ...grade3, result: { kind: 'not testable', reason: ' ' } }, /Say why/],
    ['an unknown qualifier', { ...grade3, qualifiers: ['odd'] }, /qualifier/],
  ];
  it.each(wrong)('names the fault: %s', (_, finding, message) => expect(checkFinding(finding as Finding).join(' ')).toMatch(message));
});

it('says a finding in one line that keeps side, place and grade', () => {
  expect(findingInWords({ ...grade3, qualifiers: ['painful'] })).toBe('Left · power, abductor pollicis brevis: grade 3 (painful)');
  expect(findingInWords({ side: 'right', sign: 'phalen', site: 'wrist', result: { kind: 'level', level: 'present' }, at: { value: 30, unit: 's' } })).toBe('Right · Phalen, wrist: positive (at 30 s)');
  expect(findingInWords({ side: 'left', sign: 'laceration', site: 'thenar', upTo: 'web2', result: { kind: 'quantity', quantity: { value: 3, unit: 'cm' } } })).toBe('Left · laceration, thenar eminence: 3 cm (up to the second web space)');
  expect(itemKey(grade3)).toBe('power@APB');
});
