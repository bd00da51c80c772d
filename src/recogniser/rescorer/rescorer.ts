import type * as Ort from 'onnxruntime-web/wasm';
import { RESCORER_FILES, type RescorerParts } from './files';
import { tokeniser, written } from './tokens';
import { treeOf } from './tree';

/** How probable a sentence is, given the audio: the natural logarithm, and that for each of its tokens. */
export interface Weight { readonly total: number; readonly perToken: number }

/** The part of the network runtime that is used: Node and browsers load different builds of it. */
export type NetworkRuntime = Pick<typeof Ort, 'env' | 'InferenceSession' | 'Tensor'>;

/** Weighs sentences against the audio that it was made for: one weight each, in order. */
export type Weigh = (sentences: readonly string[]) => Promise<Weight[]>;

/** Weighs given sentences against audio. It never writes a sentence of its own: what may be heard is the grammar's matter. */
export interface Rescorer {
  /** @param audio 16 kHz mono */
  hear(audio: Float32Array): Promise<Weigh>;
  dispose(): Promise<void>;
}

/** Quiet after the words, in samples: the network was trained on stretches that end in silence. */
const QUIET = 9_600;
/** Samples of one step of the encoder. */
const STEP = 320;

/**
 * Opens both halves of the network on the processor, on one thread: no other needs the page to be isolated from the rest of the browser.
 */
export async function openRescorer(ort: NetworkRuntime, files: RescorerParts): Promise<Rescorer> {
  ort.env.wasm.numThreads = 1;
  ort.env.logLevel = 'error';
  // Weights stay outside the models, so that they are held once; the memory of a run is given back after it.
  const options = { executionProviders: ['wasm'], enableCpuMemArena: false, externalData: [{ path: RESCORER_FILES.weights, data: files.weights }] };
  const encoder = await ort.InferenceSession.create(files.encoder, options);
  const decoder = await ort.InferenceSession.create(files.decoder, options);
  const { begin, stop, end } = files.tokens;
  const tokens = tokeniser(files.tokens);

  const integers = (values: readonly number[], shape: readonly number[]): Ort.Tensor => new ort.Tensor('int64', BigInt64Array.from(values, BigInt), shape);
  const only = (result: Ort.InferenceSession.ReturnType, name: string): Ort.Tensor => {
    const found = result[name];
    if (!found) throw new Error(`The rescorer's network gave no "${name}".`);
    return found;
  };

  // A session mixes up two runs at a time: whoever comes second waits.
  let turn: Promise<unknown> = Promise.resolve();
  function inTurn(session: Ort.InferenceSession, feeds: Ort.InferenceSession.FeedsType): Promise<Ort.InferenceSession.ReturnType> {
    const run = async (): Promise<Ort.InferenceSession.ReturnType> => session.run(feeds);
    const result = turn.then(run, run);
    turn = result;
    return result;
  }

  async function hear(audio: Float32Array): Promise<Weigh> {
    const padded = new Float32Array(Math.floor((audio.length + QUIET) / STEP) * STEP);
    padded.set(audio);
    const memory = only(await inTurn(encoder, { audio: new ort.Tensor('float32', padded, [1, 1, padded.length]) }), 'memory');
    return async (sentences) => {
      if (!sentences.length) return [];
      const tree = treeOf(begin, sentences.map((sentence) => [...written(sentence).flatMap((word) => [...tokens(word)]), stop, end]));
      const nodes = tree.tokens.length;
      const scores = only(await inTurn(decoder, {
        memory, tokens: integers(tree.tokens, [nodes]), positions: integers(tree.positions, [nodes]),
        mask: new ort.Tensor('float32', tree.mask, [nodes, nodes]), links: integers(tree.links.flat(), [tree.links.length, 2]),
      }), 'scores').data as Float32Array;
      return tree.paths.map((path) => {
        const total = path.reduce((sum, link) => sum + (scores[link] ?? 0), 0);
        return { total, perToken: total / path.length };
      });
    };
  }

  return { hear, dispose: async () => { await encoder.release(); await decoder.release(); } };
}
