import 'fake-indexeddb/auto';
import { IDBFactory, IDBObjectStore } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { Journal, deviceStore, exportExamination, memoryStore, openStore, project } from '../../src/record';
import type { Store, StoreFaultCode } from '../../src/record';
import { filed, finding, grade, log, setUp, utterance } from './samples';

const weakThumb = finding('left', 'power', 'APB', grade('3'));
const begun = log([{ type: 'begun', setUp }]);

beforeEach(() => { globalThis.indexedDB = new IDBFactory(); });
afterEach(() => { vi.restoreAllMocks(); vi.unstubAllGlobals(); vi.useRealTimers(); });

describe.each<[string, () => Promise<Store>]>([['device', () => deviceStore()], ['memory', async () => memoryStore()]])('a %s store', (kind, open) => {
  test('gives back what it was given, in order', async () => {
    const store = await open();
    const events = log([{ type: 'begun', setUp }, ...Array.from({ length: 30 }, (_, n) => ({ type: 'filed' as const, findings: [filed(`f${n}`, weakThumb)] }))]);
    for (const event of events) await store.append([event]);
    expect(store.kind).toBe(kind);
    expect(await store.read('exam-1')).toEqual(events);
  });

  test('keeps examinations apart, in its list and when one is deleted', async () => {
    const store = await open();
    await store.append(begun);
    await store.append([...log([{ type: 'begun', setUp: { ...setUp, label: 'Cook, cut wrist' } }], 'exam-2'), { ...log([{ type: 'concluded' }], 'exam-2')[0]!, seq: 1, at: '2026-03-03T09:00:00.000Z' }], [{ utteranceId: 'u1', samples: new Float32Array([0.5]) }]);
    expect((await store.list()).map(({ id, setUp: of, events, concluded }) => [id, of?.label, events, concluded])).toEqual([['exam-2', 'Cook, cut wrist', 2, true], ['exam-1', setUp.label, 1, false]]);
    await store.remove('exam-2');
    expect(await store.read('exam-2')).toEqual([]);
    expect(await store.audio('exam-2', 'u1')).toBeUndefined();
    expect(await store.read('exam-1')).toEqual(begun);
  });

  test('keeps the audio of an utterance to 16 bits', async () => {
    const store = await open();
    await store.append(begun, [{ utteranceId: 'u1', samples: new Float32Array([0, 0.25, -1, 1.7, Number.NaN]) }]);
    const samples = [...(await store.audio('exam-1', 'u1'))!];
    expect(samples).toHaveLength(5);
    samples.forEach((sample, index) => expect(sample).toBeCloseTo([0, 0.25, -1, 1, 0][index]!, 4));
  });

  test('refuses a number that is taken and changes nothing', async () => {
    const store = await open();
    await store.append(begun);
    await expect(store.append([{ ...begun[0]!, seq: 1 }, begun[0]!])).rejects.toMatchObject({ code: 'open elsewhere', message: expect.stringMatching(/another tab/) });
    expect(await store.read('exam-1')).toEqual(begun);
  });
});

describe('a device store that fails', () => {
  /** Makes the next writes fail as browsers do, by name of the DOMException. */
  const failing = (name: string): void => { vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(() => { throw new DOMException('injected', name); }); };

  test.each<[string, StoreFaultCode]>([['QuotaExceededError', 'full'], ['UnknownError', 'damaged'], ['InvalidStateError', 'unavailable']])('holds findings in memory on %s, says so, and stores them when it can', async (name, code) => {
    const store = await deviceStore();
    const journal = await Journal.begin(store, setUp, { id: 'exam-1' });
    failing(name);
    const kept = await journal.append([{ type: 'heard', utterance: utterance('u1', 'x'), statements: [] }, { type: 'filed', findings: [filed('f1', weakThumb)] }], [{ utteranceId: 'u1', samples: new Float32Array([0.5]) }]);
    expect(kept).toMatchObject({ stored: false, fault: { code, message: expect.stringMatching(/export/i) } });
    expect(journal.record.findings).toHaveLength(1);
    expect(journal.unsaved).toHaveLength(2);
    expect(JSON.parse(await exportExamination(store, 'exam-1', '2026-03-02T11:00:00.000Z', { events: journal.unsaved, audio: journal.unsavedAudio }))).toMatchObject({ events: [{ seq: 0 }, { seq: 1 }, { seq: 2 }], audio: [{ utteranceId: 'u1' }] });

    vi.restoreAllMocks();
    expect(await journal.append([{ type: 'concluded' }])).toEqual({ stored: true });
    expect(journal.unsaved).toEqual([]);
    expect(project(await store.read('exam-1'))).toEqual(journal.record);
    expect(await store.audio('exam-1', 'u1')).toHaveLength(1);
  });

  test('an aborted transaction is a failure even when the browser names no error', async () => {
    const store = await deviceStore();
    await store.append(begun);
    const add = IDBObjectStore.prototype.add;
    vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (this: IDBObjectStore, ...put) { const request = add.apply(this, put); this.transaction.abort(); return request; });
    await expect(store.append([{ ...begun[0]!, seq: 1 }])).rejects.toMatchObject({ name: 'StoreFault' });
    vi.restoreAllMocks();
    expect(await store.read('exam-1')).toEqual(begun);
  });

  test('without IndexedDB the page keeps going in memory and says so', async () => {
    vi.stubGlobal('indexedDB', undefined);
    const { store, notice } = await openStore();
    expect([store.kind, notice]).toEqual(['memory', expect.stringMatching(/export the examination before closing/)]);
  });

  test('a browser that never opens the database is given up on', async () => {
    vi.useFakeTimers();
    vi.stubGlobal('indexedDB', { open: () => ({}) });
    const opening = openStore();
    await vi.advanceTimersByTimeAsync(5_001);
    expect((await opening).store.kind).toBe('memory');
  });

  test('a browser that refuses to open it (private window) is met with a notice', async () => {
    vi.stubGlobal('indexedDB', { open: () => { throw new DOMException('denied', 'SecurityError'); } });
    expect((await openStore()).notice).toMatch(/private window/);
  });
});

