/**
 * How well the recorder hears: findings filed exactly, asked about, missed and wrongly filed, in noise, at other speeds,
 * clipped, from afar; general-purpose recognisers on the same recordings; what each measure is worth; speech that is not for
 * the recorder; people saying digits; and how long a finding takes in a browser.
 *
 *   npm run bench:hearing [-- --every N] [--only PART,PART] [--digits FOLDER] [--compare-every N] [--engine embedded|vosk] [--conditions NAME,NAME] [--quick]
 *
 * Parts: findings, comparison, ablation, bystanders, digits, browser. --every 20 measures one round of voices in twenty.
 * --compare-every (4 by default) thins the comparison recognisers and the ablations further: they cost more than everything else.
 * Everything is measured on sentences and voices that nothing was tuned on, and every noise has a fixed seed, so two runs
 * print the same figures but for times. What is not installed is skipped by name: the synthesisers of
 * tests/speech/synthesise.py (other speeds, babble, bystanders), Debian's pocketsphinx-testdata, python and pip.
 * The whole takes about an hour and a quarter on two quiet cores; texts of the comparison recognisers are kept in .cache and not made twice.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { COMPARISONS, COMPARISON_TITLE, prepareComparisons, type Comparison } from './hearing/comparison';
import { CONDITIONS, CONDITION_NAMES, condition, type ConditionName } from './hearing/conditions';
import { digitsAlone, digitsInSentences, LAST_TUNING_TAKE, type Spoken } from './hearing/digits';
import { inGrammar, JUDGEMENTS, parse, VARIATIONS, type HeardBy, type Judgement, type Variation } from './hearing/engine';
import { measureBrowser } from './hearing/browser';
import { atRate, findingClips as allClips, HUMAN_BYSTANDERS, ROOT, syntheticBystanders, type Recording } from './hearing/material';
import { installedVoskModel } from '../../src/recogniser/vosk/node';
import { holdsFinding } from './hearing/outcome';
import { Pool } from './hearing/pool';
import { byVoice, caseOf, HEADER, line, percent, share, textCase, type Case } from './hearing/table';
import type { Answer } from './hearing/worker';

const args = process.argv.slice(2);
const option = (name: string): string | undefined => { const at = args.indexOf(`--${name}`); return at < 0 ? undefined : args[at + 1]; };
const PARTS = ['findings', 'comparison', 'ablation', 'bystanders', 'digits', 'browser'] as const;
type Part = (typeof PARTS)[number];
const quick = args.includes('--quick');
const every = Number(option('every') ?? (quick ? 24 : 1));
const thinned = every * Number(option('compare-every') ?? (quick ? 1 : 4));
const only = option('only')?.split(',');
const wanted = option('engine') ?? 'embedded';
if (wanted !== 'embedded' && wanted !== 'vosk') { process.stderr.write(`There is no engine "${wanted}". Engines: embedded, vosk.\n`); process.exit(2); }
const noSecond = installedVoskModel() === null ? 'its model is not installed (npm run model:vosk)' : undefined;
if (wanted === 'vosk' && noSecond) { process.stderr.write(`The second engine cannot be measured: ${noSecond}.\n`); process.exit(1); }
/** Who hears in the tables of findings and bystanders. */
const ear: Variation = wanted === 'vosk' ? 'second engine' : 'all on';
const unknown = only?.find((name) => !PARTS.includes(name as Part));
if (unknown !== undefined || !(every >= 1) || !(thinned >= 1)) {
  process.stderr.write(`${unknown === undefined ? '--every and --compare-every take a whole number, 1 or more' : `There is no part "${unknown}"`}. Parts: ${PARTS.join(', ')}.\n`);
  process.exit(2);
}

const lines: string[] = [];
const results = join(ROOT, 'tests/bench/results');
function print(text = ''): void {
  lines.push(text);
  process.stdout.write(`${text}\n`);
  if (quick) return;
  mkdirSync(results, { recursive: true });
  writeFileSync(join(results, only ? `hearing.${only.join('-')}.txt` : 'hearing.txt'), `${lines.join('\n')}\n`);
}

