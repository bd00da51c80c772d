import type { Finding } from '../../vocabulary';
import { findingInWords } from '../../vocabulary';
import { VARIANT_IDS } from '../anatomy/deficit';
import type { Evidence } from '../localisation';
import type { Observation, UnitEvidence } from './evidence';
import { combined } from './evidence';
import { SEVERITIES } from '../hypotheses';
import { LESIONS, POLYNEUROPATHY, configurationAt } from './network';
import type { SideLikelihood, SideWeights, Weighted } from './posterior';
import { byVariant, logSum, pairLikelihood, sharedUnits, singles } from './posterior';

/** How many pairs are followed when one finding is left out; the rest together weigh next to nothing. */
const FOLLOWED_PAIRS = 40;

/** The side's explanations as they would be weighed without one observation. */
export interface Without { readonly observation: Observation; readonly normal: boolean; readonly logWeights: Float64Array }

/** True if the observation is what an intact structure shows. */
export const isNormal = ({ likelihood }: Observation): boolean => likelihood[0] >= Math.max(...likelihood);

/** Explanations followed for evidence and stability: every single one and the likeliest pairs. */
export function followed(ranked: readonly Weighted[]): readonly Weighted[] {
  let pairs = 0;
  return ranked.filter(({ pair }) => !pair || pairs++ < FOLLOWED_PAIRS);
}

/**
 * Takes each observation out in turn, exactly: P(finding | the other findings, explanation) is the ratio of the two weights.
 * @returns per observation the log weight of each followed explanation without it.
 */
export function leaveOneOut(side: SideWeights, followedOnes: readonly Weighted[]): readonly Without[] {
  return side.likelihood.evidence.flatMap((unit, at) => unit.observations.map(observation => {
    const likelihood = withoutOne(side.likelihood, unit, at, observation);
    const perVariant = byVariant(likelihood.log);
    const single = singles(perVariant);
    const logWeights = Float64Array.from(followedOnes, ({ first, second, pair, logWeight }) => {
      if (pair) return pair.logPrior + pairLikelihood(pair, likelihood, perVariant, sharedUnits(pair, likelihood.evidence));
      return second < 0 ? logWeight - side.singles[first]! + single[first]! : logWeight;
    });
    return { observation, normal: isNormal(observation), logWeights };
  }));
}

function withoutOne(side: SideLikelihood, unit: UnitEvidence, at: number, observation: Observation): SideLikelihood {
  const states = combined(unit, observation);
  const before = side.perUnit[at]!;
  const { rows } = unit.table;
  const likelihood = new Float64Array(before.length);
  const log = new Float64Array(before.length);
  for (let c = 0; c < before.length; c++) {
    likelihood[c] = rows[c * 4]! * states[0] + rows[c * 4 + 1]! * states[1] + rows[c * 4 + 2]! * states[2] + rows[c * 4 + 3]! * states[3];
    log[c] = side.log[c]! - Math.log(before[c]!) + Math.log(likelihood[c]!);
  }
  return { evidence: side.evidence, states: side.states.map((old, index) => (index === at ? states : old)), perUnit: side.perUnit.map((old, index) => (index === at ? likelihood : old)), log };
}

const BIT = Math.LN2;
/** Weaker than this is not worth saying. */
const WORTH_SAYING = 0.2;
const LINES = 8;

/**
 * For each observation, how much more expected it was under one explanation than under all others (given the other findings), in bits.
 */
export function evidenceFor(index: number, followedOnes: readonly Weighted[], without: readonly Without[]): { for: Evidence[]; against: Evidence[]; spared: Evidence[] } {
  const now = followedOnes.map(({ logWeight }) => logWeight);
  const others = (weights: ArrayLike<number>) => logSum(Array.from({ length: weights.length }, (_, i) => (i === index ? -Infinity : weights[i]!)));
  const oddsNow = now[index]! - others(now);
  const all = without.map(({ observation, normal, logWeights }) => {
    const bits = (oddsNow - (logWeights[index]! - others(logWeights))) / BIT;
    return { normal, evidence: { finding: observation.finding, bits: Number.isFinite(bits) ? bits : 0, words: findingInWords(observation.finding) } };
  });
  const pick = (keep: (bits: number, normal: boolean) => boolean) => all.filter(({ normal, evidence }) => keep(evidence.bits, normal)).map(({ evidence }) => evidence).sort((a, b) => Math.abs(b.bits) - Math.abs(a.bits)).slice(0, LINES);
  return {
    for: pick((bits, normal) => bits > WORTH_SAYING && !normal),
    spared: pick((bits, normal) => bits > WORTH_SAYING && normal),
    against: pick(bits => bits < -WORTH_SAYING),
  };
}

/** Findings without which another explanation would come first. */
export function hangingFindings(followedOnes: readonly Weighted[], without: readonly Without[]): readonly Finding[] {
  if (followedOnes.length === 0) return [];
  return without.filter(({ logWeights }) => {
    let best = 0;
    for (let i = 1; i < logWeights.length; i++) if (logWeights[i]! > logWeights[best]!) best = i;
    return best !== 0;
  }).map(({ observation }) => observation.finding);
}

/** Standard deviations by which the findings are less probable, under the best explanation of the list, than such findings usually are. */
export function surprise(side: SideWeights, best: Weighted): number {
  if (best.first === POLYNEUROPATHY && best.second >= 0) return 0;
  let top = -Infinity, configuration = 0;
  for (let v = 0; v < VARIANT_IDS.length; v++) for (let s = 0; s < SEVERITIES.length; s++) {
    const c = configurationAt(v, best.first, s);
    const score = side.likelihood.log[c]! + Math.log(LESIONS[best.first]!.severity[s]!);
    if (score > top) { top = score; configuration = c; }
  }
  let seen = 0, expected = 0, variance = 0;
  for (const { table: { rows, touched }, observations } of side.likelihood.evidence) {
    const second = best.second >= 0 && touched[best.second];
    const states = [0, 1, 2, 3].map(state => rows[configuration * 4 + state]!);
    if (second) continue; // two lesions: judged on the units that only the first one touches
    for (const { reading: { instrument }, likelihood } of observations) {
      const outcomes = Object.values(instrument.outcomes).map(row => row.reduce((sum, p, state) => sum + p * states[state]!, 0));
      const mean = outcomes.reduce((sum, p) => (p > 0 ? sum + p * Math.log(p) : sum), 0);
      seen += Math.log(Math.max(1e-12, likelihood.reduce((sum, p, state) => sum + p * states[state]!, 0)));
      expected += mean;
      variance += outcomes.reduce((sum, p) => (p > 0 ? sum + p * (Math.log(p) - mean) ** 2 : sum), 0);
    }
  }
  return variance > 0 ? (expected - seen) / Math.sqrt(variance) : 0;
}
