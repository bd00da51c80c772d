/**
 * Localiser on simulated patients: `npm run bench:localiser` prints the table that is kept in tests/bench/results/localiser.txt.
 * The patients are simulated (tests/bench/localiser/patient.ts), the examiners too; no real patient's data is used.
 * Usage: tsx tests/bench/localiser.ts [patients] [next-test patients]
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { localise } from '../../src/localiser';
import { calibrated } from '../../src/localiser/inference/calibration';
import { gather } from '../../src/localiser/inference/evidence';
import { CONFIGURATIONS, LESIONS, LESION_INDEX } from '../../src/localiser/inference/network';
import { PROPOSABLE, gains, nameOf } from '../../src/localiser/inference/next-test';
import { PAIRS } from '../../src/localiser/inference/pairs';
import type { SideWeights, Weighted } from '../../src/localiser/inference/posterior';
import { posterior, weigh } from '../../src/localiser/inference/posterior';
import type { Finding, ItemKey } from '../../src/vocabulary';
import { SIGNS, itemKey } from '../../src/vocabulary';
import type { Patient } from './localiser/patient';
import { attending, examination } from './localiser/examination';
import { EXAMINER, draw, examine, relevantItems } from './localiser/patient';
import type { Random } from './localiser/random';
import { seeded } from './localiser/random';
import { NaiveBayes, abnormal, ruleTable } from './localiser/references';
import { Scores, cohen } from './localiser/scores';

const PATIENTS = Number(process.argv[2] ?? 20000);
const POLICY_PATIENTS = Number(process.argv[3] ?? 60);
const lines: string[] = [];
const print = (line = '') => { lines.push(line); console.log(line); };
const started = Date.now();

const structureNames = new Map(LESIONS.map(lesion => [lesion.id, (lesion.parts ?? [lesion]).map(({ structure }) => structure)]));
/** The structures of an explanation's id, pairs taken apart. */
function structureOf(id: string): string {
  const whole = structureNames.get(id);
  if (whole) return [...whole].sort().join(' + ');
  const cut = [...id.matchAll(/\+/g)].map(({ index }) => index).find(at => LESION_INDEX.has(id.slice(0, at)) && LESION_INDEX.has(id.slice(at + 1)));
  return cut === undefined ? id : [...structureNames.get(id.slice(0, cut))!, ...structureNames.get(id.slice(cut + 1))!].sort().join(' + ');
}

const named = (ranked: readonly Weighted[]) => ranked.map(explanation => ({ id: nameOf(explanation), probability: explanation.probability }));
const exact = (findings: readonly Finding[]) => posterior([weigh(gather(findings, undefined), false)])[0]!;

function agreement(): void {
  const random = seeded(11);
  const strength: [string, string][] = [], touch: [string, string][] = [];
  for (let i = 0; i < 3000; i++) {
    const patient = draw(random, 'by prior');
    const one = random.normal(0, EXAMINER.bias), other = random.normal(0, EXAMINER.bias);
    for (const item of random.next() < 0.5 ? relevantItems(patient, PROPOSABLE) : PROPOSABLE) {
      const into = item.startsWith('power@') ? strength : item.startsWith('light.touch@') ? touch : undefined;
      const a = into && examine(patient, item, random, one), b = into && examine(patient, item, random, other);
      if (into && a && b) into.push([String(abnormal(a)), String(abnormal(b))]);
    }
  }
  print(`Two simulated examiners of one hand agree on normal / abnormal: kappa ${cohen(strength).toFixed(2)} for strength, ${cohen(touch).toFixed(2)} for touch`);
  print('  (two human examiners, blinded: 0.54 and 0.69, Jepsen et al., BMC Neurology 2006;6:8)');
}

