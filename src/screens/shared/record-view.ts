import type { Statement } from '../../parser/statement';
import { ENGINE_WORDS, isEngine, otherEngine } from '../../recogniser/vosk';
import type { ExaminationRecord, Question, RecordedUtterance, SecondOpinion } from '../../record';
import type { Finding, Side } from '../../vocabulary';
import { findingInWords, placeInWords, resultInWords, SIGNS, SITES } from '../../vocabulary';
import type { ItemKey } from '../../vocabulary';
import type { AnswerView, FindingRow, HeardRow, HeardVerdict, QuestionView } from './view';
import { percent, sideInWords, waysToSay } from './view';

/** Views of a record: pure, and total for whatever state a log is in. */

/** "power, abductor pollicis brevis" for "power@APB". */
export function itemInWords(key: ItemKey): string {
  const at = key.indexOf('@');
  const [sign, site] = [key.slice(0, at), key.slice(at + 1)];
  const name = SIGNS[sign as keyof typeof SIGNS]?.name ?? sign;
  return `${name}, ${SITES[site as keyof typeof SITES]?.name ?? site}`;
}

const ORDER_WORDS: Readonly<Record<string, string>> = {
  withdraw: 'Withdraw the last finding', amend: 'Amend the last finding', 'what remains': 'What remains', 'read back': 'Read it back', hold: 'Hold', 'carry on': 'Carry on',
  'next stage': 'Next stage', 'go to stage': 'Go to a stage', conclude: 'Conclude', confirm: 'Answer', choose: 'Answer', acknowledge: 'Caution noted',
};

/** What a statement was understood as, one line each; empty for the unparsed. */
export function statementInWords(statement: Statement): readonly string[] {
  switch (statement.type) {
    case 'findings': return statement.findings.map(findingInWords);
    case 'side': return [statement.side === 'both' ? 'Both sides' : `${sideInWords(statement.side)} side`];
    case 'not testable': return statement.items.map((item) => `${sideInWords(statement.side)} · ${itemInWords(item)}: not testable, ${statement.reason}`);
    case 'order': return [ORDER_WORDS[statement.order.order] ?? statement.order.order];
    case 'gap': return [statement.question];
    case 'unparsed': return [];
  }
}

function findingRows(record: ExaminationRecord, utteranceId: string): FindingRow[] {
  const standing = record.findings.filter((entry) => entry.utteranceId === utteranceId)
    .map((entry): FindingRow => ({ id: entry.id, words: findingInWords(entry.finding), state: 'filed', by: entry.by }));
  const replaced = record.findings.flatMap((entry) => entry.corrections.filter(({ from }) => from.utteranceId === utteranceId)
    .map(({ from }): FindingRow => ({ id: `${entry.id} was ${from.id}`, words: findingInWords(from.finding), state: 'replaced', by: from.by })));
  const withdrawn = record.withdrawn.filter(({ finding }) => finding.utteranceId === utteranceId)
    .map(({ finding }): FindingRow => ({ id: finding.id, words: findingInWords(finding.finding), state: 'withdrawn', by: finding.by }));
  return [...standing, ...replaced, ...withdrawn];
}

const codedLines = (record: ExaminationRecord, entry: RecordedUtterance, rows: readonly FindingRow[]): readonly string[] => {
  const question = record.questions.find(({ utteranceId }) => utteranceId === entry.utterance.id);
  const filed = rows.filter(({ state }) => state !== 'replaced').map(({ words, state }) => (state === 'withdrawn' ? `Withdrawn: ${words}` : words));
  // A side or a "yes" that came with findings answered a question; the findings say it all.
  const answered = filed.length > 0;
  const rest = entry.statements.filter(({ type }) => type !== 'findings' && type !== 'gap' && !(answered && (type === 'side' || type === 'order'))).flatMap(statementInWords);
  return [...filed, ...rest, ...(question?.state === 'dismissed' && !filed.length ? ['Left out: no answer fitted'] : [])];
};

/** A question that was settled no longer waits; an order or a side is understood, but files nothing. */
function verdictOf(record: ExaminationRecord, { utterance, status, statements }: RecordedUtterance, findings: readonly FindingRow[]): HeardVerdict {
  if (status === 'queried' && record.questions.some(({ utteranceId, state }) => utteranceId === utterance.id && state !== 'open')) return 'settled';
  if (record.questions.some(({ utteranceId, state, gap }) => utteranceId === utterance.id && state === 'open' && gap === 'second opinion')) return status === 'accepted' ? 'doubted' : status;
  const files = findings.length > 0 || statements.some(({ type }) => type === 'findings' || type === 'not testable');
  return status === 'accepted' && !files ? 'understood' : status;
}

const SOURCE_WORDS: Readonly<Record<string, string>> = { ...ENGINE_WORDS, keyboard: 'typed', button: 'pressed', notes: 'from notes' };

