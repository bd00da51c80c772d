import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { acceptor, linkGrammars, seededRandom, spokenGrammar } from '../../src/grammar';
import { grammarSources } from '../../src/grammar/sources.node.ts';
import { openDecoder } from '../../src/recogniser/decoder';
import { align, LEAST_READINGS, phonesOf, profileOf, readPrompts } from '../../src/recogniser/enrol';
import { LISTENER } from '../../src/recogniser/listener';
import { createNodeRecogniser, installedModel, startNodeModule } from '../../src/recogniser/node';
import { adaptMeans, checksum, CODEBOOK_PHONES, estimateTransform, featuresOf, readCodebooks, solve, type Aligned, type Codebooks, type VoiceProfile } from '../../src/recogniser/voice-profile';
import { listClips, readClip } from '../speech/clips';

const { grammars, lexicon, base } = grammarSources();
const grammar = spokenGrammar(linkGrammars(grammars), lexicon, base);
const { dir } = installedModel();
const means = new Uint8Array(readFileSync(join(dir, 'means')));
const variances = new Uint8Array(readFileSync(join(dir, 'variances')));
const UNCHANGED = Array.from({ length: 3 }, () => Array.from({ length: 13 }, (_, i) => Array.from({ length: 14 }, (_unused, j) => (i === j ? 1 : 0))));

describe('the prompts', () => {
  const prompts = readPrompts(readFileSync('grammars/voice-prompts.txt', 'utf8'));
  it('are sentences that can be said to the recorder', () => { for (const prompt of prompts) expect(acceptor(grammar)(prompt.split(' ')), prompt).toBe(true); });
  it('are none of the sentences that hearing is tuned or measured on', () => {
    const others = new Set(['tuning', 'measuring'].flatMap((name) => readFileSync(`tests/speech/phrases/${name}.txt`, 'utf8').split('\n')));
    expect(prompts.filter((prompt) => others.has(prompt))).toEqual([]);
  });
  it('hold every phone of the model but ZH', () => {
    const said = new Set(prompts.flatMap((prompt) => prompt.split(' ').flatMap((word) => grammar.pronunciations.get(word)?.[0]?.split(' ') ?? [])));
    expect(CODEBOOK_PHONES.filter((phone) => !said.has(phone))).toEqual(['+NSN+', '+SPN+', 'SIL', 'ZH']);
  });
});

describe('the model file of means', () => {
  // The file was written by CMU's own tools: its checksum is theirs.
  it('carries the checksum that we compute', () => {
    const { values } = readCodebooks(means);
    const stored = new DataView(means.buffer, means.byteOffset).getUint32(means.length - 4, true);
    expect(checksum(means, means.length - 4 - 4 * values.length - 4 * 7, means.length - 4)).toBe(stored);
  });
  it('is the same to the byte after no change', () => {
    const copy = means.slice();
    adaptMeans(copy, UNCHANGED);
    expect(Buffer.compare(copy, means)).toBe(0);
  });
  it('has every phone moved, but neither silence nor noises', () => {
    const copy = means.slice();
    adaptMeans(copy, UNCHANGED.map((rows) => rows.map((row) => [...row.slice(0, 13), 1])));
    const [before, after] = [readCodebooks(means), readCodebooks(copy)];
    const size = before.streams * before.densities * before.width;
    CODEBOOK_PHONES.forEach((phone, i) => expect((after.values[i * size] ?? 0) - (before.values[i * size] ?? 0), phone).toBeCloseTo(/^(\+|SIL)/.test(phone) ? 0 : 1, 4));
  });
  it('is refused when it is another file', () => expect(() => readCodebooks(new TextEncoder().encode('<!doctype html>'.repeat(40)))).toThrow('not a file of Gaussians'));
});

