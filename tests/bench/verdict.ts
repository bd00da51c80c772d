/**
 * The curves behind the verdict: hears the tuning sentences, and tuning speech that is not for the recorder, in tuning voices;
 * fits the two logistic curves of src/recogniser/verdict.ts and prints them beside those in use, and what each limit would accept.
 *
 *   npm run bench:verdict [-- --every N]
 *
 * Needs the synthesisers of tests/speech/synthesise.py. Every sentence is heard once in each condition, the voices taking turns.
 */
import { createSameMeaning } from '../../src/parser';
import { CURVES, forRecorder, heardRight, THRESHOLDS, type Evidence } from '../../src/recogniser/verdict';
import { condition, type ConditionName } from './hearing/conditions';
import { inGrammar, openHearing, parse } from './hearing/engine';
import { fit } from './hearing/logistic';
import { loadRecording, synthesised, type Recording } from './hearing/material';

const CONDITIONS: readonly ConditionName[] = ['quiet', 'pink noise 10 dB', 'babble 20 dB', 'babble 10 dB', 'far microphone'];
const at = process.argv.indexOf('--every');
const every = at < 0 ? 1 : Number(process.argv[at + 1]);
const print = (text = ''): void => { process.stdout.write(`${text}\n`); };

interface Row { readonly condition: ConditionName; readonly said: string; readonly heard: string; readonly evidence: Evidence; readonly meant: boolean; readonly right: boolean }

const spoken = (name: string, file: string): readonly Recording[] => {
  const found = synthesised(name, file, ['--round'], 'tuning');
  if ('missing' in found) { print(`Nothing can be fitted: ${found.missing}.`); process.exit(1); }
  return found.recordings.filter(({ seed }) => seed % every === 0);
};
const sentences = spoken('verdict-tuning', 'tuning.txt').filter(({ said }) => inGrammar(said));
const others = spoken('verdict-bystanders', 'bystander-tuning.txt');
const talkers = await Promise.all(others.map(({ path }) => loadRecording(path)));

const sameMeaning = createSameMeaning(parse);
const engine = await openHearing();
const rows: Row[] = [];
for (const name of CONDITIONS) for (const { path, seed, said } of [...sentences, ...others]) {
  const meant = sentences.some((sentence) => sentence.path === path);
  const heard = await engine.hear(condition(name).change(await loadRecording(path), seed, talkers));
  // A sentence that was cut in two is neither right nor wrong.
  if (meant && heard.length > 1) continue;
  for (const { hearing } of heard) if (hearing) {
    const text = hearing.path.words.map(({ word }) => word).join(' ');
    rows.push({ condition: name, said, heard: text, evidence: hearing.evidence, meant, right: meant && sameMeaning(text, said) });
  }
}
engine.dispose();

const { wide } = CURVES.right;
const features = ({ margin, perToken, overLoop }: Evidence): number[] => [Math.min(margin ?? wide, wide), perToken ?? 0, overLoop];
const right = fit(rows.map(({ evidence }) => features(evidence)), rows.map((row) => row.right));
const meant = fit(rows.map(({ evidence }) => features(evidence).slice(1)), rows.map((row) => row.meant));
const numbers = (values: readonly number[]): string => values.map((value) => value.toFixed(3).padStart(9)).join('');
print(`${rows.length} stretches: ${sentences.length} sentences and ${others.length} utterances that are not for the recorder, in ${CONDITIONS.length} conditions.`);
print(`${''.padEnd(34)}     base   margin per token over loop`);
print(`${'heard right, fitted'.padEnd(34)}${numbers(right)}`);
print(`${'heard right, in use'.padEnd(34)}${numbers([CURVES.right.base, CURVES.right.margin, CURVES.right.perToken, CURVES.right.overLoop])}`);
print(`${'for the recorder, fitted'.padEnd(34)}${numbers(meant.slice(0, 1))}         ${numbers(meant.slice(1))}`);
print(`${'for the recorder, in use'.padEnd(34)}${numbers([CURVES.meant.base])}         ${numbers([CURVES.meant.perToken, CURVES.meant.overLoop])}`);

print(`\nAccepted from this probability on (${THRESHOLDS.accept} in use), curve in use: right, per cent of the sentences / wrong, their number; of other speech, the number`);
print(`${''.padEnd(8)}${CONDITIONS.map((name) => name.padStart(20)).join('')}${'other speech'.padStart(16)}`);
for (const limit of [0.5, 0.6, 0.7, 0.8, 0.84, 0.86, 0.88, 0.9, 0.92, 0.95]) {
  const accepted = rows.filter(({ evidence }) => heardRight(evidence) >= limit);
  const cell = (name: ConditionName): string => {
    const all = rows.filter((row) => row.condition === name && row.meant);
    const of = accepted.filter((row) => row.condition === name && row.meant);
    return `${((100 * of.filter((row) => row.right).length) / all.length).toFixed(1)} / ${of.filter((row) => !row.right).length}`.padStart(20);
  };
  print(`${limit.toFixed(2).padEnd(8)}${CONDITIONS.map(cell).join('')}${String(accepted.filter((row) => !row.meant).length).padStart(16)}`);
}
print(`\nIgnored below this probability of being for the recorder (${THRESHOLDS.ignore} in use): per cent of other speech / of sentences heard right, all conditions`);
for (const limit of [0.05, 0.1, 0.2, 0.25, 0.3, 0.5]) {
  const share = (of: readonly Row[]): string => ((100 * of.filter(({ evidence }) => forRecorder(evidence) < limit).length) / of.length).toFixed(1);
  print(`${limit.toFixed(2).padEnd(8)}${share(rows.filter((row) => !row.meant)).padStart(8)} / ${share(rows.filter((row) => row.right))}`);
}
print('\nAccepted at the limit in use and wrong:');
for (const { condition: name, said, heard } of rows.filter((row) => !row.right && heardRight(row.evidence) >= THRESHOLDS.accept)) print(`    ${name}: "${said}" heard as "${heard}"`);
process.exit(0);
