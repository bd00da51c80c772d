import type { Finding } from '../../vocabulary';
import { findingInWords } from '../../vocabulary';
import type { SegmentId } from '../anatomy/nerves';
import { SEGMENTS } from '../anatomy/nerves';
import type { Evidence } from '../localisation';
import type { Observation, UnitEvidence } from './evidence';
import { combined, isNormal } from './evidence';
import type { Hypothesis } from '../hypotheses';
import type { Table } from './network';
import { CONFIGURATIONS, LESIONS, NORMAL, configurationAt } from './network';
import type { SideLikelihood, SideWeights, Weighted } from './posterior';
import { complaintFactor, complaintFactors, logSum, pairLikelihood, relativeTo, singleLikelihood, unitLikelihood } from './posterior';

/** Explanations followed when one finding is left out: enough to hold all that could come first without it. */
const FOLLOWED = 48;
const LEAST = 1e-6;

/** The side's explanations as they would be weighed without one observation. */
export interface Without {
  readonly observation: Observation;
  readonly normal: boolean;
  readonly logWeights: Float64Array;
  /** log P(the finding | an intact structure, the other findings of it). */
  readonly intact: number;
  readonly table: Table;
}

/** Explanations followed for evidence and stability. @param ranked most probable first. */
export const followed = (ranked: readonly Weighted[]): readonly Weighted[] => ranked.filter(({ probability }, rank) => rank < FOLLOWED && probability > LEAST);

/**
 * Takes each observation out in turn, exactly: P(finding | the other findings, explanation) is the ratio of the two weights.
 * @returns per observation the log weight of each followed explanation without it.
 */
export function leaveOneOut({ likelihood }: SideWeights, candidates: readonly Weighted[]): readonly Without[] {
  const lesions = new Set([NORMAL, ...candidates.flatMap(({ first, second }) => (second < 0 ? [first] : [first, second]))]);
  const needed = CONFIGURATIONS.flatMap(({ hypothesis }, index) => (lesions.has(hypothesis) ? [index] : []));
  const likelihoods = (side: SideLikelihood, without?: Observation) => {
    const relative = relativeTo(side.log, lesions);
    const complaint = complaintFactors(side.evidence, without);
    return candidates.map(({ first, second }) => complaintFactor(complaint, first, second) + (second < 0 ? singleLikelihood(side.log, first) : pairLikelihood(first, second, side, relative)));
  };
  const before = likelihoods(likelihood);
  const healthy = configurationAt(0, NORMAL, 0);
  return likelihood.evidence.flatMap((unit, at) => unit.observations.map(observation => {
    const side = withoutOne(likelihood, unit, at, observation, needed);
    const after = likelihoods(side, observation);
    return {
      observation, normal: isNormal(observation), logWeights: Float64Array.from(candidates, ({ logWeight }, i) => logWeight - before[i]! + after[i]!),
      table: unit.table, intact: Math.log(likelihood.perUnit[at]![healthy]! / side.perUnit[at]![healthy]!),
    };
  }));
}

/** The likelihoods without one observation, filled in for the needed configurations only. */
function withoutOne(side: SideLikelihood, unit: UnitEvidence, at: number, observation: Observation, needed: readonly number[]): SideLikelihood {
  const states = combined(unit, observation);
  const before = side.perUnit[at]!;
  const likelihood = new Float64Array(before.length);
  const log = new Float64Array(before.length);
  for (const c of needed) {
    likelihood[c] = unitLikelihood(unit.table, states, c);
    log[c] = side.log[c]! + Math.log(likelihood[c]! / before[c]!);
  }
  return { evidence: side.evidence, states: side.states.with(at, states), perUnit: side.perUnit.with(at, likelihood), log, touched: side.touched };
}

const BIT = Math.LN2;
/** Weaker than this is not worth saying: an abnormal finding against an intact structure, any finding against the other explanations. */
const SHOWS = 0.7, TELLS = 0.2, DECIDES = 0.05;
const LINES = 8;

