import { describe, expect, it } from 'vitest';
import { linkGrammars } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node';
import { createParser } from '../../src/parser';
import type { Recogniser, RecogniserEvent, Utterance, Verdict } from '../../src/recogniser';
import { Journal, memoryStore, project } from '../../src/record';
import { inQuiet, openSecondEar } from '../../src/screens/session/second-ear';
import { Session } from '../../src/screens/session/session';
import { heardRows, questionView } from '../../src/screens/shared/record-view';
import { findingInWords } from '../../src/vocabulary';

const parse = createParser(linkGrammars(grammarSources().grammars));
const heard = (text: string, verdict: Verdict = 'accepted', confidence = 0.9, source = 'embedded'): Utterance => ({ id: text, text, start: 0, end: 1, confidence, verdict, words: [], alternatives: [], source, audio: new Float32Array(160) });

async function open() {
  const store = memoryStore();
  let n = 0;
  const session = new Session(await Journal.begin(store, { label: 'Heron 27', injuredSide: 'left', protocol: 'wound' }, { id: 'e1' }), store, parse, () => `id${n++}`);
  const record = () => session.getView().record;
  return {
    session, store, record,
    findings: (): string[] => record().findings.map(({ finding }) => findingInWords(finding)),
    row: (id: string) => heardRows(record()).find((row) => row.id === id)!,
    question: () => { const asked = record().questions.find(({ state }) => state === 'open'); return asked && questionView(record(), asked); },
  };
}

describe('a second opinion at the desk', () => {
  it('that agrees raises how sure the finding is, asks nothing, and is kept', async () => {
    const { session, store, record, row, question } = await open();
    await session.hear(heard('froment positive left'));
    expect(row('froment positive left')).toMatchObject({ other: 'vosk', source: 'built-in engine' });
    await session.heardAgain('froment positive left', 'vosk', heard('left froment positive', 'accepted', 0.8, 'vosk'));
    expect(record().findings[0]?.confidence).toBeCloseTo(1 - 0.1 * 0.2, 10);
    expect(row('froment positive left')).toMatchObject({ verdict: 'accepted', other: null, secondOpinion: 'The second engine heard the same: together 98 % sure.' });
    expect(question()).toBeUndefined();
    expect(project(await store.read('e1')).utterances[0]?.secondOpinion).toMatchObject({ agrees: true, engine: 'vosk' });
  });

  it('that differs puts the finding in doubt and asks the reviewer, and changes nothing by itself', async () => {
    const { session, record, findings, row, question } = await open();
    await session.hear(heard('froment positive left'));
    await session.heardAgain('froment positive left', 'vosk', heard('froment positive right', 'accepted', 0.9, 'vosk'));
    expect(findings()).toEqual(['Left · Froment, thumb: positive']);
    expect(record().findings[0]?.confidence).toBeCloseTo(0.09 / 0.19, 10);
    expect(row('froment positive left')).toMatchObject({ verdict: 'doubted', alternatives: ['froment positive right'] });
    expect(question()).toMatchObject({ question: 'The second engine heard “froment positive right” in the same sound. Which was said?', answers: [{ label: 'Left' }, { label: 'Right' }], none: 'Leave it as it is' });
  });

  it.each([
    ['what is on record', 0, ['Left · Froment, thumb: positive'], 0, 1],
    ['what the other heard', 1, ['Right · Froment, thumb: positive'], 1, 1],
    ['left open', null, ['Left · Froment, thumb: positive'], 0, 0.09 / 0.19],
  ])('is settled by the reviewer: %s', async (_, option, standing, corrections, confidence) => {
    const { session, record, findings, row, question } = await open();
    await session.hear(heard('froment positive left'));
    await session.heardAgain('froment positive left', 'vosk', heard('froment positive right', 'accepted', 0.9, 'vosk'));
    await session.answerAtDesk('froment positive left', option);
    expect(findings()).toEqual(standing);
    expect(record().findings.map((entry) => entry.corrections.length)).toEqual([corrections]);
    expect(record().findings[0]?.confidence).toBeCloseTo(confidence, 10);
    expect([question(), row('froment positive left').verdict]).toEqual([undefined, 'accepted']);
  });

  it('is read with the side of that moment, not of now', async () => {
    const { session, question } = await open();
    await session.hear(heard('right hand'));
    await session.hear(heard('abductor pollicis brevis grade three'));
    await session.hear(heard('left hand'));
    await session.heardAgain('abductor pollicis brevis grade three', 'vosk', heard('abductor pollicis brevis grade two', 'accepted', 0.9, 'vosk'));
    expect(question()?.answers.map(({ label }) => label)).toEqual(['grade 3', 'grade 2']);
    await session.answerAtDesk('abductor pollicis brevis grade three', 1);
    expect(session.getView().record.findings.map(({ finding }) => findingInWords(finding))).toEqual(['Right · power, abductor pollicis brevis: grade 2']);
  });

  it('that heard nothing, or something else than an order, is asked about too', async () => {
    const { session, question } = await open();
    await session.hear(heard('froment positive left'));
    await session.heardAgain('froment positive left', 'vosk', null);
    expect(question()).toMatchObject({ question: 'The second engine heard nothing for the recorder in this sound. Is what was filed right? If not, correct or withdraw it.', answers: [{ label: 'Left · Froment, thumb: positive' }] });
    await session.answerAtDesk('froment positive left', null);
    await session.hear(heard('left hand'));
    await session.heardAgain('left hand', 'vosk', heard('right hand', 'accepted', 0.9, 'vosk'));
    expect(question()).toMatchObject({ question: 'The second engine heard “right hand” in the same sound. Check what followed from it.', answers: [] });
    await session.answerAtDesk('left hand', null);
    expect(question()).toBeUndefined();
  });

  it('is never put to the examiner, and does not hide what is', async () => {
    const { session, say, question } = await open().then((opened) => ({ ...opened, say: (text: string) => opened.session.type(text) }));
    await session.hear(heard('froment positive left'));
    await say('tinel positive wrist');
    await session.heardAgain('froment positive left', 'vosk', heard('froment positive right', 'accepted', 0.9, 'vosk'));
    // "Option one" answers the examiner's own question (left or right?), not the reviewer's.
    await say('option one');
    expect(session.getView().record.findings.map(({ finding }) => findingInWords(finding))).toEqual(['Left · Froment, thumb: positive', 'Left · Tinel, carpal tunnel: positive']);
    expect(question()?.question).toMatch(/^The second engine heard/);
  });

  it('on something asked about already adds its words, not a second question', async () => {
    const { session, record, row } = await open();
    await session.hear(heard('froment positive left', 'queried', 0.5));
    await session.heardAgain('froment positive left', 'vosk', heard('froment negative left', 'accepted', 0.9, 'vosk'));
    expect(record().questions).toHaveLength(1);
    expect(row('froment positive left').secondOpinion).toContain('froment negative left');
    expect(record().findings).toEqual([]);
  });

  it('works the other way round, files nothing for an agreement, and knows no typed line', async () => {
    const { session, record, row } = await open();
    await session.hear({ ...heard('froment positive left', 'queried', 0.7, 'vosk'), why: 'Not sure of "froment".' });
    expect(row('froment positive left')).toMatchObject({ other: 'embedded', source: 'second engine' });
    await session.heardAgain('froment positive left', 'embedded', heard('froment positive left'));
    expect(record().findings).toEqual([]);
    expect(row('froment positive left').secondOpinion).toBe('The built-in engine heard the same: together 97 % sure.');
    await session.type('phalen positive left');
    expect(heardRows(record()).at(-1)?.other).toBeNull();
    await session.heardAgain('nowhere', 'vosk', null);
    expect(record().faults).toEqual([]);
  });
});

