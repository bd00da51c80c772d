import type { Gap, Statement } from '../parser/statement';
import type { Utterance } from '../recogniser/recogniser';
import type { Finding, ItemKey, Side } from '../vocabulary';
import type { FiledFinding, RecordEvent, SecondOpinion, SetUp } from './event';
import { checkEvent } from './schema';

/** What became of an utterance. Held = said while the recorder was on hold: kept, not filed. */
export type UtteranceStatus = 'accepted' | 'queried' | 'ignored' | 'unparsed' | 'held';

export interface RecordedUtterance {
  readonly utterance: Omit<Utterance, 'audio'>;
  readonly statements: readonly Statement[];
  readonly status: UtteranceStatus;
  readonly at: string;
  /** The last one, if another engine was asked. */
  readonly secondOpinion?: SecondOpinion;
}

/** An earlier wording of a finding, and why it was replaced. */
export interface Correction { readonly from: FiledFinding; readonly at: string; readonly why?: string }

export interface RecordedFinding extends FiledFinding {
  readonly at: string;
  /** The event that last changed it: the highest is the last thing filed or corrected. */
  readonly seq: number;
  /** Earlier versions, oldest first; empty when it stands as first filed. */
  readonly corrections: readonly Correction[];
}

export interface WithdrawnFinding { readonly finding: RecordedFinding; readonly at: string; readonly by: 'examiner' | 'reviewer'; readonly why?: string }

export interface Question {
  readonly utteranceId: string;
  readonly question: string;
  readonly options: readonly (readonly Finding[])[];
  readonly gap?: Gap | 'second opinion';
  readonly at: string;
  readonly state: 'open' | 'answered' | 'dismissed';
  /** Index into options once answered. */
  readonly chosen?: number;
}

export interface NotTestable { readonly side: Side; readonly item: ItemKey; readonly reason: string; readonly utteranceId: string; readonly at: string }

export interface Signature { readonly by: string; readonly at: string; readonly note?: string }

/** An examination as it stands: the fold of its events. */
export interface ExaminationRecord {
  readonly examinationId: string;
  readonly setUp: SetUp | null;
  readonly begunAt: string | null;
  readonly lastAt: string | null;
  /** Sequence number that the next event must carry. */
  readonly nextSeq: number;
  readonly utterances: readonly RecordedUtterance[];
  /** Findings that stand, in the order filed. */
  readonly findings: readonly RecordedFinding[];
  readonly withdrawn: readonly WithdrawnFinding[];
  readonly questions: readonly Question[];
  readonly notTestable: readonly NotTestable[];
  readonly currentSide: Side | 'both' | null;
  readonly stage: string | null;
  readonly held: boolean;
  /** By caution: the event that showed it last. */
  readonly cautionsShown: ReadonlyMap<string, number>;
  readonly cautionsAcknowledged: readonly string[];
  readonly concludedAt: string | null;
  readonly signatures: readonly Signature[];
  /** True when anything that matters was appended after the last signature. */
  readonly changedSinceSigned: boolean;
  /** What is wrong with the log itself, in plain words; empty for a sound one. */
  readonly faults: readonly string[];
}

export const emptyRecord = (examinationId = ''): ExaminationRecord => ({
  examinationId, setUp: null, begunAt: null, lastAt: null, nextSeq: 0, utterances: [], findings: [], withdrawn: [], questions: [],
  notTestable: [], currentSide: null, stage: null, held: false, cautionsShown: new Map(), cautionsAcknowledged: [],
  concludedAt: null, signatures: [], changedSinceSigned: false, faults: [],
});

const fault = (record: ExaminationRecord, message: string): ExaminationRecord => ({ ...record, faults: [...record.faults, message] });

const key = (finding: Finding): string => `${finding.side} ${finding.sign}@${finding.site}`;
const including = (list: readonly string[], entry: string): readonly string[] => (list.includes(entry) ? list : [...list, entry]);

/** Adds findings. One whose id is taken (a damaged log) is kept under a new id and named. A finding lifts "not testable" from its item. */
function file(record: ExaminationRecord, findings: readonly FiledFinding[], seq: number, at: string): ExaminationRecord {
  const taken = new Set(record.findings.map(({ id }) => id));
  const faults: string[] = [];
  const added = findings.map((filed, index): RecordedFinding => {
    const id = taken.has(filed.id) ? `${filed.id}~${seq}.${index}` : filed.id;
    if (id !== filed.id) faults.push(`Event ${seq}: the id ${filed.id} is taken; the finding was kept as ${id}.`);
    taken.add(id);
    return { ...filed, id, at, seq, corrections: [] };
  });
  const filedKeys = new Set(added.filter(({ finding }) => finding.result.kind !== 'not testable').map(({ finding }) => key(finding)));
  const notTestable = record.notTestable.filter(({ side, item }) => !filedKeys.has(`${side} ${item}`));
  return { ...record, findings: [...record.findings, ...added], notTestable, faults: [...record.faults, ...faults] };
}

