import type { Happening, RecordEvent, SetUp } from './event';
import { apply, emptyRecord, readLog } from './record';
import type { ExaminationRecord } from './record';
import { StoreFault } from './store';
import type { Claim, Store, UtteranceAudio } from './store';

/** What an append came to. Not stored: the events are held in memory, shown, and tried again with the next append. */
export type Kept = { readonly stored: true } | { readonly stored: false; readonly fault: StoreFault };

/** The time of an event, ISO 8601 with zone. */
export type Clock = () => string;
const now: Clock = () => new Date().toISOString();

/**
 * One examination open for writing: numbers and dates what happens, stores it, and only then lets it count as kept.
 * When the store fails nothing is lost: events stay in `unsaved`, the record shows them, and every later append tries again.
 */
export class Journal {
  private queue: Promise<unknown> = Promise.resolve();
  private log: RecordEvent[];
  private current: ExaminationRecord;
  private waiting: { events: RecordEvent[]; audio: UtteranceAudio[] } = { events: [], audio: [] };
  private listeners = new Set<(record: ExaminationRecord) => void>();

  private constructor(readonly examinationId: string, private readonly store: Store, private readonly claim: Claim, raw: readonly unknown[], private readonly clock: Clock) {
    const { events, faults } = readLog(raw);
    this.log = [...events];
    this.current = events.reduce(apply, { ...emptyRecord(examinationId), faults });
    // A damaged last entry still occupies its number in the store.
    const taken = raw.reduce<number>((most, entry) => Math.max(most, Number((entry as { seq?: unknown } | null)?.seq) || 0), -1);
    if (taken >= this.current.nextSeq) this.current = { ...this.current, nextSeq: taken + 1 };
  }

  /** Starts a new examination. Rejects with a StoreFault only when another window has it. */
  static async begin(store: Store, setUp: SetUp, options: { id?: string; clock?: Clock } = {}): Promise<Journal> {
    const id = options.id ?? crypto.randomUUID();
    const journal = new Journal(id, store, await store.claim(id), [], options.clock ?? now);
    await journal.append([{ type: 'begun', setUp }]);
    return journal;
  }

  /** Goes on with an examination after a reload or a crash. Rejects with a StoreFault when it is open elsewhere or not there. */
  static async resume(store: Store, id: string, options: { clock?: Clock } = {}): Promise<Journal> {
    const claim = await store.claim(id);
    try {
      const raw = await store.read(id);
      if (raw.length === 0) throw new StoreFault('not found');
      return new Journal(id, store, claim, raw, options.clock ?? now);
    } catch (error) {
      claim.release();
      throw error;
    }
  }

  get record(): ExaminationRecord { return this.current; }
  get events(): readonly RecordEvent[] { return this.log; }
  /** Events that are only in memory; empty when all is kept. */
  get unsaved(): readonly RecordEvent[] { return this.waiting.events; }
  /** Sound that is only in memory. */
  get unsavedAudio(): readonly UtteranceAudio[] { return this.waiting.audio; }

  /** Appends what happened. Resolves after the store has it, or with the fault that kept it in memory. Calls are served in order. */
  append(happenings: readonly Happening[], audio: readonly UtteranceAudio[] = []): Promise<Kept> {
    return this.enter(() => ({ happenings, audio }));
  }

  /**
   * Decides and appends as one step: `decide` sees a record that nothing else changes until its happenings are in.
   * Resolves with what was decided and whether it is kept.
   */
  async act<T extends { readonly happenings: readonly Happening[] }>(decide: (record: ExaminationRecord) => T, audio: readonly UtteranceAudio[] = []): Promise<{ readonly decided: T; readonly kept: Kept }> {
    let decided: T | undefined;
    const kept = await this.enter(() => {
      decided = decide(this.current);
      return { happenings: decided.happenings, audio };
    });
    return { decided: decided as T, kept };
  }

  /** Tries to store what is held in memory. */
  retry(): Promise<Kept> { return this.enter(() => ({ happenings: [], audio: [] })); }

  /** Calls back after every change; returns how to stop. */
  listen(listener: (record: ExaminationRecord) => void): () => void {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }

  /** Gives up the right to write, after whatever is under way. */
  async close(): Promise<void> {
    await this.queue;
    this.claim.release();
  }

  private enter(prepare: () => { happenings: readonly Happening[]; audio: readonly UtteranceAudio[] }): Promise<Kept> {
    const turn = this.queue.then(() => this.write(prepare()));
    this.queue = turn.catch(() => undefined);
    return turn;
  }

  private async write({ happenings, audio }: { happenings: readonly Happening[]; audio: readonly UtteranceAudio[] }): Promise<Kept> {
    const at = this.clock();
    const events = happenings.map((happening, index): RecordEvent => ({ examinationId: this.examinationId, seq: this.current.nextSeq + index, at, happening }));
    this.waiting = { events: [...this.waiting.events, ...events], audio: [...this.waiting.audio, ...audio] };
    const kept = await this.save();
    this.log.push(...events);
    this.current = events.reduce(apply, this.current);
    for (const listener of this.listeners) listener(this.current);
    return kept;
  }

  private async save(): Promise<Kept> {
    if (this.waiting.events.length === 0) return { stored: true };
    try {
      await this.store.append(this.waiting.events, this.waiting.audio);
      this.waiting = { events: [], audio: [] };
      return { stored: true };
    } catch (error) {
      return { stored: false, fault: error instanceof StoreFault ? error : new StoreFault('damaged', error) };
    }
  }
}
