/**
 * How well the recorder hears: exact, queried, missed and wrongly accepted findings, under noise, at other speeds, clipped,
 * from afar; speech that is not for it; people saying digits; and what each measure is worth.
 *
 *   npm run bench:hearing [-- --quick] [--every N] [--digits FOLDER] [--only findings|bystanders|ablation|digits]
 *
 * Everything is measured on sentences and voices that nothing was tuned on. The committed clips suffice; with the speech
 * synthesisers of tests/speech/synthesise.py installed it also measures other speeds and synthetic bystanders,
 * and skips these by name without them.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { linkGrammars, spokenGrammar, type SpokenGrammar } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node.ts';
import { decodeWav } from '../../src/microphone/wav';
import { createParser, createSameMeaning } from '../../src/parser';
import type { Utterance } from '../../src/recogniser';
import type { EmbeddedRecogniser } from '../../src/recogniser/embedded';
import type { SpeechModule } from '../../src/recogniser/decoder';
import { LISTENER, type ListenerSettings } from '../../src/recogniser/listener';
import { createNodeRecogniser, startNodeModule } from '../../src/recogniser/node';
import { listClips, readClip, type Clip } from '../speech/clips';
import { addNoise, babble, clipped, far, inQuietRoom, pink } from '../speech/mix';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const args = process.argv.slice(2);
const option = (name: string): string | undefined => { const at = args.indexOf(`--${name}`); return at < 0 ? undefined : args[at + 1]; };
const quick = args.includes('--quick');
const every = Number(option('every') ?? (quick ? 12 : 1));
const lines: string[] = [];
const print = (line = ''): void => { lines.push(line); process.stdout.write(`${line}\n`); };
const percent = (part: number, whole: number): string => (whole ? `${((100 * part) / whole).toFixed(1)} %` : '-').padStart(8);

const sources = grammarSources();
const rules = linkGrammars(sources.grammars);
const grammar = spokenGrammar(rules, sources.lexicon, sources.base);
const parse = createParser(rules);
const sameMeaning = createSameMeaning(parse);

// --- hearing one recording -------------------------------------------------------------------------------------------
interface Heard { readonly utterances: readonly Utterance[]; readonly cpuMs: number; readonly seconds: number }

function hear(recogniser: EmbeddedRecogniser, audio: Float32Array): Promise<Heard> {
  const utterances: Utterance[] = [];
  const stop = recogniser.listen((event) => { if (event.type === 'utterance') utterances.push(event.utterance); });
  const before = process.cpuUsage();
  for (let at = 0; at < audio.length; at += 1_600) recogniser.push(audio.subarray(at, at + 1_600));
  return recogniser.finish().then(() => {
    stop();
    const used = process.cpuUsage(before);
    return { utterances, cpuMs: (used.user + used.system) / 1000, seconds: audio.length / 16_000 };
  });
}

const NARROW_BAND = join(ROOT, 'node_modules/soundswallower/model/en-us');
let loadMs = 0;
let module: SpeechModule | undefined;
const startModule = async (): Promise<SpeechModule> => (module = await startNodeModule());
async function open(settings: Partial<ListenerSettings> = {}, heard: SpokenGrammar = grammar, modelDir?: string): Promise<EmbeddedRecogniser> {
  const started = performance.now();
  const recogniser = createNodeRecogniser({ sameMeaning, startModule, settings: { ...LISTENER, ...settings }, ...(modelDir ? { modelDir } : {}) });
  await recogniser.load();
  await recogniser.setGrammar(heard);
  loadMs = performance.now() - started;
  return recogniser;
}

// --- outcomes --------------------------------------------------------------------------------------------------------
type Outcome = 'exact' | 'queried, right' | 'queried, wrong' | 'missed' | 'wrongly accepted';

/** A finding is wrong when it is accepted and was not said; asking is not wrong, and silence is a miss. */
function outcome(text: string, utterances: readonly Utterance[]): Outcome {
  const accepted = utterances.filter(({ verdict }) => verdict === 'accepted');
  if (accepted.some((utterance) => !sameMeaning(utterance.text, text))) return 'wrongly accepted';
  if (accepted.length === 1) return 'exact';
  const queried = utterances.filter(({ verdict }) => verdict === 'queried');
  if (queried.length === 0) return 'missed';
  return queried.some((utterance) => sameMeaning(utterance.text, text)) ? 'queried, right' : 'queried, wrong';
}