function withdraw(record: ExaminationRecord, ids: readonly string[], entry: Omit<WithdrawnFinding, 'finding'>, seq: number): ExaminationRecord {
  const gone = record.findings.filter(({ id }) => ids.includes(id));
  const missing = ids.filter((id) => !gone.some((finding) => finding.id === id));
  const next = {
    ...record,
    findings: record.findings.filter(({ id }) => !ids.includes(id)),
    withdrawn: [...record.withdrawn, ...gone.map((finding): WithdrawnFinding => ({ finding, ...entry }))],
  };
  return missing.length ? fault(next, `Event ${seq}: withdraws ${missing.join(', ')}, which does not stand.`) : next;
}

function correct(record: ExaminationRecord, findingId: string, to: FiledFinding, why: string | undefined, seq: number, at: string): ExaminationRecord {
  const earlier = record.findings.find(({ id }) => id === findingId);
  // The new wording is kept even if what it corrects is lost: a finding must not vanish with a damaged log.
  if (!earlier) return fault(file(record, [to], seq, at), `Event ${seq}: corrects ${findingId}, which does not stand; the new finding was kept.`);
  if (to.id !== findingId && record.findings.some(({ id }) => id === to.id)) return fault(correct(record, findingId, { ...to, id: `${to.id}~${seq}` }, why, seq, at), `Event ${seq}: the id ${to.id} is taken; the correction was kept as ${to.id}~${seq}.`);
  const { at: _at, seq: _seq, corrections, ...from } = earlier;
  const corrected: RecordedFinding = { ...to, at, seq, corrections: [...corrections, { from, at, ...(why ? { why } : {}) }] };
  return { ...record, findings: record.findings.map((finding) => (finding === earlier ? corrected : finding)) };
}

function status({ utterance, statements }: Pick<RecordedUtterance, 'utterance' | 'statements'>, held: boolean): UtteranceStatus {
  if (utterance.verdict === 'ignored') return 'ignored';
  if (held && !statements.some((statement) => statement.type === 'order' && statement.order.order === 'carry on')) return 'held';
  if (utterance.verdict === 'queried') return 'queried';
  if (statements.length === 0 || statements.every(({ type }) => type === 'unparsed')) return 'unparsed';
  return statements.some(({ type }) => type === 'gap' || type === 'unparsed') ? 'queried' : 'accepted';
}

/** Things that may follow a signature without touching what was signed. */
const HARMLESS = new Set(['caution shown', 'caution acknowledged', 'signed', 'heard', 'heard again', 'held', 'resumed', 'side set', 'stage set', 'ordered', 'concluded']);

