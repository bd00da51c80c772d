import { lineOf } from '../anatomy/nerves';
import type { SegmentId } from '../anatomy/nerves';
import { SEGMENTS } from '../anatomy/nerves';
import type { Hypothesis } from '../hypotheses';
import type { Atom } from '../observation/units';
import { LESIONS } from './network';

export interface Pair {
  readonly first: number;
  readonly second: number;
  /** Chance that the rarer of the two brings the other with it, by one blow. */
  readonly link: number;
  /** Their joint chance as a multiple of what chance alone would give. */
  readonly together: number;
  /** How far each of them is the work of a blow. */
  readonly blow: readonly [number, number];
}

/** A second, unrelated lesion is this much rarer than chance would have it: two explanations are the last resort. A design choice. */
const UNRELATED = 0.25;
/** Two nerves compressed at once, or one at two places, are common enough not to be discouraged ("double crush", Upton & McComas, Lancet 1973 [memory]; how common is a design choice). */
const BOTH_COMPRESSED = 1;
const compressed = ({ kind, severity }: Hypothesis): boolean => kind === 'nerve' && severity[0] + severity[1] > 0.6;
/**
 * Injuries of one blow go together far more often than chance: the chance that the rarer of two lesions at one place brings the other
 * with it. In zone 2 about every second flexor cut takes a digital nerve too (common experience, no source). Design choices.
 */
const ONE_BLOW = { digit: 0.08, elsewhere: 0.015 } as const;

const isSegment = (id: string): id is SegmentId => Object.hasOwn(SEGMENTS, id);

/** Two lesions of one line explain no more than the upper one; two tendons that are an entry of their own together are that entry. */
function redundant(a: Hypothesis, b: Hypothesis): boolean {
  if (isSegment(a.id) && isSegment(b.id)) return lineOf(a.id).includes(b.id) || lineOf(b.id).includes(a.id);
  return a.kind === 'tendon' && b.kind === 'tendon' && (overlaps(a, b) || LESIONS.some(whole => whole.kind === 'tendon' && isBoth(whole, a, b)));
}
const atomsOf = ({ losses }: Hypothesis): readonly Atom[] => [...losses('usual').keys()];
const isBoth = (whole: Hypothesis, a: Hypothesis, b: Hypothesis): boolean => { const one = atomsOf(whole), two = [...atomsOf(a), ...atomsOf(b)]; return one.length === two.length && two.every(atom => one.includes(atom)); };

const overlaps = (a: Hypothesis, b: Hypothesis): boolean => atomsOf(a).some(atom => b.losses('usual').has(atom));

const ROOT_ORDER = ['root.C5', 'root.C6', 'root.C7', 'root.C8', 'root.T1'];
/** A root goes together with its neighbour or with a nerve compressed further down; a plexus lesion comes alone. */
function plausible(a: Hypothesis, b: Hypothesis): boolean {
  if (a.kind === 'plexus' || b.kind === 'plexus') return false;
  if (a.kind === 'root' && b.kind === 'root') return Math.abs(ROOT_ORDER.indexOf(a.id) - ROOT_ORDER.indexOf(b.id)) === 1;
  const [root, other] = a.kind === 'root' ? [a, b] : [b, a];
  return root.kind !== 'root' || (other.kind === 'nerve' && other.motorShare < 0.9);
}

/** How far a lesion is the work of a blow rather than of slow compression. */
const byBlow = ({ kind, severity }: Hypothesis): number => (kind === 'nerve' ? severity[3] + severity[2] : kind === 'tendon' || kind === 'vessel' || kind === 'bone' ? 1 : 0);

function linked(a: Hypothesis, b: Hypothesis): number {
  const shared = a.places.filter(place => b.places.includes(place));
  return shared.length === 0 ? 0 : shared.some(place => /^D\d$/.test(place)) ? ONE_BLOW.digit : ONE_BLOW.elsewhere;
}

/** Pairs of lesions that may be found together. */
export const PAIRS: readonly Pair[] = (() => {
  const able = LESIONS.flatMap((lesion, index) => (lesion.pairs ? [{ lesion, index }] : []));
  return able.flatMap(({ lesion: a, index: first }, at) => able.slice(at + 1).filter(({ lesion: b }) => plausible(a, b) && !redundant(a, b))
    .map(({ lesion: b, index: second }) => ({ first, second, link: linked(a, b), together: compressed(a) && compressed(b) ? BOTH_COMPRESSED : UNRELATED, blow: [byBlow(a), byBlow(b)] as const })));
})();

/** What is expected before anything is found. */
export interface Priors {
  /** Probability of each single explanation, in the order of LESIONS, given that there is no pair. */
  readonly single: readonly number[];
  /** Log probability of each pair, in the order of PAIRS. It discourages them unless one blow made both. */
  readonly logPair: Float64Array;
  /** Log probability that there is no pair. */
  readonly logOneLesion: number;
}

/** The priors for a place of use. @param weightOf relative weight of each single explanation, given its id and its usual weight; what is no weight counts as the usual one. */
export function priorsFor(weightOf: (id: string, usual: number) => number): Priors {
  const weights = LESIONS.map(({ id, prior }) => { const weight = weightOf(id, prior); return Number.isFinite(weight) && weight >= 0 ? weight : prior; });
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const single = total > 0 ? weights.map(weight => weight / total) : USUAL.single;
  const pair = PAIRS.map(({ first, second, link, together, blow }) => together * single[first]! * single[second]! + link * Math.min(single[first]! * blow[0], single[second]! * blow[1]));
  return { single, logPair: Float64Array.from(pair, Math.log), logOneLesion: Math.log(1 - pair.reduce((sum, p) => sum + p, 0)) };
}
export const USUAL: Priors = priorsFor((_, usual) => usual);
