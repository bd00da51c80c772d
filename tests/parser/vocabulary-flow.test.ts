import { expect, it } from 'vitest';
import { meaning } from '../../src/examination/meaning';
import { localise } from '../../src/localiser';
import { SIGNS, SIGN_CODES, SITES, checkFinding, findingInWords, type Finding, type Level, type Result, type SiteCode } from '../../src/vocabulary';
import { parse } from './say';

const siteCodes = Object.keys(SITES) as SiteCode[];
/** One finding for each sign at a site of every kind that it may be about, and at every site of its kinds in turn. */
const findings: Finding[] = SIGN_CODES.flatMap((sign) => {
  const { kinds, levels, units, grade } = SIGNS[sign];
  const results: Result[] = [...levels.map((level: Level): Result => ({ kind: 'level', level })), ...(grade ? [{ kind: 'grade', grade: '3' } as const] : []), ...(units ?? []).map((unit): Result => ({ kind: 'quantity', quantity: { value: 3, unit } }))];
  return siteCodes.filter((site) => kinds.includes(SITES[site].kind)).map((site, index): Finding => ({ side: 'left', sign, site, result: results[index % results.length]! }));
});

it('every sign at every site it may be about is sound, has words and a default meaning', () => {
  for (const finding of findings) {
    expect(checkFinding(finding), findingInWords(finding)).toEqual([]);
    expect(findingInWords(finding)).toMatch(/^Left · .+: ./);
    expect(['normal', 'abnormal', 'unclear']).toContain(meaning(finding));
  }
});

it('what the localiser does not know is no evidence for it, and never stops it', () => {
  const unknown: Finding[] = [
    { side: 'left', sign: 'summary.neurovascular', site: 'hand', result: { kind: 'level', level: 'normal' } },
    { side: 'left', sign: 'summary.nerve', site: 'nerve.median', result: { kind: 'level', level: 'normal' } },
    { side: 'left', sign: 'summary.motor', site: 'hand', result: { kind: 'level', level: 'normal' } },
    { side: 'left', sign: 'power', site: 'intrinsics', result: { kind: 'grade', grade: '3' } },
    { side: 'left', sign: 'monofilament', site: 'D2.pulp', result: { kind: 'quantity', quantity: { value: 2.83, unit: '{filament}' } } },
    { side: 'left', sign: 'range', site: 'D2.PIP', result: { kind: 'quantity', quantity: { value: 20, to: 90, unit: 'deg' } } },
  ];
  for (const finding of unknown) expect(() => localise([finding]), findingInWords(finding)).not.toThrow();
  // One finding of each sign is enough to see that none stops it.
  const each = SIGN_CODES.map((sign) => findings.find((finding) => finding.sign === sign)!);
  for (const finding of each) expect(() => localise([finding]), findingInWords(finding)).not.toThrow();
});

it('a summary stands for itself and not for the items that it leaves unnamed', () => {
  const [statement] = parse('left hand neurovascularly intact', { findings: [] });
  expect(statement).toMatchObject({ type: 'findings', findings: [{ sign: 'summary.neurovascular', site: 'hand' }] });
  expect(statement?.type === 'findings' && statement.findings.length).toBe(1);
});