describe('the engine for it', () => {
  class Engine implements Recogniser {
    readonly engine = 'test';
    readonly clips: number[] = [];
    private readonly listeners = new Set<(event: RecogniserEvent) => void>();
    disposed = 0;
    constructor(private readonly failing = '') {}
    async load(): Promise<void> { if (this.failing) throw new Error(this.failing); }
    async setGrammar(): Promise<void> {}
    push(audio: Float32Array): void { this.clips.push(audio.length); }
    async finish(): Promise<void> { for (const listener of this.listeners) listener({ type: 'utterance', utterance: heard(`clip ${this.clips.length}`) }); }
    listen(listener: (event: RecogniserEvent) => void): () => void { this.listeners.add(listener); return () => void this.listeners.delete(listener); }
    dispose(): void { this.disposed += 1; }
  }
  it('hears clips in turn, each with quiet around it', async () => {
    const engine = new Engine();
    const ear = await openSecondEar(engine, {} as never);
    const answers = await Promise.all([ear.hear(new Float32Array(100)), ear.hear(new Float32Array(200))]);
    expect(answers.map((answer) => answer?.text)).toEqual(['clip 1', 'clip 2']);
    expect(engine.clips).toEqual([16_100, 16_200]);
    expect([...inQuiet(Float32Array.of(0.5)).filter((sample) => sample !== 0)]).toEqual([0.5]);
    ear.close();
    expect(engine.disposed).toBe(1);
  });
  it('is closed again when it cannot be loaded', async () => {
    const engine = new Engine('no model');
    await expect(openSecondEar(engine, {} as never)).rejects.toThrow('no model');
    expect(engine.disposed).toBe(1);
  });
});