// --- hearing, each recording once --------------------------------------------------------------------------------------
const bystanders = syntheticBystanders();
const talkers = 'missing' in bystanders ? [] : bystanders.recordings.map(({ path }) => path);
const workers = Math.min(2, availableParallelism());
const pool = new Pool(workers, talkers);
const kept = new Map<string, Answer<HeardBy>>();
let [heap, load] = [0, 0];

async function heardBy(variation: Variation, name: ConditionName, recordings: readonly Recording[]): Promise<Answer<HeardBy>[]> {
  const key = ({ path }: Recording): string => `${variation}|${name}|${path}`;
  const measured = await pool.measure({ by: 'engine', variation, hears: 'everything', condition: name }, recordings.filter((recording) => !kept.has(key(recording))));
  for (const answer of measured.answers) kept.set(key(answer.recording), answer);
  if (variation === 'all on') [heap, load] = [Math.max(heap, measured.heapMiB), Math.max(load, measured.loadSeconds)];
  return recordings.flatMap((recording) => kept.get(key(recording)) ?? []);
}
const cases = async (variation: Variation, name: ConditionName, recordings: readonly Recording[], judgement: Judgement = 'all on'): Promise<Case[]> =>
  (await heardBy(variation, name, recordings)).map((answer) => caseOf(parse, answer, answer.result[judgement]));
const compared = async (by: Comparison, name: ConditionName, recordings: readonly Recording[]): Promise<Case[]> =>
  (await pool.measure({ by, condition: name }, recordings)).answers.map((answer) => textCase(parse, answer, answer.result));

/** Conditions that can be made here: babble is cut together from synthetic bystanders. */
const named = option('conditions')?.split(',');
const conditions = CONDITION_NAMES.filter((name) => (talkers.length > 0 || !condition(name).babble) && (!named || named.includes(name)));
const HARD = (['quiet', 'pink noise 10 dB', 'babble 10 dB'] as const).filter((name) => conditions.includes(name));
const RATES = [0.85, 1.2];
const findingClips = (step: number): Recording[] => allClips(step).filter(({ said }) => inGrammar(said));

// --- the tables ----------------------------------------------------------------------------------------------------------
async function findings(): Promise<void> {
  const clips = findingClips(every);
  print(`FINDINGS: ${clips.length} sentences of the grammar, in ${new Set(clips.map(({ voice }) => voice)).size} voices, all synthetic; neither sentences nor voices were tuned on. No human voice here: see digits and bystanders.`);
  const dropped = allClips(every).length - clips.length;
  if (dropped) print(`${dropped} recorded sentences are left out: the grammar no longer holds them.`);
  print('Shares in per cent. asked: the question showed first what was said (right), offered it further down, or did not have it (wrong).');
  print('errors: words wrong, missing or added per 100 words said, as heard and as filed without a question. RTF: processor time over audio time.');
  print(HEADER);
  const rows: [string, Case[]][] = [];
  const add = (name: string, got: Case[], aim?: string): void => { rows.push([name, got]); print(line(name, got, aim)); };
  for (const name of conditions) add(name, await cases(ear, name, clips), condition(name).aim);
  for (const rate of named ? [] : RATES) {
    const found = atRate(rate, every);
    if ('missing' in found) print(`speaking rate ${rate}: skipped, ${found.missing}`);
    else add(`speaking rate ${rate} (1.0 is "quiet")`, await cases(ear, 'quiet', found.recordings.filter(({ said }) => inGrammar(said))));
  }
  if ('missing' in bystanders) print(`babble: skipped, ${bystanders.missing}`);
  const quiet = rows[0]?.[1] ?? [];
  if (!named) print(`Asked about in quiet: ${share(quiet, 'asked, right', 'asked, offered', 'asked, wrong')} % (aim ≤ 3). None wrong among n would mean below 3/n: ${percent(3, quiet.length)} % of ${quiet.length} (95 % confidence).`);
  print(`Loading in Node, model and grammar: ${load.toFixed(1)} s. Engine heap after all of it: ${heap.toFixed(0)} MiB (aim ≤ 96).`);
  print();
  print('Exact / wrongly filed, by voice (all synthetic)');
  for (const text of byVoice(rows)) print(text);
  print();
}

