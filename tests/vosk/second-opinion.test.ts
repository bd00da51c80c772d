import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Recogniser, RecogniserEvent, Utterance, Verdict } from '../../src/recogniser/recogniser';
import { agree, AGREED, asOne, hearClip } from '../../src/recogniser/vosk/agree';
import { judge, LIMITS } from '../../src/recogniser/vosk/judge';

const utterance = (text: string, verdict: Verdict, confidence: number): Utterance => ({ id: text, text, start: 0, end: 1, confidence, verdict, words: [], alternatives: [], source: 'test' });

describe('a second opinion', () => {
  it('that agrees raises confidence and lets a doubt go', () => {
    const joined = agree({ ...utterance('grade three left', 'queried', 0.7), why: 'narrow' }, utterance('Grade three, left.', 'accepted', 0.9));
    expect(joined).toMatchObject({ verdict: 'accepted', text: 'grade three left' });
    expect(joined.confidence).toBeCloseTo(0.97, 10);
    expect(joined.why).toBeUndefined();
  });
  it('that differs is asked about, with both readings kept', () => {
    expect(agree(utterance('grade three left', 'accepted', 0.99), utterance('grade three right', 'accepted', 0.95)))
      .toMatchObject({ verdict: 'queried', why: 'The other engine heard "grade three right".', alternatives: [{ text: 'grade three right' }] });
  });
  it('that differs leaves as much sureness as the two leave each other', () => {
    // Bayes' theorem with independent errors: 0.9 x 0.2 against 0.8 x 0.1 against 0.1 x 0.2 for neither.
    expect(agree(utterance('a', 'accepted', 0.9), utterance('b', 'accepted', 0.8)).confidence).toBeCloseTo(0.18 / 0.28, 10);
    expect(agree(utterance('a', 'accepted', 1), utterance('b', 'accepted', 1)).confidence).toBe(0.5);
  });
  it('that hears nothing, or speech for someone else, is asked about', () => {
    for (const other of [null, utterance('', 'ignored', 0.1)]) expect(agree(utterance('numb thumb', 'accepted', 0.9), other)).toMatchObject({ verdict: 'queried' });
  });
  it('may bring back what was ignored, as a question only', () => {
    expect(agree(utterance('x', 'ignored', 0.2), utterance('numb thumb left', 'accepted', 0.99))).toMatchObject({ verdict: 'queried', alternatives: [{ text: 'numb thumb left' }] });
  });
  it('in several parts is taken as one, as sure as its least sure part', () => {
    const parts = [utterance('grade three', 'accepted', 0.95), utterance('noise', 'ignored', 0.1), utterance('left', 'queried', 0.6)];
    expect(asOne(parts)).toMatchObject({ text: 'grade three left', verdict: 'queried', confidence: 0.6 });
    expect(asOne([parts[1]!])).toBeNull();
  });
  it('may compare meanings instead of words', () => {
    expect(agree(utterance('left thumb numb', 'accepted', 0.9), utterance('numb left thumb', 'accepted', 0.9), () => true).verdict).toBe('accepted');
  });

  it('keeps to its rules whatever it is given', () => {
    const any = fc.record({ text: fc.constantFrom('numb left', 'numb right', ''), verdict: fc.constantFrom<Verdict>('accepted', 'queried', 'ignored'), confidence: fc.double({ min: 0, max: 1, noNaN: true }) })
      .map(({ text, verdict, confidence }) => utterance(text, verdict, confidence));
    fc.assert(fc.property(any, fc.option(any, { nil: null }), (first, second) => {
      const joined = agree(first, second);
      expect(joined.text).toBe(first.text);
      expect(joined.confidence).toBeGreaterThanOrEqual(0);
      expect(joined.confidence).toBeLessThanOrEqual(1);
      if (joined.verdict === 'accepted') {
        expect(second?.text).toBe(first.text);
        expect([first.verdict, second?.verdict]).toContain('accepted');
        expect([first.verdict, second?.verdict]).not.toContain('ignored');
        expect(joined.confidence).toBeGreaterThanOrEqual(Math.max(first.confidence, second!.confidence) - 1e-12);
        if (first.verdict !== second?.verdict) expect(joined.confidence).toBeGreaterThanOrEqual(AGREED);
      }
      if (first.verdict === 'accepted') expect(joined.verdict).not.toBe('ignored');
    }));
  });
});

describe('hearing one clip', () => {
  const engine = (events: readonly RecogniserEvent[]): Recogniser => {
    const listeners = new Set<(event: RecogniserEvent) => void>();
    return {
      engine: 'test', load: async () => {}, setGrammar: async () => {}, push: () => {}, dispose: () => {},
      finish: async () => { for (const event of events) for (const listener of listeners) listener(event); },
      listen: (listener) => { listeners.add(listener); return () => void listeners.delete(listener); },
    };
  };
  it('gives its utterances in order', async () => {
    const [a, b] = [utterance('a', 'accepted', 1), utterance('b', 'queried', 0.5)];
    expect(await hearClip(engine([{ type: 'partial', text: 'a' }, { type: 'utterance', utterance: a }, { type: 'utterance', utterance: b }]), new Float32Array(10))).toEqual([a, b]);
  });
  it('fails if the engine does', async () => {
    await expect(hearClip(engine([{ type: 'failed', message: 'gone', fatal: true }]), new Float32Array(10))).rejects.toThrow('gone');
  });
});

describe('the verdict on what the second engine heard', () => {
  const words = (text: string, confidence = 1) => text.split(' ').map((word, n) => ({ word, start: n, end: n + 1, confidence }));
  it.each([
    ['a sure sentence', words('left thumb numb'), false, true, 'grammar', 'accepted'],
    ['a sentence with one doubtful word', [...words('left thumb'), ...words('numb', LIMITS.grammar - 0.01)], false, true, 'grammar', 'queried'],
    ['sure words that make no sentence', words('left left thumb'), false, false, 'grammar', 'queried'],
    ['unknown words only', words('[unk] [unk]'), false, false, 'grammar', 'ignored'],
    ['mostly unknown words', words('[unk] left [unk]'), false, false, 'grammar', 'ignored'],
    ['one unknown word in a sentence', words('left thumb [unk] numb'), false, false, 'grammar', 'queried'],
    ['free speech, sure', words('he says the thumb feels odd'), false, false, 'open', 'accepted'],
    ['free speech, unsure', words('he says the thumb feels odd', LIMITS.open - 0.01), false, false, 'open', 'queried'],
    ['free speech with a word guessed from its sound', words('wasting of the thenar'), true, false, 'open', 'queried'],
    ['nothing', [], false, false, 'open', 'ignored'],
  ] as const)('%s', (_, heard, restored, isSentence, mode, verdict) => {
    const found = judge(heard, { restored, isSentence, mode });
    expect(found.verdict).toBe(verdict);
    if (verdict !== 'accepted') expect(found.why).toMatch(/\.$/);
  });
  it('is as sure as its least sure word', () => {
    expect(judge([...words('left', 0.95), ...words('numb', 0.85)], { restored: false, isSentence: true, mode: 'grammar' }).confidence).toBe(0.85);
  });
});
