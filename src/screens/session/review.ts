import type { Utterance } from '../../recogniser';
import { agree } from '../../recogniser/vosk';
import { itemKey } from '../../vocabulary';
import type { Finding } from '../../vocabulary';
import type { ExaminationRecord, FiledFinding, Happening, Question } from '../../record';

/** What a reviewer's decision appends to the record. Pure; an impossible one appends nothing. */

const filedBy = (finding: Finding, utteranceId: string, id: string): FiledFinding => ({ id, finding, utteranceId, by: 'reviewer', confidence: 1 });

export function correction(record: ExaminationRecord, findingId: string, to: Finding, why: string, newId: () => string): readonly Happening[] {
  const entry = record.findings.find(({ id }) => id === findingId);
  if (!entry) return [];
  return [{ type: 'corrected', findingId, to: filedBy(to, entry.utteranceId, newId()), ...(why ? { why } : {}) }];
}

export function withdrawal(record: ExaminationRecord, findingId: string, why: string): readonly Happening[] {
  return record.findings.some(({ id }) => id === findingId) ? [{ type: 'withdrawn', findingIds: [findingId], by: 'reviewer', ...(why ? { why } : {}) }] : [];
}

const equal = (a: Finding, b: Finding): boolean => JSON.stringify(a) === JSON.stringify(b);
const sameItem = (a: Finding, b: Finding): boolean => a.side === b.side && itemKey(a) === itemKey(b);

/** One of a question's answers, chosen at the desk: the findings are filed; of a contradiction, the later replaces the earlier. */
export function deskAnswer(record: ExaminationRecord, question: Question, option: number | null, newId: () => string): readonly Happening[] {
  const answered: Happening = { type: 'answered', utteranceId: question.utteranceId, option };
  const chosen = option === null ? [] : question.options[option];
  if (!chosen) return [];
  if (question.gap === 'second opinion' && option !== null) return [answered, ...inPlaceOf(record, question.utteranceId, chosen, newId)];
  if (question.gap === 'contradiction' && option !== 0) return [answered];
  const standing = (finding: Finding): string | undefined => (question.gap === 'contradiction' ? record.findings.findLast((entry) => sameItem(entry.finding, finding))?.id : undefined);
  const entries = chosen.map((finding) => ({ replaces: standing(finding), to: filedBy(finding, question.utteranceId, newId()) }));
  const fresh = entries.filter(({ replaces }) => !replaces).map(({ to }) => to);
  return [
    answered,
    ...entries.flatMap(({ replaces, to }): Happening[] => (replaces ? [{ type: 'corrected', findingId: replaces, to, why: 'answered at review' }] : [])),
    ...(fresh.length ? [{ type: 'filed' as const, findings: fresh }] : []),
  ];
}

/** Findings that take the place of whatever stands for an utterance; one that stands already is left as it is. */
function inPlaceOf(record: ExaminationRecord, utteranceId: string, chosen: readonly Finding[], newId: () => string): readonly Happening[] {
  const standing = record.findings.filter((entry) => entry.utteranceId === utteranceId);
  const wrong = standing.filter(({ finding }) => !chosen.some((other) => equal(other, finding)));
  const fresh = chosen.filter((finding) => !standing.some((entry) => equal(entry.finding, finding))).map((finding) => filedBy(finding, utteranceId, newId()));
  const why = 'second opinion';
  const [surplus, rest] = [wrong.slice(fresh.length), fresh.slice(wrong.length)];
  return [
    ...wrong.slice(0, fresh.length).map(({ id }, n): Happening => ({ type: 'corrected', findingId: id, to: fresh[n] as FiledFinding, why })),
    ...(surplus.length ? [{ type: 'withdrawn' as const, findingIds: surplus.map(({ id }) => id), by: 'reviewer' as const, why }] : []),
    ...(rest.length ? [{ type: 'filed' as const, findings: rest }] : []),
  ];
}

/** What a second opinion needs to know of the language. */
export interface Language {
  /** Whether two sentences mean the same, whatever the context. */
  readonly same: (one: string, other: string) => boolean;
  /** The findings that a text would have been, said at that moment of the examination; several where it left something open. */
  readonly read: (text: string) => readonly (readonly Finding[])[];
}

/**
 * What another engine heard in an utterance's stored sound, put on record. If it differs, and anything hangs on it, the reviewer
 * is asked; nothing that was filed changes by itself, and nothing is filed because an engine agreed.
 * @param engine its name, and in words
 * @param heard null if it heard nothing for the recorder
 */
export function secondOpinion(record: ExaminationRecord, utteranceId: string, engine: { readonly name: string; readonly words: string }, heard: Utterance | null, { same, read }: Language): readonly Happening[] {
  const entry = record.utterances.find(({ utterance }) => utterance.id === utteranceId);
  if (!entry) return [];
  const agrees = heard !== null && same(entry.utterance.text, heard.text);
  const { confidence } = agree(entry.utterance, heard, (a, b) => same(a.text, b.text));
  const told: Happening = { type: 'heard again', utteranceId, engine: engine.name, text: heard?.text ?? '', verdict: heard?.verdict ?? 'ignored', agrees, confidence };
  const standing = record.findings.filter((finding) => finding.utteranceId === utteranceId).map(({ finding }) => finding);
  const options = [standing, ...(heard ? read(heard.text) : [])].filter((option, n, all) => option.length > 0 && all.findIndex((other) => JSON.stringify(other) === JSON.stringify(option)) === n);
  const isAsked = record.questions.some((question) => question.utteranceId === utteranceId && question.state === 'open');
  // An order or a side that was obeyed hangs together with what followed it.
  const matters = options.length > 0 || entry.status === 'accepted';
  if (agrees || isAsked || !matters) return [told];
  const what = heard ? `The ${engine.words} heard “${heard.text}” in the same sound.` : `The ${engine.words} heard nothing for the recorder in this sound.`;
  const ask = options.length > 1 || (options.length && !standing.length) ? 'Which was said?' : options.length ? 'Is what was filed right? If not, correct or withdraw it.' : 'Check what followed from it.';
  const question = `${what} ${ask}`;
  return [told, { type: 'queried', utteranceId, question, options, gap: 'second opinion' }];
}

/** Findings that the reviewer wrote for an utterance, filed beside it. */
export function written(utteranceId: string, findings: readonly Finding[], newId: () => string): readonly Happening[] {
  return findings.length ? [{ type: 'filed', findings: findings.map((finding) => filedBy(finding, utteranceId, newId())) }] : [];
}
