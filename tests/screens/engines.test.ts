import { describe, expect, it } from 'vitest';
import type { SpokenGrammar } from '../../src/grammar';
import type { Recogniser, RecogniserEvent } from '../../src/recogniser';
import type { Installation, InstalledModel } from '../../src/recogniser/vosk';
import { enginesFrom, planHearing, secondStopped } from '../../src/screens/hearing/engines';
import { FirstThatWorks } from '../../src/screens/hearing/first-that-works';
import { loadSettings, saveSettings } from '../../src/screens/shared/settings';

const BUILT_IN = { name: 'en-us-16k', title: 'US English' };
const second = (takesGrammar = true): Installation => ({ model: { name: 'small', licence: 'Apache-2.0', takesGrammar } as InstalledModel, soundsLike: { known: [], spellings: {}, unheard: {} } });

describe('which engine hears', () => {
  it('is the built-in one alone, and says why', () => {
    expect(planHearing(enginesFrom(BUILT_IN, null), { engine: 'automatic', speech: 'free' })).toEqual({ engine: 'embedded', why: 'it is the only one installed', speech: 'short' });
  });
  it('is the built-in one while the second has no figures, unless it is chosen', () => {
    expect(planHearing(enginesFrom(BUILT_IN, second()), { engine: 'automatic', speech: 'short' })).toMatchObject({ engine: 'embedded', why: /no measured figures/ });
    expect(planHearing(enginesFrom(BUILT_IN, second()), { engine: 'vosk', speech: 'short' })).toMatchObject({ engine: 'vosk', speech: 'short' });
    expect(planHearing(enginesFrom(BUILT_IN, second()), { engine: 'vosk', speech: 'free' })).toMatchObject({ engine: 'vosk', speech: 'free' });
  });
  it('hears freely with a model that can do nothing else', () => {
    expect(planHearing(enginesFrom(BUILT_IN, second(false)), { engine: 'vosk', speech: 'short' })).toMatchObject({ engine: 'vosk', speech: 'free' });
  });
  it('is the built-in one, with a note, where the chosen one is gone', () => {
    const plan = planHearing(enginesFrom(BUILT_IN, null), { engine: 'vosk', speech: 'short' });
    expect(plan).toMatchObject({ engine: 'embedded', speech: 'short' });
    expect(plan.note).toMatch(/not installed; the built-in engine hears\. Install it with “npm run model:vosk”/);
  });
  it('is the built-in one after the second stopped while it heard, until an engine is chosen again', () => {
    secondStopped('It has not answered for 20 s.');
    expect(planHearing(enginesFrom(BUILT_IN, second()), { engine: 'vosk', speech: 'free' })).toEqual({ engine: 'embedded', why: 'the second engine stopped', speech: 'short', note: 'The second engine stopped, so the built-in engine hears. It has not answered for 20 s.' });
    expect(planHearing(enginesFrom(BUILT_IN, second()), { engine: 'embedded', speech: 'short' }).note).toBeUndefined();
    secondStopped(null);
    expect(planHearing(enginesFrom(BUILT_IN, second()), { engine: 'vosk', speech: 'free' }).engine).toBe('vosk');
  });
  it('carries figures only for the model that they were measured with', () => {
    expect(enginesFrom(BUILT_IN, second()).embedded.measured?.clips).toBeGreaterThan(0);
    expect(enginesFrom({ name: 'en-us-8k', title: 'narrow', note: 'worse' }, null).embedded).toMatchObject({ measured: undefined, note: 'worse' });
    expect(enginesFrom(null, second()).embedded.installed).toBe(false);
    expect(enginesFrom(BUILT_IN, second()).vosk.measured).toBeUndefined();
  });
});

describe('settings', () => {
  it('hold for as long as the page does where nothing can be stored', () => {
    expect(loadSettings()).toMatchObject({ engine: 'automatic', speech: 'short' });
    saveSettings({ ...loadSettings(), engine: 'vosk', speech: 'free' });
    expect(loadSettings()).toMatchObject({ engine: 'vosk', speech: 'free' });
  });
});

const GRAMMAR: SpokenGrammar = { name: 'spoken', states: 1, start: 0, final: 0, arcs: [], pronunciations: new Map() };

/** An engine that can be made to fail. */
class Engine implements Recogniser {
  readonly listeners = new Set<(event: RecogniserEvent) => void>();
  pushed = 0;
  disposed = 0;
  constructor(readonly engine: string, private readonly fails: { load?: string; grammar?: string } = {}, private readonly note?: string) {}
  async load(): Promise<void> {
    if (this.fails.load) throw new Error(this.fails.load);
    this.say({ type: 'ready', engine: this.engine, model: 'm', ...(this.note ? { note: this.note } : {}) });
  }
  async setGrammar(): Promise<void> { if (this.fails.grammar) throw new Error(this.fails.grammar); }
  push(): void { this.pushed += 1; }
  async finish(): Promise<void> {}
  listen(listener: (event: RecogniserEvent) => void): () => void { this.listeners.add(listener); return () => void this.listeners.delete(listener); }
  dispose(): void { this.disposed += 1; }
  say(event: RecogniserEvent): void { for (const listener of this.listeners) listener(event); }
}

function trying(engines: readonly Engine[], note?: string) {
  const chosen = new FirstThatWorks(async () => ({ engines: engines.map((engine) => ({ words: `${engine.engine} engine`, make: () => engine })), ...(note ? { note } : {}) }));
  const notes: (string | undefined)[] = [];
  const partials: string[] = [];
  chosen.listen((event) => { if (event.type === 'ready') notes.push(event.note); if (event.type === 'partial') partials.push(event.text); });
  return { chosen, notes, partials };
}

describe('the first engine that works', () => {
  it('is the first, when that loads', async () => {
    const [one, two] = [new Engine('first', {}, 'slow'), new Engine('second')];
    const { chosen, notes, partials } = trying([one, two], 'told before');
    await chosen.load();
    await chosen.setGrammar(GRAMMAR);
    chosen.push(new Float32Array(1));
    one.say({ type: 'partial', text: 'left' });
    expect([chosen.engine, one.pushed, two.listeners.size, notes, partials]).toEqual(['first', 1, 0, ['told before slow'], ['left']]);
    chosen.dispose();
    one.say({ type: 'partial', text: 'late' });
    expect([one.disposed, partials]).toEqual([1, ['left']]);
  });

  it.each([['load', { load: 'no model.' }], ['take the grammar', { grammar: 'no model.' }]])('is the next, with a note, when the first cannot %s', async (_, fails) => {
    const [one, two] = [new Engine('first', fails), new Engine('second')];
    const { chosen, notes } = trying([one, two]);
    await chosen.load();
    await chosen.setGrammar(GRAMMAR);
    expect(chosen.engine).toBe('second');
    expect(one.disposed).toBe(1);
    expect(notes.at(-1)).toBe('The first engine cannot be used, so the second engine hears. no model.');
  });

  it('fails with the last one\'s reason when none works', async () => {
    const { chosen } = trying([new Engine('first', { load: 'one' }), new Engine('second', { load: 'two' })]);
    await expect(chosen.load()).rejects.toThrow('two');
    await expect(trying([]).chosen.load()).rejects.toThrow('no speech engine');
  });

  it('asks anew what there is each time it is loaded', async () => {
    let asked = 0;
    const chosen = new FirstThatWorks(async () => { asked += 1; return { engines: [{ words: 'only', make: () => new Engine('only') }] }; });
    await chosen.load();
    await chosen.load();
    expect(asked).toBe(2);
  });
});