async function comparison(): Promise<void> {
  const clips = findingClips(thinned);
  print(`GENERAL-PURPOSE RECOGNISERS on the same ${clips.length} recordings. Their text is read like a typed line; nothing is asked, "filed" is whatever the parser reads.`);
  print(HEADER);
  const reasons = prepareComparisons();
  for (const name of COMPARISONS) if (reasons[name]) print(`${COMPARISON_TITLE[name]}: skipped, ${reasons[name]}`);
  if (noSecond) print(`second engine: skipped, ${noSecond}`);
  const able = COMPARISONS.filter((name) => !reasons[name]);
  for (const name of conditions) {
    const rows: [string, Promise<Case[]>][] = [
      ['this program', cases('all on', name, clips)],
      ...(noSecond ? [] : [['this program, second engine', cases('second engine', name, clips)] as [string, Promise<Case[]>]]),
      ...able.map((by): [string, Promise<Case[]>] => [COMPARISON_TITLE[by], compared(by, name, clips)]),
    ];
    for (const [who, got] of rows) print(line(`${name}: ${who}`, await got));
  }
  print('For scale: dictated clinical notes had 7.4 errors per 100 words straight from the recogniser and 0.3 after review and signature (Zhou et al., JAMA Network Open 2018;1(3):e180530); whole dictations by people, so another task.');
  print();
}

async function ablation(): Promise<void> {
  const clips = findingClips(thinned);
  print(`WHAT EACH MEASURE IS WORTH: the same ${clips.length} recordings with one measure away.`);
  print(HEADER);
  for (const variation of VARIATIONS) for (const judgement of variation === 'all on' ? JUDGEMENTS : ['all on'] as const)
    for (const name of HARD) print(line(`${judgement === 'all on' ? variation : judgement}: ${name}`, await cases(variation, name, clips, judgement)));
  print('no network: the acoustic model alone, with its own limits.');
  print('no contrast check: the margin over the best rival counts for nothing; no rejection: nor does how well the sentence fits at all.');
  print('grammar contrasts only: rivals are those of grammars/contrasts.txt, without every sentence one word away. fixed endpointing: 6 dB above the noise, a second kept on both sides.');
  print();
}

async function notForIt(): Promise<void> {
  print('SPEECH THAT IS NOT FOR THE RECORDER, cut into utterances by the program. Per cent of them (aim: ≤ 1 % give an accepted finding).');
  const header = ['utterances', 'accepted', 'a finding', 'asked', '', 'accepted without contrast check', 'without rejection', 'without either'];
  print(`${''.padEnd(52)}${header.map((title) => (title ? title.padStart(Math.max(12, title.length + 2)) : '')).join('')}`);
  const all: Answer<HeardBy>[] = [];
  const report = (name: string, answers: readonly Answer<HeardBy>[]): void => {
    const count = (judgement: Judgement, wanted: (utterance: HeardBy[Judgement][number]) => boolean): number => answers.reduce((sum, { result }) => sum + result[judgement].filter(wanted).length, 0);
    const n = count('all on', () => true);
    const accepted = (judgement: Judgement): string => percent(count(judgement, ({ verdict }) => verdict === 'accepted'), n);
    const cells = [String(n), accepted('all on'), percent(count('all on', ({ verdict, readings }) => verdict === 'accepted' && holdsFinding(parse, readings[0] ?? '')), n), percent(count('all on', ({ verdict }) => verdict === 'queried'), n)];
    print(`${name.padEnd(52)}${cells.map((cell) => cell.padStart(12)).join('')}${accepted('no contrast check').padStart(33)}${accepted('no rejection').padStart(19)}${accepted('neither').padStart(16)}`);
    for (const { result } of answers) for (const { verdict, readings } of result['all on']) if (verdict === 'accepted') print(`    accepted: "${readings[0]}"`);
  };
  const measure = async (name: string, recordings: readonly Recording[]): Promise<void> => {
    const answers = await heardBy(ear, 'quiet', recordings);
    report(name, answers);
    all.push(...answers);
  };
  if ('missing' in bystanders) print(`synthetic: skipped, ${bystanders.missing}`);
  else await measure('synthetic, measuring voices', bystanders.recordings.filter(({ seed }) => seed % every === 0 || every === 1));
  for (const [name, find] of HUMAN_BYSTANDERS) {
    const found = find();
    if ('missing' in found) print(`human, ${name}: skipped, ${found.missing}`);
    else await measure(`human, ${name}`, found.recordings);
  }
  report('all', all);
  report('all, human only', all.filter(({ recording }) => !recording.path.includes('bystanders')));
  print();
}