describe('the estimate', () => {
  it('solves linear systems', () => {
    const solution = solve([Float64Array.of(0, 2, 1), Float64Array.of(2, 1, 0), Float64Array.of(1, 0, 3)], Float64Array.of(7, 4, 10));
    [1, 2, 3].forEach((value, i) => expect(solution[i]).toBeCloseTo(value, 9));
  });

  const random = seededRandom(5);
  const values = Float32Array.from({ length: 42 * 1 * 4 * 2 }, () => 20 * random() - 10);
  const small: Codebooks = { codebooks: 42, streams: 1, densities: 4, width: 2, values };
  const narrow: Codebooks = { ...small, values: new Float32Array(values.length).fill(0.05) };
  const MAP = [[1.1, -0.2, 0.5], [0.1, 0.9, -1]];
  const spoken: Aligned = { features: [], phones: [] };
  CODEBOOK_PHONES.forEach((phone, i) => {
    for (let n = 0; n < 40; n += 1) {
      const at = (i * 4 + (n % 4)) * 2;
      const mean = [values[at] ?? 0, values[at + 1] ?? 0, 1];
      (spoken.features as Float64Array[]).push(Float64Array.from(MAP, (row) => row.reduce((sum, weight, j) => sum + weight * (mean[j] ?? 0), 0.1 * (random() - 0.5))));
      (spoken.phones as string[]).push(phone);
    }
  });
  it('finds the map that moved the voice', () => {
    const [rows] = estimateTransform(small, narrow, [spoken], 1);
    MAP.forEach((row, i) => row.forEach((value, j) => expect(rows?.[i]?.[j]).toBeCloseTo(value, 1)));
  });
  it('changes nothing without speech, and little with little', () => {
    const off = (utterances: Aligned[]): number => Math.abs((estimateTransform(small, narrow, utterances)[0]?.[1]?.[2] ?? 0) - 0);
    expect(off([])).toBeCloseTo(0, 9);
    const little = { features: spoken.features.slice(80, 90), phones: spoken.phones.slice(80, 90) };
    expect(off([little])).toBeLessThan(off([spoken]));
  });
});

describe('the features', () => {
  it('are level-free, and differences of a steady rise are four steps of it', () => {
    const bands = 25;
    const rising = Float32Array.from({ length: 20 * bands }, (_, n) => 5 + 0.1 * Math.floor(n / bands));
    const features = featuresOf(rising, bands);
    expect(features.reduce((sum, frame) => sum + (frame[0] ?? 0), 0)).toBeCloseTo(0, 4);
    // 25 bands rise by 0.1 a frame: the first cepstrum by 0.1 times the root of 25.
    expect(features[10]?.[13]).toBeCloseTo(4 * 0.5, 4);
    expect(features[10]?.[26]).toBeCloseTo(0, 4);
  });
});

describe('a sentence as phones', () => {
  it('offers every pronunciation of every word', () => {
    const { arcs, final } = phonesOf(['a', 'b'], new Map([['a', ['AH', 'EY']], ['b', ['B IY']]]));
    expect(arcs.map(({ from, to, word }) => `${from} ${word} ${to}`)).toEqual(['0 AH 1', '0 EY 1', '1 B 3', '3 IY 2']);
    expect(final).toBe(2);
  });
});

describe('a synthetic British voice (espeak-ng RP, clips committed here)', () => {
  it('fits sentences better that were not in its profile; a wrong sentence is refused', async () => {
    const clips = listClips().filter(({ voice }) => voice === 'espeak-rp').slice(0, 12);
    const readings = await Promise.all(clips.map(async ({ text, file }) => ({ text, audio: await readClip(file) })));
    const parts = { pronunciations: grammar.pronunciations, means: readCodebooks(means), variances: readCodebooks(variances) };
    const plain = { ...parts, decoder: await openDecoder(await startNodeModule(), dir, LISTENER.check) };
    const [enrolled, others] = [readings.slice(0, 8), readings.slice(8)];
    const profile = profileOf(parts, enrolled.flatMap((reading) => align(plain, reading) ?? []), 'model', new Date(0));
    expect(profile.frames).toBeGreaterThan(500);
    const adapted = { ...parts, decoder: await openDecoder(await startNodeModule(), dir, LISTENER.check, (file) => adaptMeans(file, profile.transform)) };
    const fit = (enroller: typeof plain): number => others.reduce((sum, reading) => sum + (align(enroller, reading, -Infinity)?.fit ?? -99), 0) / others.length;
    expect(fit(adapted)).toBeGreaterThan(fit(plain));
    expect(align(plain, { text: enrolled[1]?.text ?? '', audio: enrolled[0]?.audio ?? new Float32Array(0) })).toBeNull();
    expect(() => profileOf(parts, enrolled.slice(1, LEAST_READINGS).flatMap((reading) => align(plain, reading) ?? []), 'model', new Date(0))).toThrow('Read at least');
  }, 240_000);

  it('is said to be in use, or to be left aside when it was made for another model', async () => {
    const broken = { version: 1, model: 'another', made: '', frames: 0, transform: UNCHANGED.map((rows) => rows.map((row) => row.map(() => Number.NaN))) } as const;
    const noteOf = async (profile: VoiceProfile): Promise<string | undefined> => {
      const recogniser = createNodeRecogniser({ profile });
      const notes: (string | undefined)[] = [];
      recogniser.listen((event) => { if (event.type === 'ready') notes.push(event.note); });
      await recogniser.load();
      recogniser.dispose();
      return notes[0];
    };
    expect(await noteOf(broken)).toMatch(/not used/);
    expect(await noteOf({ ...broken, model: installedModel().name, transform: UNCHANGED })).toMatch(/Set to the voice profile/);
  });
});
