/**
 * Random records with the localiser's network for them, written out as plain tables of factors, so that another program can
 * solve the same network. The network of a record: variant V, explanation E, severities SA and SB (given E) of its one or two lesions,
 * for each examined unit the states XA and XB that each lesion alone would leave and X, the worse of them, and the findings given X.
 * To keep the tables small each record asks about a random choice of explanations.
 */
import { VARIANTS, VARIANT_IDS } from '../../../src/localiser/anatomy/deficit';
import { SEVERITIES } from '../../../src/localiser/hypotheses';
import type { UnitEvidence } from '../../../src/localiser/inference/evidence';
import { gather } from '../../../src/localiser/inference/evidence';
import { LESIONS, NORMAL, POLYNEUROPATHY, configurationAt } from '../../../src/localiser/inference/network';
import { PROPOSABLE } from '../../../src/localiser';
import type { Explanation } from '../../../src/localiser/inference/posterior';
import { complaintFactor, complaintFactors, logSum, weigh } from '../../../src/localiser/inference/posterior';
import { partsOf } from '../../../src/localiser/observation/reading';
import type { Finding, Level } from '../../../src/vocabulary';
import { MRC_GRADES, SIGNS } from '../../../src/vocabulary';
import type { Random } from '../../bench/localiser/random';
import { seeded } from '../../bench/localiser/random';

export const SINGLES = 16;
export const PAIRS = 8;

/** One table: P(variable | parents), rows by the variable's values, columns by the parents' values, the last parent fastest. */
export interface Factor { readonly variable: string; readonly values: number; readonly parents: readonly string[]; readonly table: readonly (readonly number[])[] }
export interface ExportedNetwork { readonly factors: readonly Factor[]; /** Variables seen in state 0. */ readonly seen: readonly string[]; readonly ask: 'E' }

function randomFinding(random: Random): Finding {
  const { sign, site } = partsOf(random.pick(PROPOSABLE));
  const { grade, levels } = SIGNS[sign];
  const result: Finding['result'] = grade && random.next() < 0.8 ? { kind: 'grade', grade: random.pick(MRC_GRADES) } : { kind: 'level', level: random.pick(levels) as Level };
  const qualifiers = random.next() < 0.1 ? (['equivocal'] as const) : undefined;
  return { side: 'right', sign, site, result, ...(qualifiers ? { qualifiers } : {}) };
}

export interface Trial { readonly evidence: readonly UnitEvidence[]; readonly chosen: readonly Explanation[]; /** The localiser's answer. */ readonly posterior: readonly number[] }

/** A random record of 3 to 14 findings, the explanations asked about, and what the localiser says. */
export function trial(seed: number): Trial {
  const random = seeded(seed);
  const findings = Array.from({ length: 3 + Math.floor(random.next() * 12) }, () => randomFinding(random));
  const evidence = gather(findings, random.next() < 0.5 ? undefined : Math.floor(random.next() * 400));
  const { explanations } = weigh(evidence, false);
  const singles = explanations.filter(({ second }) => second < 0), pairs = explanations.filter(({ second }) => second >= 0);
  const pickSome = <T>(from: readonly T[], n: number): T[] => { const left = [...from]; return Array.from({ length: n }, () => left.splice(Math.floor(random.next() * left.length), 1)[0]!); };
  const chosen = [singles.find(({ first }) => first === NORMAL)!, ...pickSome(singles.filter(({ first }) => first !== NORMAL && first !== POLYNEUROPATHY), SINGLES - 1), ...pickSome(pairs, PAIRS)];
  const total = logSum(chosen.map(({ logWeight }) => logWeight));
  return { evidence, chosen, posterior: chosen.map(({ logWeight }) => Math.exp(logWeight - total)) };
}

/** Writes the network of a trial down without using the localiser's inference. */
export function exported({ evidence, chosen }: Trial): ExportedNetwork {
  const complaint = complaintFactors(evidence);
  const priors = chosen.map(({ first, second, logPrior }) => Math.exp(logPrior + complaintFactor(complaint, first, second)));
  const priorSum = priors.reduce((sum, p) => sum + p, 0);
  const column = (values: number, columns: readonly (readonly number[])[]) => Array.from({ length: values }, (_, row) => columns.map(one => one[row]!));
  const severity = (which: (explanation: Explanation) => number) => column(SEVERITIES.length, chosen.map(explanation => { const lesion = which(explanation); return lesion < 0 ? [1, 0, 0, 0] : [...LESIONS[lesion]!.severity]; }));
  const intact = [1, 0, 0, 0];
  const states = ({ table: { rows, touched } }: UnitEvidence, lesion: number, other: number, leads: boolean) => VARIANT_IDS.flatMap((_, v) => SEVERITIES.map((__, s) => {
    const row = (hypothesis: number) => { const at = configurationAt(v, hypothesis, s) * 4; return [rows[at]!, rows[at + 1]!, rows[at + 2]!, rows[at + 3]!]; };
    if (lesion < 0) return intact;
    if (touched[lesion] === 1) return row(lesion);
    return leads && (other < 0 || touched[other] !== 1) ? row(NORMAL) : intact; // a unit that neither touches keeps its background once
  }));
  const worse = column(4, [0, 1, 2, 3].flatMap(a => [0, 1, 2, 3].map(b => [0, 1, 2, 3].map(x => (x === Math.max(a, b) ? 1 : 0)))));
  return {
    ask: 'E',
    factors: [
      { variable: 'V', values: VARIANT_IDS.length, parents: [], table: VARIANT_IDS.map(id => [VARIANTS[id]]) },
      { variable: 'E', values: chosen.length, parents: [], table: priors.map(p => [p / priorSum]) },
      { variable: 'SA', values: SEVERITIES.length, parents: ['E'], table: severity(({ first }) => first) },
      { variable: 'SB', values: SEVERITIES.length, parents: ['E'], table: severity(({ second }) => second) },
      ...evidence.flatMap((unit, u): Factor[] => [
        { variable: `XA${u}`, values: 4, parents: ['E', 'V', 'SA'], table: column(4, chosen.flatMap(({ first, second }) => states(unit, first, second, true))) },
        { variable: `XB${u}`, values: 4, parents: ['E', 'V', 'SB'], table: column(4, chosen.flatMap(({ first, second }) => states(unit, second, first, false))) },
        { variable: `X${u}`, values: 4, parents: [`XA${u}`, `XB${u}`], table: worse },
        ...unit.observations.map(({ likelihood }, f): Factor => ({ variable: `F${u}_${f}`, values: 2, parents: [`X${u}`], table: [[...likelihood], likelihood.map(p => 1 - p)] })),
      ]),
    ],
    seen: evidence.flatMap(({ observations }, u) => observations.map((_, f) => `F${u}_${f}`)),
  };
}