interface Row { readonly name: string; readonly outcomes: readonly { readonly clip: Clip; readonly outcome: Outcome }[]; readonly rtf: number }
const HEADER = `${'condition'.padEnd(22)}${'n'.padStart(5)}  ${'exact'.padStart(8)}${'right, asked'.padStart(14)}${'wrong, asked'.padStart(14)}${'missed'.padStart(9)}${'wrong, filed'.padStart(14)}${'RTF'.padStart(7)}`;
function printRow({ name, outcomes, rtf }: Row): void {
  const count = (wanted: Outcome): number => outcomes.filter((each) => each.outcome === wanted).length;
  const n = outcomes.length;
  print(`${name.padEnd(22)}${String(n).padStart(5)}  ${percent(count('exact'), n)}${percent(count('queried, right'), n).padStart(14)}${percent(count('queried, wrong'), n).padStart(14)}${percent(count('missed'), n).padStart(9)}${percent(count('wrongly accepted'), n).padStart(14)}${rtf.toFixed(2).padStart(7)}`);
}

type Change = (speech: Float32Array, seed: number) => Float32Array;
async function measure(name: string, recogniser: EmbeddedRecogniser, clips: readonly { readonly clip: Clip; readonly audio: Float32Array }[], change: Change): Promise<Row> {
  const outcomes: { clip: Clip; outcome: Outcome }[] = [];
  let [cpu, seconds] = [0, 0];
  for (const [seed, { clip, audio }] of clips.entries()) {
    const heard = await hear(recogniser, change(audio, seed + 1));
    outcomes.push({ clip, outcome: outcome(clip.text, heard.utterances) });
    cpu += heard.cpuMs / 1000;
    seconds += heard.seconds;
  }
  const row = { name, outcomes, rtf: cpu / seconds };
  printRow(row);
  return row;
}

// --- sounds ----------------------------------------------------------------------------------------------------------
/** Speaks a phrase list with tests/speech/synthesise.py into a cache; null, and a line that says so, when that cannot be done here. */
function synthesised(name: string, phrases: string, extra: readonly string[]): { clip: Clip; audio: Float32Array }[] | null {
  const folder = join(ROOT, '.cache/speech', name);
  mkdirSync(folder, { recursive: true });
  try {
    execFileSync('python3', [join(ROOT, 'tests/speech/synthesise.py'), join(ROOT, 'tests/speech/phrases', phrases), folder, '--set', 'measuring', ...extra], { stdio: ['ignore', 'ignore', 'pipe'] });
  } catch (error) {
    print(`${name}: skipped, tests/speech/synthesise.py failed (${error instanceof Error ? error.message.split('\n')[0] : String(error)})`);
    return null;
  }
  return readFileSync(join(folder, 'index.tsv'), 'utf8').trim().split('\n').map((line) => {
    const [file = '', voice = '', text = ''] = line.split('\t');
    return { clip: { file, voice, text }, audio: decodeWav(new Uint8Array(readFileSync(join(folder, file))), file).samples };
  });
}

const LEAD = 16_000;
const spokenPart = (speech: Float32Array): [number, number] => [LEAD + 4_800, LEAD + speech.length - 14_400];
const CONDITIONS = (talkers: readonly Float32Array[]): readonly (readonly [string, Change])[] => [
  ['quiet', inQuietRoom],
  ...[20, 10, 5].map((snr) => [`pink noise ${snr} dB`, (x: Float32Array, seed: number) => addNoise(inQuietRoom(x, seed), pink(x.length + LEAD, seed), snr, ...spokenPart(x))] as const),
  ...(talkers.length ? [20, 10, 5].map((snr) => [`babble ${snr} dB`, (x: Float32Array, seed: number) => addNoise(inQuietRoom(x, seed), babble(x.length + LEAD, talkers, seed), snr, ...spokenPart(x))] as const) : []),
  ['clipped', (x, seed) => clipped(inQuietRoom(x, seed))],
  ['far microphone', (x, seed) => far(inQuietRoom(x, seed), seed)],
];

