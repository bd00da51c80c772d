import { VARIANTS, VARIANT_IDS } from '../anatomy/deficit';
import { SEVERITIES } from '../hypotheses';
import type { PerState } from '../observation/instruments';
import type { Observation, UnitEvidence } from './evidence';
import { combined, isNormal } from './evidence';
import type { Table } from './network';
import { CONFIGURATIONS, LESIONS, NORMAL, POLYNEUROPATHY, STATES, configurationAt, variantsOf } from './network';
import type { Priors } from './pairs';
import { PAIRS, USUAL } from './pairs';

const S = SEVERITIES.length;
const H = LESIONS.length;
const V = VARIANT_IDS.length;
export const LOG_VARIANT = VARIANT_IDS.map(id => Math.log(VARIANTS[id]));
export const LOG_SEVERITY = LESIONS.map(({ severity }) => severity.map(p => Math.log(p)));
/** How much likelier than otherwise "no lesion" is in the hand that is not complained of. A design choice. */
const UNCOMPLAINED = 8;

/** Likelihoods of one hand's evidence under every configuration. */
export interface SideLikelihood {
  readonly evidence: readonly UnitEvidence[];
  /** Per unit: P(what was observed | state). */
  readonly states: readonly PerState[];
  /** Per unit: P(what was observed | configuration). */
  readonly perUnit: readonly Float64Array[];
  /** Log of the product over units, per configuration. */
  readonly log: Float64Array;
  /** Per unit: which hypotheses change it. */
  readonly touched: readonly Uint8Array[];
}

/** P(what was observed of a unit | configuration). */
export const unitLikelihood = ({ rows }: Table, states: PerState, configuration: number): number => {
  const row = configuration * STATES;
  return rows[row]! * states[0] + rows[row + 1]! * states[1] + rows[row + 2]! * states[2] + rows[row + 3]! * states[3];
};

/** Factors multiplied before a logarithm is taken: their product cannot underflow, for no table holds less than about 1e-5. */
const BATCH = 24;

export function likelihoodOf(evidence: readonly UnitEvidence[]): SideLikelihood {
  const log = new Float64Array(CONFIGURATIONS.length);
  const product = new Float64Array(CONFIGURATIONS.length).fill(1);
  const states = evidence.map(unit => combined(unit));
  const perUnit = evidence.map(({ table }, index) => {
    const likelihood = new Float64Array(CONFIGURATIONS.length);
    const flush = (index + 1) % BATCH === 0 || index === evidence.length - 1;
    for (let c = 0; c < likelihood.length; c++) {
      product[c]! *= (likelihood[c] = unitLikelihood(table, states[index]!, c));
      if (flush) { log[c]! += Math.log(product[c]!); product[c] = 1; }
    }
    return likelihood;
  });
  return { evidence, states, perUnit, log, touched: evidence.map(({ table }) => table.touched) };
}

/** log of the sum of exponentials of the first `count` values. */
export function logSum(values: ArrayLike<number>, count = values.length): number {
  let top = -Infinity;
  for (let i = 0; i < count; i++) if (values[i]! > top) top = values[i]!;
  if (top === -Infinity) return top;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += Math.exp(values[i]! - top);
  return top + Math.log(sum);
}

const severityTerms = new Float64Array(S);
const variantTerms = new Float64Array(V);

/** Log likelihood of one hypothesis given the variant, severity summed out. */
export function givenVariant(log: ArrayLike<number>, hypothesis: number, variant: number): number {
  const prior = LOG_SEVERITY[hypothesis]!;
  const start = configurationAt(variant, hypothesis, 0);
  for (let s = 0; s < S; s++) severityTerms[s] = prior[s]! + log[start + s]!;
  return logSum(severityTerms);
}

/** Log likelihood of one hypothesis, variant and severity summed out. */
export function singleLikelihood(log: ArrayLike<number>, hypothesis: number): number {
  if (variantsOf(hypothesis) === 1) return givenVariant(log, hypothesis, 0);
  for (let v = 0; v < V; v++) variantTerms[v] = LOG_VARIANT[v]! + givenVariant(log, hypothesis, v);
  return logSum(variantTerms);
}

/** What pairs need again and again. */
export interface Relative {
  /** Per configuration: P(severity) times likelihood, relative to the best of its hypothesis and variant. */
  readonly weight: Float64Array;
  /** That best, as a log. */
  readonly top: Float64Array;
  /** Per configuration: log of the likelihood of its hypothesis and variant, severity summed out. */
  readonly whole: Float64Array;
}

export function relativeTo(log: ArrayLike<number>, hypotheses: Iterable<number>): Relative {
  const weight = new Float64Array(CONFIGURATIONS.length), top = new Float64Array(CONFIGURATIONS.length), whole = new Float64Array(CONFIGURATIONS.length);
  for (const hypothesis of hypotheses) for (let v = 0; v < variantsOf(hypothesis); v++) {
    const start = configurationAt(v, hypothesis, 0), prior = LOG_SEVERITY[hypothesis]!;
    let best = -Infinity;
    for (let s = 0; s < S; s++) best = Math.max(best, prior[s]! + log[start + s]!);
    let sum = 0;
    for (let s = 0; s < S; s++) { sum += weight[start + s] = Math.exp(prior[s]! + log[start + s]! - best); top[start + s] = best; }
    whole.fill(best + Math.log(sum), start, start + S);
  }
  return { weight, top, whole };
}