function accuracy(): void {
  const teacher = new NaiveBayes();
  const learning = seeded(23);
  for (let i = 0; i < PATIENTS / 2; i++) { const { patient, start } = attending(learning, 'by prior'); teacher.learn(patient.truth, examination(patient, start, learning, 5 + Math.floor(learning.next() * 36))); }
  const methods = { 'anatomical network': (findings: readonly Finding[]) => named(calibrated(exact(findings))), 'rule table': ruleTable, 'naive Bayes without anatomy': (findings: readonly Finding[]) => teacher.guess(findings) };
  for (const how of ['by prior', 'evenly'] as const) {
    const random = seeded(how === 'by prior' ? 37 : 41);
    const raw = new Scores();
    const scores = Object.keys(methods).map(name => [name, new Scores()] as const);
    const bySize = [[5, 10], [11, 20], [21, 30], [31, 40]].map(([low, high]) => ({ low: low!, high: high!, score: new Scores() }));
    const n = how === 'by prior' ? PATIENTS : Math.round(PATIENTS / 10);
    for (let i = 0; i < n; i++) {
      const { patient, start } = attending(random, how);
      const size = 5 + Math.floor(random.next() * 36);
      const findings = examination(patient, start, random, size);
      for (const [name, score] of scores) {
        const network = name === 'anatomical network' ? exact(findings) : undefined;
        const answer = network ? named(calibrated(network)) : methods[name as keyof typeof methods](findings);
        score.add(patient.truth, patient.structure, answer, structureOf);
        if (network) raw.add(patient.truth, patient.structure, named(network), structureOf);
        if (network) bySize.find(({ low, high }) => size >= low && size <= high)!.score.add(patient.truth, patient.structure, answer, structureOf);
      }
    }
    print();
    print(`${n} simulated hands, lesions drawn ${how === 'by prior' ? 'as often as the prior has them' : 'evenly over all single explanations'}, 5 to 40 findings each`);
    print('  method                         first   three   calibration   Brier   kappa of structure');
    for (const [name, score] of scores) print(`  ${name.padEnd(29)} ${score.top1.toFixed(3)}   ${score.top3.toFixed(3)}   ${score.calibration.toFixed(3)}         ${score.brier.toFixed(3)}   ${score.kappa.toFixed(3)}`);
    for (const { low, high, score } of bySize) print(`    network, ${String(low).padStart(2)} to ${high} findings: first ${score.top1.toFixed(3)}, three ${score.top3.toFixed(3)}, kappa ${score.kappa.toFixed(3)}`);
    if (how === 'by prior') {
      print(`    network without the calibration step: calibration ${raw.calibration.toFixed(3)}, Brier ${raw.brier.toFixed(3)}`);
      print('    network, said and found (first answer):');
      for (const { n: count, p, right } of scores[0]![1].bins) if (count > 0) print(`      said ${(p / count).toFixed(2)}  right ${(right / count).toFixed(2)}  n ${count}`);
    }
  }
}

/** Order in which a complete examination goes: look, feel, move, feeling, power, special tests, then the rest. */
const FIXED: readonly ItemKey[] = (() => {
  const order = ['look', 'perfusion', 'feel', 'move', 'sensation', 'power', 'special test', 'reflex'];
  return [...PROPOSABLE].map((item, at) => ({ item, at, rank: order.indexOf(SIGNS[item.split('@')[0] as Finding['sign']].category) })).sort((a, b) => a.rank - b.rank || a.at - b.at).map(({ item }) => item);
})();
const SURE = 0.9;

/** Tests needed to reach a posterior of 0.9, starting from what the patient points to; null if `most` do not suffice. */
function testsNeeded(patient: Patient, start: readonly Finding[], next: (weights: SideWeights, left: readonly ItemKey[]) => ItemKey | undefined, random: Random, most: number): number | null {
  const findings = [...start];
  const left = new Set<ItemKey>(PROPOSABLE);
  for (const finding of start) left.delete(itemKey(finding));
  for (let count = 0; count <= most; count++) {
    const weights = weigh(gather(findings, undefined), false);
    if (posterior([weights])[0]![0]!.probability >= SURE) return count;
    const item = next(weights, [...left]);
    if (!item) return null;
    left.delete(item);
    const finding = examine(patient, item, random);
    if (finding) findings.push(finding);
  }
  return null;
}

/** The proposing policy may take this many tests; hands that it cannot settle by then are left out for all three. */
const PATIENCE = 40;

