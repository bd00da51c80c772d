import { OnnxGraph, type Value, type WeightFile } from './onnx-graph.ts';
import type { Weights } from './weights.ts';

/**
 * The speech network that weighs sentences, as two ONNX models: Whisper "tiny.en" (Radford et al., Robust Speech Recognition via
 * Large-Scale Weak Supervision, 2022; weights MIT) with matrices in 8 bits. Differences to its usual use:
 * - the encoder takes stretches of any length, not 30 seconds: a tenth of the work, and no less right in weighing given sentences;
 * - the decoder takes a tree of sentences at once, so that what they share is computed once.
 */

const WIDTH = 384;
const HEADS = 6;
const LAYERS = 4;
const MELS = 80;
const RATE = 16_000;
const WINDOW = 400; // samples of a frame
const HOP = 160; // samples between frames
const BINS = WINDOW / 2 + 1;
const CONTRIB = 'com.microsoft';

/** A matrix in 8 bits, with one scale for each column. `at` gives the number at (row, column). */
function quantised(rows: number, columns: number, at: (row: number, column: number) => number): { values: Int8Array; scales: Float32Array } {
  const values = new Int8Array(rows * columns);
  const scales = Float32Array.from({ length: columns }, (_, column) => {
    let largest = 1e-9;
    for (let row = 0; row < rows; row += 1) largest = Math.max(largest, Math.abs(at(row, column)));
    for (let row = 0; row < rows; row += 1) values[row * columns + column] = Math.round((at(row, column) / largest) * 127);
    return largest / 127;
  });
  return { values, scales };
}

/** The layers that both halves are made of. Sequences are [steps, WIDTH]. */
class Network extends OnnxGraph {
  private readonly weights: Weights;
  constructor(weights: Weights, file: WeightFile) { super(file); this.weights = weights; }

  get(name: string): { readonly shape: readonly number[]; readonly data: Float32Array } {
    const found = this.weights.get(name);
    if (!found) throw new Error(`The model file lacks "${name}".`);
    return found;
  }
  whole(name: string): Value { const { shape, data } = this.get(name); return this.floats(shape, data); }

  /** Product with a matrix in 8 bits; the sequence is brought to 8 bits on the way. */
  product(x: Value, codes: Value, scales: Value, columns: number, bias?: Value): Value {
    return this.node('DynamicQuantizeMatMul', [x, codes, scales, this.int8([columns], new Int8Array(columns)), ...(bias ? [bias] : [])], {}, CONTRIB);
  }

  /** Affine map; with `parts`, one of several that lie in one matrix [outputs, inputs]. */
  linear(x: Value, name: string, part = 0, parts = 1): Value {
    const { shape: [all = 0, inputs = 0], data } = this.get(`${name}/weight`);
    const outputs = all / parts;
    const first = outputs * part;
    const { values, scales } = quantised(inputs, outputs, (row, column) => data[(first + column) * inputs + row] ?? 0);
    const bias = this.floats([outputs], this.get(`${name}/bias`).data.subarray(first, first + outputs));
    return this.product(x, this.int8([inputs, outputs], values), this.floats([outputs], scales), outputs, bias);
  }

  sum(x: Value, y: Value): Value { return this.node('Add', [x, y]); }
  gelu(x: Value): Value { return this.node('Gelu', [x], {}, CONTRIB); }
  normed(x: Value, name: string): Value {
    return this.node('LayerNormalization', [x, this.whole(`${name}/gamma`), this.whole(`${name}/beta`)], { axis: -1, epsilon: { float: 1e-5 } });
  }

