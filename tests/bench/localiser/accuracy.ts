import { calibrated } from '../../../src/localiser/inference/calibration';
import { gather } from '../../../src/localiser/inference/evidence';
import { predictiveP } from '../../../src/localiser/inference/fit';
import { LESIONS } from '../../../src/localiser/inference/network';
import { nameOf } from '../../../src/localiser/inference/next-test';
import { priorsFor } from '../../../src/localiser/inference/pairs';
import { posterior, weigh } from '../../../src/localiser/inference/posterior';
import { POOR_FIT } from '../../../src/localiser/localise';
import { attending, examination } from './examination';
import { seeded } from './random';
import { NaiveBayes, ruleTable } from './references';
import { Scores } from './scores';
import { DRAWS, familyOf, named, structureOf } from './shared';

const FEWEST = 5, MOST = 40;
const SIZES = [[5, 10], [11, 20], [21, 30], [31, 40]] as const;
const NETWORK = 'anatomical network', MATCHED = 'the same, told that all are alike common', RULES = 'rule table', BAYES = 'naive Bayes without anatomy';

const anySize = (random: { next(): number }): number => FEWEST + Math.floor(random.next() * (MOST - FEWEST + 1));

/**
 * Who is right how often, on hands that none of the methods has seen.
 * @param draw how lesions are drawn; drawn evenly, the network is asked twice: with its usual prior, and with one that fits the drawing
 */
export function accuracy(draw: keyof typeof DRAWS, hands: number, print: (line?: string) => void): void {
  const teacher = new NaiveBayes();
  const learning = seeded(draw === 'usual' ? 23 : 29);
  for (let i = 0; i < Math.max(hands, 4000) / 2; i++) { const { patient, start } = attending(learning, DRAWS[draw]); teacher.learn(patient.truth, examination(patient, start, learning, anySize(learning))); }
  const own = draw === 'usual' ? NETWORK : MATCHED;
  const scores = new Map([NETWORK, ...(draw === 'even' ? [MATCHED] : []), RULES, BAYES].map(name => [name, new Scores()]));
  const raw = new Scores(), bySize = SIZES.map(() => new Scores()), byFamily = new Map<string, Scores>();
  const random = seeded(draw === 'usual' ? 37 : 41);
  for (let i = 0; i < hands; i++) {
    const { patient, start } = attending(random, DRAWS[draw]);
    const size = anySize(random), findings = examination(patient, start, random, size), evidence = gather(findings, undefined);
    const { truth, structure } = patient;
    const asked = new Map([[NETWORK, DRAWS.usual], ...(draw === 'even' ? [[MATCHED, DRAWS.even] as const] : [])].map(([name, priors]) => [name as string, posterior([weigh(evidence, false, priors as typeof DRAWS.usual)])[0]!]));
    for (const [name, score] of scores) {
      const network = asked.get(name);
      const answer = network ? named(calibrated(network)) : name === RULES ? ruleTable(findings) : teacher.guess(findings);
      score.add(truth, structure, answer, structureOf);
      if (name !== own || !network) continue;
      raw.add(truth, structure, named(network), structureOf);
      bySize[SIZES.findIndex(([low, high]) => size >= low && size <= high)]!.add(truth, structure, answer, structureOf);
      const family = familyOf(patient);
      byFamily.set(family, byFamily.get(family) ?? new Scores());
      byFamily.get(family)!.add(truth, structure, answer, structureOf);
    }
  }
  print();
  print(`${hands} simulated hands, lesions drawn ${draw === 'usual' ? 'as often as the prior has them' : 'evenly over all single explanations, pairs as they then follow'}, ${FEWEST} to ${MOST} findings each`);
  print('  method                                     first   three   calibration   Brier   kappa of structure');
  for (const [name, score] of scores) print(`  ${name.padEnd(41)} ${score.top1.toFixed(3)}   ${score.top3.toFixed(3)}   ${score.calibration.toFixed(3)}         ${score.brier.toFixed(3)}   ${score.kappa.toFixed(3)}`);
  print(`  in more detail, ${own}:`);
  SIZES.forEach(([low, high], at) => print(`    ${String(low).padStart(2)} to ${high} findings: first ${bySize[at]!.top1.toFixed(3)}, three ${bySize[at]!.top3.toFixed(3)}, kappa ${bySize[at]!.kappa.toFixed(3)}`));
  print('    by kind of lesion: first / three / mean probability said of the first, hands');
  for (const [family, score] of [...byFamily].sort((a, b) => b[1].n - a[1].n)) print(`      ${family.padEnd(19)} ${score.top1.toFixed(2)} / ${score.top3.toFixed(2)} / ${score.said.toFixed(2)}, ${score.n}`);
  print(`    without the calibration step: calibration ${raw.calibration.toFixed(3)}, Brier ${raw.brier.toFixed(3)}`);
  print(`    said and found (first answer): ${scores.get(own)!.bins.filter(({ n }) => n > 0).map(({ n, p, right }) => `${(p / n).toFixed(2)} ${(right / n).toFixed(2)} (${n})`).join(', ')}`);
}

/** Does an odd record say so? Hands that follow no lesion, against hands that follow one. */
export function oddRecords(hands: number, print: (line?: string) => void): void {
  const flagged = (priors: typeof DRAWS.usual, seed: number, least: number) => {
    const random = seeded(seed);
    let n = 0, odd = 0, right = 0, rightOdd = 0;
    while (n < hands) {
      const { patient, start } = attending(random, priors);
      const findings = examination(patient, start, random, Math.max(least, anySize(random)));
      const weights = weigh(gather(findings, undefined), false), [top] = posterior([weights])[0]!;
      const poor = LESIONS[top!.first]!.kind === 'unexplained' || predictiveP(weights, top!) < POOR_FIT;
      n += 1; odd += poor ? 1 : 0;
      if (nameOf(top!) === patient.truth) { right += 1; rightOdd += poor ? 1 : 0; }
    }
    return { share: odd / n, ofRight: rightOdd / right };
  };
  const oddOnes = priorsFor(id => (id === 'unexplained' ? 1 : 0)), plain = priorsFor((id, usual) => (id === 'unexplained' ? 0 : usual));
  const ordinary = flagged(plain, 61, FEWEST);
  print();
  print(`Fit (posterior predictive probability under ${POOR_FIT}, or "none of these" first): said to fit poorly, of ${hands} hands each`);
  print(`  ${(100 * ordinary.share).toFixed(1)} % of hands with a lesion of the list, ${(100 * ordinary.ofRight).toFixed(1)} % of those whose first answer is right`);
  print(`  ${(100 * flagged(oddOnes, 67, FEWEST).share).toFixed(0)} % of hands that follow no lesion (${FEWEST} to ${MOST} findings), ${(100 * flagged(oddOnes, 67, 25).share).toFixed(0)} % with 25 findings or more`);
}
