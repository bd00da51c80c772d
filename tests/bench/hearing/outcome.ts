// @ts-expect-error The library ships no types.
import numberToWords from 'number-to-words';
import type { ParseUtterance, Statement } from '../../../src/parser';
import type { Verdict } from '../../../src/recogniser';
import type { Side } from '../../../src/vocabulary';

/** One utterance as a recogniser delivered it; readings are what a question about it offers, the first is its text. */
export interface Heard { readonly verdict: Verdict; readonly readings: readonly string[] }

/** What became of one sentence. "asked" columns tell what the question showed first, or offered. */
export const OUTCOMES = ['exact', 'asked, right', 'asked, offered', 'asked, wrong', 'part filed', 'missed', 'wrong, filed'] as const;
export type Outcome = (typeof OUTCOMES)[number];

// --- meaning ---------------------------------------------------------------------------------------------------------
const canonical = (value: unknown): string => {
  if (Array.isArray(value)) return `[${value.map(canonical).sort().join()}]`;
  if (value && typeof value === 'object') return `{${Object.entries(value).filter(([key, part]) => part !== undefined && key !== 'text' && key !== 'question').map(([key, part]) => `${key}:${canonical(part)}`).sort().join()}}`;
  return JSON.stringify(value);
};
const plain = (text: string): string => wordsOf(text).join(' ');

/** One line for each thing said, without its wording. */
const meaningOf = (statements: readonly Statement[]): string[] => statements.flatMap((statement) => {
  if (statement.type === 'findings') return statement.findings.map((finding) => canonical(finding));
  return statement.type === 'unparsed' ? (plain(statement.text) ? [`unparsed ${plain(statement.text)}`] : []) : [canonical(statement)];
});

const equal = (one: readonly string[], other: readonly string[]): boolean => canonical(one) === canonical(other);

/** Texts in the order they were spoken; a side that was filed holds for what follows, as on the screen. */
function read(parse: ParseUtterance, texts: readonly string[]): Statement[] {
  let side: Side | 'both' | undefined;
  return texts.flatMap((text) => {
    const statements = parse(text, { findings: [], ...(side ? { currentSide: side } : {}) });
    for (const statement of statements) if (statement.type === 'side') side = statement.side;
    return statements;
  });
}

/** "left hand" cut off "left hand, no wasting": it says nothing beyond the finding. */
const sideOf = (statement: Statement, said: readonly Statement[]): boolean =>
  statement.type === 'side' && said.some((each) => each.type === 'findings' && each.findings.some(({ side }) => side === statement.side));

/** Whether a statement puts something into the record, or towards it, that was not said. */
function notSaid(statement: Statement, said: readonly Statement[]): boolean {
  const meaning = new Set(meaningOf(said));
  if (statement.type === 'unparsed') return false;
  if (sideOf(statement, said)) return false;
  if (statement.type === 'gap') {
    if (statement.gap !== 'side') return false;
    // Asked for a side, it would file one of the options: the finding itself must be what was said.
    if (statement.options.some((option) => option.length > 0 && option.every((finding) => meaning.has(canonical(finding))))) return false;
  }
  return meaningOf([statement]).some((each) => !meaning.has(each));
}

/** What filing these texts without a question makes of the sentence that was said. */
function filed(parse: ParseUtterance, said: string, texts: readonly string[]): 'exact' | 'partly' | 'nothing' | 'wrong' {
  const wanted = read(parse, [said]);
  const got = read(parse, texts);
  if (got.some((statement) => notSaid(statement, wanted))) return 'wrong';
  if (equal(meaningOf(got.filter((statement) => !sideOf(statement, wanted) || wanted.some(({ type }) => type === 'side'))), meaningOf(wanted))) return 'exact';
  return got.some(({ type }) => type !== 'unparsed') ? 'partly' : 'nothing';
}

/** What became of a sentence that this program's recogniser heard. */
export function outcomeOf(parse: ParseUtterance, said: string, heard: readonly Heard[]): Outcome {
  const first = ({ readings }: Heard): string => readings[0] ?? '';
  const meant = heard.filter(({ verdict }) => verdict !== 'ignored');
  const asked = meant.filter(({ verdict }) => verdict === 'queried');
  const state = filed(parse, said, meant.filter(({ verdict }) => verdict === 'accepted').map(first));
  if (state === 'wrong') return 'wrong, filed';
  if (asked.length === 0) return state === 'exact' ? 'exact' : state === 'partly' ? 'part filed' : 'missed';
  if (state === 'exact' || filed(parse, said, meant.map(first)) === 'exact') return 'asked, right';
  const offered = asked.some((one) => one.readings.some((reading) => filed(parse, said, meant.map((each) => (each === one ? reading : first(each)))) === 'exact'));
  return offered ? 'asked, offered' : 'asked, wrong';
}

/** What becomes of a sentence when a recogniser's text is read like a typed line, and nothing is asked. */
export function textOutcome(parse: ParseUtterance, said: string, text: string): Outcome {
  return ({ exact: 'exact', partly: 'part filed', nothing: 'missed', wrong: 'wrong, filed' } as const)[filed(parse, said, [text])];
}

/** Whether a text, read like a typed line, holds a finding, complete or lacking its side. */
export const holdsFinding = (parse: ParseUtterance, text: string): boolean => parse(text, { findings: [] }).some(({ type }) => type === 'findings' || type === 'gap');

// --- words -----------------------------------------------------------------------------------------------------------
/** Words alone: numerals in words, spelled-out abbreviations letter by letter, no punctuation. */
export function wordsOf(text: string): string[] {
  return text
    .replace(/\b[A-Z]{2,4}\b/g, (letters) => [...letters].join(' '))
    .replace(/\d+/g, (digits) => ` ${digits.length < 10 ? numberToWords.toWords(Number(digits)) : [...digits].join(' ')} `)
    .toLowerCase().replace(/['’]/g, '').split(/[^a-z]+/).filter(Boolean);
}

/** Fewest words to change, add or leave out (Levenshtein 1966). */
export function wordErrors(said: string, heard: string): number {
  const [from, to] = [wordsOf(said), wordsOf(heard)];
  let row = to.map((_, j) => j + 1);
  row.unshift(0);
  for (const [i, word] of from.entries()) {
    const next = [i + 1];
    for (const [j, other] of to.entries()) next.push(Math.min((row[j] ?? 0) + (word === other ? 0 : 1), (row[j + 1] ?? 0) + 1, (next[j] ?? 0) + 1));
    row = next;
  }
  return row.at(-1) ?? 0;
}
