import type { Order } from '../parser/statement';
import type { ExaminationRecord, FiledFinding, Happening, RecordedFinding } from '../record';
import { openQuestion } from '../record';
import { SIDES, checkFinding, findingInWords, sameObservation } from '../vocabulary';
import type { Finding, Side } from '../vocabulary';
import { answerable } from './answering';
import { currentStage, nextStage, remaining } from './progress';
import { spokenConclusion, spokenFinding, spokenFindings, spokenRemainder } from './spoken';
import { happen, tell } from './turn';
import type { Handler, Hearing, Tools, Turn } from './turn';

type OrderOf<Name extends Order['order']> = Extract<Order, { order: Name }>;

/** The findings that came last, from one utterance, as they stand. */
const lastGroup = ({ findings }: ExaminationRecord): readonly RecordedFinding[] => {
  const utteranceId = findings.reduce<RecordedFinding | undefined>((last, finding) => (last && last.seq > finding.seq ? last : finding), undefined)?.utteranceId;
  return findings.filter((finding) => finding.utteranceId === utteranceId);
};
const utteranceNo = (record: ExaminationRecord, utteranceId: string): number => record.utterances.findLastIndex(({ utterance }) => utterance.id === utteranceId);

/** "Withdraw that" takes back whatever came last: a question, a "not testable" or findings. */
function withdraw(turn: Turn): Turn {
  const { record } = turn;
  const question = openQuestion(record);
  const group = lastGroup(record);
  const barred = record.notTestable.at(-1);
  const [q, g, n] = [question?.utteranceId, group[0]?.utteranceId, barred?.utteranceId].map((id) => (id === undefined ? -1 : utteranceNo(record, id))) as [number, number, number];
  if (!question && !barred && group.length === 0) return tell(turn, 'order', 'Nothing to withdraw.', 'Nothing to withdraw.');
  if (question && q >= g && q >= n) return tell(happen(turn, { type: 'answered', utteranceId: question.utteranceId, option: null }), 'order', 'Question withdrawn, nothing filed.', 'Question withdrawn.');
  if (barred && n > g) {
    const entries = record.notTestable.filter(({ utteranceId }) => utteranceId === barred.utteranceId);
    const again = SIDES.flatMap((side): Happening[] => {
      const items = entries.filter((entry) => entry.side === side).map(({ item }) => item);
      return items.length ? [{ type: 'testable again', side, items }] : [];
    });
    return tell(happen(turn, ...again), 'order', 'No longer marked as not testable.', 'Testable again.');
  }
  const words = group.map(({ finding }) => spokenFinding(finding)).join('; ');
  return tell(happen(turn, { type: 'withdrawn', findingIds: group.map(({ id }) => id), by: 'examiner' }), 'order', `Withdrawn: ${words}`, `Withdrawn: ${words}.`);
}

type Amendment = Omit<OrderOf<'amend'>, 'order'>;
const amended = (finding: Finding, { side, result, grade }: Amendment): Finding => ({
  ...finding, ...(side ? { side } : {}), ...(result ? { result } : {}), ...(grade ? { result: { kind: 'grade', grade } } : {}),
});

const refuse = (turn: Turn, show: string, say: string): Turn => tell(turn, 'queried', `Not amended: ${show}`, say);

/** The change is made: each target is corrected, unless that makes no sense or slips in a contradiction. */
function makeAmendment(turn: Turn, targets: readonly RecordedFinding[], change: Amendment, { utterance }: Hearing, { newId }: Tools): Turn {
  const changes = targets.map((entry) => ({ entry, to: amended(entry.finding, change) }));
  const faults = changes.flatMap(({ to }) => checkFinding(to));
  if (faults.length) return refuse(turn, [...new Set(faults)].join(' '), 'That does not fit. Say the finding again.');
  const taken = turn.record.findings.find((entry) => !targets.includes(entry) && changes.some(({ to }) => sameObservation(entry.finding, to)));
  if (taken) return refuse(turn, `there is already ${findingInWords(taken.finding)}.`, `There is already ${spokenFinding(taken.finding)}.`);
  const corrected = changes.map(({ entry, to }): Happening => {
    const filed: FiledFinding = { id: newId(), finding: to, utteranceId: utterance.id, by: 'examiner', confidence: utterance.confidence };
    return { type: 'corrected', findingId: entry.id, to: filed, why: 'amended by the examiner' };
  });
  return tell(happen(turn, ...corrected), 'order', `Amended: ${changes.map(({ to }) => findingInWords(to)).join('; ')}`, `Amended: ${changes.map(({ to }) => spokenFinding(to)).join('; ')}.`);
}