function policies(): void {
  const random = seeded(53);
  const needed: Record<string, number[]> = { proposed: [], fixed: [], random: [] };
  let unreached = 0, tried = 0;
  while (needed.proposed!.length < POLICY_PATIENTS) {
    const { patient, start } = attending(random, 'by prior');
    if (patient.truth === 'normal') continue;
    tried++;
    const seed = Math.floor(random.next() * 1e9);
    const shuffled = [...PROPOSABLE].map(item => ({ item, at: random.next() })).sort((a, b) => a.at - b.at).map(({ item }) => item);
    const inOrder = (order: readonly ItemKey[]) => (_: SideWeights, left: readonly ItemKey[]) => { const open = new Set(left); return order.find(item => open.has(item)); };
    const proposed = (weights: SideWeights, left: readonly ItemKey[]) => gains(weights, posterior([weights])[0]!, left, undefined).gains[0]?.item ?? left[0];
    const first = testsNeeded(patient, start, proposed, seeded(seed), PATIENCE);
    if (first === null) { unreached++; continue; }
    needed.proposed!.push(first);
    for (const [name, order] of [['fixed', FIXED], ['random', shuffled]] as const) needed[name]!.push(testsNeeded(patient, start, inOrder(order), seeded(seed), Infinity) ?? PROPOSABLE.length);
  }
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  print();
  print(`Tests until one explanation reaches ${SURE}, from what the patient points to: ${POLICY_PATIENTS} hands (${unreached} of ${tried} were not settled by ${PATIENCE} proposed tests and are left out; an order that never settles counts all ${PROPOSABLE.length})`);
  for (const [name, counts] of Object.entries(needed)) print(`  ${name.padEnd(9)} mean ${mean(counts).toFixed(1)}  median ${[...counts].sort((a, b) => a - b)[counts.length >> 1]}`);
  print(`  proposed / fixed = ${(mean(needed.proposed!) / mean(needed.fixed!)).toFixed(2)}`);
}

function speed(): void {
  const random = seeded(71);
  const median = (run: () => void) => {
    const times = Array.from({ length: 21 }, () => { const from = performance.now(), cpu = process.cpuUsage(); run(); const { user, system } = process.cpuUsage(cpu); return [performance.now() - from, (user + system) / 1000] as const; });
    return [0, 1].map(at => times.map(time => time[at]!).sort((a, b) => a - b)[10]!.toFixed(1)).join(' / ');
  };
  print();
  print(`Speed, median ms wall / processor: ${LESIONS.length} explanations, ${PAIRS.length} pairs, ${CONFIGURATIONS.length} configurations`);
  for (const n of [5, 10, 20, 40, 70, 100]) {
    const patient = draw(random, 'by prior');
    const findings = PROPOSABLE.slice(0, n).flatMap(item => examine(patient, item, random) ?? []);
    localise(findings);
    const evidence = gather(findings, undefined), weights = weigh(evidence, false), ranked = posterior([weights])[0]!;
    print(`  ${String(n).padStart(3)} findings: update with pairs ${median(() => { posterior([weigh(gather(findings, undefined), false)]); })}, next tests ${median(() => { gains(weights, ranked, PROPOSABLE, undefined); })}, whole answer ${median(() => { localise(findings); })}`);
  }
  print(`  memory: ${(process.memoryUsage().heapUsed / 2 ** 20).toFixed(0)} MiB heap and ${(process.memoryUsage().arrayBuffers / 2 ** 20).toFixed(0)} MiB of tables in this process after the run`);
}

print('Localiser on simulated patients (anatomy as in the localiser; lesion depth, people and examiners drawn otherwise, see tests/bench/localiser/patient.ts)');
agreement();
policies();
speed();
accuracy();
print();
print(`${Math.round((Date.now() - started) / 1000)} s, Node ${process.version}`);
if (PATIENTS >= 20000) { mkdirSync(new URL('./results/', import.meta.url), { recursive: true }); writeFileSync(new URL('./results/localiser.txt', import.meta.url), `${lines.join('\n')}\n`); }
