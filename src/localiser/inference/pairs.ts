import { lineOf } from '../anatomy/nerves';
import type { SegmentId } from '../anatomy/nerves';
import { SEGMENTS } from '../anatomy/nerves';
import type { Hypothesis } from '../hypotheses';
import { LESIONS, PRIORS } from './network';

export interface Pair { readonly first: number; readonly second: number; readonly logPrior: number }

/** Prior probability that a hand has two lesions of the list, and how much likelier two at one place are than two anywhere. Design choices. */
const TWO_LESIONS = 0.05;
const SAME_PLACE = 15;

const isSegment = (id: string): id is SegmentId => Object.hasOwn(SEGMENTS, id);

/** Two lesions of one line explain no more than the upper one; two of the same tendon set have an entry of their own. */
function redundant(a: Hypothesis, b: Hypothesis): boolean {
  if (isSegment(a.id) && isSegment(b.id)) return lineOf(a.id).includes(b.id) || lineOf(b.id).includes(a.id);
  if (a.kind === 'plexus' && b.kind === 'plexus') return true;
  if ((a.kind === 'plexus' && b.kind === 'root') || (a.kind === 'root' && b.kind === 'plexus')) return true;
  return a.kind === 'tendon' && b.kind === 'tendon' && overlaps(a, b);
}

const overlaps = (a: Hypothesis, b: Hypothesis): boolean => [...a.losses('usual').keys()].some(atom => b.losses('usual').has(atom));

/** Injuries of one blow lie together: in one digit, or at one level. */
const together = (a: Hypothesis, b: Hypothesis): boolean => a.place === b.place;

/** Pairs of lesions with their prior, which discourages them. */
export const PAIRS: readonly Pair[] = (() => {
  const able = LESIONS.flatMap((lesion, index) => (lesion.pairs ? [{ lesion, index }] : []));
  const weighted = able.flatMap(({ lesion: a, index: first }, at) => able.slice(at + 1).filter(({ lesion: b }) => !redundant(a, b))
    .map(({ lesion: b, index: second }) => ({ first, second, weight: PRIORS[first]! * PRIORS[second]! * (together(a, b) ? SAME_PLACE : 1) })));
  const total = weighted.reduce((sum, { weight }) => sum + weight, 0);
  return weighted.map(({ first, second, weight }) => ({ first, second, logPrior: Math.log((TWO_LESIONS * weight) / total) }));
})();
export const LOG_ONE_LESION = Math.log(1 - TWO_LESIONS);
