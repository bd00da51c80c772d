import { PROTOCOLS } from '../../../src/examination';
import { calibrated } from '../../../src/localiser/inference/calibration';
import { gather } from '../../../src/localiser/inference/evidence';
import { LESIONS } from '../../../src/localiser/inference/network';
import { PROPOSABLE, gains, nameOf } from '../../../src/localiser/inference/next-test';
import type { SideWeights, Weighted } from '../../../src/localiser/inference/posterior';
import { posterior, weigh } from '../../../src/localiser/inference/posterior';
import type { Finding, ItemKey } from '../../../src/vocabulary';
import { partsOf, probeOf } from '../../../src/localiser/observation/reading';
import { SIGNS, itemKey } from '../../../src/vocabulary';
import { attending } from './examination';
import type { Patient } from './patient';
import { examine } from './patient';
import { seeded } from './random';
import { DRAWS, structureOf } from './shared';

/** The recorder's complete examination in the order of its protocol, as far as the localiser reads it: one test an item. */
const PROTOCOL: readonly ItemKey[] = PROTOCOLS.complete!.stages.flatMap(({ items }) => items.flatMap(({ keys }) => keys.find(key => probeOf(partsOf(key).sign, partsOf(key).site)) ?? []));
/** The fixed order: that protocol, then everything else that can be proposed: look, feel, move, feeling, power, special tests. */
const FIXED: readonly ItemKey[] = (() => {
  const order = ['look', 'perfusion', 'feel', 'move', 'sensation', 'power', 'special test', 'reflex'];
  const rest = PROPOSABLE.map((item, at) => ({ item, at, rank: order.indexOf(SIGNS[item.split('@')[0] as Finding['sign']].category) })).sort((a, b) => a.rank - b.rank || a.at - b.at).map(({ item }) => item);
  return [...new Set([...PROTOCOL, ...rest])];
})();

/** Settled when the answer shown has this probability. */
const SURE = 0.9;
const LENGTH = FIXED.length;

interface Run { /** Tests until one explanation, or one structure whatever its level, reached SURE; the length of the list if never. */ readonly explanation: number; readonly structure: number; readonly right: boolean; readonly last: readonly Weighted[] }

type Policy = (weights: SideWeights, ranked: readonly Weighted[], left: ReadonlySet<ItemKey>) => ItemKey | undefined;

function run(patient: Patient, start: readonly Finding[], next: Policy, seed: number): Run {
  const random = seeded(seed), findings = [...start], left = new Set<ItemKey>(FIXED);
  for (const finding of start) left.delete(itemKey(finding));
  let structure = LENGTH, shown: readonly Weighted[] = [];
  for (let count = 0; count <= LENGTH; count++) {
    const weights = weigh(gather(findings, undefined), false), ranked = posterior([weights])[0]!;
    shown = calibrated(ranked);
    if (structure === LENGTH && surestStructure(shown) >= SURE) structure = count;
    if (shown[0]!.probability >= SURE) return { explanation: count, structure, right: nameOf(shown[0]!) === patient.truth, last: shown };
    const item = next(weights, ranked, left);
    if (!item) break;
    left.delete(item);
    const finding = examine(patient, item, random);
    if (finding) findings.push(finding);
  }
  return { explanation: LENGTH, structure, right: false, last: shown };
}

function surestStructure(ranked: readonly Weighted[]): number {
  const sums = new Map<string, number>();
  for (const explanation of ranked) { const name = structureOf(nameOf(explanation)); sums.set(name, (sums.get(name) ?? 0) + explanation.probability); }
  return Math.max(...sums.values());
}

/** Why one explanation did not get there: what its nearest rival is. */
function rivalry([first, second]: readonly Weighted[]): string {
  if (!first || !second) return 'other';
  const normal = [first, second].some(one => LESIONS[one.first]!.kind === 'normal');
  const [one, other] = [first, second].map(explanation => structureOf(nameOf(explanation)));
  if (normal) return 'no lesion at all';
  if (one === other) return 'another level of the same structure';
  return first.second >= 0 || second.second >= 0 || one!.includes(other!) || other!.includes(one!) ? 'one lesion more or less' : 'another structure';
}

