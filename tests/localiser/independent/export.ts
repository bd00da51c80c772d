/**
 * Writes the exported networks of seeds FROM to TO - 1, one JSON object a line: tsx tests/localiser/independent/export.ts 1 501 | python3 tests/localiser/independent/solve.py
 * With --bif SEED it writes one network in the Bayesian Interchange Format: tsx tests/localiser/independent/export.ts --bif 7 | python3 tests/localiser/independent/solve.py --bif
 */
import { toBif } from './bif';
import { exported, trial } from './network';

const [first, second] = process.argv.slice(2);
if (first === '--bif') process.stdout.write(toBif(exported(trial(Number(second ?? 1)))));
else for (let seed = Number(first ?? 1); seed < Number(second ?? 501); seed++) process.stdout.write(`${JSON.stringify(exported(trial(seed)))}\n`);
