/** Writes the exported networks of seeds FROM to TO - 1, one JSON object a line: tsx tests/localiser/independent/export.ts 1 501 | python3 tests/localiser/independent/solve.py */
import { exported, trial } from './network';

const [from = 1, to = 501] = process.argv.slice(2).map(Number);
for (let seed = from; seed < to; seed++) process.stdout.write(`${JSON.stringify(exported(trial(seed)))}\n`);
