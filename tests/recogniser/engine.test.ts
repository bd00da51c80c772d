import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SpokenGrammar } from '../../src/grammar';
import { createNodeRecogniser } from '../../src/recogniser/node';
import type { RecogniserEvent } from '../../src/recogniser';
import { readClip, listClips } from '../speech/clips';

const sides: SpokenGrammar = {
  name: 'sides', states: 3, start: 0, final: 2,
  arcs: [{ from: 0, to: 1, word: 'left', weight: 0 }, { from: 0, to: 1, word: 'right', weight: 0 }, { from: 1, to: 2, word: 'hand', weight: 0 }],
  pronunciations: new Map([['left', ['L EH F T']], ['right', ['R AY T']], ['hand', ['HH AE N D']]]),
};

describe('the embedded engine', () => {
  const recogniser = createNodeRecogniser({ partials: true, keepAudio: true });
  const events: RecogniserEvent[] = [];
  beforeAll(async () => { recogniser.listen((event) => events.push(event)); await recogniser.load(); });
  afterAll(() => recogniser.dispose());

  it('says which engine and model are ready', () => expect(events[0]).toMatchObject({ type: 'ready', engine: 'embedded' }));

  it('names a word without pronunciation', async () => {
    const grammar = { ...sides, arcs: [...sides.arcs, { from: 1, to: 2, word: 'pisiform', weight: 0 }] };
    await expect(recogniser.setGrammar(grammar)).rejects.toThrow('"pisiform"');
  });

  it('names a word whose pronunciation has unknown phones', async () => {
    const grammar = { ...sides, pronunciations: new Map([...sides.pronunciations, ['left', ['L EH XX T']]]) };
    await expect(recogniser.setGrammar(grammar)).rejects.toThrow('"left"');
  });

  it('hears a clip in a small grammar, tells the level, keeps the audio, and starts afresh after finish', async () => {
    await recogniser.setGrammar(sides);
    const clip = listClips().find(({ text }) => text === 'left hand' || text === 'right hand') ?? listClips()[0];
    const audio = await readClip(clip?.file ?? '');
    for (let round = 0; round < 2; round += 1) {
      events.length = 0;
      for (let at = 0; at < audio.length; at += 777) recogniser.push(audio.subarray(at, at + 777));
      await recogniser.finish();
      const utterances = events.flatMap((event) => (event.type === 'utterance' ? [event.utterance] : []));
      expect(utterances.length).toBeGreaterThan(0);
      expect(utterances[0]?.start).toBeLessThan(1);
      expect(utterances[0]?.audio?.length).toBeGreaterThan(4_000);
      expect(events.some(({ type }) => type === 'level')).toBe(true);
      expect(events.some(({ type }) => type === 'speech started')).toBe(true);
    }
  });

  it('takes silence and noise without a word', async () => {
    events.length = 0;
    recogniser.push(new Float32Array(32_000));
    recogniser.push(Float32Array.from({ length: 48_000 }, (_, i) => 0.01 * Math.sin(i * i)));
    await recogniser.finish();
    expect(events.filter((event) => event.type === 'utterance' && event.utterance.verdict === 'accepted')).toEqual([]);
  });

  it('tells when the input is clipped', () => {
    events.length = 0;
    recogniser.push(new Float32Array(1600).fill(1));
    expect(events.find(({ type }) => type === 'level')).toMatchObject({ clipped: true });
  });
});

describe('trouble while loading', () => {
  it('names the folder when the model is not there', async () => {
    const recogniser = createNodeRecogniser({ modelDir: '/nowhere/at-all' });
    await expect(recogniser.load()).rejects.toThrow('/nowhere/at-all');
  });
  it('refuses audio before it is loaded', () => expect(() => createNodeRecogniser().push(new Float32Array(160))).toThrow('load()'));
});
