import type { Statement } from '../parser/statement';
import type { Finding } from '../vocabulary';
import { spokenFinding } from './spoken';
import { happen, tell } from './turn';
import type { Handler, Hearing, Turn } from './turn';

type GapStatement = Extract<Statement, { type: 'gap' }>;

const uniform = (options: readonly (readonly Finding[])[], index: number, side: string): boolean => options[index]?.every((finding) => finding.side === side) ?? false;
const isSidePair = ({ gap, options }: GapStatement): boolean => gap === 'side' && options.length === 2 && uniform(options, 0, 'left') && uniform(options, 1, 'right');

/** Several things said in one breath without a side are asked about once: "left or right?" is answered for all of them. */
function joinSideGaps(statements: readonly Statement[]): readonly Statement[] {
  const pairs = statements.flatMap((statement) => (statement.type === 'gap' && isSidePair(statement) ? [statement] : []));
  const [first] = pairs;
  if (!first || pairs.length < 2) return statements;
  const joined: GapStatement = {
    type: 'gap', gap: 'side', question: first.question, text: pairs.map(({ text }) => text).join(', '),
    options: [pairs.flatMap(({ options }) => options[0] ?? []), pairs.flatMap(({ options }) => options[1] ?? [])],
  };
  return statements.flatMap((statement) => (statement === first ? [joined] : pairs.some((pair) => pair === statement) ? [] : [statement]));
}

/** What the parser took for contradictions is weighed like any other finding, all at once: filing asks about real ones in one question. */
function weighContradictions(statements: readonly Statement[]): readonly Statement[] {
  const clashes = statements.flatMap((statement) => (statement.type === 'gap' && statement.gap === 'contradiction' && statement.options.length === 1 ? [statement] : []));
  const [first] = clashes;
  if (!first) return statements;
  const weighed: Statement = { type: 'findings', findings: clashes.flatMap(({ options }) => options[0] ?? []), text: first.text };
  return statements.flatMap((statement) => (statement === first ? [weighed] : clashes.some((clash) => clash === statement) ? [] : [statement]));
}

/** Statements of one utterance, gathered so that it raises as few questions as can be. */
export const gather = (statements: readonly Statement[]): readonly Statement[] => joinSideGaps(weighContradictions(statements));

/** A missing side can also be answered "both". */
const withBoth = (statement: GapStatement): readonly (readonly Finding[])[] => (isSidePair(statement) ? [...statement.options, statement.options.flat()] : statement.options);

export const handleGap: Handler = (turn, statement, { utterance }) => {
  if (statement.type !== 'gap') return undefined;
  const { gap, text, options } = statement;
  // With one answer to pick, the question is put so that yes and no mean something.
  const question = options.length === 1 ? `${statement.question} Is it: ${(options[0] ?? []).map(spokenFinding).join('; ')}?` : statement.question;
  return tell(happen(turn, { type: 'queried', utteranceId: utterance.id, question, options: withBoth(statement), gap }), 'queried', `${question} Heard: "${text}"`, question);
};

const findingsIn = (statements: readonly Statement[]): readonly Finding[] => statements.flatMap((statement) => (statement.type === 'findings' ? statement.findings : []));

/** The recogniser was unsure: what it heard is offered, nothing is filed and no order obeyed. */
export function askWhatWasSaid(turn: Turn, { utterance, statements, otherReadings = [] }: Hearing): Turn {
  const gaps = statements.filter((statement): statement is GapStatement => statement.type === 'gap');
  const readings = [findingsIn(statements), ...gaps.flatMap(withBoth), ...otherReadings.map((reading) => findingsIn(reading.statements))];
  const options = readings.filter((option, index) => option.length > 0 && readings.findIndex((other) => JSON.stringify(other) === JSON.stringify(option)) === index);
  // An order heard unsurely is better said again than confirmed: "withdraw that" must not wait for a stray "yes".
  if (options.length === 0) return tell(turn, 'queried', `Not sure: "${utterance.text}". Say it again.`, 'Say that again.');
  const others = findingsIn(statements).length ? otherReadings.filter((reading) => findingsIn(reading.statements).length).map(({ text }) => text) : [];
  const question = gaps.length && findingsIn(statements).length === 0
    ? `${utterance.text}: ${gaps[0]?.question ?? 'which?'}`
    : `Did you say: ${[utterance.text, ...others].join(', or: ')}?`;
  const gap = gaps.length && findingsIn(statements).length === 0 ? gaps[0]?.gap ?? 'unsure' : 'unsure';
  return tell(happen(turn, { type: 'queried', utteranceId: utterance.id, question, options, gap }), 'queried', question, question);
}

/** Kept, shown, never dropped. */
export const handleUnparsed: Handler = (turn, statement) =>
  (statement.type === 'unparsed' ? tell(turn, 'queried', `Not understood, kept for review: "${statement.text}"`, 'Not understood.') : undefined);
