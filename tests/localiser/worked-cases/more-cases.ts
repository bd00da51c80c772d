/**
 * Worked cases from named textbook and paper patterns, written without sight of the localiser, to check it from
 * outside. The structure, level and deciding features come from the source named in each case; the grades, times and
 * the choice of which items were examined are illustrative inputs made up to fit that pattern (where a paper gives
 * grades they are used). All patients are invented or published anonymously. `tag` says whether the deciding pattern
 * was compared with the source. The cases support testing of software; they are no clinical advice.
 */
import type { WorkedCase } from './case';
import { MEDIAN_CASES } from './median-cases';
import { BOTH_HANDS_CASES, FEW_FINDINGS_CASES, NORMAL_CASES, ONE_WRONG_CASES, PAIR_CASES, UNFITTING_CASES, VARIANT_CASES } from './mixed-cases';
import { RADIAL_CASES, ROOT_CASES } from './radial-root-cases';
import { OTHER_STRUCTURE_CASES, TENDON_CASES } from './tendon-cases';
import { ULNAR_CASES } from './ulnar-cases';

export const MORE_CASES: readonly WorkedCase[] = [
  ...MEDIAN_CASES, ...ULNAR_CASES, ...RADIAL_CASES, ...ROOT_CASES, ...TENDON_CASES, ...OTHER_STRUCTURE_CASES,
  ...PAIR_CASES, ...VARIANT_CASES, ...BOTH_HANDS_CASES, ...NORMAL_CASES, ...ONE_WRONG_CASES, ...FEW_FINDINGS_CASES, ...UNFITTING_CASES,
];
