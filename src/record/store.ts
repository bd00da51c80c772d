import type { RecordEvent, SetUp } from './event';

export type StoreFaultCode =
  | 'unavailable'     // no storage here (private window, switched off, blocked)
  | 'full'            // the device has no room
  | 'open elsewhere'  // another tab or window writes this examination
  | 'damaged'         // the storage itself fails
  | 'not found';

const MESSAGES: Record<StoreFaultCode, string> = {
  unavailable: 'This browser does not let the page keep anything (a private window, or storage is blocked). Findings are held in memory only: export the examination before closing the page.',
  full: 'The device has no room left to store the examination. Findings are held in memory: export the examination, free some space, then try again.',
  'open elsewhere': 'This examination is open in another tab or window. Go on there, or close it there and open it here again.',
  damaged: 'The browser could not write to its storage. Findings are held in memory: export the examination, then reload the page.',
  'not found': 'There is no such examination on this device.',
};

/** A storage failure whose message says what happened and what to do. */
export class StoreFault extends Error {
  override readonly name = 'StoreFault';
  constructor(readonly code: StoreFaultCode, cause?: unknown) {
    super(MESSAGES[code], cause === undefined ? undefined : { cause });
  }
}

export interface ExaminationSummary {
  readonly id: string;
  readonly setUp: SetUp | null;
  readonly begunAt: string | null;
  readonly lastAt: string;
  readonly events: number;
  readonly concluded: boolean;
  readonly signed: boolean;
}

/** Audio of one utterance: 16 kHz mono in [-1, 1]. */
export interface UtteranceAudio { readonly utteranceId: string; readonly samples: Float32Array }

/** The sole right to write an examination, until released. */
export interface Claim { release(): void }

/** Where examinations are kept. Every method may reject with a StoreFault. */
export interface Store {
  readonly kind: 'device' | 'memory';
  /** All examinations, the latest used first. */
  list(): Promise<ExaminationSummary[]>;
  /** The log as kept, unchecked (see readLog); empty when there is none. */
  read(examinationId: string): Promise<unknown[]>;
  /** Adds events and audio, all or nothing; resolves only once they are safely kept. A sequence number already taken rejects with 'open elsewhere'. */
  append(events: readonly RecordEvent[], audio?: readonly UtteranceAudio[]): Promise<void>;
  /** The audio of an utterance, or undefined when it was not kept. */
  audio(examinationId: string, utteranceId: string): Promise<Float32Array | undefined>;
  /** Deletes an examination with its audio. */
  remove(examinationId: string): Promise<void>;
  /** Takes the sole right to write; rejects with 'open elsewhere' when another tab has it. */
  claim(examinationId: string): Promise<Claim>;
}

/** The summary after some events: what the list of examinations shows without reading every log. */
export function summarise(earlier: ExaminationSummary | undefined, events: readonly RecordEvent[]): ExaminationSummary {
  const start: ExaminationSummary = earlier ?? { id: events[0]?.examinationId ?? '', setUp: null, begunAt: null, lastAt: '', events: 0, concluded: false, signed: false };
  return events.reduce((summary, { at, happening }) => ({
    ...summary, lastAt: at, events: summary.events + 1,
    ...(happening.type === 'begun' ? { setUp: happening.setUp, begunAt: at } : {}),
    ...(happening.type === 'concluded' ? { concluded: true } : {}),
    ...(happening.type === 'signed' ? { signed: true } : {}),
  }), start);
}

export const latestFirst = (a: ExaminationSummary, b: ExaminationSummary): number => b.lastAt.localeCompare(a.lastAt);