const GROUPS: readonly (readonly [string, (take: number) => boolean])[] = [
  [`takes 0 to ${LAST_TUNING_TAKE} (may be tuned on)`, (take) => take <= LAST_TUNING_TAKE],
  [`takes from ${LAST_TUNING_TAKE + 1} (measuring only)`, (take) => take > LAST_TUNING_TAKE],
];
async function digits(): Promise<void> {
  const folder = option('digits');
  if (!folder) { print('HUMAN DIGITS: skipped (--digits FOLDER, files DIGIT_SPEAKER_TAKE.wav).'); print(); return; }
  print('HUMAN DIGITS over a telephone band as the grade, 0 to 5, in sentences that synthetic voices speak around them (aim: right or asked ≥ 95 %, wrong ≤ 1 %).');
  const [inSentences, alone] = [await digitsInSentences(folder), await digitsAlone(folder)];
  if ('missing' in inSentences) { print(`skipped, ${inSentences.missing}`); print(); return; }
  const strange = inSentences.recordings.find(({ said }) => !inGrammar(said));
  if (strange) throw new Error(`"${strange.said}" is no sentence of the grammar: correct tests/speech/phrases/digit-carriers.txt.`);
  print(HEADER);
  const rows = async (name: string, recordings: readonly Spoken[], hear: (part: readonly Recording[]) => Promise<Case[]>): Promise<void> => {
    for (const [title, belongs] of GROUPS) {
      const group = recordings.filter(({ take }, i) => belongs(take) && i % every === 0);
      const got = await hear(group);
      for (const speaker of [...new Set(got.map(({ voice }) => voice))].sort()) print(line(`${name}, speaker ${speaker}`, got.filter(({ voice }) => voice === speaker)));
      print(line(`${name}, ${title}`, got));
    }
  };
  await rows('8 kHz model', inSentences.recordings, (part) => cases('8 kHz model', 'quiet', part));
  await rows('16 kHz model', inSentences.recordings, (part) => cases('all on', 'quiet', part));
  const reasons = prepareComparisons();
  for (const by of COMPARISONS) if (!reasons[by]) await rows(by, inSentences.recordings.filter((_, i) => i % (thinned / every) === 0), (part) => compared(by, 'quiet', part));
  if ('missing' in alone) { print(`alone: skipped, ${alone.missing}`); print(); return; }
  print('Digits 0 to 9 said alone, only digits to be heard, 8 kHz model');
  await rows('alone, 8 kHz model', alone.recordings, async (part) => (await pool.measure({ by: 'engine', variation: '8 kHz model', hears: 'digits', condition: 'quiet' }, part)).answers.map((answer) => caseOf(parse, answer, answer.result['all on'])));
  print();
}

async function browser(): Promise<void> {
  pool.close(); // times need a machine with nothing else on it
  for (const text of await measureBrowser(quick ? 6 : 40)) print(text);
}

const TABLES: Readonly<Record<Part, () => Promise<void>>> = { findings, comparison, ablation, bystanders: notForIt, digits, browser };
print(`npm run bench:hearing${args.length ? ` -- ${args.join(' ').replace(/(--digits )\S+/, '$1FOLDER')}` : ''}   (${workers} processes hear side by side)`);
print();
for (const part of PARTS) if (!only || only.includes(part)) await TABLES[part]();
pool.close();
process.exit(0);
