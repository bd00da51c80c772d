import type { ParseUtterance } from '../../../src/parser';
import { OUTCOMES, outcomeOf, textOutcome, wordErrors, wordsOf, type Heard, type Outcome } from './outcome';

/** One sentence: what was said, what became of it, and the words that were written down for it. */
export interface Case {
  readonly said: string;
  readonly voice: string;
  readonly outcome: Outcome;
  /** Words as heard, and those that would stand in the record without anyone having looked; null when a question was asked. */
  readonly heard: string;
  readonly filed: string | null;
  readonly cpu: number;
  readonly seconds: number;
}

type Timed = { readonly recording: { readonly said: string; readonly voice: string }; readonly cpu: number; readonly seconds: number };

/** A sentence as this program's recogniser heard it. */
export function caseOf(parse: ParseUtterance, { recording: { said, voice }, cpu, seconds }: Timed, heard: readonly Heard[]): Case {
  const meant = heard.filter(({ verdict }) => verdict !== 'ignored');
  const text = meant.map(({ readings }) => readings[0] ?? '').join(' ');
  const filed = meant.length > 0 && meant.every(({ verdict }) => verdict === 'accepted') ? text : null;
  return { said, voice, outcome: outcomeOf(parse, said, heard), heard: text, filed, cpu, seconds };
}

/** A sentence as a comparison recogniser wrote it; it is filed as far as the parser reads it. */
export function textCase(parse: ParseUtterance, { recording: { said, voice }, cpu, seconds }: Timed, text: string): Case {
  const outcome = textOutcome(parse, said, text);
  return { said, voice, outcome, heard: text, filed: outcome === 'exact' || outcome === 'wrong, filed' ? text : null, cpu, seconds };
}

export const percent = (part: number, whole: number): string => (whole ? ((100 * part) / whole).toFixed(1) : '-');
export const share = (cases: readonly Case[], ...wanted: readonly Outcome[]): string => percent(cases.filter(({ outcome }) => wanted.includes(outcome)).length, cases.length);

function errorsPer100(cases: readonly { readonly said: string; readonly text: string }[]): string {
  const words = cases.reduce((sum, { said }) => sum + wordsOf(said).length, 0);
  return words ? ((100 * cases.reduce((sum, { said, text }) => sum + wordErrors(said, text), 0)) / words).toFixed(1) : '-';
}
const sum = (cases: readonly Case[], of: (one: Case) => number): number => cases.reduce((total, one) => total + of(one), 0);

const NAME = 46;
const COLUMNS = ['n', ...OUTCOMES, 'errors heard', 'filed', 'RTF'];
const WIDTHS = COLUMNS.map((title) => Math.max(7, title.length + 2));
const row = (name: string, cells: readonly string[]): string => `${name.padEnd(NAME)}${cells.map((cell, i) => cell.padStart(WIDTHS[i] ?? 8)).join('')}`;

export const HEADER = `${row('', COLUMNS)}   aim (exact, wrong)`;
/** Everything about one condition in one line; shares in per cent, errors per 100 words said. */
export function line(name: string, cases: readonly Case[], aim = ''): string {
  return `${row(name, [
    String(cases.length), ...OUTCOMES.map((outcome) => share(cases, outcome)),
    errorsPer100(cases.map(({ said, heard }) => ({ said, text: heard }))), errorsPer100(cases.flatMap(({ said, filed }) => (filed === null ? [] : [{ said, text: filed }]))),
    (sum(cases, ({ cpu }) => cpu) / (sum(cases, ({ seconds }) => seconds) || 1)).toFixed(2),
  ])}${aim ? `   ${aim}` : ''}`;
}

/** Exact and wrongly filed, voice by voice. */
export function byVoice(rows: readonly (readonly [string, readonly Case[]])[]): string[] {
  const voices = [...new Set(rows.flatMap(([, cases]) => cases.map(({ voice }) => voice)))].sort();
  return [
    `${''.padEnd(NAME)}${voices.map((voice) => voice.padStart(15)).join('')}`,
    ...rows.map(([name, cases]) => `${name.padEnd(NAME)}${voices.map((voice) => { const own = cases.filter((one) => one.voice === voice); return `${share(own, 'exact')} / ${share(own, 'wrong, filed')}`.padStart(15); }).join('')}`),
  ];
}
