import { createActor } from 'xstate';
import { describe, expect, it } from 'vitest';
import type { SpokenGrammar } from '../../src/grammar';
import type { Recogniser, RecogniserEvent, Utterance } from '../../src/recogniser';
import type { Source } from '../../src/screens/hearing/ears';
import { hearingMachine, hearingState } from '../../src/screens/hearing/hearing-machine';
import { MESSAGES } from '../../src/screens/shared/messages';

const GRAMMAR: SpokenGrammar = { name: 'spoken', states: 1, start: 0, final: 0, arcs: [], pronunciations: new Map() };
const UTTERANCE: Utterance = { id: 'u1', text: 'froment positive', start: 0, end: 1, confidence: 1, verdict: 'accepted', words: [], alternatives: [], source: 'test' };

/** A recogniser under the test's control. */
class Engine implements Recogniser {
  readonly engine = 'test';
  readonly pushed: Float32Array[] = [];
  readonly listeners = new Set<(event: RecogniserEvent) => void>();
  disposed = 0;
  finished = 0;
  constructor(private readonly loading: Promise<void> = Promise.resolve()) {}
  load(): Promise<void> { return this.loading; }
  async setGrammar(): Promise<void> {}
  push(audio: Float32Array): void { this.pushed.push(audio); }
  async finish(): Promise<void> { this.finished += 1; }
  listen(listener: (event: RecogniserEvent) => void): () => void { this.listeners.add(listener); return () => void this.listeners.delete(listener); }
  dispose(): void { this.disposed += 1; }
  say(event: RecogniserEvent): void { for (const listener of this.listeners) listener(event); }
}

function setUp(loading?: () => Promise<void>) {
  const engines: Engine[] = [];
  let hear: (audio: Float32Array) => void = () => undefined;
  let end: Parameters<Source>[1] = () => undefined;
  let stopped = 0;
  let now = 0;
  const source: Source = async (heard, ended) => { hear = heard; end = ended; return { stop: () => { stopped += 1; } }; };
  const actor = createActor(hearingMachine, { input: {
    makeRecogniser: () => { const engine = new Engine(loading?.()); engines.push(engine); return engine; },
    grammar: async () => GRAMMAR, clock: () => now,
  } });
  const heard: string[] = [];
  actor.on('heard', ({ utterance }) => heard.push(utterance.text));
  actor.start();
  const state = (): string => hearingState(actor.getSnapshot().value, false, actor.getSnapshot().context.muted);
  const settle = async (): Promise<void> => { for (let n = 0; n < 20; n += 1) await Promise.resolve(); };
  return { actor, engines, heard, state, settle, source, hear: (...samples: number[]) => hear(new Float32Array(samples)), end: (...why: Parameters<typeof end>) => end(...why), stopped: () => stopped, pass: (seconds: number) => { now += seconds; } };
}

const CRASH: RecogniserEvent = { type: 'failed', message: 'made to fail', fatal: true };

describe('hearing', () => {
  it('loads, listens and hands utterances on', async () => {
    const { actor, engines, heard, state, settle, source, hear } = setUp();
    expect(state()).toBe('off');
    actor.send({ type: 'listen', source });
    expect(state()).toBe('starting');
    await settle();
    expect(state()).toBe('listening');
    hear(0.1, 0.2);
    expect(engines[0]?.pushed.length).toBe(1);
    engines[0]?.say({ type: 'partial', text: 'froment' });
    expect(actor.getSnapshot().context.partial).toBe('froment');
    engines[0]?.say({ type: 'utterance', utterance: UTTERANCE });
    expect(heard).toEqual(['froment positive']);
    expect(actor.getSnapshot().context.partial).toBe('');
  });

  it('replaces an engine that crashed and gives it the words it had not finished', async () => {
    const { actor, engines, state, settle, source, hear } = setUp();
    actor.send({ type: 'listen', source });
    await settle();
    hear(0.1);
    engines[0]?.say({ type: 'utterance', utterance: UTTERANCE });
    hear(0.2); hear(0.3);
    engines[0]?.say(CRASH);
    expect(state()).toBe('restarting');
    hear(0.4);
    await settle();
    expect(state()).toBe('listening');
    expect(engines.length).toBe(2);
    expect(engines[0]?.disposed).toBe(1);
    // What was delivered already is not heard twice; what came during the restart is not lost.
    expect(engines[1]?.pushed.map(([sample]) => Math.round((sample ?? 0) * 10))).toEqual([2, 3, 4]);
    expect(actor.getSnapshot().context.message).toEqual(MESSAGES.workerStopped);
  });

  it('gives up after several crashes within a minute, and says so; a minute later it tries again', async () => {
    const { actor, engines, state, settle, source, stopped, pass } = setUp();
    actor.send({ type: 'listen', source });
    await settle();
    for (let n = 0; n < 4; n += 1) { engines.at(-1)?.say(CRASH); await settle(); }
    expect(state()).toBe('failed');
    expect(stopped()).toBe(1);
    expect(actor.getSnapshot().context.message).toEqual(MESSAGES.workerGaveUp);
    actor.send({ type: 'listen', source });
    await settle();
    for (let n = 0; n < 6; n += 1) { pass(61); engines.at(-1)?.say(CRASH); await settle(); }
    expect(state()).toBe('listening');
  });

  it('says when the model is missing, and opens no microphone then', async () => {
    let opened = 0;
    const { actor, state, settle } = setUp(() => Promise.reject(new Error('no acoustic model is served')));
    actor.send({ type: 'listen', source: async () => { opened += 1; return { stop: () => undefined }; } });
    await settle();
    expect(state()).toBe('failed');
    expect(opened).toBe(0);
    expect(actor.getSnapshot().context.message?.what).toContain('no acoustic model is served');
    expect(actor.getSnapshot().context.message?.todo).toContain('npm start');
  });

  it('a microphone that goes away ends hearing with its message, after what was being said is heard out', async () => {
    const { actor, engines, state, settle, source, end } = setUp();
    actor.send({ type: 'listen', source });
    await settle();
    end({ what: 'Gone.', todo: 'Plug it in.' });
    await settle();
    expect(engines[0]?.finished).toBe(1);
    expect(state()).toBe('off');
    expect(actor.getSnapshot().context.message).toEqual({ what: 'Gone.', todo: 'Plug it in.' });
  });

  it('hears silence while the recorder itself speaks', async () => {
    const { actor, engines, state, settle, source, hear } = setUp();
    actor.send({ type: 'listen', source });
    await settle();
    actor.send({ type: 'mute', muted: true });
    hear(0.5);
    expect(state()).toBe('reading');
    actor.send({ type: 'mute', muted: false });
    hear(0.5);
    expect(engines[0]?.pushed.map(([sample]) => sample)).toEqual([0, 0.5]);
  });

  it('closes everything when it stops, also in the middle of loading', async () => {
    let loaded: () => void = () => undefined;
    const { actor, engines, settle, source } = setUp(() => new Promise((resolve) => { loaded = resolve; }));
    actor.send({ type: 'listen', source });
    await settle();
    actor.send({ type: 'stop' });
    loaded();
    await settle();
    expect(engines[0]?.disposed).toBeGreaterThan(0);
    expect(actor.getSnapshot().value).toBe('off');
  });
});
