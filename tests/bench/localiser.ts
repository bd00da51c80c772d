/**
 * Localiser on simulated patients: `npm run bench:localiser` prints the table that is kept in tests/bench/results/localiser.txt, and draws
 * the growth of its run time in localiser-growth.svg beside it. The patients are simulated (tests/bench/localiser/patient.ts), the examiners too;
 * no real patient's data is used.
 * Usage: tsx tests/bench/localiser.ts [patients] [next-test patients]; the files are written only from 20,000 patients on.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { PROPOSABLE } from '../../src/localiser';
import { accuracy, oddRecords } from './localiser/accuracy';
import { EXAMINER, draw, examine, relevantItems } from './localiser/patient';
import { policies } from './localiser/policies';
import { seeded } from './localiser/random';
import { abnormal } from './localiser/references';
import { cohen } from './localiser/scores';
import { DRAWS } from './localiser/shared';
import { speed } from './localiser/speed';

const PATIENTS = Number(process.argv[2] ?? 20000);
const POLICY_PATIENTS = Number(process.argv[3] ?? 120);
const lines: string[] = [];
const print = (line = '') => { lines.push(line); console.log(line); };
const started = Date.now();

/** Do two simulated examiners agree as much as two human ones did? Their noise is set from these figures. */
function agreement(): void {
  const random = seeded(11);
  const strength: [string, string][] = [], touch: [string, string][] = [];
  for (let i = 0; i < 3000; i++) {
    const patient = draw(random, DRAWS.usual);
    const one = random.normal(0, EXAMINER.bias), other = random.normal(0, EXAMINER.bias);
    for (const item of random.next() < 0.5 ? relevantItems(patient, PROPOSABLE) : PROPOSABLE) {
      const into = item.startsWith('power@') ? strength : item.startsWith('light.touch@') ? touch : undefined;
      const a = into && examine(patient, item, random, one), b = into && examine(patient, item, random, other);
      if (into && a && b) into.push([String(abnormal(a)), String(abnormal(b))]);
    }
  }
  print(`Two simulated examiners of one hand agree on normal / abnormal: kappa ${cohen(strength).toFixed(2)} for strength, ${cohen(touch).toFixed(2)} for touch`);
  print('  (two human examiners, blinded: 0.54 and 0.69, and 0.75 on the pattern; Jepsen et al., BMC Neurology 2006;6:8)');
}

print('Localiser on simulated patients (anatomy as in the localiser; lesion depth, people and examiners drawn otherwise, see tests/bench/localiser/patient.ts)');
agreement();
policies(POLICY_PATIENTS, print);
accuracy('usual', PATIENTS, print);
accuracy('even', Math.round(PATIENTS / 4), print);
oddRecords(Math.min(1500, Math.round(PATIENTS / 10)), print);
const plot = speed(print);
print();
print(`${Math.round((Date.now() - started) / 1000)} s, Node ${process.version}`);
if (PATIENTS >= 20000) {
  const folder = new URL('./results/', import.meta.url);
  mkdirSync(folder, { recursive: true });
  writeFileSync(new URL('localiser.txt', folder), `${lines.join('\n')}\n`);
  writeFileSync(new URL('localiser-growth.svg', folder), plot);
}
