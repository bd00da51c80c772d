import { cautionsFor } from '../cautions';
import { currentStage, progress, share } from '../examination';
import { localiseRecord } from '../localiser';
import { localisationOut } from './localisation';
import type { Statement } from '../parser';
import type { ExaminationRecord, RecordedFinding } from '../record';
import { SIGNS, itemKey } from '../vocabulary';
import type { Finding, MrcGrade, Quantity } from '../vocabulary';
import type { Examined } from './examine';

/** Power said as a grade, in the words of the vocabulary. */
const powerInWords = (grade: MrcGrade): string => (grade === '0' ? 'absent' : grade === '5' ? 'normal' : 'weak');
const measure = ({ value, to, unit, comparator }: Quantity): Record<string, unknown> => ({ value, ...(to === undefined ? {} : { valueTo: to }), unit, ...(comparator ? { comparator } : {}) });

/** What was found, with its number apart: { result: 'weak', grade: '4' }, { result: 'measured', value: 12, unit: 'mm' }. */
function resultOf({ result, at }: Finding): Record<string, unknown> {
  const where = at ? measure(at) : {};
  switch (result.kind) {
    case 'level': return { result: result.level, ...where };
    case 'grade': return { result: powerInWords(result.grade), grade: result.grade, ...(result.to ? { gradeTo: result.to } : {}) };
    case 'quantity': return { result: 'measured', ...measure(result.quantity) };
    case 'not testable': return { result: 'not testable', reason: result.reason };
  }
}

const orderOf = (statements: readonly Statement[]): string | null => statements.flatMap((statement) => (statement.type === 'order' ? [statement.order.order] : []))[0] ?? null;

/** The object that the headless command prints; its JSON Schema is output.schema.json beside this file. */
export function toOutput({ record, protocol, from }: Examined): Record<string, unknown> {
  const numbers = new Map(record.utterances.map(({ utterance }, index) => [utterance.id, index + 1]));
  return {
    protocol: protocol.id,
    utterances: record.utterances.map(({ utterance, status, statements }, index) => {
      const isText = utterance.source === 'notes';
      return {
        n: index + 1, text: utterance.text, from: from.get(utterance.id) ?? '', startS: isText ? null : utterance.start, endS: isText ? null : utterance.end, confidence: round(utterance.confidence),
        status: status === 'held' ? 'ignored' : status, order: status === 'ignored' || status === 'held' ? null : orderOf(statements), ...(utterance.why ? { why: utterance.why } : status === 'held' ? { why: 'Said on hold.' } : {}),
      };
    }),
    findings: record.findings.map((entry) => findingOut(entry, numbers)),
    notTestable: record.notTestable.map(({ side, item, reason, utteranceId }) => ({ side, what: item, reason, utterance: numbers.get(utteranceId) ?? null })),
    questions: record.questions.filter(({ state }) => state !== 'answered').map(({ utteranceId, question, options, state }) => ({ utterance: numbers.get(utteranceId) ?? null, question, state, options: options.map((option) => option.map((finding) => ({ side: finding.side, what: itemKey(finding), ...resultOf(finding) }))) })),
    withdrawn: record.withdrawn.map(({ finding }) => findingOut(finding, numbers)),
    stage: currentStage(record, protocol).id,
    stages: progress(record, protocol).map(({ stage, done, items }) => ({ id: stage.id, done, remaining: items.filter(({ state }) => state === 'remains').map(({ item, side }) => ({ side, item: item.id, what: item.keys[0] })) })),
    share: share(record, protocol),
    concluded: record.concludedAt !== null,
    localisation: localisationOut(localiseRecord(record), (finding) => idOf(record, finding)),
    cautions: cautionsFor(record).map(({ id, title, text, because, urgency, source }) => ({ id, title, text, because, urgency, source, acknowledged: record.cautionsAcknowledged.includes(id) })),
  };
}

const findingOut = ({ id, finding, utteranceId, corrections }: RecordedFinding, numbers: ReadonlyMap<string, number>): Record<string, unknown> => ({
  id, side: finding.side, category: SIGNS[finding.sign].category, what: itemKey(finding), ...resultOf(finding), ...(finding.upTo ? { upTo: finding.upTo } : {}), qualifiers: finding.qualifiers ?? [], utterance: numbers.get(utteranceId) ?? null, corrected: corrections.length > 0,
});

const idOf = (record: ExaminationRecord, finding: Finding): string | null =>
  record.findings.find((entry) => entry.finding === finding || JSON.stringify(entry.finding) === JSON.stringify(finding))?.id ?? null;
const round = (value: number): number => Math.round(value * 10_000) / 10_000;
