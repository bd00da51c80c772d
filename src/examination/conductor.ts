import type { Context } from '../parser/statement';
import type { ExaminationRecord, Happening, Journal, Kept } from '../record';
import { handleAnswer } from './answering';
import { askWhatWasSaid, gather, handleGap, handleUnparsed } from './asking';
import { handleFindings, handleNotTestable, handleSide } from './filing';
import { handleOrder } from './ordering';
import { happen, merge, tell } from './turn';
import type { Feedback, Handler, Hearing, Tools, Turn } from './turn';

/** The order is fixed: an answer to the recorder's question, an order, something unclear, a finding. */
const HANDLERS: readonly Handler[] = [handleAnswer, handleOrder, handleGap, handleUnparsed, handleSide, handleNotTestable, handleFindings];

export interface Response { readonly happenings: readonly Happening[]; readonly feedback: Feedback }

const isCarryOn = ({ statements }: Hearing): boolean => statements.some((statement) => statement.type === 'order' && statement.order.order === 'carry on');

function listenTo(turn: Turn, hearing: Hearing, tools: Tools): Turn {
  const { utterance, statements } = hearing;
  if (utterance.verdict === 'ignored') return tell(turn, 'ignored', utterance.why ?? 'Not for the recorder.');
  if (turn.record.held) {
    if (utterance.verdict !== 'accepted' || !isCarryOn(hearing)) return tell(turn, 'ignored', 'On hold: kept, not filed. Say "carry on" to go on.');
    const carryOn = statements.filter((statement) => statement.type === 'order' && statement.order.order === 'carry on').slice(0, 1);
    return carryOn.reduce((next, statement) => handleOrder(next, statement, hearing, tools) ?? next, turn);
  }
  if (utterance.verdict === 'queried') return askWhatWasSaid(turn, hearing);
  if (statements.length === 0) return handleUnparsed(turn, { type: 'unparsed', text: utterance.text }, hearing, tools) ?? turn;
  return gather(statements).reduce((next, statement) => {
    for (const handle of HANDLERS) {
      const handled = handle(next, statement, hearing, tools);
      if (handled) return handled;
    }
    return next;
  }, turn);
}

/**
 * Decides what an utterance does to an examination: what is to happen (in order) and what the examiner hears and sees.
 * Pure. Every utterance is kept as heard; only sure and complete findings are filed.
 */
export function respond(record: ExaminationRecord, hearing: Hearing, tools: Tools): Response {
  const { audio: _audio, ...utterance } = hearing.utterance;
  const begun = happen({ record, happenings: [], feedback: [] }, { type: 'heard', utterance, statements: hearing.statements });
  const { happenings, feedback } = listenTo(begun, hearing, tools);
  return { happenings, feedback: merge(feedback) };
}

/** What the parser may lean on: the side in force and what was filed, no more than the screen shows. */
export const contextOf = ({ currentSide, setUp, findings }: ExaminationRecord): Context => ({
  ...(currentSide ? { currentSide } : {}), ...(setUp?.injuredSide === 'left' || setUp?.injuredSide === 'right' ? { injuredSide: setUp.injuredSide } : {}),
  findings: findings.map(({ finding }) => finding),
});

/**
 * Responds and stores: resolves with the feedback only after the record has it. When it could not be stored,
 * the feedback is a caution with the reason; the finding is held in memory and tried again.
 * The sound of speech that was not for the recorder is not kept: it may be the patient's.
 */
export async function advance(journal: Journal, hearing: Hearing, tools: Tools): Promise<{ readonly feedback: Feedback; readonly kept: Kept }> {
  const { id, audio, verdict } = hearing.utterance;
  const sounds = audio && verdict !== 'ignored' ? [{ utteranceId: id, samples: audio }] : [];
  const { decided, kept } = await journal.act((record) => respond(record, hearing, tools), sounds);
  if (kept.stored) return { feedback: decided.feedback, kept };
  return { feedback: { sound: 'caution', show: `${decided.feedback.show} · Not stored: ${kept.fault.message}`, say: 'Not stored.' }, kept };
}
