import type { Statement } from '../parser/statement';
import type { ExaminationRecord, Question } from '../record';
import { openQuestion } from '../record';
import type { Finding, Side } from '../vocabulary';
import { fileFindings, isKnown } from './filing';
import { happen, tell } from './turn';
import type { Handler, Hearing, Tools, Turn } from './turn';

/** Orders that leave a question standing; any other order, a finding or a new side moves on from it. */
const PASSING = new Set(['what remains', 'read back', 'hold', 'carry on', 'confirm', 'choose', 'acknowledge']);
const movesOn = (statement: Statement): boolean =>
  statement.type === 'findings' || statement.type === 'not testable' || statement.type === 'side' || (statement.type === 'order' && !PASSING.has(statement.order.order));

/**
 * The question that an answer may mean: the last open one, as long as nothing else was said since.
 * An older question waits for the reviewer; a late "yes" must not file it by accident.
 */
export function answerable(record: ExaminationRecord): Question | undefined {
  const question = openQuestion(record);
  if (!question) return undefined;
  const asked = record.utterances.findLastIndex(({ utterance }) => utterance.id === question.utteranceId);
  const since = record.utterances.slice(asked + 1).filter(({ status }) => status === 'accepted');
  return since.some(({ statements }) => statements.some(movesOn)) ? undefined : question;
}

const sidesOf = (findings: readonly Finding[]): string => [...new Set(findings.map(({ side }) => side))].sort().join(' ');
/** The one option that is about that side, if there is exactly one. */
function optionOfSide(question: Question, side: Side | 'both'): number | undefined {
  const wanted = side === 'both' ? 'left right' : side;
  const matches = question.options.flatMap((option, index) => (sidesOf(option) === wanted ? [index] : []));
  return matches.length === 1 ? matches[0] : undefined;
}

/** A side alone is no order and no finding, but it answers a question. */
function sideSaid(statement: Statement, said: string): Side | 'both' | undefined {
  if (statement.type === 'side') return statement.side;
  return /^(?:(?:on )?the )?(left|right|both)(?: (?:one|side|sides|hand|hands))?$/.exec(said)?.[1] as Side | 'both' | undefined;
}

const ORDINALS = [/^(the )?first( one)?$|^option (one|1)$/, /^(the )?second( one)?$|^option (two|2)$/, /^(the )?third( one)?$|^option (three|3)$/];

/** Chosen option, null to dismiss, 'unclear' for an answer that picks none, undefined when it is no answer at all. */
function choice(question: Question, statement: Statement, text: string): number | null | 'unclear' | undefined {
  const said = text.trim().toLowerCase();
  const ordinal = statement.type === 'order' && statement.order.order === 'choose' ? statement.order.option - 1 : ORDINALS.findIndex((pattern) => pattern.test(said));
  if (ordinal >= 0) return ordinal < question.options.length ? ordinal : 'unclear';
  if (statement.type === 'order' && statement.order.order === 'confirm') {
    if (!statement.order.yes) return null;
    // "Yes" to "Did you say …?" or "Replace?" is the first option; "yes" to "Which side?" or to a choice says nothing.
    return question.options.length === 1 || (question.gap === 'contradiction' && question.options.length === 2) ? 0 : 'unclear';
  }
  const side = sideSaid(statement, said);
  if (side) return optionOfSide(question, side) ?? (question.gap === 'side' ? 'unclear' : undefined);
  if (statement.type === 'findings') {
    const index = question.options.findIndex((option) => sameFindings(option, statement.findings));
    return index >= 0 && question.gap !== 'contradiction' ? index : undefined; // said in full: that settles it
  }
  return undefined;
}

const canonical = (finding: Finding): string => JSON.stringify([finding.side, finding.sign, finding.site, finding.upTo ?? null, finding.result, finding.at ?? null, [...finding.qualifiers ?? []].sort()]);
const sameFindings = (a: readonly Finding[], b: readonly Finding[]): boolean =>
  a.length === b.length && [...a.map(canonical)].sort().join() === [...b.map(canonical)].sort().join();

function settle(turn: Turn, question: Question, option: number | null): Turn {
  const settled = happen(turn, { type: 'answered', utteranceId: question.utteranceId, option });
  if (option !== null) return settled;
  return question.gap === 'contradiction' ? tell(settled, 'order', 'The earlier finding stands.', 'Unchanged.') : tell(settled, 'order', 'Not filed. Say it again if needed.', 'Not filed.');
}

/** First of the handlers: an answer to what the recorder has just asked. */
export const handleAnswer: Handler = (turn, statement, hearing, tools) => {
  // The utterance itself is in the turn's record by now; what counts is what stood before it.
  const question = answerable(without(turn.record, hearing));
  const isAnswer = statement.type === 'order' && (statement.order.order === 'confirm' || statement.order.order === 'choose');
  if (!question) return isAnswer ? tell(turn, 'order', 'There is no question to answer.', 'No question to answer.') : undefined;
  const chosen = choice(question, statement, hearing.utterance.text);
  if (chosen === undefined) return undefined;
  // A question without answers to pick from ("Which side cannot be tested?") needs the whole said again.
  if (chosen === 'unclear') return question.options.length ? tell(turn, 'queried', question.question, question.question) : tell(turn, 'queried', `${question.question} Say all of it again.`, 'Say all of it again.');
  return askNext(take(turn, question, chosen, hearing, tools), question);
};

function take(turn: Turn, question: Question, chosen: number | null, hearing: Hearing, tools: Tools): Turn {
  const settled = settle(turn, question, chosen);
  if (chosen === null) return settled;
  if (question.gap === 'contradiction' && isKnown(settled, question.options[chosen] ?? [])) return tell(settled, 'order', 'The earlier finding stands.', 'Unchanged.');
  // The finding comes from what was asked about, not from the "yes": that is what the reviewer will want to hear.
  const asked = turn.record.utterances.find(({ utterance }) => utterance.id === question.utteranceId)?.utterance ?? hearing.utterance;
  return fileFindings(settled, question.options[chosen] ?? [], { ...hearing, utterance: asked }, tools, question.gap === 'contradiction');
}

/** One utterance may raise several questions; the next is asked once one is settled. */
function askNext(turn: Turn, { utteranceId }: Question): Turn {
  const next = turn.record.questions.findLast((entry) => entry.state === 'open' && entry.utteranceId === utteranceId);
  return next ? tell(turn, 'queried', next.question, next.question) : turn;
}

const without = (record: ExaminationRecord, { utterance }: Hearing): ExaminationRecord =>
  ({ ...record, utterances: record.utterances.filter((entry) => entry.utterance.id !== utterance.id) });