const factors = new Float64Array(S * S);
const units = new Int32Array(4096);
const pairTerms = new Float64Array(V);
/** Factors are brought back to the scale of 1 after this many units. */
const RESCALE = 16;

/**
 * Log likelihood of two lesions at once: each structure is in the worse of the two states. A unit that only one of
 * the two touches is as it is with that one alone; units that both touch are combined.
 */
export function pairLikelihood(first: number, second: number, { evidence, states, perUnit, log, touched }: SideLikelihood, { weight, top, whole }: Relative): number {
  const variants = Math.max(variantsOf(first), variantsOf(second));
  const healthy = configurationAt(0, NORMAL, 0);
  let shared = 0;
  for (let unit = 0; unit < touched.length; unit++) { const flags = touched[unit]!; if (flags[first] === 1 && flags[second] === 1) units[shared++] = unit; }
  for (let v = 0; v < variants; v++) {
    const a = configurationAt(v, first, 0), b = configurationAt(v, second, 0);
    const prior = variants === 1 ? 0 : LOG_VARIANT[v]!;
    if (shared === 0) {
      if (variants === 1) return whole[a]! + whole[b]! - log[healthy]!;
      pairTerms[v] = prior + whole[a]! + whole[b]! - log[healthy]!;
      continue;
    }
    factors.fill(1);
    let scale = 0;
    for (let i = 0; i < shared; i++) {
      const unit = units[i]!, likelihood = perUnit[unit]!, state = states[unit]!, upTo = evidence[unit]!.table.upTo, base = likelihood[healthy]!;
      const l3 = state[3], d0 = state[0] - state[1], d1 = state[1] - state[2], d2 = state[2] - l3;
      for (let s = 0; s < S; s++) {
        const x = (a + s) * STATES, part = base / likelihood[a + s]!;
        const x0 = d0 * upTo[x]!, x1 = d1 * upTo[x + 1]!, x2 = d2 * upTo[x + 2]!;
        for (let t = 0; t < S; t++) {
          const y = (b + t) * STATES;
          // Sum over states of P(the worse state) times what was observed, by parts.
          factors[s * S + t]! *= ((x0 * upTo[y]! + x1 * upTo[y + 1]! + x2 * upTo[y + 2]! + l3) * part) / likelihood[b + t]!;
        }
      }
      if (i % RESCALE === RESCALE - 1) {
        let largest = 0;
        for (let k = 0; k < S * S; k++) largest = Math.max(largest, factors[k]!);
        for (let k = 0; k < S * S; k++) factors[k]! /= largest;
        scale += Math.log(largest);
      }
    }
    let sum = 0;
    for (let s = 0; s < S; s++) for (let t = 0; t < S; t++) sum += weight[a + s]! * weight[b + t]! * factors[s * S + t]!;
    pairTerms[v] = prior + Math.log(sum) + scale + top[a]! + top[b]! - log[healthy]!;
  }
  return logSum(pairTerms, variants);
}

/** The state distribution of a unit when two configurations hold at once, or one (b = -1). */
export function worseOf({ rows, upTo, touched }: Table, a: number, b: number): PerState {
  const x = a * STATES, y = b * STATES;
  if (b < 0) return [rows[x]!, rows[x + 1]!, rows[x + 2]!, rows[x + 3]!];
  if (touched[CONFIGURATIONS[a]!.hypothesis] !== 1) return [rows[y]!, rows[y + 1]!, rows[y + 2]!, rows[y + 3]!];
  if (touched[CONFIGURATIONS[b]!.hypothesis] !== 1) return [rows[x]!, rows[x + 1]!, rows[x + 2]!, rows[x + 3]!];
  const both = [0, 1, 2, 3].map(state => upTo[x + state]! * upTo[y + state]!);
  return [both[0]!, both[1]! - both[0]!, both[2]! - both[1]!, both[3]! - both[2]!];
}

/**
 * A hand is examined for what is wrong with it. Once anything abnormal was found, a lesion that has no part in any of the abnormal
 * findings is NO_PART times as likely to be there as its prior says; while nothing abnormal was found, any lesion is NOTHING_FOUND
 * times as likely. A healthy hand pays for neither. Design choices, set on simulated hands other than those of the bench.
 */
const NO_PART = 0.02;
const NOTHING_FOUND = 0.25;

/** Log factor per hypothesis for having no part in what is abnormal. @param without an observation left out. */
export function complaintFactors(evidence: readonly UnitEvidence[], without?: Observation): Float64Array {
  const seen = evidence.filter(({ observations }) => observations.some(one => one !== without));
  const abnormal = seen.filter(({ observations }) => observations.some(one => one !== without && !isNormal(one)));
  const factor = Math.log(seen.length === 0 ? 1 : abnormal.length === 0 ? NOTHING_FOUND : NO_PART);
  return Float64Array.from(LESIONS, ({ kind }, h) => (kind === 'normal' || kind === 'unexplained' || abnormal.some(({ table }) => table.touched[h] === 1) ? 0 : factor));
}