/** Lesions of the same nerve, of other roots, or of a tendon's nerve: what one explanation has to be told from. */
const lines = LESIONS.map(lesion => (lesion.parts ?? [lesion]).flatMap(({ id, kind }) => (kind === 'root' ? ['roots'] : Object.hasOwn(SEGMENTS, id) ? [SEGMENTS[id as SegmentId].nerve] : [])));
const NEIGHBOURS: readonly (readonly number[])[] = LESIONS.map((lesion, at) => LESIONS.flatMap((other, index) => (index !== at && !other.parts && (lines[index]!.some(line => lines[at]!.includes(line)) || looksLike(lesion, other)) ? [index] : [])));
/** A cut tendon looks like a palsy of its muscle. */
function looksLike(tendon: Hypothesis, nerve: Hypothesis): boolean {
  return tendon.kind === 'tendon' && nerve.kind === 'nerve' && [...tendon.losses('usual').keys()].some(atom => nerve.losses('usual').has(atom));
}

/** How much more expected a normal finding is in an intact structure than with the neighbouring lesion that would touch it most, in bits; 0 where the explanation touches it itself. */
function tellsFromNeighbours({ first, second }: Weighted, { observation: { likelihood }, table }: Without): number {
  const own = second < 0 ? [first] : [first, second];
  if (own.some(lesion => table.touched[lesion] === 1)) return 0;
  const intact = unitLikelihood(table, likelihood, configurationAt(0, NORMAL, 0));
  const bits = own.flatMap(lesion => NEIGHBOURS[lesion]!).filter(lesion => table.touched[lesion] === 1)
    .map(lesion => Math.log(intact / LESIONS[lesion]!.severity.reduce((sum, p, s) => sum + p * unitLikelihood(table, likelihood, configurationAt(0, lesion, s)), 0)) / BIT);
  return Math.max(0, ...bits);
}

/**
 * What the findings say about one explanation. Abnormal findings speak for it by how much more expected they are than in an intact
 * hand; normal ones are spared structures that decide, by how much more expected they are than under all other explanations,
 * or than with the neighbouring lesion of the same line that would touch them, if that is more;
 * against it speaks what it expects less than an intact hand does, or leaves unexplained while others explain it. In bits, given the other findings.
 */
export function evidenceFor(index: number, candidates: readonly Weighted[], without: readonly Without[]): { for: Evidence[]; against: Evidence[]; spared: Evidence[] } {
  const now = candidates.map(({ logWeight }) => logWeight);
  const others = (weights: ArrayLike<number>) => logSum(Array.from({ length: weights.length }, (_, i) => (i === index ? -Infinity : weights[i]!)));
  const healthy = candidates[index]!.first === NORMAL && candidates[index]!.second < 0;
  const oddsNow = now[index]! - others(now);
  const all = without.map(left => {
    const { observation, normal, logWeights, intact } = left;
    const toOthers = candidates.length < 2 ? 0 : (oddsNow - (logWeights[index]! - others(logWeights))) / BIT;
    const toIntact = (now[index]! - logWeights[index]! - intact) / BIT;
    const told = normal ? Math.max(toOthers, tellsFromNeighbours(candidates[index]!, left)) : 0;
    // Nothing abnormal is explained by "no lesion": it is that much less expected there than where the structure is out of order.
    if (healthy && !normal) return { kind: 'against', evidence: { finding: observation.finding, bits: Math.min(toOthers, (intact - Math.log(Math.max(...observation.likelihood))) / BIT), words: findingInWords(observation.finding) } };
    const kind = !normal && toIntact > SHOWS ? 'for' : told > DECIDES && toOthers > -TELLS ? 'spared' : toOthers < -TELLS && (normal ? toIntact < -TELLS : true) ? 'against' : undefined;
    return { kind, evidence: { finding: observation.finding, bits: kind === 'for' ? toIntact : kind === 'spared' ? told : toOthers, words: findingInWords(observation.finding) } };
  });
  const pick = (wanted: string) => all.filter(({ kind }) => kind === wanted).map(({ evidence }) => evidence).sort((a, b) => Math.abs(b.bits) - Math.abs(a.bits) || (a.words < b.words ? -1 : 1)).slice(0, LINES);
  return { for: pick('for'), spared: pick('spared'), against: pick('against') };
}

/** Findings without which another explanation would come first, the one that would fall furthest first. */
export function hangingFindings(followedOnes: readonly Weighted[], without: readonly Without[]): readonly Finding[] {
  if (followedOnes.length === 0) return [];
  return without.map(({ logWeights, observation }) => ({ finding: observation.finding, behind: Math.max(...logWeights) - logWeights[0]! }))
    .filter(({ behind }) => behind > 0).sort((a, b) => b.behind - a.behind).map(({ finding }) => finding);
}
