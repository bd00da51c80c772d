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

const sameItem = (a: Finding, b: Finding): boolean => a.side === b.side && itemKey(a) === itemKey(b);

/** One of a question's answers, chosen at the desk: the findings are filed; of a contradiction, the later replaces the earlier. */
export function deskAnswer(record: ExaminationRecord, question: Question, option: number | null, newId: () => string): readonly Happening[] {
  const answered: Happening = { type: 'answered', utteranceId: question.utteranceId, option };
  const chosen = option === null ? [] : question.options[option];
  if (!chosen) return [];
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

/** Findings that the reviewer wrote for an utterance, filed beside it. */
export function written(utteranceId: string, findings: readonly Finding[], newId: () => string): readonly Happening[] {
  return findings.length ? [{ type: 'filed', findings: findings.map((finding) => filedBy(finding, utteranceId, newId())) }] : [];
}