// --- the tables ------------------------------------------------------------------------------------------------------
type Loaded = readonly { readonly clip: Clip; readonly audio: Float32Array }[];
/** Clips go round the five voices: whole rounds are kept, so that every voice is in. */
const loadClips = (step: number): Promise<Loaded> => Promise.all(listClips().filter((_, i) => Math.floor(i / 5) % step === 0).map(async (clip) => ({ clip, audio: await readClip(clip.file) })));
let cached: Loaded | undefined;
const bystanders = (): Loaded => (cached ??= synthesised('bystanders', 'bystander-measuring.txt', quick ? ['--limit', '6'] : []) ?? []);

async function findings(): Promise<void> {
  const clips = await loadClips(every);
  print(`Findings: ${new Set(clips.map(({ clip }) => clip.text)).size} sentences of the grammar never tuned on, in ${new Set(clips.map(({ clip }) => clip.voice)).size} synthetic voices never tuned on (no human ones: see the other tables).`);
  print('"asked" = queried, "filed" = accepted. RTF = processor time over audio time, everything on.');
  print(HEADER);
  const recogniser = await open();
  const load = `Load to ready, grammar included: ${(loadMs / 1000).toFixed(1)} s.`;
  const rows: Row[] = [];
  for (const [name, change] of CONDITIONS(bystanders().map(({ audio }) => audio))) rows.push(await measure(name, recogniser, clips, change));
  for (const rate of [0.85, 1.2]) {
    const spoken = synthesised(`rate-${rate}`, 'measuring.txt', ['--rate', String(rate), '--limit', String(Math.max(4, Math.round(48 / every)))]);
    if (spoken) rows.push(await measure(`speaking rate ${rate}`, recogniser, spoken, inQuietRoom));
  }
  print(`${load} Engine heap after all of it: ${((module?.HEAPU8.length ?? 0) / 2 ** 20).toFixed(0)} MiB.`);
  print();
  print('Exact by voice (all synthetic)');
  const voices = [...new Set(clips.map(({ clip }) => clip.voice))];
  print(`${'condition'.padEnd(22)}${voices.map((voice) => voice.padStart(15)).join('')}`);
  for (const { name, outcomes } of rows) print(`${name.padEnd(22)}${voices.map((voice) => { const own = outcomes.filter(({ clip }) => clip.voice === voice); return percent(own.filter((each) => each.outcome === 'exact').length, own.length).padStart(15); }).join('')}`);
  print();
}

const DEBIAN_SPEECH = '/usr/share/pocketsphinx/test/data';
async function otherSpeech(): Promise<void> {
  const recogniser = await open();
  print('Speech that is not for the recorder: utterances of which anything was accepted');
  await notForIt('synthetic, measuring voices', recogniser, bystanders().map(({ audio }) => audio));
  for (const [name, sub] of [['human, read prose (pocketsphinx-testdata)', 'librivox'], ['human, card game (pocketsphinx-testdata)', 'cards']] as const) {
    const folder = join(DEBIAN_SPEECH, sub);
    if (!existsSync(folder)) { print(`${name}: skipped, ${folder} is not there (Debian package pocketsphinx-testdata)`); continue; }
    await notForIt(name, recogniser, readdirSync(folder).filter((file) => file.endsWith('.wav')).map((file) => decodeWav(new Uint8Array(readFileSync(join(folder, file))), file).samples));
  }
  print();
}

