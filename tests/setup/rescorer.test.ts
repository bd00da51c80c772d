import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getEncoding } from 'js-tiktoken';
import * as ort from 'onnxruntime-web';
import { describe, expect, it } from 'vitest';
import { tokeniser } from '../../src/recogniser/rescorer/tokens';
import { ensureRescorer, keptTokens } from '../../src/setup/rescorer/ensure-rescorer';
import { melFilters } from '../../src/setup/rescorer/network';
import { OnnxGraph, WeightFile } from '../../src/setup/rescorer/onnx-graph';
import { readWeights } from '../../src/setup/rescorer/weights';
import { projectSpokenGrammar } from '../../src/setup/vosk-language';

/** A CTranslate2 file (binary version 6) with these weights. */
function modelFile(version: number, weights: readonly { name: string; shape: number[]; kind: number; bytes: Uint8Array }[]): Uint8Array {
  const text = (value: string): Buffer => Buffer.concat([Buffer.from(Uint16Array.of(value.length + 1).buffer), Buffer.from(`${value}\0`)]);
  const whole = (value: number): Buffer => Buffer.from(Uint32Array.of(value).buffer);
  return Buffer.concat([
    whole(version), text('WhisperSpec'), whole(3), whole(weights.length),
    ...weights.flatMap(({ name, shape, kind, bytes }) => [text(name), Buffer.of(shape.length), ...shape.map(whole), Buffer.of(kind), whole(bytes.length), bytes]),
  ]);
}

describe('reading the published weights', () => {
  it('reads both kinds of floating-point numbers and leaves settings out', () => {
    // IEEE 754-2019, half precision: 1.0, -2.0, 2^-24 (smallest subnormal), 65504 (largest), minus zero.
    const halves = new Uint8Array(Uint16Array.of(0x3c00, 0xc000, 0x0001, 0x7bff, 0x8000).buffer);
    const weights = readWeights(modelFile(6, [
      { name: 'a', shape: [1, 5], kind: 4, bytes: halves },
      { name: 'setting', shape: [], kind: 1, bytes: Uint8Array.of(1) },
      { name: 'b', shape: [2], kind: 0, bytes: new Uint8Array(Float32Array.of(0.5, -3).buffer) },
    ]));
    expect([...weights.keys()]).toEqual(['a', 'b']);
    expect(weights.get('a')?.shape).toEqual([1, 5]);
    expect([...(weights.get('a')?.data ?? [])]).toEqual([1, -2, 2 ** -24, 65504, -0]);
    expect([...(weights.get('b')?.data ?? [])]).toEqual([0.5, -3]);
  });

  it('refuses another version, and a file that ends too early', () => {
    expect(() => readWeights(modelFile(7, []))).toThrow('version 7');
    const whole = modelFile(6, [{ name: 'a', shape: [2], kind: 0, bytes: new Uint8Array(8) }]);
    expect(() => readWeights(whole.subarray(0, 30))).toThrow();
  });
});