/** Folds one sound event into a record. Total: a reference to something unknown becomes a named fault. */
export function apply(record: ExaminationRecord, event: RecordEvent): ExaminationRecord {
  const { seq, at, happening } = event;
  let next: ExaminationRecord = { ...record, lastAt: at, nextSeq: seq + 1, examinationId: record.examinationId || event.examinationId };
  if (seq > record.nextSeq) next = fault(next, seq - record.nextSeq === 1 ? `Event ${record.nextSeq} is missing.` : `Events ${record.nextSeq} to ${seq - 1} are missing.`);
  if (record.signatures.length && !HARMLESS.has(happening.type)) next = { ...next, changedSinceSigned: true };
  switch (happening.type) {
    case 'begun': return record.setUp ? fault(next, `Event ${seq}: the examination begins a second time.`) : { ...next, setUp: happening.setUp, begunAt: at };
    case 'heard': return { ...next, utterances: [...next.utterances, { utterance: happening.utterance, statements: happening.statements, status: status(happening, record.held), at }] };
    case 'filed': return file(next, happening.findings, seq, at);
    case 'queried': {
      const { type: _type, ...question } = happening;
      const utterances = next.utterances.map((entry) => (entry.utterance.id === question.utteranceId && entry.status !== 'ignored' && question.gap !== 'second opinion' ? { ...entry, status: 'queried' as const } : entry));
      return { ...next, utterances, questions: [...next.questions, { ...question, at, state: 'open' }] };
    }
    case 'heard again': {
      const { type: _type, utteranceId, ...secondOpinion } = happening;
      if (!next.utterances.some(({ utterance }) => utterance.id === utteranceId)) return fault(next, `Event ${seq}: a second opinion on ${utteranceId}, which was not heard.`);
      // How sure the record is of a finding moves with it, until a person has decided.
      const findings = next.findings.map((entry) => (entry.utteranceId === utteranceId && entry.by === 'examiner' ? { ...entry, confidence: secondOpinion.confidence } : entry));
      return { ...next, findings, utterances: next.utterances.map((entry) => (entry.utterance.id === utteranceId ? { ...entry, secondOpinion } : entry)) };
    }
    case 'answered': {
      const question = next.questions.findLast((entry) => entry.utteranceId === happening.utteranceId && entry.state === 'open');
      if (!question) return fault(next, `Event ${seq}: answers a question about ${happening.utteranceId} that is not open.`);
      const settled: Question = happening.option === null ? { ...question, state: 'dismissed' } : { ...question, state: 'answered', chosen: happening.option };
      // A reviewer who chose has heard it: what stands, or takes its place, is no longer as doubtful as two engines left it.
      const isDecided = question.gap === 'second opinion' && happening.option !== null;
      const findings = isDecided ? next.findings.map((entry) => (entry.utteranceId === question.utteranceId ? { ...entry, confidence: 1 } : entry)) : next.findings;
      return { ...next, findings, questions: next.questions.map((entry) => (entry === question ? settled : entry)) };
    }
    case 'withdrawn': return withdraw(next, happening.findingIds, { at, by: happening.by, ...(happening.why ? { why: happening.why } : {}) }, seq);
    case 'corrected': return correct(next, happening.findingId, happening.to, happening.why, seq, at);
    case 'not testable': {
      const { side, items, reason, utteranceId } = happening;
      const others = next.notTestable.filter((entry) => entry.side !== side || !items.includes(entry.item));
      return { ...next, notTestable: [...others, ...items.map((item): NotTestable => ({ side, item, reason, utteranceId, at }))] };
    }
    case 'testable again': return { ...next, notTestable: next.notTestable.filter(({ side, item }) => side !== happening.side || !happening.items.includes(item)) };
    case 'side set': return { ...next, currentSide: happening.side };
    case 'stage set': return { ...next, stage: happening.stage };
    case 'held': return { ...next, held: true };
    case 'resumed': return { ...next, held: false };
    case 'ordered': return next; // what it did is in the events that follow
    // Shown again after its first grounds were withdrawn, it waits to be acknowledged again.
    case 'caution shown': return { ...next, cautionsShown: new Map(next.cautionsShown).set(happening.caution, seq), cautionsAcknowledged: next.cautionsAcknowledged.filter((caution) => caution !== happening.caution) };
    case 'caution acknowledged': return { ...next, cautionsAcknowledged: including(next.cautionsAcknowledged, happening.caution) };
    case 'concluded': return { ...next, concludedAt: at };
    case 'signed': return { ...next, signatures: [...next.signatures, { by: happening.by, at, ...(happening.note ? { note: happening.note } : {}) }], changedSinceSigned: false };
  }
}

export interface Log {
  /** Sound events of one examination, by sequence, each once. */
  readonly events: readonly RecordEvent[];
  readonly faults: readonly string[];
}

/** Sorts out what came from storage: damaged, foreign and doubled entries are left out and named. Never throws. */
export function readLog(raw: readonly unknown[]): Log {
  const faults: string[] = [];
  const bySeq = new Map<number, RecordEvent>();
  let examinationId: string | undefined;
  raw.forEach((value, index) => {
    const checked = checkEvent(value);
    if (!checked.ok) {
      const [first] = checked.issues;
      faults.push(`Entry ${index} of the log is damaged and was left out (${first?.path ? `${first.path}: ` : ''}${first?.message ?? 'unreadable'}).`);
      return;
    }
    const { event } = checked;
    examinationId ??= event.examinationId;
    if (event.examinationId !== examinationId) faults.push(`Entry ${index} of the log belongs to another examination and was left out.`);
    else if (bySeq.has(event.seq)) faults.push(`Event ${event.seq} is there twice; the first was kept.`);
    else bySeq.set(event.seq, event);
  });
  return { events: [...bySeq.values()].sort((a, b) => a.seq - b.seq), faults };
}

/** The record of a log, whatever state the log is in. Pure; never throws. */
export function project(raw: readonly unknown[]): ExaminationRecord {
  const { events, faults } = readLog(raw);
  return events.reduce(apply, { ...emptyRecord(), faults });
}

/** The last question still open for the examiner, if any; a second opinion is the reviewer's. */
export const openQuestion = (record: ExaminationRecord): Question | undefined => record.questions.findLast(({ state, gap }) => state === 'open' && gap !== 'second opinion');
