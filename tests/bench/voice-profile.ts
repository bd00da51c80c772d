/**
 * What a voice profile is worth: exact, asked and wrongly filed sentences before and after it, for speakers far from the model.
 *
 *   npm run bench:voice-profile [-- --voices a,b] [--limit N] [--methods] [--fits] [--bystanders]
 *
 * Enrolment prompts (grammars/voice-prompts.txt) and test sentences are kept apart; "held out" voices were never looked at while
 * the method was chosen. All voices are synthetic (tests/speech/far-voices.py): human ones are not measured here.
 * --methods compares the ways tried, by exact sentences of the first pass; --bystanders counts what the
 * examiner's own talk to others gives before and after; --fits shows how well readings fit their own and another sentence.
 */
import { execFileSync } from 'node:child_process';
import { appendFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { linkGrammars, spokenGrammar, type SpokenGrammar } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node.ts';
import { decodeWav } from '../../src/microphone/wav';
import { createParser, createSameMeaning } from '../../src/parser';
import type { Utterance } from '../../src/recogniser';
import { sentenceTree } from '../../src/recogniser/automaton';
import { openDecoder, type Decoder } from '../../src/recogniser/decoder';
import type { EmbeddedRecogniser } from '../../src/recogniser/embedded';
import { Endpointer } from '../../src/recogniser/endpointer';
import { align, phonesOf, profileOf, readPrompts, type Enroller, type Fitted, type Reading } from '../../src/recogniser/enrol';
import { LISTENER } from '../../src/recogniser/listener';
import { createNodeRecogniser, installedModel, startNodeModule } from '../../src/recogniser/node';
import { adaptMeans, estimateTransform, readCodebooks, type Transform } from '../../src/recogniser/voice-profile';
import { inQuietRoom } from '../speech/mix';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CACHE = join(ROOT, '.cache/speech/voice-profile');
const args = process.argv.slice(2);
const option = (name: string): string | undefined => { const at = args.indexOf(`--${name}`); return at < 0 ? undefined : args[at + 1]; };
const limit = Number(option('limit') ?? 99);
const RESULTS = join(ROOT, 'tests/bench/results/voice-profile.txt');
const whole = args.length === 0;
mkdirSync(join(ROOT, 'tests/bench/results'), { recursive: true });
if (whole) writeFileSync(RESULTS, '');
const print = (line = ''): void => { process.stdout.write(`${line}\n`); if (whole) appendFileSync(RESULTS, `${line}\n`); };

const sources = grammarSources();
const rules = linkGrammars(sources.grammars);
const grammar = spokenGrammar(rules, sources.lexicon, sources.base);
const sameMeaning = createSameMeaning(createParser(rules));
const { dir: modelDir, name: modelName } = installedModel();
const prompts = readPrompts(readFileSync(join(ROOT, 'grammars/voice-prompts.txt'), 'utf8'));

// --- recordings ------------------------------------------------------------------------------------------------------
interface Speaker { readonly name: string; readonly heldOut: boolean; readonly readings: readonly Reading[]; readonly tests: readonly Reading[]; readonly bystanders: readonly Reading[] }
function speaker(name: string): Speaker {
  const folder = join(CACHE, name);
  const load = (kind: string): Reading[] => readdirSync(folder).filter((file) => file.startsWith(kind) && file.endsWith('.wav')).sort()
    .map((file, i) => ({ text: readFileSync(join(folder, file.replace('.wav', '.txt')), 'utf8'), audio: inQuietRoom(decodeWav(new Uint8Array(readFileSync(join(folder, file))), file).samples, i + 1) }));
  return { name, heldOut: readFileSync(join(folder, 'held-out'), 'utf8') === 'yes', readings: load('prompt').map(({ text, audio }) => ({ text, audio: cut(audio) })), tests: load('test').slice(0, limit), bystanders: load('bystander').slice(0, limit) };
}

/** The stretch that the endpointer hands to the recogniser. */
function cut(audio: Float32Array): Float32Array {
  const endpointer = new Endpointer();
  const ended = [...endpointer.push(audio), ...endpointer.finish()].flatMap((event) => (event.type === 'ended' ? [event.stretch] : []));
  return audio.slice(ended[0]?.from ?? 0, ended.at(-1)?.to ?? audio.length);
}

const phrases = (name: string): string => join(ROOT, 'tests/speech/phrases', `${name}.txt`);
const wanted = option('voices')?.split(',') ?? [];
execFileSync('python3', [join(ROOT, 'tests/speech/far-voices.py'), join(ROOT, 'grammars/voice-prompts.txt'), phrases('tuning'), phrases('measuring'), CACHE, ...wanted], { stdio: ['ignore', 'ignore', 'inherit'] });
const names = wanted.length ? wanted : readdirSync(CACHE).sort();

// --- enrolment -------------------------------------------------------------------------------------------------------
const enroller: Enroller = {
  decoder: await openDecoder(await startNodeModule(), modelDir, LISTENER.check), pronunciations: grammar.pronunciations,
  means: readCodebooks(new Uint8Array(readFileSync(join(modelDir, 'means')))), variances: readCodebooks(new Uint8Array(readFileSync(join(modelDir, 'variances')))),
};
const fitted = ({ readings }: Speaker): Fitted[] => readings.flatMap((reading) => align(enroller, reading) ?? []);

// --- before and after, through the whole engine ------------------------------------------------------------------------
const wronglyFiled: string[] = [];
interface Tally { right: number; exact: number; asked: number; missed: number; wrong: number; n: number }
async function hear(recogniser: EmbeddedRecogniser, tests: readonly Reading[]): Promise<Tally> {
  const tally: Tally = { right: 0, exact: 0, asked: 0, missed: 0, wrong: 0, n: tests.length };
  for (const { text, audio } of tests) {
    const utterances: Utterance[] = [];
    const stop = recogniser.listen((event) => { if (event.type === 'utterance') utterances.push(event.utterance); });
    recogniser.push(audio);
    await recogniser.finish();
    stop();
    if (utterances.length === 1 && sameMeaning(utterances[0]?.text ?? '', text)) tally.right += 1;
    const accepted = utterances.filter(({ verdict }) => verdict === 'accepted');
    const wrong = accepted.find((utterance) => !sameMeaning(utterance.text, text));
    if (wrong) { tally.wrong += 1; wronglyFiled.push(`said "${text}", filed "${wrong.text}"`); }
    else if (accepted.length === 1) tally.exact += 1;
    else if (utterances.some(({ verdict }) => verdict === 'queried')) tally.asked += 1;
    else tally.missed += 1;
  }
  return tally;
}
async function open(profile?: ReturnType<typeof profileOf>): Promise<EmbeddedRecogniser> {
  const recogniser = createNodeRecogniser({ sameMeaning, ...(profile ? { profile } : {}) });
  await recogniser.load();
  await recogniser.setGrammar(grammar);
  return recogniser;
}
const percent = (part: number, n: number): string => `${Math.round((100 * part) / Math.max(1, n))} %`.padStart(7);
const cells = ({ right, exact, asked, missed, wrong, n }: Tally): string => [right, exact, asked, missed, wrong].map((part) => percent(part, n)).join('');
const add = (one: Tally, other: Tally): Tally => ({ right: one.right + other.right, exact: one.exact + other.exact, asked: one.asked + other.asked, missed: one.missed + other.missed, wrong: one.wrong + other.wrong, n: one.n + other.n });
const NOTHING: Tally = { right: 0, exact: 0, asked: 0, missed: 0, wrong: 0, n: 0 };

async function beforeAndAfter(): Promise<void> {
  print(`Voice profile from ${prompts.length} prompts; other sentences tested, in quiet, whole engine; every voice synthetic. "right" = what was said is the first reading, asked about or not; "filed" = right and accepted without asking.`);
  print(`${''.padEnd(28)}before: right  filed  asked missed  wrong    after: right  filed  asked missed  wrong`);
  const plain = await open();
  const totals = new Map<string, readonly [Tally, Tally]>();
  for (const name of names) {
    const who = speaker(name);
    const readings = fitted(who);
    const before = await hear(plain, who.tests);
    const adapted = await open(profileOf(enroller, readings, modelName, new Date(0)));
    const after = await hear(adapted, who.tests);
    adapted.dispose();
    const group = who.heldOut ? 'held out' : 'tuning';
    const [b, a] = totals.get(group) ?? [NOTHING, NOTHING];
    totals.set(group, [add(b, before), add(a, after)]);
    print(`${name.padEnd(14)}${group.padEnd(9)}n ${String(who.tests.length).padEnd(4)}${' '.repeat(8)}${cells(before)}${' '.repeat(11)}${cells(after)}   (${readings.length} prompts used)`);
    for (const line of wronglyFiled.splice(0)) print(`    ${line}`);
  }
  for (const [group, [before, after]] of totals) print(`${`all ${group}`.padEnd(23)}n ${String(before.n).padEnd(4)}${' '.repeat(8)}${cells(before)}${' '.repeat(11)}${cells(after)}`);
}

/** Talk that is not for the recorder, in the very voice that the profile brings closer: none of it may be accepted. */
async function talkToOthers(): Promise<void> {
  print('Talk that is not for the recorder, in the enrolled voice: utterances accepted, asked about, ignored');
  const plain = await open();
  for (const name of names) {
    const who = speaker(name);
    const adapted = await open(profileOf(enroller, fitted(who), modelName, new Date(0)));
    const verdicts = async (recogniser: EmbeddedRecogniser): Promise<string> => {
      const counts = { accepted: 0, queried: 0, ignored: 0 };
      const stop = recogniser.listen((event) => { if (event.type === 'utterance') counts[event.utterance.verdict] += 1; });
      for (const { audio } of who.bystanders) { recogniser.push(audio); await recogniser.finish(); }
      stop();
      return `accepted ${counts.accepted}, asked ${counts.queried}, ignored ${counts.ignored}`;
    };
    print(`${name.padEnd(16)}before: ${await verdicts(plain)}   after: ${await verdicts(adapted)}`);
    adapted.dispose();
  }
}

// --- the ways tried, first pass only -----------------------------------------------------------------------------------
function exact(decoder: Decoder, tests: readonly Reading[], heard: SpokenGrammar = grammar): number {
  decoder.setGrammar(heard);
  return tests.filter(({ text, audio }) => sameMeaning(decoder.decode(cut(audio))[0]?.words.map(({ word }) => word).join(' ') ?? '', text)).length;
}
const WARPS = [0.88, 0.94, 1, 1.06, 1.12];
async function openWarped(warp: number): Promise<Decoder> {
  // Scores of different warps are compared, so they need a common reference.
  const settings = { ...LISTENER.search, compallsen: true, warp_type: 'inverse_linear', warp_params: String(warp) };
  return openDecoder(await startNodeModule(), modelDir, settings);
}
const offsetsOnly = (transform: Transform): Transform => transform.map((rows) => rows.map((row, i) => row.map((_, j) => (i === j ? 1 : j === rows.length ? (row[j] ?? 0) : 0))));

/** Keeps of each word the pronunciations that the speaker used in the prompts, where more than one was on offer and the word was said. */
function usedVariants(readings: readonly Reading[]): SpokenGrammar {
  const used = new Map<string, Set<string>>();
  for (const { text, audio } of readings) {
    const words = text.split(' ');
    enroller.decoder.setGrammar(phonesOf(words, grammar.pronunciations));
    const phones = enroller.decoder.decode(audio)[0]?.words.map(({ word }) => word) ?? [];
    const split = (at: number, i: number): string[] | null => {
      if (i === words.length) return at === phones.length ? [] : null;
      for (const variant of grammar.pronunciations.get(words[i] ?? '') ?? []) {
        const size = variant.split(' ').length;
        if (phones.slice(at, at + size).join(' ') !== variant) continue;
        const rest = split(at + size, i + 1);
        if (rest) return [variant, ...rest];
      }
      return null;
    };
    split(0, 0)?.forEach((variant, i) => { const word = words[i] ?? ''; used.set(word, (used.get(word) ?? new Set<string>()).add(variant)); });
  }
  return { ...grammar, pronunciations: new Map([...grammar.pronunciations].map(([word, variants]) => [word, used.has(word) ? variants.filter((variant) => used.get(word)?.has(variant)) : variants])) };
}

async function methods(): Promise<void> {
  print('Ways tried: exact sentences of the first pass (any verdict)');
  print(`${'voice'.padEnd(16)}${'none'.padStart(8)}${'warp'.padStart(12)}${'variants'.padStart(10)}${'offset'.padStart(8)}${'affine 50'.padStart(11)}${'200'.padStart(6)}${'800'.padStart(6)}`);
  const plain = await openDecoder(await startNodeModule(), modelDir, LISTENER.search);
  for (const name of names) {
    const who = speaker(name);
    const { readings, tests } = who;
    const aligned = fitted(who);
    const adapted = async (transform: Transform): Promise<number> => {
      const decoder = await openDecoder(await startNodeModule(), modelDir, LISTENER.search, (file) => adaptMeans(file, transform));
      return exact(decoder, tests);
    };
    let best = { warp: 1, score: -Infinity };
    for (const warp of WARPS) {
      const decoder = await openWarped(warp);
      const score = readings.reduce((sum, { text, audio }) => { decoder.setGrammar(sentenceTree([text.split(' ')], grammar.pronunciations).grammar); return sum + (decoder.decode(audio)[0]?.score ?? -1e4); }, 0);
      if (score > best.score) best = { warp, score };
    }
    const full = (prior: number): Transform => estimateTransform(enroller.means, enroller.variances, aligned, prior);
    const none = exact(plain, tests);
    const warped = best.warp === 1 ? none : exact(await openWarped(best.warp), tests);
    const row = [`${warped} (${best.warp})`.padStart(12), String(exact(plain, tests, usedVariants(readings))).padStart(10), String(await adapted(offsetsOnly(full(200)))).padStart(8), String(await adapted(full(50))).padStart(11), String(await adapted(full(200))).padStart(6), String(await adapted(full(800))).padStart(6)];
    print(`${name.padEnd(16)}${`${none}/${tests.length}`.padStart(8)}${row.join('')}`);
  }
}

/** How well readings fit their own sentence, and the one after it: what LEAST_FIT was chosen from. */
function fits(): void {
  for (const name of names) {
    const { readings } = speaker(name);
    const fit = (shift: number): string => readings.map(({ audio }, i) => align(enroller, { audio, text: readings[(i + shift) % readings.length]?.text ?? '' }, -Infinity)?.fit ?? -99).sort((a, b) => a - b).map((value) => value.toFixed(1)).join(' ');
    print(`${name.padEnd(14)} own sentence: ${fit(0)}`);
    print(`${''.padEnd(14)} another:      ${fit(1)}`);
  }
}

if (args.includes('--methods')) await methods();
else if (args.includes('--fits')) fits();
else if (args.includes('--bystanders')) await talkToOthers();
else await beforeAndAfter();
process.exit(0);
