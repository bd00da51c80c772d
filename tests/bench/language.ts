/**
 * Measures the language: npm run bench:language [-- --measuring-2 | --tuning | --tuning-2]
 * Reads phrases that were written apart from the grammar (tests/phrases/README.md). Of a measuring set only totals are
 * printed; --tuning (or --tuning-2) measures a tuning set instead and prints what failed, so that nobody tunes on a measuring set.
 */
import { readFileSync } from 'node:fs';
import { compileRule, linkGrammars, spokenGrammar } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node.ts';
import { createParser, type Context, type Statement } from '../../src/parser';
import { SIGNS, findingInWords, type Finding } from '../../src/vocabulary';
import type { Expected, Phrase } from '../phrases/phrase';
import { measureGrowth } from './language/growth';
import { compileInChromium } from './language/in-chromium';

type Plain = Record<string, unknown> & { readonly type: string };
type Outcome = 'exact' | 'partly' | 'unparsed' | 'wrong';

/** One spelling for equal values, whatever the order of keys, findings or qualifiers. */
function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).sort().join()}]`;
  if (value && typeof value === 'object')
    return `{${Object.entries(value).filter(([, part]) => part !== undefined && !(Array.isArray(part) && part.length === 0)).map(([key, part]) => `${key}:${canonical(part)}`).sort().join()}}`;
  return JSON.stringify(value);
}
/** Five out of five, full and normal power are one meaning (tests/phrases/README.md). */
const plainFinding = (finding: Finding): unknown => (finding.sign === 'power' && finding.result.kind === 'grade' && finding.result.grade === '5' && !finding.result.to ? { ...finding, result: { kind: 'level', level: 'normal' } } : finding);
const setOf = (findings: readonly Finding[]): Set<string> => new Set(findings.map((finding) => canonical(plainFinding(finding))));
const same = (a: Set<string>, b: Set<string>): boolean => a.size === b.size && [...a].every((item) => b.has(item));
const bare = (statement: Plain): Plain => {
  const { text: _text, question: _question, ...rest } = statement;
  if (rest.type === 'not testable') return { ...rest, reason: String(rest['reason']).replace(/^(the|a|an) /, '') };
  if (rest.type === 'gap' && rest['gap'] !== 'side') return { type: 'gap', gap: rest['gap'] };
  return rest;
};

/** The findings among what a statement says. */
const findingsOf = (statement: Expected | Statement): readonly Finding[] => (statement.type === 'findings' ? statement.findings : []);

function judge(phrase: Phrase, statements: readonly Statement[]): Outcome {
  const got = statements.flatMap(findingsOf);
  const open = statements.filter((statement) => statement.type === 'gap' || statement.type === 'unparsed');
  if (phrase.kind === 'nonfinding') return statements.every((statement) => statement.type === 'unparsed') ? 'exact' : 'wrong';
  if (phrase.kind === 'finding') {
    const readings = [phrase.expect.flatMap(findingsOf), ...(phrase.accept ?? []) as Finding[][]].map(setOf);
    const found = setOf(got);
    if (statements.some((statement) => statement.type === 'order' || statement.type === 'not testable')) return 'wrong';
    if (found.size === 0) return statements.some((statement) => statement.type === 'side') ? 'wrong' : 'unparsed';
    if (readings.some((reading) => same(reading, found))) return open.length === 0 ? 'exact' : 'partly';
    return readings.some((reading) => [...found].every((finding) => reading.has(finding))) && open.length > 0 ? 'partly' : 'wrong';
  }
  const said = statements.filter((statement) => statement.type !== 'unparsed') as unknown as Plain[];
  if (said.length === 0) return 'unparsed';
  const wanted = [phrase.expect, ...(phrase.accept ?? []) as Plain[][]];
  if (wanted.some((list) => canonical(list.map(bare)) === canonical(said.map(bare)))) return open.some((statement) => statement.type === 'unparsed') ? 'partly' : 'exact';
  if (phrase.kind === 'gap') return got.length > 0 || said.some((statement) => statement.type !== 'gap') ? 'wrong' : 'partly';
  return said.every((statement) => statement.type === 'gap') ? 'unparsed' : 'wrong';
}

const inWords = (statement: Plain | Statement): string => {
  const plain = statement as Plain;
  if (plain.type === 'findings') return (plain['findings'] as Finding[]).map(findingInWords).join('; ');
  if (plain.type === 'gap') return `gap ${String(plain['gap'])}: ${(plain['options'] as Finding[][] | undefined)?.map((option) => option.map(findingInWords).join('; ')).join(' | ')}`;
  const { text: _text, ...rest } = plain;
  return JSON.stringify(rest);
};

const tuning = process.argv.find((argument) => argument.startsWith('--tuning'));
const chosen = tuning ?? process.argv.find((argument) => argument.startsWith('--measuring'));
const file = chosen ? `language${chosen.slice(1)}.jsonl` : 'language-set.jsonl';
const phrases = readFileSync(new URL(`../phrases/${file}`, import.meta.url), 'utf8').split('\n').filter(Boolean).map((line) => JSON.parse(line) as Phrase);

const sources = grammarSources();
/** Milliseconds of processor time: other programs on the machine do not count. */
const clock = (): number => { const { user, system } = process.cpuUsage(); return (user + system) / 1000; };
const linkStart = clock();
const rules = linkGrammars(sources.grammars);
const linked = clock();
const automaton = compileRule(rules, 'spoken');
const compiled = clock();
const grammar = spokenGrammar(rules, sources.lexicon, sources.base);
const parserStart = clock();
const parse = createParser(rules);
const parserReady = clock();

const contextOf = (phrase: Phrase): Context => ({ findings: [], ...phrase.context });
const totals = new Map<string, Record<Outcome, number>>();
let invented = 0;
for (const phrase of phrases) {
  const statements = parse(phrase.text, contextOf(phrase));
  const outcome = judge(phrase, statements);
  if (phrase.kind === 'nonfinding' && statements.some((statement) => statement.type === 'findings')) invented += 1;
  const categories = new Set(phrase.expect.flatMap(findingsOf).map((finding) => SIGNS[finding.sign].category));
  for (const group of [phrase.kind, 'all', ...phrase.forms.map((form) => `  ${form}`), ...[...categories].map((category) => `  · ${category}`)]) {
    if (!totals.has(group)) totals.set(group, { exact: 0, partly: 0, unparsed: 0, wrong: 0 });
    totals.get(group)![outcome] += 1;
  }
  if (tuning && outcome !== 'exact') console.log(`${outcome.toUpperCase()} ${phrase.id} "${phrase.text}"\n   wanted ${phrase.expect.map(inWords).join(' || ') || 'nothing'}\n   got    ${statements.map(inWords).join(' || ')}`);
}
const percent = (part: number, whole: number): string => `${((100 * part) / whole).toFixed(1)} %`;
console.log(`\n${file}: ${phrases.length} phrases, written apart from the grammar`);
for (const [group, counts] of [...totals].sort(([a], [b]) => Number(a.startsWith(' ')) - Number(b.startsWith(' ')))) {
  const whole = counts.exact + counts.partly + counts.unparsed + counts.wrong;
  console.log(`  ${group.padEnd(18)} ${String(whole).padStart(4)}  exact ${percent(counts.exact, whole).padStart(7)}  partly ${percent(counts.partly, whole).padStart(6)}  unparsed ${percent(counts.unparsed, whole).padStart(6)}  wrong ${percent(counts.wrong, whole).padStart(6)}`);
}
console.log(`  non-findings turned into findings: ${invented}`);

for (let warm = 0; warm < 3; warm += 1) for (const phrase of phrases) parse(phrase.text, contextOf(phrase));
const speedStart = clock();
const rounds = 5;
for (let round = 0; round < rounds; round += 1) for (const phrase of phrases) parse(phrase.text, contextOf(phrase));
console.log(`  ${Math.round((rounds * phrases.length) / ((clock() - speedStart) / 1000))} utterances a second on one core`);
console.log(`  grammar: ${Object.keys(sources.grammars).length} files, ${rules.size} rules, ${grammar.pronunciations.size} spoken words; automaton ${automaton.next.length} states, ${grammar.arcs.length} arcs`);
console.log(`  read and link ${(linked - linkStart).toFixed(0)} ms, compile ${(compiled - linked).toFixed(0)} ms, parser ready in ${(parserReady - parserStart).toFixed(0)} ms (processor time, Node)`);

if (!tuning) {
  const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
  const runs = await compileInChromium(sources, 9);
  const of = (step: 'compile' | 'parser', clock: 'wall' | 'processor'): string => `${median(runs.map((run) => run[step][clock])).toFixed(0)} ms`;
  console.log(`  in Chromium, median of ${runs.length} fresh pages: grammar read, linked and compiled in ${of('compile', 'processor')} of processor (${of('compile', 'wall')} by the clock); parser and first sentence ${of('parser', 'processor')} (${of('parser', 'wall')})`);
  console.log('  the recogniser as the grammar grows (embedded engine, synthetic clips in quiet, processor time over audio time):');
  for (const { times, arcs, words, setMs, factor, right, clips } of await measureGrowth(grammar, sources.base, 16))
    console.log(`    ${times}x  ${String(arcs).padStart(6)} arcs  ${String(words).padStart(5)} words  set in ${setMs.toFixed(0).padStart(4)} ms  factor ${factor.toFixed(3)}  heard word for word ${right} of ${clips}`);
}
