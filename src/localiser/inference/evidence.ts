import type { Finding, ItemKey, SiteCode } from '../../vocabulary';
import { itemKey } from '../../vocabulary';
import type { PerState } from '../observation/instruments';
import { SIGN } from '../observation/instruments';
import type { Reading } from '../observation/reading';
import { partsOf, read } from '../observation/reading';
import type { Unit, UnitId } from '../observation/units';
import type { Table } from './network';
import { tableOf } from './network';

/** A finding with what it says about its unit. Repeats of one item share an observation. */
export interface Observation { readonly finding: Finding; readonly likelihood: PerState; readonly reading: Reading; /** 0 to 1: how far it counts. */ readonly trust: number }

/** All that was observed of one unit. */
export interface UnitEvidence { readonly unit: UnitId; readonly members?: Unit; readonly table: Table; readonly observations: readonly Observation[] }

const PAINFUL: ReadonlySet<string> = new Set(['painful', 'pain-limited', 'effort-limited']);
const UNSURE = 0.5;

/** Draws a likelihood towards "says nothing" by how little it is trusted. */
const soften = (likelihood: PerState, trust: number): PerState => {
  const mean = likelihood.reduce((sum, p) => sum + p, 0) / 4;
  return likelihood.map(p => trust * p + (1 - trust) * mean) as unknown as PerState;
};

const trustIn = ({ qualifiers = [] }: Finding, outside: number): number =>
  Math.min(1, Math.max(0, Number.isFinite(outside) ? outside : 1))
  * (qualifiers.includes('equivocal') ? UNSURE : 1)
  * (qualifiers.includes('pain-limited') || qualifiers.includes('effort-limited') ? UNSURE : 1);

/** Sorted, so that the order in which findings were made never matters, not even in the last digit. */
const stable = (finding: Finding): string => JSON.stringify([finding.sign, finding.site, finding.upTo ?? null, finding.result, finding.at ?? null, [...(finding.qualifiers ?? [])].sort()]);

/** A wound that reaches from one place to another is at both. */
const endsOf = ({ site, upTo }: Finding): readonly SiteCode[] => (upTo ? [site, upTo] : [site]);

/**
 * Gathers one side's findings by the unit they look at. The same item found twice with the same result counts once;
 * found with different results, both count half.
 */
export function gather(findings: readonly Finding[], onsetDays: number | undefined, trust: (finding: Finding) => number = () => 1): readonly UnitEvidence[] {
  const items = new Map<ItemKey, Map<string, Finding>>();
  for (const finding of findings) for (const site of endsOf(finding)) {
    const key = itemKey({ ...finding, site });
    const same = items.get(key) ?? new Map<string, Finding>();
    same.set(stable(finding), finding);
    items.set(key, same);
  }
  const units = new Map<UnitId, { members?: Unit; table: Table; observations: Observation[] }>();
  const add = (observation: Observation) => {
    const { unit, members } = observation.reading;
    const table = tableOf(unit, members);
    if (!table) return;
    const entry = units.get(unit) ?? { ...(members ? { members } : {}), table, observations: [] };
    entry.observations.push(observation);
    units.set(unit, entry);
  };
  for (const key of [...items.keys()].sort()) {
    const versions = [...items.get(key)!].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, finding]) => finding);
    const readable = versions.flatMap(finding => { const reading = read({ ...finding, site: partsOf(key).site }, onsetDays); return reading ? [{ finding, reading }] : []; });
    for (const { finding, reading } of readable) {
      const trusted = trustIn(finding, trust(finding)) / readable.length;
      add({ finding, reading, trust: trusted, likelihood: soften(reading.likelihood, trusted) });
    }
  }
  // Pain on testing power is a sign of its own, counted once a hand.
  const painful = [...items.values()].flatMap(same => [...same.values()]).find(({ sign, qualifiers }) => sign === 'power' && qualifiers?.some(q => PAINFUL.has(q)));
  if (painful) add({ finding: painful, reading: { unit: 'pain@power', instrument: SIGN, likelihood: SIGN.outcomes.present! }, trust: 1, likelihood: SIGN.outcomes.present! });
  return [...units].map(([unit, entry]) => ({ unit, ...entry })).sort((a, b) => (a.unit < b.unit ? -1 : 1));
}

/** True if the observation is what an intact structure shows. */
export const isNormal = ({ likelihood: [intact, mild, severe, lost] }: Observation): boolean => intact >= mild && intact >= severe && intact >= lost;

/** Product of the likelihoods of one unit's observations, `without` one of them if given. */
export function combined(evidence: UnitEvidence, without?: Observation): PerState {
  const product: [number, number, number, number] = [1, 1, 1, 1];
  for (const observation of evidence.observations) if (observation !== without) for (let state = 0; state < 4; state++) product[state]! *= observation.likelihood[state]!;
  return product;
}
