import { VARIANTS, VARIANT_IDS } from '../anatomy/deficit';
import { SEVERITIES } from '../hypotheses';
import type { PerState } from '../observation/instruments';
import type { UnitEvidence } from './evidence';
import { combined } from './evidence';
import { CONFIGURATIONS, LESIONS, NORMAL, POLYNEUROPATHY, PRIORS, configurationAt } from './network';
import type { Pair } from './pairs';
import { LOG_ONE_LESION, PAIRS } from './pairs';

const STATES = 4;
const S = SEVERITIES.length;
const H = LESIONS.length;
const V = VARIANT_IDS.length;
export const LOG_VARIANT = VARIANT_IDS.map(id => Math.log(VARIANTS[id]));
export const LOG_SEVERITY = LESIONS.map(({ severity }) => severity.map(p => Math.log(p)));
/** A hand with an unhurt fellow is expected to be normal: the prior odds of "normal" on the side not complained of. A design choice. */
const UNCOMPLAINED = 8;

/** Likelihoods of one hand's evidence under every configuration. */
export interface SideLikelihood {
  readonly evidence: readonly UnitEvidence[];
  readonly states: readonly PerState[];
  /** Per unit: P(evidence of the unit | configuration). */
  readonly perUnit: readonly Float64Array[];
  /** Log of the product over units, per configuration. */
  readonly log: Float64Array;
}

export function likelihoodOf(evidence: readonly UnitEvidence[]): SideLikelihood {
  const log = new Float64Array(CONFIGURATIONS.length);
  const states = evidence.map(unit => combined(unit));
  const perUnit = evidence.map(({ table: { rows } }, index) => {
    const [a, b, c, d] = states[index]!;
    const likelihood = new Float64Array(CONFIGURATIONS.length);
    for (let at = 0, row = 0; at < likelihood.length; at++, row += STATES) {
      likelihood[at] = rows[row]! * a + rows[row + 1]! * b + rows[row + 2]! * c + rows[row + 3]! * d;
      log[at]! += Math.log(likelihood[at]!);
    }
    return likelihood;
  });
  return { evidence, states, perUnit, log };
}

/** log of the sum of exponentials. */
export function logSum(values: ArrayLike<number>): number {
  let top = -Infinity;
  for (let i = 0; i < values.length; i++) if (values[i]! > top) top = values[i]!;
  if (top === -Infinity) return top;
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += Math.exp(values[i]! - top);
  return top + Math.log(sum);
}

/** Log likelihood of each hypothesis given the variant, severity summed out: index v * H + h. */
export function byVariant(log: ArrayLike<number>): Float64Array {
  const out = new Float64Array(V * H);
  const terms = new Float64Array(S);
  for (let cell = 0; cell < V * H; cell++) {
    const prior = LOG_SEVERITY[cell % H]!;
    for (let s = 0; s < S; s++) terms[s] = prior[s]! + log[cell * S + s]!;
    out[cell] = logSum(terms);
  }
  return out;
}

/** Log likelihood of each hypothesis, variant and severity summed out. */
export function singles(perVariant: Float64Array): Float64Array {
  const terms = new Float64Array(V);
  return Float64Array.from({ length: H }, (_, h) => {
    for (let v = 0; v < V; v++) terms[v] = LOG_VARIANT[v]! + perVariant[v * H + h]!;
    return logSum(terms);
  });
}

const pairTerms = new Float64Array(V * S * S);
const pairVariants = new Float64Array(V);

/**
 * Log likelihood of two lesions at once: each structure is in the worse of the two states. Where only one of
 * the two touches a unit the other changes nothing, so the sum over severities factorises; only shared units are combined.
 */
export function pairLikelihood({ first, second }: Pair, side: SideLikelihood, perVariant: Float64Array, shared: readonly number[]): number {
  if (shared.length === 0) {
    for (let v = 0; v < V; v++) pairVariants[v] = LOG_VARIANT[v]! + perVariant[v * H + first]! + perVariant[v * H + second]! - perVariant[v * H + NORMAL]!;
    return logSum(pairVariants);
  }
  let term = 0;
  for (let v = 0; v < V; v++) {
    const healthy = configurationAt(v, NORMAL, 0);
    for (let s = 0; s < S; s++) {
      const a = configurationAt(v, first, s);
      for (let t = 0; t < S; t++, term++) {
        const b = configurationAt(v, second, t);
        let factor = 1;
        for (const unit of shared) {
          const likelihood = side.perUnit[unit]!;
          factor *= (worst(side.evidence[unit]!.table.rows, a, b, side.states[unit]!) * likelihood[healthy]!) / (likelihood[a]! * likelihood[b]!);
        }
        pairTerms[term] = LOG_VARIANT[v]! + LOG_SEVERITY[first]![s]! + LOG_SEVERITY[second]![t]! + side.log[a]! + side.log[b]! - side.log[healthy]! + Math.log(factor);
      }
    }
  }
  return logSum(pairTerms);
}

