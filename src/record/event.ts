import type { Gap, Order, Statement } from '../parser/statement';
import type { Utterance, Verdict } from '../recogniser/recogniser';
import type { Finding, ItemKey, Quantity, Side } from '../vocabulary';

/** What is asked before an examination starts. Pseudonymous: a label, never a name. */
export interface SetUp {
  readonly label: string;
  readonly injuredSide?: Side | 'both';
  readonly handedness?: Side | 'both';
  readonly mechanism?: string;
  /** Time since onset or injury. */
  readonly onset?: Quantity;
  readonly protocol: string;
  readonly examiner?: string;
}

/** A finding as filed: its meaning, and where it came from. */
export interface FiledFinding {
  readonly id: string;
  readonly finding: Finding;
  readonly utteranceId: string;
  readonly by: 'examiner' | 'reviewer';
  readonly confidence: number;
}

/** What another engine made of the stored sound of an utterance, for the reviewer. */
export interface SecondOpinion {
  /** Which engine listened. */
  readonly engine: string;
  /** What it heard; empty where it heard nothing for the recorder. */
  readonly text: string;
  readonly verdict: Verdict;
  /** Whether both mean the same. */
  readonly agrees: boolean;
  /** How sure both together are of what is on record: more than before if they agree, less if not. */
  readonly confidence: number;
}

/** Everything that can happen to an examination. Events are only ever appended. */
export type Happening =
  | { readonly type: 'begun'; readonly setUp: SetUp }
  | { readonly type: 'heard'; readonly utterance: Omit<Utterance, 'audio'>; readonly statements: readonly Statement[] }
  | { readonly type: 'filed'; readonly findings: readonly FiledFinding[] }
  /** Queried: kept for an answer or the reviewer, not filed. After a second opinion that differs it is the reviewer's, and what was filed stands until it is answered. */
  | { readonly type: 'queried'; readonly utteranceId: string; readonly question: string; readonly options: readonly (readonly Finding[])[]; readonly gap?: Gap | 'second opinion' }
  | ({ readonly type: 'heard again'; readonly utteranceId: string } & SecondOpinion)
  | { readonly type: 'answered'; readonly utteranceId: string; readonly option: number | null } // null = dismissed
  | { readonly type: 'withdrawn'; readonly findingIds: readonly string[]; readonly by: 'examiner' | 'reviewer'; readonly why?: string }
  | { readonly type: 'corrected'; readonly findingId: string; readonly to: FiledFinding; readonly why?: string }
  | { readonly type: 'not testable'; readonly side: Side; readonly items: readonly ItemKey[]; readonly reason: string; readonly utteranceId: string }
  /** Takes back a 'not testable': the items remain to be done again. */
  | { readonly type: 'testable again'; readonly side: Side; readonly items: readonly ItemKey[] }
  | { readonly type: 'side set'; readonly side: Side | 'both' | null }
  | { readonly type: 'stage set'; readonly stage: string }
  | { readonly type: 'held' } | { readonly type: 'resumed' }
  | { readonly type: 'ordered'; readonly order: Order }
  | { readonly type: 'caution shown'; readonly caution: string } | { readonly type: 'caution acknowledged'; readonly caution: string }
  | { readonly type: 'concluded' }
  | { readonly type: 'signed'; readonly by: string; readonly note?: string };

export interface RecordEvent {
  readonly examinationId: string;
  /** 0, 1, 2 … without gaps within an examination. */
  readonly seq: number;
  /** ISO 8601 with zone. */
  readonly at: string;
  readonly happening: Happening;
}