function opinionInWords({ engine, text, agrees, confidence }: SecondOpinion): string {
  const words = isEngine(engine) ? ENGINE_WORDS[engine] : engine;
  if (agrees) return `The ${words} heard the same: together ${percent(confidence)} sure.`;
  return text ? `The ${words} heard “${text}”: ${percent(confidence)} sure of what is on record.` : `The ${words} heard nothing for the recorder: ${percent(confidence)} sure of what is on record.`;
}

/** Utterances with what became of each, oldest first. */
export const heardRows = (record: ExaminationRecord): readonly HeardRow[] => record.utterances.map((entry) => {
  const { utterance, secondOpinion } = entry;
  const findings = findingRows(record, utterance.id);
  return {
    id: utterance.id, text: utterance.text, at: entry.at, verdict: verdictOf(record, entry, findings), confidence: utterance.confidence, source: SOURCE_WORDS[utterance.source] ?? utterance.source, findings,
    coded: entry.status === 'ignored' || entry.status === 'held' ? [] : codedLines(record, entry, findings),
    alternatives: [...new Set([...utterance.alternatives.map(({ text }) => text), ...(secondOpinion && !secondOpinion.agrees && secondOpinion.text ? [secondOpinion.text] : [])])],
    other: secondOpinion ? null : otherEngine(utterance.source),
    ...(secondOpinion ? { secondOpinion: opinionInWords(secondOpinion) } : {}),
    ...(utterance.why ? { why: utterance.why } : {}),
  };
});

/** "index finger" for "flexor digitorum superficialis of the index finger", where every place is of the same muscle. */
function shortPlaces(names: readonly string[]): readonly string[] {
  const parts = names.map((name) => name.split(' of the '));
  return parts.every(([of, part]) => part !== undefined && of === parts[0]?.[0]) ? parts.map(([, ...rest]) => rest.join(' of the ')) : names;
}

const optionInWords = (findings: readonly Finding[]): string => findings.map(findingInWords).join('; ') || 'Nothing';
/** What an option says apart from the side, each thing once. */
const withoutSide = (findings: readonly Finding[]): string => [...new Set(findings.map(({ side: _side, ...rest }) => JSON.stringify(rest)))].join();
const sideOf = (findings: readonly Finding[]): Side | 'both' => {
  const sides = new Set(findings.map(({ side }) => side));
  return sides.size > 1 ? 'both' : (findings[0] as Finding).side;
};

const observationsOf = (findings: readonly Finding[]): string => findings.map(({ side, sign, site, upTo = '' }) => `${side} ${sign} ${site} ${upTo}`).join();
/** The same was found everywhere: one result speaks for all. */
const isUniform = (findings: readonly Finding[]): boolean => allSame(findings.map(({ result, qualifiers = [] }) => JSON.stringify([result, qualifiers])));
const withoutPlace = ({ site: _site, upTo: _upTo, ...rest }: Finding): string => JSON.stringify(rest);
const allSame = (texts: readonly string[]): boolean => new Set(texts).size === 1;
const allDiffer = (texts: readonly string[]): boolean => new Set(texts).size === texts.length;

/** Short labels where the answers differ in the side, the result or the place alone; the whole finding otherwise. */
export function answerLabels(options: Question['options']): readonly string[] {
  const [first = []] = options;
  const sidesOnly = options.length > 1 && options.every((option) => option.length > 0 && withoutSide(option) === withoutSide(first));
  if (sidesOnly) return options.map((option) => sideInWords(sideOf(option)));
  if (options.length < 2) return options.map(optionInWords);
  const results = options.map((option) => [...new Set(option.map((finding) => [resultInWords(finding.result, SIGNS[finding.sign].test), ...(finding.qualifiers ?? [])].join(', ')))].join('; '));
  if (options.every(isUniform) && allSame(options.map(observationsOf)) && allDiffer(results)) return results;
  const single = options.flatMap((option) => (option.length === 1 ? option : []));
  const places = shortPlaces(single.map(placeInWords));
  return places.length === options.length && allSame(single.map(withoutPlace)) && allDiffer(places) ? places : options.map(optionInWords);
}

export function questionView(record: ExaminationRecord, question: Question): QuestionView {
  const entry = record.utterances.find(({ utterance }) => utterance.id === question.utteranceId);
  const labels = answerLabels(question.options);
  const answers = labels.map((label, n): AnswerView => ({ label, say: waysToSay(n, label) }));
  return { utteranceId: question.utteranceId, question: question.question, text: entry?.utterance.text ?? '', answers, none: question.gap === 'second opinion' ? 'Leave it as it is' : 'None of these' };
}

/** Words kept but not understood, latest first: shown until the reviewer has dealt with them, never dropped. */
export const keptUnparsed = (record: ExaminationRecord): readonly { readonly id: string; readonly text: string }[] =>
  record.utterances.filter(({ status }) => status === 'unparsed').map(({ utterance }) => ({ id: utterance.id, text: utterance.text })).reverse();
