import { createStore, promisifyRequest } from 'idb-keyval';
import type { UseStore } from 'idb-keyval';
import { fromPcm16, toPcm16 } from './audio';
import { StoreFault, latestFirst, summarise } from './store';
import type { Claim, ExaminationSummary, Store } from './store';

/**
 * Keys in the one object store; arrays sort part by part, so one range is one examination:
 * ['event', examination, seq], ['audio', examination, utterance], ['summary', examination].
 */
const eventKey = (id: string, seq: number): IDBValidKey => ['event', id, seq];
const audioKey = (id: string, utteranceId: string): IDBValidKey => ['audio', id, utteranceId];
const summaryKey = (id: string): IDBValidKey => ['summary', id];
// In IndexedDB's key order an array sorts after every string and number.
const within = (...prefix: string[]): IDBKeyRange => IDBKeyRange.bound(prefix, [...prefix, []]);

/** Some browsers never answer an open request (a blocked or broken profile): waiting for ever would lose findings. */
const OPEN_WITHIN_MS = 5_000;

function toFault(error: unknown): StoreFault {
  if (error instanceof StoreFault) return error;
  const name = (error as { name?: unknown } | null)?.name;
  switch (name) {
    case 'QuotaExceededError': return new StoreFault('full', error);
    case 'ConstraintError': return new StoreFault('open elsewhere', error); // the sequence number is taken: someone else wrote it
    case 'SecurityError': case 'InvalidStateError': case 'NotAllowedError': return new StoreFault('unavailable', error);
    default: return new StoreFault('damaged', error ?? undefined); // transaction.error may be null on abort
  }
}

const inTime = <T>(promise: Promise<T>): Promise<T> => new Promise((resolve, reject) => {
  const timer = setTimeout(() => reject(new StoreFault('unavailable')), OPEN_WITHIN_MS);
  promise.then(resolve, reject).finally(() => clearTimeout(timer));
});

/**
 * Runs a write in its own transaction, all or nothing, flushed to the disk before it counts as done: a tablet may lose power at the bedside.
 * Waits for the abort itself: an error event reaches the transaction before it carries its error.
 */
const writing = (use: UseStore, write: (store: IDBObjectStore) => void): Promise<void> => use('readonly', (reader) => new Promise((resolve, reject) => {
  const transaction = reader.transaction.db.transaction(reader.name, 'readwrite', { durability: 'strict' });
  transaction.oncomplete = () => resolve();
  transaction.onabort = () => reject(transaction.error);
  try { write(transaction.objectStore(reader.name)); } catch (error) {
    reject(error as Error);
    transaction.abort(); // what was put before the throw must not be committed
  }
}));

/**
 * Examinations in this browser's IndexedDB, through idb-keyval.
 * Throws a StoreFault where the browser keeps nothing.
 */
export async function deviceStore(name = 'lumbrical'): Promise<Store> {
  if (typeof indexedDB === 'undefined') throw new StoreFault('unavailable');
  const use = createStore(name, 'examinations');
  const guarded = async <T>(work: () => Promise<T>): Promise<T> => {
    try { return await work(); } catch (error) { throw toFault(error); }
  };
  await guarded(() => inTime(use('readonly', (store) => promisifyRequest(store.count()))));

  // Writers wait for each other here; across tabs the claim keeps to one writer per examination, and add() refuses a taken number.
  let queue: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const turn = queue.then(() => guarded(work));
    queue = turn.catch(() => undefined);
    return turn;
  };

  return {
    kind: 'device',
    list: () => guarded(async () =>
      (await use('readonly', (store) => promisifyRequest(store.getAll(within('summary')) as IDBRequest<ExaminationSummary[]>))).sort(latestFirst)),
    read: (id) => guarded(() => use('readonly', (store) => promisifyRequest(store.getAll(within('event', id)) as IDBRequest<unknown[]>))),
    append: (events, audio = []) => inTurn(async () => {
      const id = events[0]?.examinationId;
      if (id === undefined) return;
      const earlier = await use('readonly', (store) => promisifyRequest(store.get(summaryKey(id)) as IDBRequest<ExaminationSummary | undefined>));
      await writing(use, (store) => {
        for (const event of events) store.add(event, eventKey(event.examinationId, event.seq));
        for (const { utteranceId, samples } of audio) store.put(toPcm16(samples), audioKey(id, utteranceId));
        store.put(summarise(earlier, events), summaryKey(id));
      });
    }),
    audio: (id, utteranceId) => guarded(async () => {
      const pcm = await use('readonly', (store) => promisifyRequest(store.get(audioKey(id, utteranceId)) as IDBRequest<Int16Array | undefined>));
      return pcm && fromPcm16(pcm);
    }),
    remove: (id) => inTurn(() => writing(use, (store) => {
      store.delete(within('event', id));
      store.delete(within('audio', id));
      store.delete(summaryKey(id));
    })),
    claim: (id) => claimLock(`${name} ${id}`),
  };
}

/** A page that was reloaded or closed lets its lock go a moment later: waiting for it avoids a false alarm. */
const CLAIM_WITHIN_MS = 2_000;

/** Holds a Web Lock until released. Without Web Locks the claim is free and a taken sequence number is the guard. */
function claimLock(name: string): Promise<Claim> {
  const locks = globalThis.navigator?.locks;
  if (!locks) return Promise.resolve({ release: () => undefined });
  return new Promise((resolve, reject) => {
    locks.request(name, { signal: AbortSignal.timeout(CLAIM_WITHIN_MS) }, () => new Promise<void>((done) => resolve({ release: done })))
      .catch((error: unknown) => reject((error as Error).name === 'TimeoutError' || (error as Error).name === 'AbortError' ? new StoreFault('open elsewhere', error) : toFault(error)));
  });
}

/** Asks the browser not to clear what is kept. True when it promises; false or undefined when it may still clear it: then offer export. */
export const askToKeep = async (): Promise<boolean | undefined> => {
  try { return await globalThis.navigator?.storage?.persist?.(); } catch { return undefined; }
};