/** Sum over states of P(the worse of two rows = state) times what was observed. */
function worst(rows: Float64Array, a: number, b: number, observed: PerState): number {
  let cumulativeA = 0, cumulativeB = 0, below = 0, sum = 0;
  for (let state = 0; state < STATES; state++) {
    cumulativeA += rows[a * STATES + state]!;
    cumulativeB += rows[b * STATES + state]!;
    const both = cumulativeA * cumulativeB;
    sum += (both - below) * observed[state]!;
    below = both;
  }
  return sum;
}

/** The state distribution of a unit when two configurations hold at once. */
export function worstOf(rows: Float64Array, a: number, b: number): PerState {
  const out: [number, number, number, number] = [0, 0, 0, 0];
  let cumulativeA = 0, cumulativeB = 0, below = 0;
  for (let state = 0; state < STATES; state++) {
    cumulativeA += rows[a * STATES + state]!;
    cumulativeB += rows[b * STATES + state]!;
    out[state] = cumulativeA * cumulativeB - below;
    below = cumulativeA * cumulativeB;
  }
  return out;
}

/** Units of the evidence that both lesions of a pair touch. */
export function sharedUnits({ first, second }: Pair, evidence: readonly UnitEvidence[]): readonly number[] {
  const shared: number[] = [];
  for (let unit = 0; unit < evidence.length; unit++) { const { touched } = evidence[unit]!.table; if (touched[first] && touched[second]) shared.push(unit); }
  return shared;
}

/** An explanation of one hand: a single lesion (second = -1) or a pair. */
export interface Explanation { readonly first: number; readonly second: number; readonly logWeight: number; readonly pair?: Pair }

/** One hand's explanations, weighted by prior times likelihood, before the two hands are brought together. */
export interface SideWeights {
  readonly likelihood: SideLikelihood;
  readonly perVariant: Float64Array;
  readonly singles: Float64Array;
  readonly explanations: readonly Explanation[];
  readonly total: number;
  /** Log likelihood under polyneuropathy. */
  readonly polyneuropathy: number;
  readonly uncomplained: boolean;
}

/** Log prior of a single explanation on a side, polyneuropathy apart. */
export const logPriorOf = (lesion: number, uncomplained: boolean): number => Math.log(PRIORS[lesion]! * (uncomplained && lesion === NORMAL ? UNCOMPLAINED : 1));

export function weigh(evidence: readonly UnitEvidence[], uncomplained: boolean): SideWeights {
  const likelihood = likelihoodOf(evidence);
  const perVariant = byVariant(likelihood.log);
  const single = singles(perVariant);
  const explanations: Explanation[] = [];
  for (let h = 0; h < H; h++) if (h !== POLYNEUROPATHY) explanations.push({ first: h, second: -1, logWeight: LOG_ONE_LESION + logPriorOf(h, uncomplained) + single[h]! });
  for (const pair of PAIRS)
    explanations.push({ first: pair.first, second: pair.second, pair, logWeight: pair.logPrior + pairLikelihood(pair, likelihood, perVariant, sharedUnits(pair, evidence)) });
  return { likelihood, perVariant, singles: single, explanations, total: logSum(explanations.map(({ logWeight }) => logWeight)), polyneuropathy: single[POLYNEUROPATHY]!, uncomplained };
}

export interface Weighted extends Explanation { readonly probability: number }

/**
 * Brings the two hands together. Lesions of one hand are independent of the other hand's; polyneuropathy is one
 * condition of both. A hand without findings leaves the other one's answer as it is.
 * @returns per hand its explanations with their probabilities (they add up to 1), most probable first.
 */
export function posterior(sides: readonly SideWeights[]): readonly (readonly Weighted[])[] {
  const prior = PRIORS[POLYNEUROPATHY]!;
  const both = Math.log(prior) + sides.reduce((sum, side) => sum + side.polyneuropathy, 0);
  const apart = sides.reduce((sum, side) => sum + side.total - logNormalising(side), 0) + Math.log(1 - prior);
  const evidence = logSum([both, apart]);
  const polyneuropathy = Math.exp(both - evidence);
  const rest = Math.exp(apart - evidence);
  return sides.map(side => [
    ...side.explanations.map(explanation => ({ ...explanation, probability: rest * Math.exp(explanation.logWeight - side.total) })),
    { first: POLYNEUROPATHY, second: -1, logWeight: both, probability: polyneuropathy },
  ].sort((a, b) => b.probability - a.probability || a.first - b.first || a.second - b.second));
}

/** The priors of a side's explanations without polyneuropathy add up to this (log). */
function logNormalising({ uncomplained }: SideWeights): number {
  let sum = 0;
  for (let h = 0; h < H; h++) if (h !== POLYNEUROPATHY) sum += Math.exp(LOG_ONE_LESION + logPriorOf(h, uncomplained));
  return Math.log(sum + 1 - Math.exp(LOG_ONE_LESION));
}