/** Log factor of an explanation: each of two lesions must have a part. */
export const complaintFactor = (factors: Float64Array, first: number, second: number): number => factors[first]! + (second < 0 ? 0 : factors[second]!);

/** An explanation of one hand: a single lesion (second = -1) or a pair. */
export interface Explanation { readonly first: number; readonly second: number; readonly logPrior: number; readonly logWeight: number }

/** One hand's explanations, weighted by prior times likelihood, before the two hands are brought together. */
export interface SideWeights {
  readonly likelihood: SideLikelihood;
  /** All but polyneuropathy. */
  readonly explanations: readonly Explanation[];
  /** Log of the sum of their weights, and of their priors. */
  readonly total: number;
  readonly prior: number;
  /** Log likelihood under polyneuropathy, and its prior probability. */
  readonly polyneuropathy: number;
  readonly polyneuropathyPrior: number;
}

const single = (lesion: number) => ({ first: lesion, second: -1 });
const SINGLES: readonly { first: number; second: number }[] = LESIONS.map((_, lesion) => single(lesion)).filter(({ first }) => first !== POLYNEUROPATHY);

/** How much rarer an acute state is after the time by which it is over. A design choice. */
const LOG_OVER = Math.log(0.03);

/** @param uncomplained the hand is not the one complained of. @param priors how common each explanation is where this is used. @param onsetDays days since onset: acute states do not last. */
export function weigh(evidence: readonly UnitEvidence[], uncomplained: boolean, priors: Priors = USUAL, onsetDays?: number): SideWeights {
  const likelihood = likelihoodOf(evidence);
  const explanations = new Array<Explanation>(SINGLES.length + PAIRS.length);
  const relative = relativeTo(likelihood.log, LESIONS.keys());
  const complaint = complaintFactors(evidence);
  let at = 0;
  const late = (lesion: number): number => (lesion >= 0 && onsetDays !== undefined && onsetDays > (LESIONS[lesion]!.overAfter ?? Infinity) ? LOG_OVER : 0);
  const add = (first: number, second: number, logUsual: number) => {
    const logPrior = logUsual + late(first) + late(second);
    // What is never met where this is used need not be weighed.
    const logWeight = logPrior === -Infinity ? -Infinity : logPrior + complaintFactor(complaint, first, second) + (second < 0 ? singleLikelihood(likelihood.log, first) : pairLikelihood(first, second, likelihood, relative));
    explanations[at++] = { first, second, logPrior, logWeight };
  };
  for (const { first, second } of SINGLES) add(first, second, priors.logOneLesion + Math.log(priors.single[first]! * (uncomplained && first === NORMAL ? UNCOMPLAINED : 1)));
  PAIRS.forEach(({ first, second }, index) => add(first, second, priors.logPair[index]!));
  return {
    likelihood, explanations, total: logSum(explanations.map(({ logWeight }) => logWeight)), prior: logSum(explanations.map(({ logPrior }) => logPrior)),
    polyneuropathy: complaint[POLYNEUROPATHY]! + singleLikelihood(likelihood.log, POLYNEUROPATHY), polyneuropathyPrior: priors.single[POLYNEUROPATHY]!,
  };
}

export interface Weighted extends Explanation { readonly probability: number }

/** Explanations less probable than this are kept in the sum but not listed. */
const LISTED = 1e-6;

/**
 * Brings the two hands together. Lesions of one hand are independent of the other hand's; polyneuropathy is one
 * condition of both. A hand without findings leaves the other one's answer as it is.
 * @returns per hand its explanations with their probabilities, most probable first; those under 1e-6 are left out.
 */
export function posterior(sides: readonly SideWeights[]): readonly (readonly Weighted[])[] {
  const prior = sides[0]?.polyneuropathyPrior ?? USUAL.single[POLYNEUROPATHY]!;
  const both = Math.log(prior) + sides.reduce((sum, side) => sum + side.polyneuropathy, 0);
  const apart = Math.log(1 - prior) + sides.reduce((sum, side) => sum + side.total - side.prior, 0);
  const evidence = logSum([both, apart]);
  const rest = Math.exp(apart - evidence);
  return sides.map(side => {
    const listed: Weighted[] = [{ ...single(POLYNEUROPATHY), logPrior: Math.log(prior), logWeight: logWeightAmong(side, both - evidence), probability: Math.exp(both - evidence) }];
    for (const explanation of side.explanations) {
      const probability = rest * Math.exp(explanation.logWeight - side.total);
      if (probability > LISTED) listed.push({ ...explanation, probability });
    }
    return listed.sort((a, b) => b.probability - a.probability || a.first - b.first || a.second - b.second);
  });
}

/** Polyneuropathy's weight on the scale of one side's other explanations, so that they can be compared on that side alone. */
const logWeightAmong = (side: SideWeights, logProbability: number): number => side.total + logProbability - Math.log(Math.max(1e-300, -Math.expm1(logProbability)));
