import type { Statement } from '../parser/statement';
import type { Utterance } from '../recogniser/recogniser';
import { apply } from '../record';
import type { ExaminationRecord, Happening } from '../record';
import type { Protocol } from './protocol';

/** What the examiner hears and sees after an utterance. */
export interface Feedback {
  /** Which short sound to play. */
  readonly sound: 'accepted' | 'queried' | 'ignored' | 'order' | 'caution';
  /** What to say aloud, if anything. */
  readonly say?: string;
  /** The line for the screen. */
  readonly show: string;
}

/** An utterance with what the parser made of it, and of the recogniser's other readings of the same audio. */
export interface Hearing {
  readonly utterance: Utterance;
  readonly statements: readonly Statement[];
  readonly otherReadings?: readonly { readonly text: string; readonly statements: readonly Statement[] }[];
}

export interface Tools {
  readonly protocol: Protocol;
  /** A new unique id for a finding. */
  readonly newId: () => string;
  /** Id of the caution that waits on the screen, for "caution noted". */
  readonly caution?: string;
}

/** One turn under way: the record as it will be, and what is to happen and be said. Handlers pass it on, none changes it. */
export interface Turn {
  readonly record: ExaminationRecord;
  readonly happenings: readonly Happening[];
  readonly feedback: readonly Feedback[];
}

/** Adds happenings to a turn; later handlers see the record with them in it. */
export const happen = (turn: Turn, ...happenings: readonly Happening[]): Turn => ({
  ...turn,
  record: happenings.reduce((record, happening) => apply(record, { examinationId: record.examinationId, seq: record.nextSeq, at: record.lastAt ?? '', happening }), turn.record),
  happenings: [...turn.happenings, ...happenings],
});

export const tell = (turn: Turn, sound: Feedback['sound'], show: string, say?: string): Turn =>
  ({ ...turn, feedback: [...turn.feedback, { sound, show, ...(say === undefined ? {} : { say }) }] });

/** Deals with a statement, or leaves it (undefined) to the next handler. */
export type Handler = (turn: Turn, statement: Statement, hearing: Hearing, tools: Tools) => Turn | undefined;

/** The sound that matters most wins; a question outranks a caution because it waits for an answer. */
const WEIGHT: readonly Feedback['sound'][] = ['ignored', 'order', 'accepted', 'caution', 'queried'];

export function merge(feedback: readonly Feedback[]): Feedback {
  const sound = feedback.reduce<Feedback['sound']>((loudest, entry) => (WEIGHT.indexOf(entry.sound) > WEIGHT.indexOf(loudest) ? entry.sound : loudest), 'ignored');
  const say = feedback.flatMap((entry) => entry.say ?? []).join(' ');
  return { sound, show: feedback.map(({ show }) => show).join(' · '), ...(say ? { say } : {}) };
}
