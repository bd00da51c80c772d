import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { localise } from '../../src/localiser';
import type { Side } from '../../src/vocabulary';
import { checkFinding, itemKey } from '../../src/vocabulary';
import { answerName, expectedName } from './worked-cases/answers';
import type { WorkedCase } from './worked-cases/case';
import { CORE_CASES } from './worked-cases/core-cases';

const MORE = './worked-cases/more-cases.ts';
const more: { MORE_CASES?: readonly WorkedCase[] } = existsSync(new URL(MORE, import.meta.url)) ? await import(/* @vite-ignore */ MORE) : {};
const CASES: readonly WorkedCase[] = [...CORE_CASES, ...(more.MORE_CASES ?? [])];

/** Place of the expected answer among the explanations of its side, from 1; the first of several accepted answers counts. */
function placeOf({ findings, onset, expect: { structure, also = [], side } }: WorkedCase): number {
  const accepted = [structure, ...also].map(expectedName);
  const { sides } = localise(findings, onset ? { onset } : {});
  const asked: readonly Side[] = side === 'both' ? ['left', 'right'] : [side];
  return Math.max(...asked.map(at => {
    const found = (sides[at]?.ranked ?? []).findIndex(({ id }) => accepted.includes(answerName(id)));
    return found < 0 ? Infinity : found + 1;
  }));
}

const places = CASES.map(worked => ({ id: worked.id, place: placeOf(worked) }));

describe('worked cases from textbooks and papers', () => {
  it.each(CASES)('$id $title: the findings are sound, the source is named and the answer is among the first three', worked => {
    expect(worked.findings.flatMap(checkFinding)).toEqual([]);
    expect(worked.source).not.toBe('');
    expect(placeOf(worked)).toBeLessThanOrEqual(3);
  });

  it('puts the right structure and level first in at least 95 % of them', () => {
    const missed = places.filter(({ place }) => place !== 1).map(({ id, place }) => `${id} (${place})`);
    expect(missed.length / places.length, `not first: ${missed.join(', ')}`).toBeLessThanOrEqual(0.05);
  });

  it.each([
    ['H01', ['light.touch@PTH', 'power@FPL', 'power@FDP2']], ['H02', ['power@FPL', 'power@FDP2']], ['H07', ['power@APB', 'power@FPL', 'light.touch@FM']], ['H08', ['light.touch@DU', 'power@FDP5']],
    ['H10', ['power@ADM']], ['H13', ['power@TRI', 'light.touch@AP']], ['H15', ['power@BR', 'power@ECRL', 'light.touch@DR']], ['H17', ['two.point@D2u']], ['H20', ['light.touch@FM']], ['H24', ['power@FDP2', 'power@PQ']], ['H25', ['light.touch@D3r']],
  ])('%s quotes what decides: the spared structures that the source names', (id, items) => {
    const { findings, expect: { side } } = CORE_CASES.find(worked => worked.id === id)!;
    const [first] = localise(findings).sides[side as Side]!.ranked;
    expect(first!.spared.map(({ finding }) => itemKey(finding))).toEqual(expect.arrayContaining(items));
  });
});