  private split(x: Value, order: readonly number[]): Value {
    return this.node('Transpose', [this.node('Reshape', [x, this.integers([3], [-1, HEADS, WIDTH / HEADS])])], { perm: { ints: order } });
  }
  private attention(query: Value, key: Value, value: Value, mask?: Value): Value {
    const scaled = this.node('Mul', [query, this.floats([1], [Math.sqrt(HEADS / WIDTH)])]);
    const match = this.node('MatMul', [this.split(scaled, [1, 0, 2]), this.split(key, [1, 2, 0])]);
    const share = this.node('Softmax', [mask ? this.sum(match, mask) : match], { axis: -1 });
    const mixed = this.node('Transpose', [this.node('MatMul', [share, this.split(value, [1, 0, 2])])], { perm: { ints: [1, 0, 2] } });
    return this.node('Reshape', [mixed, this.integers([2], [-1, WIDTH])]);
  }
  selfAttention(h: Value, layer: string, mask?: Value): Value {
    const x = this.normed(h, `${layer}/self_attention/layer_norm`);
    const of = (part: number): Value => this.linear(x, `${layer}/self_attention/linear_0`, part, 3);
    return this.sum(h, this.linear(this.attention(of(0), of(1), of(2), mask), `${layer}/self_attention/linear_1`));
  }
  crossAttention(h: Value, memory: Value, layer: string): Value {
    const query = this.linear(this.normed(h, `${layer}/attention/layer_norm`), `${layer}/attention/linear_0`);
    const of = (part: number): Value => this.linear(memory, `${layer}/attention/linear_1`, part, 2);
    return this.sum(h, this.linear(this.attention(query, of(0), of(1)), `${layer}/attention/linear_2`));
  }
  feedForward(h: Value, layer: string): Value {
    return this.sum(h, this.linear(this.gelu(this.linear(this.normed(h, `${layer}/ffn/layer_norm`), `${layer}/ffn/linear_0`)), `${layer}/ffn/linear_1`));
  }
}

/** Triangles of equal area on the mel scale of Slaney's Auditory Toolbox (1998), as the network was trained with: [BINS, MELS]. */
export function melFilters(): Float32Array {
  const step = Math.log(6.4) / 27;
  const toMel = (hz: number): number => (hz < 1000 ? (hz * 3) / 200 : 15 + Math.log(hz / 1000) / step);
  const toHz = (mel: number): number => (mel < 15 ? (mel * 200) / 3 : 1000 * Math.exp(step * (mel - 15)));
  const edges = Array.from({ length: MELS + 2 }, (_, i) => toHz((i * toMel(RATE / 2)) / (MELS + 1)));
  return Float32Array.from({ length: BINS * MELS }, (_, i) => {
    const hz = (Math.floor(i / MELS) * RATE) / WINDOW;
    const [low = 0, middle = 0, high = 0] = edges.slice(i % MELS, (i % MELS) + 3);
    return Math.max(0, Math.min((hz - low) / (middle - low), (high - hz) / (high - middle))) * (2 / (high - low));
  });
}

/** A discrete Fourier transform under a Hann window, as the kernel of a convolution: cosines, then sines. */
function windowedFourier(): Float32Array {
  return Float32Array.from({ length: 2 * BINS * WINDOW }, (_, i) => {
    const n = i % WINDOW;
    const row = Math.floor(i / WINDOW);
    const turn = (2 * Math.PI * (row % BINS) * n) / WINDOW;
    return (0.5 - 0.5 * Math.cos((2 * Math.PI * n) / WINDOW)) * (row < BINS ? Math.cos(turn) : Math.sin(turn));
  });
}

