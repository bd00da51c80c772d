import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { localise } from '../../../src/localiser';
import { gather } from '../../../src/localiser/inference/evidence';
import { CONFIGURATIONS, LESIONS, NORMAL } from '../../../src/localiser/inference/network';
import { PROPOSABLE, gains } from '../../../src/localiser/inference/next-test';
import { PAIRS, USUAL, priorsFor } from '../../../src/localiser/inference/pairs';
import { posterior, weigh } from '../../../src/localiser/inference/posterior';
import type { Finding, ItemKey } from '../../../src/vocabulary';
import { draw, examine, relevantItems } from './patient';
import { chart } from './plot';
import { seeded } from './random';
import { DRAWS } from './shared';

const FINDINGS = [5, 10, 20, 40, 60, 80, 100] as const;
const SHARES = [0.1, 0.25, 0.5, 0.75, 1] as const;
/** Hands measured for each point, and times each. */
const HANDS = 5, TIMES = 9;

interface Time { readonly wall: number; readonly processor: number }
const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1]!;

/** Median over hands and repeats, ms. */
function measured(hands: readonly (readonly Finding[])[], prepare: (findings: readonly Finding[]) => () => void): Time {
  const times = hands.flatMap(findings => {
    const once = prepare(findings);
    once();
    return Array.from({ length: TIMES }, () => { const from = performance.now(), cpu = process.cpuUsage(); once(); const { user, system } = process.cpuUsage(cpu); return { wall: performance.now() - from, processor: (user + system) / 1000 }; });
  });
  return { wall: median(times.map(({ wall }) => wall)), processor: median(times.map(({ processor }) => processor)) };
}
const inWords = ({ wall, processor }: Time) => `${wall.toFixed(1)} / ${processor.toFixed(1)}`;

/** Records of n findings: what speaks to the lesion first, then the rest of the list. */
function records(n: number): readonly (readonly Finding[])[] {
  const random = seeded(71);
  return Array.from({ length: HANDS }, () => {
    const patient = draw(random, DRAWS.usual);
    const items = new Set<ItemKey>([...relevantItems(patient, PROPOSABLE), ...PROPOSABLE]);
    return [...items].slice(0, n).flatMap(item => examine(patient, item, random) ?? []);
  });
}

const update = (priors = USUAL) => (findings: readonly Finding[]) => () => { posterior([weigh(gather(findings, undefined), false, priors)]); };
const nextTests = (priors = USUAL) => (findings: readonly Finding[]) => {
  const weights = weigh(gather(findings, undefined), false, priors), ranked = posterior([weights])[0]!;
  return () => { gains(weights, ranked, PROPOSABLE, undefined); };
};

/** Prints the table, and returns the plot of growth as SVG. */
export function speed(print: (line?: string) => void): string {
  print();
  print(`Speed, median ms wall / processor over ${HANDS} hands: ${LESIONS.length} explanations, ${PAIRS.length} pairs, ${CONFIGURATIONS.length} configurations, ${PROPOSABLE.length} tests to rank`);
  const byFindings = FINDINGS.map(n => {
    const hands = records(n);
    const row = { n, update: measured(hands, update()), tests: measured(hands, nextTests()), whole: measured(hands, findings => () => { localise(findings); }) };
    print(`  ${String(n).padStart(3)} findings: update with pairs ${inWords(row.update)}, next tests ${inWords(row.tests)}, whole answer with evidence and stability ${inWords(row.whole)}`);
    return row;
  });
  const hands = records(100);
  const byExplanations = SHARES.map(share => {
    const shuffled = seeded(73), kept = new Set(LESIONS.filter((_, index) => index === NORMAL || shuffled.next() < share).map(({ id }) => id));
    const priors = priorsFor((id, usual) => (kept.has(id) ? usual : 0));
    const pairs = priors.logPair.reduce((n, log) => n + (log > -Infinity ? 1 : 0), 0);
    const row = { n: kept.size, pairs, update: measured(hands, update(priors)), tests: measured(hands, nextTests(priors)) };
    print(`  ${String(row.n).padStart(3)} explanations and ${String(pairs).padStart(4)} pairs, 100 findings: update ${inWords(row.update)}, next tests ${inWords(row.tests)}`);
    return row;
  });
  const [heap, tables] = spawnSync(process.execPath, ['--expose-gc', '--import', 'tsx', fileURLToPath(new URL('./memory.ts', import.meta.url))], { encoding: 'utf8' }).stdout.trim().split(' ');
  print(`  memory held by the localiser alone, every test of the list in its record: ${heap} MiB heap and ${tables} MiB of tables`);
  return chart([
    { title: 'Growth with the number of findings', x: `findings (${LESIONS.length} explanations, ${PAIRS.length} pairs)`, y: 'median processor time, ms', lines: [
      { name: 'update with pairs', points: byFindings.map(({ n, update: { processor } }) => [n, processor]) }, { name: 'next-test ranking', points: byFindings.map(({ n, tests: { processor } }) => [n, processor]) }] },
    { title: 'Growth with the number of explanations', x: 'single and double explanations (100 findings)', y: 'median processor time, ms', lines: [
      { name: 'update with pairs', points: byExplanations.map(({ n, pairs, update: { processor } }) => [n + pairs, processor]) }, { name: 'next-test ranking', points: byExplanations.map(({ n, pairs, tests: { processor } }) => [n + pairs, processor]) }] },
  ], `Node ${process.version}, one core; drawn by npm run bench:localiser`);
}