/** "Amend …" changes the last findings. When they are about both sides, which one is meant is never guessed. */
function amend(turn: Turn, { side, result, grade }: OrderOf<'amend'>, hearing: Hearing, tools: Tools): Turn {
  const group = lastGroup(turn.record);
  if (group.length === 0) return tell(turn, 'order', 'Nothing to amend.', 'Nothing to amend.');
  const on = (which: Side): readonly RecordedFinding[] => group.filter(({ finding }) => finding.side === which);
  const isBothSides = on('left').length > 0 && on('right').length > 0;
  const change: Amendment = { ...(result ? { result } : {}), ...(grade ? { grade } : {}) };
  const changesResult = result !== undefined || grade !== undefined;
  if (!isBothSides) return makeAmendment(turn, group, { ...change, ...(side ? { side } : {}) }, hearing, tools);
  if (side && changesResult) return makeAmendment(turn, on(side), change, hearing, tools); // "amend, left, grade four": the left one
  if (side) return refuse(turn, 'the last finding is on both sides. Withdraw it and say it again.', 'It is on both sides. Withdraw it and say it again.');
  const question = 'The last finding is on both sides. Amend left, right or both?';
  const [left, right] = (['left', 'right'] as const).map((which) => on(which).map(({ finding }) => amended(finding, change))) as [Finding[], Finding[]];
  const faults = [...left, ...right].flatMap(checkFinding);
  if (faults.length) return refuse(turn, [...new Set(faults)].join(' '), 'That does not fit. Say the finding again.');
  return tell(happen(turn, { type: 'queried', utteranceId: hearing.utterance.id, question, options: [left, right, [...left, ...right]], gap: 'contradiction' }), 'queried', question, question);
}

function goTo(turn: Turn, wanted: string, { protocol }: Tools): Turn {
  const said = wanted.trim().toLowerCase();
  const stage = protocol.stages.find(({ id, name }) => id === said || name.toLowerCase() === said)
    ?? protocol.stages.find(({ name }) => name.toLowerCase().split(/[ ,]+/).includes(said) || said.split(' ').every((word) => name.toLowerCase().includes(word)));
  if (!stage) return tell(turn, 'queried', `No stage "${wanted}". Stages: ${protocol.stages.map(({ name }) => name).join(', ')}.`, `No such stage.`);
  return tell(happen(turn, { type: 'stage set', stage: stage.id }), 'order', stage.name, `${stage.name}.`);
}

function goOn(turn: Turn, { protocol }: Tools): Turn {
  const stage = currentStage(turn.record, protocol);
  const next = nextStage(turn.record, protocol);
  const left = remaining(turn.record, protocol).filter((entry) => entry.stage === stage).reduce((sum, { items }) => sum + items.length, 0);
  const leaving = left ? `${stage.name}: ${left} not examined. ` : '';
  if (!next) return tell(turn, 'order', `${leaving}${stage.name} is the last stage. Say "conclude" to finish.`, `${leaving}That was the last stage.`);
  return tell(happen(turn, { type: 'stage set', stage: next.id }), 'order', `${leaving}Next: ${next.name}`, `${leaving}${next.name}.`);
}

function obey(turn: Turn, order: Order, hearing: Hearing, tools: Tools): Turn {
  const { record } = turn;
  const speak = (text: string): Turn => tell(turn, 'order', text, text);
  switch (order.order) {
    case 'withdraw': return withdraw(turn);
    case 'amend': return amend(turn, order, hearing, tools);
    case 'what remains': return speak(spokenRemainder(record, tools.protocol, order.side));
    case 'read back': {
      const question = answerable(record);
      return speak([spokenFindings(record), ...(question ? [question.question] : [])].join(' '));
    }
    case 'hold': return tell(happen(turn, { type: 'held' }), 'order', 'On hold. Say "carry on" to go on.', 'On hold.');
    case 'carry on': return record.held ? tell(happen(turn, { type: 'resumed' }), 'order', 'Listening.', 'Listening.') : tell(turn, 'order', 'Listening already.');
    case 'next stage': return goOn(turn, tools);
    case 'go to stage': return goTo(turn, order.stage, tools);
    case 'conclude': {
      if (record.concludedAt) return speak(spokenConclusion(record, tools.protocol));
      const text = spokenConclusion(record, tools.protocol);
      return tell(happen(turn, { type: 'concluded' }), 'order', text, text);
    }
    case 'acknowledge': return tools.caution === undefined
      ? tell(turn, 'order', 'No caution is waiting.', 'No caution is waiting.')
      : tell(happen(turn, { type: 'caution acknowledged', caution: tools.caution }), 'order', 'Caution acknowledged.', 'Noted.');
    case 'confirm': case 'choose': return turn; // answered before orders are looked at
  }
}

export const handleOrder: Handler = (turn, statement, hearing, tools) => {
  if (statement.type !== 'order') return undefined;
  const done = obey(turn, statement.order, hearing, tools);
  return { ...done, happenings: [...turn.happenings, { type: 'ordered', order: statement.order }, ...done.happenings.slice(turn.happenings.length)] };
};