/** Bootstrap interval of the ratio of two means over the same hands (Efron & Tibshirani 1993 [from memory]). */
function interval(one: readonly number[], other: readonly number[]): string {
  const random = seeded(59), again = 2000;
  const ratios = Array.from({ length: again }, () => {
    let a = 0, b = 0;
    for (let i = 0; i < one.length; i++) { const at = Math.floor(random.next() * one.length); a += one[at]!; b += other[at]!; }
    return a / b;
  }).sort((a, b) => a - b);
  return [0.025, 0.975].map(share => ratios[Math.floor(share * again)]!.toFixed(2)).join(' to ');
}

/** Proposed tests against a fixed and a random order, on the same hands; every hand counts, one that is never settled with the length of the list. */
export function policies(hands: number, print: (line?: string) => void): void {
  const random = seeded(53);
  const runs: Record<string, Run[]> = { proposed: [], fixed: [], random: [] };
  while (runs.proposed!.length < hands) {
    const { patient, start } = attending(random, DRAWS.usual);
    if (patient.truth === 'normal') continue;
    const seed = Math.floor(random.next() * 1e9);
    const shuffled = FIXED.map(item => ({ item, at: random.next() })).sort((a, b) => a.at - b.at).map(({ item }) => item);
    const inOrder = (order: readonly ItemKey[]): Policy => (_, __, left) => order.find(item => left.has(item));
    const proposed: Policy = (weights, ranked, left) => gains(weights, ranked, [...left], undefined).gains[0]?.item ?? [...left][0];
    for (const [name, policy] of [['proposed', proposed], ['fixed', inOrder(FIXED)], ['random', inOrder(shuffled)]] as const) runs[name]!.push(run(patient, start, policy, seed));
  }
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1]!;
  print();
  print(`Tests until ${SURE} is shown, from what the patient points to: ${hands} hands with a lesion, the same for all three orders`);
  print(`  (fixed: the recorder's complete examination, ${PROTOCOL.length} tests that the localiser reads, then the other ${LENGTH - PROTOCOL.length}; random and proposed: from all ${LENGTH})`);
  for (const what of ['explanation', 'structure'] as const) {
    print(`  one ${what === 'explanation' ? 'explanation (structure and level)' : 'structure, whatever its level'}:`);
    for (const cap of [PROTOCOL.length, LENGTH]) {
      const counts = Object.entries(runs).map(([name, all]) => [name, all.map(one => Math.min(cap, one[what]))] as const);
      const means = Object.fromEntries(counts.map(([name, values]) => [name, mean(values)]));
      print(`    every hand counts, one not settled counts ${cap}: ${counts.map(([name, values]) => `${name} mean ${mean(values).toFixed(1)} median ${median(values)} settled ${values.filter(value => value < cap).length}`).join(', ')}; proposed / fixed = ${(means.proposed! / means.fixed!).toFixed(2)} (95 % interval ${interval(counts.find(([name]) => name === 'proposed')![1], counts.find(([name]) => name === 'fixed')![1])})`);
    }
    const everywhere = runs.proposed!.flatMap((_, at) => (Object.values(runs).every(all => all[at]![what] < LENGTH) ? [at] : []));
    const among = (name: string) => mean(everywhere.map(at => runs[name]![at]![what]));
    print(`    only the ${everywhere.length} hands that every order settles: ${Object.keys(runs).map(name => `${name} mean ${among(name).toFixed(1)}`).join(', ')}; proposed / fixed = ${(among('proposed') / among('fixed')).toFixed(2)}`);
  }
  print(`  settled on the right explanation: ${Object.entries(runs).map(([name, all]) => { const done = all.filter(({ explanation }) => explanation < LENGTH); return `${name} ${(100 * done.filter(({ right }) => right).length / done.length).toFixed(0)} % of ${done.length}`; }).join(', ')}`);
  const open = runs.proposed!.filter(({ explanation }) => explanation === LENGTH);
  const reasons = new Map<string, number>();
  for (const { last } of open) reasons.set(rivalry(last), (reasons.get(rivalry(last)) ?? 0) + 1);
  print(`  ${open.length} hands that no proposed test settles, by the nearest rival after all ${LENGTH} tests: ${[...reasons].sort((a, b) => b[1] - a[1]).map(([reason, n]) => `${reason} ${n}`).join(', ')}`);
}
