import { describe, expect, it } from 'vitest';
import { checkFinding, findingInWords, itemKey, type Finding } from '../../../src/vocabulary';
import type { Structure } from './case';
import { ANATOMY_FACTS } from '../anatomy-facts';
import { MORE_CASES } from './more-cases';

const structures = (expected: Structure | readonly Structure[]): readonly Structure[] => (typeof expected === 'string' ? [expected] : expected);
const named = new Set(MORE_CASES.flatMap(({ expect: { structure } }) => structures(structure)));

/** A fingertip belongs to the nerve of both its halves. */
const halves = (site: string): string[] => (/^D[1-5]\.pulp$/.test(site) ? [`${site.slice(0, 2)}r`, `${site.slice(0, 2)}u`] : [site]);
const abnormal = ({ sign, result }: Finding): boolean => (sign === 'power' || sign === 'light.touch')
  && (result.kind === 'grade' ? result.grade !== '5' : result.kind === 'level' && result.level !== 'normal');
/** Cases that depart from the table on purpose: a variant, or one finding falsified. */
const DEPARTS = /^(VAR|ERR)-/;

describe('the worked cases', () => {
  it('are at least 70, each with its own id', () => {
    expect(MORE_CASES.length).toBeGreaterThanOrEqual(70);
    expect(new Set(MORE_CASES.map(({ id }) => id)).size).toBe(MORE_CASES.length);
  });

  it.each(MORE_CASES)('$id: $title — says what was found in coded terms, once each', ({ findings, expect: { side } }) => {
    expect(findings.flatMap((finding) => checkFinding(finding).map((fault) => `${findingInWords(finding)}: ${fault}`))).toEqual([]);
    const keys = findings.map((finding) => `${finding.side} ${itemKey(finding)}`);
    expect(new Set(keys).size, keys.filter((key, i) => keys.indexOf(key) !== i).join()).toBe(keys.length);
    const sides = new Set(findings.map((finding) => finding.side));
    expect(side === 'both' ? sides.size === 2 : sides.has(side)).toBe(true);
  });

  it.each(MORE_CASES)('$id names its source and what decides', ({ source, decides, expect: { structure, also = [] } }) => {
    expect(source.trim().length).toBeGreaterThan(5);
    expect(decides.trim().length).toBeGreaterThan(10);
    const answers = [structure, ...also].map((answer) => [...structures(answer)].sort().join('+'));
    expect(new Set(answers).size).toBe(answers.length);
  });

  it('never show a deficit where the level table of their own answer spares it', () => {
    const wrong = MORE_CASES.filter(({ id }) => !DEPARTS.test(id)).flatMap(({ id, findings, expect: { structure, side } }) => {
      const row = ANATOMY_FACTS.find((fact) => fact.kind === 'level' && fact.level === structure);
      if (row?.kind !== 'level') return [];
      const spared: readonly string[] = row.spared;
      return findings.filter((finding) => (side === 'both' || finding.side === side) && abnormal(finding) && [finding.site, ...halves(finding.site)].some((site) => spared.includes(site)))
        .map((finding) => `${id} (${row.level}) ${findingInWords(finding)}`);
    });
    expect(wrong).toEqual([]);
  });

  it('reach every row of the level tables of the three nerves, the roots C6 to T1, the lower trunk and the medial cord', () => {
    const rows: Structure[] = ['ML1', 'ML2', 'ML3', 'ML4', 'ML5', 'ML6', 'ML8', 'UL1', 'UL2', 'UL4', 'UL5', 'UL6', 'UL7', 'UL8',
      'RL1', 'RL2', 'RL3', 'RL4', 'RL5a', 'RL5b', 'RL6', 'RT6', 'RT7', 'RT8', 'RT1', 'LT', 'MCd', 'C24', 'normal', 'none of these'];
    expect(rows.filter((row) => !named.has(row))).toEqual([]);
  });

  it('examine left and right about equally often, and include short records', () => {
    const count = (side: string): number => MORE_CASES.filter((worked) => worked.expect.side === side).length;
    expect(Math.abs(count('left') - count('right'))).toBeLessThan(MORE_CASES.length / 4);
    expect(MORE_CASES.filter(({ findings }) => findings.length <= 8).length).toBeGreaterThanOrEqual(15);
  });
});
