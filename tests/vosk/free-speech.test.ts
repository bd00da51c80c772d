import { describe, expect, it } from 'vitest';
import { linkGrammars } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node';
import { createParser, createSense } from '../../src/parser';
import type { Recogniser, RecogniserEvent, Utterance, Verdict } from '../../src/recogniser';
import { weighFreeSpeech, withSense } from '../../src/recogniser/vosk/free-speech';
import { judge } from '../../src/recogniser/vosk/judge';
import { findingInWords } from '../../src/vocabulary';

const rules = linkGrammars(grammarSources().grammars);
const parse = createParser(rules);
const makeSense = createSense(rules, parse);

/** Words as the second engine delivers them when it hears freely, each this sure, and what becomes of them. */
function hear(text: string, confidence = 0.97): Utterance {
  const words = text.split(' ').map((word, n) => ({ word, start: n, end: n + 1, confidence }));
  return weighFreeSpeech({
    id: text, text, start: 0, end: words.length, words, alternatives: [], source: 'vosk', audio: new Float32Array(10),
    ...judge(words, { restored: false, isSentence: false, mode: 'open' }),
  }, makeSense);
}
const filed = ({ text }: Utterance): string[] => parse(text, { findings: [] }).flatMap((statement) => (statement.type === 'findings' ? statement.findings.map(findingInWords) : []));

describe('words said freely', () => {
  it.each([
    ['there is no feeling in the tip of the left index finger', 'Left · light touch, index fingertip: absent'],
    ['capillary refill is three seconds on the left', 'Left · capillary refill, hand: 3 s'],
    ['he has wasting on the left thenar eminence', 'Left · wasting, thenar eminence: present'],
  ])('"%s" is accepted and read', (text, finding) => {
    expect(hear(text).verdict).toBe('accepted');
    expect(filed(hear(text))).toEqual([finding]);
  });

  it('are asked about when one of them is unsure, whatever the rest', () => {
    const sure = hear('he has wasting on the left thenar eminence');
    expect(sure.verdict).toBe('accepted');
    expect(hear('he has wasting on the left thenar eminence', 0.89)).toMatchObject({ verdict: 'queried' });
  });

  it('are asked about when the language lacks one of them: it may be another, heard wrongly', () => {
    expect(hear('left thumb numm')).toMatchObject({ verdict: 'queried', why: 'The recorder does not know the word "numm" here.' });
    // The parser would mend this spelling of a typist; what was heard is not a slip of the keyboard.
    expect(filed(hear('froment positve left'))).toHaveLength(1);
    expect(hear('froment positve left').verdict).toBe('queried');
  });

  it.each(['how did you do that then', 'my daughter drove me here', 'what is your date of birth', 'it hurts a lot at night', 'look at the football last night it was great'])(
    '"%s" are not for the recorder, and are not kept', (text) => {
      const { verdict, text: kept, words, audio } = hear(text);
      expect([verdict, kept, words, audio]).toEqual(['ignored', '', [], undefined]);
    });

  it('that the engine itself ignored are not kept either', () => {
    const utterance: Utterance = { id: 'u', text: '[unk]', start: 0, end: 1, confidence: 0, verdict: 'ignored', words: [], alternatives: [], source: 'vosk' };
    expect(weighFreeSpeech(utterance, makeSense)).toMatchObject({ verdict: 'ignored', text: '' });
  });
});

it('an engine with sense weighs every utterance and passes the rest through', async () => {
  const calls: string[] = [];
  const listeners = new Set<(event: RecogniserEvent) => void>();
  const engine: Recogniser = {
    engine: 'vosk', load: async () => void calls.push('load'), setGrammar: async () => void calls.push('grammar'), push: () => void calls.push('push'), finish: async () => void calls.push('finish'), dispose: () => void calls.push('dispose'),
    listen: (listener) => { listeners.add(listener); return () => void listeners.delete(listener); },
  };
  const sensible = withSense(engine, makeSense);
  const events: RecogniserEvent[] = [];
  const stop = sensible.listen((event) => events.push(event));
  const tell = (event: RecogniserEvent): void => { for (const listener of listeners) listener(event); };
  const utterance = (text: string, verdict: Verdict): Utterance => ({ id: text, text, start: 0, end: 1, confidence: 1, verdict, words: [], alternatives: [], source: 'vosk' });
  tell({ type: 'partial', text: 'my' });
  tell({ type: 'utterance', utterance: utterance('my daughter drove me here', 'accepted') });
  tell({ type: 'utterance', utterance: utterance('withdraw that', 'accepted') });
  stop();
  tell({ type: 'partial', text: 'later' });
  expect(events.map((event) => (event.type === 'utterance' ? event.utterance.verdict : event.type))).toEqual(['partial', 'ignored', 'accepted']);
  await sensible.load(); await sensible.setGrammar({} as never); sensible.push(new Float32Array(1)); await sensible.finish(); sensible.dispose();
  expect(calls).toEqual(['load', 'grammar', 'push', 'finish', 'dispose']);
  expect(sensible.engine).toBe('vosk');
});