describe('writing ONNX models', () => {
  it('gives a model that the runtime runs, with small numbers inside and large ones in the file of weights', async () => {
    const file = new WeightFile('numbers.bin');
    const graph = new OnnxGraph(file);
    const x = graph.input('x', 'float', ['rows', 40]);
    const matrix = Float32Array.from({ length: 40 * 30 }, (_, i) => Math.sin(i));
    const y = graph.node('Add', [graph.node('MatMul', [x, graph.floats([40, 30], matrix)]), graph.floats([30], Array.from({ length: 30 }, (_, i) => i))]);
    graph.output('y', y, 'float', ['rows', 30]);
    const session = await ort.InferenceSession.create(graph.bytes('affine'), { executionProviders: ['wasm'], externalData: [{ path: 'numbers.bin', data: file.bytes() }] });
    const input = Float32Array.from({ length: 80 }, (_, i) => Math.cos(i));
    const { y: output } = await session.run({ x: new ort.Tensor('float32', input, [2, 40]) });
    expect(output?.dims).toEqual([2, 30]);
    for (const row of [0, 1]) for (const column of [0, 7, 29]) {
      const wanted = column + Array.from({ length: 40 }, (_, k) => (input[row * 40 + k] ?? 0) * (matrix[k * 30 + column] ?? 0)).reduce((sum, product) => sum + product, 0);
      expect(output?.data[row * 30 + column]).toBeCloseTo(wanted, 4);
    }
    expect(file.bytes().length).toBe(40 * 30 * 4);
  });

  it('makes mel filters of unit area whose centres are evenly spaced below 1 kHz (Slaney, Auditory Toolbox, Technical Report 1998-010)', () => {
    const filters = melFilters();
    const centre = (m: number): number => Array.from({ length: 201 }, (_, k) => filters[k * 80 + m] ?? 0).reduce((best, value, k, all) => (value > (all[best] ?? 0) ? k : best), 0) * 40;
    // Bins are 40 Hz apart, so only the wider filters show their area exactly.
    for (const m of [50, 60, 79]) expect(Array.from({ length: 201 }, (_, k) => filters[k * 80 + m] ?? 0).reduce((sum, value) => sum + value, 0) * 40).toBeCloseTo(1, 1);
    expect(Math.abs(centre(20) - 2 * centre(10))).toBeLessThanOrEqual(80);
    expect(centre(79)).toBeGreaterThan(7000);
  });
});

describe('the tokens that are kept', () => {
  // js-tiktoken: an independent implementation of the same byte-pair encoding, with the published GPT-2 ranks that tiny.en uses.
  const reference = getEncoding('gpt2');
  const letters = Array.from({ length: 26 }, (_, i) => String.fromCharCode(97 + i));
  const piece = (id: number): string => reference.decode([id]).replace(/ /g, 'Ġ');
  const vocabulary = [...Array.from({ length: 50_256 }, (_, id) => piece(id)), '<|endoftext|>', '<|startoftranscript|>', '<|notimestamps|>'];
  const words = [...projectSpokenGrammar().pronunciations.keys()];
  const { ids, table } = keptTokens(vocabulary, words);

  it('spell every word of the grammar as the reference does', () => {
    const split = tokeniser(table);
    for (const word of words)
      for (const form of [` ${word}`, ` ${word.charAt(0).toUpperCase()}${word.slice(1)}`])
        expect(split(form.replace(' ', 'Ġ')).map((token) => ids[token]), form).toEqual(reference.encode(form));
  });

  it('can still spell a word that came later, in smaller pieces', () => {
    const split = tokeniser(table);
    expect(split('Ġzygodactyly').map((token) => table.pieces[token]).join('')).toBe('Ġzygodactyly');
    for (const letter of letters) expect(split(letter)).toHaveLength(1);
    expect(() => split('Ġ日')).toThrow('no token');
  });

  it('include what every sentence begins and ends with, by name', () => {
    expect(table.begin.map((token) => table.pieces[token])).toEqual(['<|startoftranscript|>', '<|notimestamps|>']);
    expect([table.pieces[table.stop], table.pieces[table.end]]).toEqual(['.', '<|endoftext|>']);
    expect(() => keptTokens(['a', 'b'], [])).toThrow('lacks');
  });
});

describe('set-up of the rescorer', () => {
  it('says what was wrong with a source and goes on without', async () => {
    const [from, filesDir] = [mkdtempSync(join(tmpdir(), 'weights-')), mkdtempSync(join(tmpdir(), 'files-'))];
    writeFileSync(join(from, 'model.bin'), 'not a model');
    const said: string[] = [];
    expect(await ensureRescorer({ from, filesDir, log: (line) => said.push(line) })).toBe(false);
    expect(said.join('\n')).toMatch(/model\.bin has 11 bytes instead of \d+.*Nothing was installed/s);
    expect(said.join('\n')).toMatch(/LUMBRICAL_RESCORER/);
    for (const folder of [from, filesDir]) rmSync(folder, { recursive: true });
  });

  it('names the licence of the weights', () => {
    expect((JSON.parse(readFileSync(new URL('../../models/rescorer.json', import.meta.url), 'utf8')) as { licence: string }).licence).toMatch(/^MIT/);
  });
});