/** audio [1, 1, samples at 16 kHz] → memory [steps of 20 ms, WIDTH] */
export function encoder(weights: Weights, file: WeightFile): Uint8Array {
  const g = new Network(weights, file);
  const one = (value: number): Value => g.floats([1], [value]);
  const axis = (value: number): Value => g.integers([1], [value]);

  const audio = g.input('audio', 'float', [1, 1, 'samples']);
  const padded = g.node('Pad', [audio, g.integers([6], [0, 0, WINDOW / 2, 0, 0, WINDOW / 2])], { mode: 'reflect' });
  const spectrum = g.node('Conv', [padded, g.floats([2 * BINS, 1, WINDOW], windowedFourier())], { strides: { ints: [HOP] } });
  const squares = g.node('Reshape', [g.node('Mul', [spectrum, spectrum]), g.integers([3], [2, BINS, -1])]);
  const power = g.node('Slice', [g.node('ReduceSum', [squares, axis(0)], { keepdims: 0 }), axis(0), axis(-1), axis(1)]);
  const mel = g.node('MatMul', [g.node('Transpose', [power], { perm: { ints: [1, 0] } }), g.floats([BINS, MELS], melFilters())]);
  // Decades of power; nothing more than eight below the loudest counts.
  const decades = g.node('Div', [g.node('Log', [g.node('Max', [mel, one(1e-10)])]), one(Math.LN10)]);
  const floor = g.node('Sub', [g.node('ReduceMax', [decades], { keepdims: 0 }), one(8)]);
  const scaled = g.node('Div', [g.sum(g.node('Max', [decades, floor]), one(4)), one(4)]);

  let h = g.node('Unsqueeze', [g.node('Transpose', [scaled], { perm: { ints: [1, 0] } }), axis(0)]);
  for (const [name, stride] of [['encoder/conv1', 1], ['encoder/conv2', 2]] as const)
    h = g.gelu(g.node('Conv', [h, g.whole(`${name}/weight`), g.whole(`${name}/bias`)], { pads: { ints: [1, 1] }, strides: { ints: [stride] } }));
  h = g.node('Transpose', [g.node('Squeeze', [h, axis(0)])], { perm: { ints: [1, 0] } });
  const steps = g.node('Slice', [g.node('Shape', [h]), axis(0), axis(1)]);
  h = g.sum(h, g.node('Slice', [g.whole('encoder/position_encodings/encodings'), axis(0), steps, axis(0)]));
  for (let i = 0; i < LAYERS; i += 1) h = g.feedForward(g.selfAttention(h, `encoder/layer_${i}`), `encoder/layer_${i}`);
  g.output('memory', g.normed(h, 'encoder/layer_norm'), 'float', ['steps', WIDTH]);
  return g.bytes('encoder');
}

/**
 * tokens, positions [nodes], mask [nodes, nodes] (0 where a node may look, very negative elsewhere), memory, links [links, 2]
 * (a node, and a token that follows it) → scores [links], the natural logarithm of the probability of each link.
 * @param kept ids of the tokens that it knows: its token 0 is the first of them
 */
export function decoder(weights: Weights, file: WeightFile, kept: readonly number[]): Uint8Array {
  const g = new Network(weights, file);
  const [tokens, positions] = [g.input('tokens', 'int64', ['nodes']), g.input('positions', 'int64', ['nodes'])];
  const mask = g.input('mask', 'float', ['nodes', 'nodes']);
  const memory = g.input('memory', 'float', ['steps', WIDTH]);
  const links = g.input('links', 'int64', ['links', 2]);

  // One table serves for reading tokens in and for scoring them.
  const { data } = g.get('decoder/embeddings/weight');
  const { values, scales } = quantised(WIDTH, kept.length, (row, column) => data[(kept[column] ?? 0) * WIDTH + row] ?? 0);
  const codes = g.int8([WIDTH, kept.length], values);
  const scale = g.floats([kept.length], scales);
  const embedded = g.node('Mul', [g.node('Cast', [g.node('Gather', [codes, tokens], { axis: 1 })], { to: 1 }), g.node('Gather', [scale, tokens])]);

  let h = g.sum(g.node('Transpose', [embedded], { perm: { ints: [1, 0] } }), g.node('Gather', [g.whole('decoder/position_encodings/encodings'), positions]));
  for (let i = 0; i < LAYERS; i += 1) h = g.feedForward(g.crossAttention(g.selfAttention(h, `decoder/layer_${i}`, mask), memory, `decoder/layer_${i}`), `decoder/layer_${i}`);
  const logits = g.product(g.normed(h, 'decoder/layer_norm'), codes, scale, kept.length);
  const total = g.node('ReduceLogSumExp', [logits], { axes: { ints: [1] }, keepdims: 0 });
  const from = g.node('Gather', [links, g.integers([], [0])], { axis: 1 });
  g.output('scores', g.node('Sub', [g.node('GatherND', [logits, links]), g.node('Gather', [total, from])]), 'float', ['links']);
  return g.bytes('decoder');
}