async function ablation(): Promise<void> {
  print('What each measure is worth (the same clips without it)');
  print(HEADER);
  const clips = await loadClips(every * 3);
  const hard = CONDITIONS(bystanders().map(({ audio }) => audio)).filter(([name]) => /^quiet$|10 dB/.test(name));
  const NARROW = { beam: 1e-48, pbeam: 1e-48, wbeam: 7e-29, lw: 6.5, wip: 0.65, silprob: 0.005, fillprob: 1e-8 };
  for (const [without, settings, modelDir] of [['all on', {}, undefined], ['no denoising', { denoiseBelow: -Infinity }, undefined], ['stock beams', { search: NARROW }, undefined], ['8 kHz model', {}, NARROW_BAND]] as const) {
    const weaker = await open(settings, grammar, modelDir);
    for (const [name, change] of hard) await measure(`${without}, ${name.replace(' noise', '')}`, weaker, clips, change);
  }
  print();
}

async function notForIt(name: string, recogniser: EmbeddedRecogniser, recordings: readonly Float32Array[]): Promise<void> {
  let [utterances, accepted, findingsAccepted, queried] = [0, 0, 0, 0];
  for (const [seed, audio] of recordings.entries()) {
    const heard = await hear(recogniser, inQuietRoom(audio, seed));
    for (const { verdict, text } of heard.utterances) {
      utterances += 1;
      if (verdict === 'queried') queried += 1;
      if (verdict !== 'accepted') continue;
      accepted += 1;
      const filed = parse(text, { findings: [] }).some(({ type }) => type === 'findings' || type === 'gap');
      if (filed) findingsAccepted += 1;
      print(`    accepted: "${text}"`);
    }
  }
  print(`${name.padEnd(46)} ${String(utterances).padStart(4)} utterances: accepted ${percent(accepted, utterances)}, of these findings ${percent(findingsAccepted, utterances)}, asked about ${percent(queried, utterances)}`);
}

/** People saying single digits over a telephone band: as the grade, which is what a digit decides. */
async function digits(folder: string): Promise<void> {
  const WORDS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
  const small: SpokenGrammar = { name: 'digits', states: 2, start: 0, final: 1, arcs: WORDS.map((word) => ({ from: 0, to: 1, word, weight: 0 })), pronunciations: grammar.pronunciations };
  const recogniser = await open({}, small, NARROW_BAND);
  print('Human digits, three accents, telephone band, 8 kHz model, alone (no word around them)');
  const speakers = new Map<string, { n: number; right: number; queried: number; missed: number; wrong: number }>();
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.wav'))) {
    const [digit = '', speaker = ''] = file.split('_');
    const tally = speakers.get(speaker) ?? { n: 0, right: 0, queried: 0, missed: 0, wrong: 0 };
    speakers.set(speaker, tally);
    const { samples } = decodeWav(new Uint8Array(readFileSync(join(folder, file))), file);
    const padded = new Float32Array(samples.length + 12_000);
    padded.set(samples);
    const { utterances } = await hear(recogniser, inQuietRoom(padded, tally.n + 1));
    tally.n += 1;
    const accepted = utterances.filter(({ verdict }) => verdict === 'accepted');
    if (accepted.some(({ text }) => text !== WORDS[Number(digit)])) tally.wrong += 1;
    else if (accepted.length) tally.right += 1;
    else if (utterances.some(({ verdict }) => verdict === 'queried')) tally.queried += 1;
    else tally.missed += 1;
  }
  for (const [speaker, { n, right, queried, missed, wrong }] of speakers) print(`speaker ${speaker}  n ${n}: right ${percent(right, n)}, asked ${percent(queried, n)}, missed ${percent(missed, n)}, wrongly accepted ${percent(wrong, n)}`);
  print();
}

const folder = option('digits');
const tables: Readonly<Record<string, () => Promise<void>>> = {
  findings, bystanders: otherSpeech, ablation,
  digits: async () => { if (folder) await digits(folder); else print('Human digits: skipped (--digits FOLDER with files DIGIT_SPEAKER_TAKE.wav).'); },
};
const only = option('only');
for (const [name, table] of Object.entries(tables)) if (!only || only === name) await table();
if (!quick) {
  const results = join(ROOT, 'tests/bench/results');
  mkdirSync(results, { recursive: true });
  writeFileSync(join(results, only ? `hearing.${only}.txt` : 'hearing.txt'), `${lines.join('\n')}\n`);
}
process.exit(0);
