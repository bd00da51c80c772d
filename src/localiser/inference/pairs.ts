import { lineOf } from '../anatomy/nerves';
import type { SegmentId } from '../anatomy/nerves';
import { SEGMENTS } from '../anatomy/nerves';
import type { Hypothesis } from '../hypotheses';
import { LESIONS, PRIORS } from './network';

export interface Pair { readonly first: number; readonly second: number; readonly logPrior: number }

/** A second, unrelated lesion is this much rarer than chance would have it: two explanations are the last resort. A design choice. */
const UNRELATED = 0.25;
/**
 * Injuries of one blow go together far more often than chance: the chance that the rarer of two lesions at one place brings the other
 * with it. In zone 2 about every second flexor cut takes a digital nerve too (common experience, no source). Design choices.
 */
const ONE_BLOW = { digit: 0.08, elsewhere: 0.015 } as const;

const isSegment = (id: string): id is SegmentId => Object.hasOwn(SEGMENTS, id);

/** Two lesions of one line explain no more than the upper one; two of the same tendon set have an entry of their own. */
function redundant(a: Hypothesis, b: Hypothesis): boolean {
  if (isSegment(a.id) && isSegment(b.id)) return lineOf(a.id).includes(b.id) || lineOf(b.id).includes(a.id);
  return a.kind === 'tendon' && b.kind === 'tendon' && overlaps(a, b);
}

const overlaps = (a: Hypothesis, b: Hypothesis): boolean => [...a.losses('usual').keys()].some(atom => b.losses('usual').has(atom));

const ROOT_ORDER = ['root.C5', 'root.C6', 'root.C7', 'root.C8', 'root.T1'];
/** A root goes together with its neighbour or with a nerve compressed further down; a plexus lesion comes alone. */
function plausible(a: Hypothesis, b: Hypothesis): boolean {
  if (a.kind === 'plexus' || b.kind === 'plexus') return false;
  if (a.kind === 'root' && b.kind === 'root') return Math.abs(ROOT_ORDER.indexOf(a.id) - ROOT_ORDER.indexOf(b.id)) === 1;
  const [root, other] = a.kind === 'root' ? [a, b] : [b, a];
  return root.kind !== 'root' || (other.kind === 'nerve' && other.motorShare < 0.9);
}

/** How far a lesion is the work of a blow rather than of slow compression. */
const byBlow = ({ kind, severity }: Hypothesis): number => (kind === 'nerve' ? severity[3] + severity[2] : kind === 'tendon' || kind === 'vessel' ? 1 : 0);

function linked(a: Hypothesis, b: Hypothesis): number {
  const shared = a.places.filter(place => b.places.includes(place));
  return shared.length === 0 ? 0 : shared.some(place => /^D\d$/.test(place)) ? ONE_BLOW.digit : ONE_BLOW.elsewhere;
}

/** Pairs of lesions with their prior, which discourages them unless one blow made both. */
export const PAIRS: readonly Pair[] = (() => {
  const able = LESIONS.flatMap((lesion, index) => (lesion.pairs ? [{ lesion, index }] : []));
  return able.flatMap(({ lesion: a, index: first }, at) => able.slice(at + 1).filter(({ lesion: b }) => plausible(a, b) && !redundant(a, b)).map(({ lesion: b, index: second }) => ({
    first, second, logPrior: Math.log(UNRELATED * PRIORS[first]! * PRIORS[second]! + linked(a, b) * Math.min(PRIORS[first]! * byBlow(a), PRIORS[second]! * byBlow(b))),
  })));
})();
export const LOG_ONE_LESION = Math.log(1 - PAIRS.reduce((sum, { logPrior }) => sum + Math.exp(logPrior), 0));
