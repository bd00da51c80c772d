import { SEVERITIES } from '../hypotheses';
import { NORMAL, configurationAt, variantsOf } from './network';
import { LOG_SEVERITY, LOG_VARIANT, logSum, worseOf } from './posterior';
import type { SideWeights, Weighted } from './posterior';

/** One way in which an explanation may hold: a configuration of each of its lesions (b = -1 when it is one), with its probability. */
interface Way { readonly a: number; readonly b: number; readonly probability: number }

/** Ways less probable than this change nothing. */
const NEGLIGIBLE = 1e-3;

function waysOf({ first, second }: Weighted, { likelihood: { log } }: SideWeights): readonly Way[] {
  const variants = Math.max(variantsOf(first), second < 0 ? 1 : variantsOf(second));
  const ways = Array.from({ length: variants }, (_, v) => SEVERITIES.flatMap((__, s) => {
    const a = configurationAt(v, first, s);
    const weight = (variants === 1 ? 0 : LOG_VARIANT[v]!) + LOG_SEVERITY[first]![s]! + log[a]!;
    if (second < 0) return [{ a, b: -1, weight }];
    return SEVERITIES.map((___, t) => { const b = configurationAt(v, second, t); return { a, b, weight: weight + LOG_SEVERITY[second]![t]! + log[b]! - log[configurationAt(0, NORMAL, 0)]! }; });
  })).flat();
  const total = logSum(ways.map(({ weight }) => weight));
  return ways.map(({ a, b, weight }) => ({ a, b, probability: Math.exp(weight - total) })).filter(({ probability }) => probability > NEGLIGIBLE);
}

/** Upper tail of the normal distribution: Abramowitz & Stegun 1964, formula 7.1.26 (error under 1.5e-7). */
export function upperTail(z: number): number {
  const x = Math.abs(z) / Math.SQRT2, t = 1 / (1 + 0.3275911 * x);
  const erfc = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.exp(-x * x);
  return z >= 0 ? erfc / 2 : 1 - erfc / 2;
}

/**
 * Posterior predictive check (Gelman, Meng & Stern, Statistica Sinica 1996;6:733 [memory]): the probability that such findings, made again in hands
 * with this explanation, would come out at least as improbable as these did. The discrepancy is the sum of -log P(finding | configuration);
 * its distribution is taken as normal with its exact mean and variance. Findings that are trusted less count less.
 * @returns a p-value; near 0 when the explanation does not account for what was found, 1 when there is nothing to account for
 */
export function predictiveP(side: SideWeights, explanation: Weighted): number {
  const observations = side.likelihood.evidence.flatMap(({ table, observations: all }) => all.map(observation => ({ table, observation })));
  if (observations.length === 0) return 1;
  return waysOf(explanation, side).reduce((sum, { a, b, probability }) => {
    let seen = 0, mean = 0, variance = 0;
    for (const { table, observation: { likelihood, trust, reading: { instrument } } } of observations) {
      const states = worseOf(table, a, b);
      let once = 0, twice = 0;
      for (const row of Object.values(instrument.outcomes)) {
        const average = (row[0] + row[1] + row[2] + row[3]) / 4;
        const p = trust * (row[0] * states[0] + row[1] * states[1] + row[2] * states[2] + row[3] * states[3]) + (1 - trust) * average;
        if (p > 0) { const surprise = -Math.log(p); once += p * surprise; twice += p * surprise * surprise; }
      }
      seen -= Math.log(Math.max(1e-12, likelihood.reduce((total, p, state) => total + p * states[state]!, 0)));
      mean += once;
      variance += twice - once * once;
    }
    return sum + probability * (variance > 0 ? upperTail((seen - mean) / Math.sqrt(variance)) : 1);
  }, 0);
}