describe('a journal', () => {
  test('resumes after a crash with nothing lost', async () => {
    const journal = await Journal.begin(await deviceStore(), setUp, { id: 'exam-1' });
    await journal.append([{ type: 'filed', findings: [filed('f1', weakThumb)] }, { type: 'side set', side: 'left' }]);
    const before = journal.record;
    await journal.close(); // a crash frees the lock by itself
    const again = await Journal.resume(await deviceStore(), 'exam-1');
    expect(again.record).toEqual(before);
    await again.append([{ type: 'concluded' }]);
    expect(project(await (await deviceStore()).read('exam-1'))).toEqual(again.record);
  });

  test('numbers happenings in the order of the calls', async () => {
    const journal = await Journal.begin(memoryStore(), setUp);
    await Promise.all(Array.from({ length: 20 }, (_, n) => journal.append([{ type: 'filed', findings: [filed(`f${n}`, weakThumb)] }])));
    expect(journal.record.findings.map(({ id }) => id)).toEqual(Array.from({ length: 20 }, (_, n) => `f${n}`));
    expect(journal.record.faults).toEqual([]);
  });

  test('confirms only after the store has it', async () => {
    const store = memoryStore();
    const order: string[] = [];
    const slow: Store = { ...store, append: async (...batch) => { await new Promise((resolve) => setTimeout(resolve, 5)); await store.append(...batch); order.push('stored'); } };
    const journal = await Journal.begin(slow, setUp);
    journal.listen(() => order.push('shown'));
    await journal.append([{ type: 'filed', findings: [filed('f1', weakThumb)] }]);
    order.push('confirmed');
    expect(order).toEqual(['stored', 'stored', 'shown', 'confirmed']);
  });

  test('one examination has one writer', async () => {
    const store = memoryStore();
    const journal = await Journal.begin(store, setUp, { id: 'exam-1' });
    await expect(Journal.resume(store, 'exam-1')).rejects.toMatchObject({ code: 'open elsewhere' });
    await journal.close();
    await expect(Journal.resume(store, 'exam-1')).resolves.toBeInstanceOf(Journal);
  });

  test('two tabs are kept apart by a Web Lock where there is one', async () => {
    // As in the Web Locks API (W3C): a request waits its turn until its signal aborts.
    const turns = new Map<string, Promise<unknown>>();
    vi.stubGlobal('navigator', { locks: { request: async (name: string, { signal }: { signal: AbortSignal }, work: () => Promise<unknown>) => {
      const aborted = new Promise<never>((_, reject) => signal.addEventListener('abort', () => reject(signal.reason as Error)));
      await Promise.race([turns.get(name), aborted]);
      const turn = work();
      turns.set(name, turn);
      return turn;
    } } });
    const store = await deviceStore();
    const journal = await Journal.begin(store, setUp, { id: 'exam-1' });
    await expect(Journal.resume(await deviceStore(), 'exam-1')).rejects.toMatchObject({ message: expect.stringMatching(/open in another tab or window/) });
    await journal.close();
    await expect(Journal.resume(store, 'exam-1')).resolves.toBeInstanceOf(Journal);
  });

  test('without Web Locks the second tab is told and overwrites nothing', async () => {
    vi.stubGlobal('navigator', {});
    const first = await Journal.begin(await deviceStore(), setUp, { id: 'exam-1' });
    const second = await Journal.resume(await deviceStore(), 'exam-1');
    await first.append([{ type: 'filed', findings: [filed('f1', weakThumb)] }]);
    expect(await second.append([{ type: 'side set', side: 'right' }])).toMatchObject({ stored: false, fault: { code: 'open elsewhere' } });
    expect(project(await (await deviceStore()).read('exam-1'))).toEqual(first.record);
  });

  test('writes after a damaged last entry, not over it', async () => {
    const store = await deviceStore();
    await store.append([...begun, { ...begun[0]!, seq: 1, happening: { type: 'nonsense' } as never }]);
    const journal = await Journal.resume(store, 'exam-1');
    expect(await journal.append([{ type: 'side set', side: 'left' }])).toEqual({ stored: true });
    expect(journal.events.at(-1)?.seq).toBe(2);
  });

  test('an unknown examination is said to be unknown', async () => {
    await expect(Journal.resume(memoryStore(), 'nobody')).rejects.toMatchObject({ code: 'not found' });
  });
});
