import type { SpokenGrammar } from '../grammar/spoken-grammar';
import { meanCepstrum } from './voice-profile';

/**
 * The one file that talks to the speech library (soundswallower 0.6.3). Everything else sees `Decoder`: it finds the best path of
 * a stretch of audio through an automaton, with its score, from the whole stretch or while it comes in.
 *
 * A decoder keeps nothing from one utterance to the next, so the same audio always gives the same answer: the cepstral mean is that
 * of the whole stretch, or, of one that is still coming in, that of its beginning (left alone, the library would carry a mean on).
 */

/** The members of the library's module that we call; its own types leave most of them out. */
export interface SpeechModule {
  Decoder: new (config: Record<string, string | number | boolean>) => SpeechDecoder;
  HEAPU8: Uint8Array;
  HEAP32: Int32Array;
  _malloc(bytes: number): number;
  _s3file_init(file: number, bytes: number): number;
  _free(pointer: number): void;
  _decoder_init_fe(decoder: number): number;
  _decoder_init_feat_s3file(decoder: number, transform: number): number;
  _acmod_reinit_feat(acousticModel: number, frontEnd: number, features: number): number;
  _decoder_logmath(decoder: number): number;
  _decoder_add_word(decoder: number, word: number, phones: number, update: number): number;
  _decoder_set_fsg(decoder: number, fsg: number): number;
  _decoder_hyp(decoder: number, score: number): number;
  _decoder_seg_iter(decoder: number): number;
  _seg_iter_next(segment: number): number;
  _seg_iter_word(segment: number): number;
  _seg_iter_frames(segment: number, start: number, end: number): void;
  _fsg_model_init(name: number, logmath: number, weight: number, states: number): number;
  _fsg_set_states(fsg: number, start: number, final: number): void;
  _fsg_model_word_add(fsg: number, word: number): number;
  _fsg_model_trans_add(fsg: number, from: number, to: number, logp: number, word: number): void;
  _fsg_model_null_trans_add(fsg: number, from: number, to: number, logp: number): number;
  _logmath_log(logmath: number, probability: number): number;
}

interface SpeechDecoder {
  readonly cdecoder: number;
  readonly cacmod: number;
  initialize(): Promise<void>;
  init_featparams(): Promise<void>;
  load_gmm(means: string, variances: string, sendump: string, mixtures: string): Promise<void>;
  set_config(key: string, value: string | number | boolean): boolean;
  delete(): void;
  start(): void;
  stop(): void;
  process_audio(audio: Float32Array, noSearch: boolean, fullUtterance: boolean): number;
  spectrogram(audio: Float32Array): { data: Float32Array; nfr: number; nfeat: number };
}

/** Search settings; the library's names. Chosen on the tuning voices, see tests/bench/hearing.ts. */
export interface SearchSettings {
  readonly beam: number;
  readonly pbeam: number;
  readonly wbeam: number;
  readonly lw: number;
  readonly wip: number;
  readonly silprob: number;
  readonly fillprob: number;
  readonly topn?: number;
  /** The library's spectral noise tracker; the model's setting when left out. */
  readonly remove_noise?: boolean;
  readonly maxhmmpf?: number;
  /** Score all acoustic states in every frame, not only those in the search. */
  readonly compallsen?: boolean;
}

export interface PathWord { readonly word: string; /** Frames of 10 ms, end exclusive. */ readonly from: number; readonly to: number }
/**
 * The best path: its words (silence and noise left out), and its score in nats, relative to the best acoustic state that the search
 * looked at in each frame. So only scores of one pass can be compared. (The setting `compallsen` looks at all 5,126 states, which gives
 * passes a common reference, but costs more than searching the whole grammar does.)
 */
export interface Path { readonly words: readonly PathWord[]; readonly score: number; readonly frames: number }

/** Frames of a path that lie in words. */
export const framesInWords = ({ words }: Pick<Path, 'words'>): number => words.reduce((sum, { from, to }) => sum + to - from, 0);

/** An utterance that is being decoded while it comes in. */
export interface Stream {
  feed(audio: Float32Array): void;
  /** Best words so far, wherever in the grammar they end. */
  words(): string[];
  /** Best path that ends where the grammar does, or null. Nothing can be fed any more. */
  end(): Path | null;
}

export interface Decoder {
  /** Replaces the automaton. Throws naming the word at fault. */
  setGrammar(grammar: SpokenGrammar): void;
  /**
   * Best paths through the automaton for 16 kHz mono audio: one for each end state asked for
   * (the grammar's own when left out), in one pass; null where no path reaches it.
   */
  decode(audio: Float32Array, ends?: readonly number[]): (Path | null)[];
  /**
   * Begins to decode audio that comes in pieces; whatever was being decoded is dropped.
   * @param beginning of the same audio, or all of it: its mean cepstrum is taken for that of the whole
   */
  stream(beginning: Float32Array): Stream;
  /** Log mel spectra, frame after frame: what the features are made of. */
  logMel(audio: Float32Array): { readonly values: Float32Array; readonly bands: number };
  dispose(): void;
}

/** The library works with logarithms to this base (its default, 1.0001). */
const NATS_PER_UNIT = Math.log(1.0001);
/** It keeps path scores in steps of 2^10 units (SENSCR_SHIFT). */
const NATS_PER_STEP = NATS_PER_UNIT * 1024;

/** Samples: fewer than this hold no word. */
const SHORTEST = 800;
/** Samples that the library is given at a time of audio that is still coming in. */
const PIECE = 1600;

function text(module: SpeechModule, pointer: number): string {
  let end = pointer;
  while (module.HEAPU8[end]) end += 1;
  return new TextDecoder().decode(module.HEAPU8.slice(pointer, end));
}

function withText<T>(module: SpeechModule, value: string, use: (pointer: number) => T): T {
  const bytes = new TextEncoder().encode(value);
  const pointer = module._malloc(bytes.length + 1);
  module.HEAPU8.set(bytes, pointer);
  module.HEAPU8[pointer + bytes.length] = 0;
  try { return use(pointer); } finally { module._free(pointer); }
}

/** Pairs of states joined by silent transitions only, with the best weight: the search follows one silent step, so all are needed. */
export function silentClosure(grammar: Pick<SpokenGrammar, 'states' | 'arcs'>): Map<number, Map<number, number>> {
  const direct = new Map<number, { to: number; weight: number }[]>();
  for (const { from, to, word, weight } of grammar.arcs)
    if (word === null && from !== to) direct.set(from, [...(direct.get(from) ?? []), { to, weight }]);
  const closure = new Map<number, Map<number, number>>();
  for (const state of direct.keys()) {
    const reached = new Map<number, number>();
    const open = [{ to: state, weight: 0 }];
    for (let next = open.pop(); next; next = open.pop())
      for (const step of direct.get(next.to) ?? []) {
        const weight = next.weight + step.weight;
        if (step.to !== state && weight > (reached.get(step.to) ?? -Infinity)) {
          reached.set(step.to, weight);
          open.push({ to: step.to, weight });
        }
      }
    closure.set(state, reached);
  }
  return closure;
}

/**
 * Opens a decoder on a loaded model.
 * @param modelDir folder or address of the model files, without a closing slash
 * @param changeMeans changes the file of the Gaussians' means, in place, before it is used (a voice profile)
 * @throws when the model files cannot be read
 */
export async function openDecoder(module: SpeechModule, modelDir: string, settings: SearchSettings, changeMeans?: (file: Uint8Array) => void): Promise<Decoder> {
  const { remove_noise, ...search } = settings;
  const decoder = new module.Decoder({
    ...search,
    hmm: modelDir,
    // Every word comes with its pronunciation from the grammar, so the 134,000-word dictionary stays unloaded (14 MB, 0.2 s).
    dict: `${modelDir}/none.txt`,
    samprate: 16000,
    fsgusealtpron: false,
    loglevel: 'FATAL',
  });
  // The model's own feature settings are read last and would win.
  const modelFeatures = decoder.init_featparams.bind(decoder);
  decoder.init_featparams = async () => {
    await modelFeatures();
    if (remove_noise !== undefined) decoder.set_config('remove_noise', remove_noise ? 1 : 0);
  };
  if (changeMeans) {
    const loadGaussians = decoder.load_gmm.bind(decoder);
    decoder.load_gmm = (...files) => {
      // The library reads the means first; what it has read is changed on its way in.
      const open = module._s3file_init;
      module._s3file_init = (file, bytes) => {
        module._s3file_init = open;
        changeMeans(module.HEAPU8.subarray(file, file + bytes));
        return open(file, bytes);
      };
      return loadGaussians(...files).finally(() => { module._s3file_init = open; });
    };
  }
  await decoder.initialize();
  const handle = decoder.cdecoder;
  const logmath = module._decoder_logmath(handle);
  const known = new Map<string, string>(); // pronunciation label -> word
  const labels = new Map<string, string>(); // "word|phones" -> label
  let streaming = false;
  let fsg = 0;
  let states = { start: 0, final: 0 };

  /** Adds a pronunciation once and returns its label in the library's dictionary. */
  function label(word: string, phones: string): string {
    const key = `${word}|${phones}`;
    const existing = labels.get(key);
    if (existing) return existing;
    const name = `${word}/${labels.size}`;
    const id = withText(module, name, (n) => withText(module, phones, (p) => module._decoder_add_word(handle, n, p, 0)));
    if (id < 0) throw new Error(`The pronunciation "${phones}" of "${word}" is not made of known phones.`);
    labels.set(key, name);
    known.set(name, word);
    return name;
  }

  function stop(): void {
    if (streaming) decoder.stop();
    streaming = false;
  }

  function setGrammar(grammar: SpokenGrammar): void {
    stop();
    const wordLabels = new Map<string, string[]>();
    for (const { word } of grammar.arcs) {
      if (word === null || wordLabels.has(word)) continue;
      const pronunciations = grammar.pronunciations.get(word);
      if (!pronunciations?.length) throw new Error(`The grammar "${grammar.name}" uses the word "${word}", which has no pronunciation. Add one to the lexicon in grammars/.`);
      wordLabels.set(word, pronunciations.map((phones) => label(word, phones)));
    }
    fsg = withText(module, grammar.name, (name) => module._fsg_model_init(name, logmath, settings.lw, grammar.states));
    const cost = (weight: number): number => Math.trunc((Math.min(0, weight) / NATS_PER_UNIT) * settings.lw);
    const ids = new Map([...wordLabels].map(([word, names]) => [word, names.map((name) => withText(module, name, (n) => module._fsg_model_word_add(fsg, n)))]));
    for (const { from, to, word, weight } of grammar.arcs)
      if (word !== null) for (const id of ids.get(word) ?? []) module._fsg_model_trans_add(fsg, from, to, cost(weight), id);
    for (const [from, reached] of silentClosure(grammar))
      for (const [to, weight] of reached) module._fsg_model_null_trans_add(fsg, from, to, cost(weight));
    states = { start: grammar.start, final: grammar.final };
    module._fsg_set_states(fsg, grammar.start, grammar.final);
    if (module._decoder_set_fsg(handle, fsg) < 0) throw new Error(`The speech engine refused the grammar "${grammar.name}".`);
  }

  /** Reads the best path into the end state that the automaton has at this moment. */
  function bestPath(): Path | null {
    const out = module._malloc(8);
    try {
      module.HEAP32[out >> 2] = 0;
      const hypothesis = module._decoder_hyp(handle, out);
      const score = (module.HEAP32[out >> 2] ?? 0) * NATS_PER_STEP;
      const words: PathWord[] = [];
      let frames = 0;
      if (!hypothesis) return null;
      for (let segment = module._decoder_seg_iter(handle); segment; segment = module._seg_iter_next(segment)) {
        module._seg_iter_frames(segment, out, out + 4);
        const from = module.HEAP32[out >> 2] ?? 0;
        const to = (module.HEAP32[(out >> 2) + 1] ?? 0) + 1;
        const word = known.get(text(module, module._seg_iter_word(segment)));
        frames = Math.max(frames, to);
        if (word !== undefined) words.push({ word, from, to });
      }
      return words.length ? { words, score, frames } : null;
    } finally { module._free(out); }
  }

  function decode(audio: Float32Array, ends: readonly number[] = [states.final]): (Path | null)[] {
    if (audio.length < SHORTEST) return ends.map(() => null);
    stop();
    decoder.start();
    try { decoder.process_audio(audio, false, true); } finally { decoder.stop(); }
    // The search keeps the best path into every state; moving the end state afterwards reads them all from one pass.
    const paths = ends.map((end) => {
      module._fsg_set_states(fsg, states.start, end);
      return bestPath();
    });
    module._fsg_set_states(fsg, states.start, states.final);
    return paths;
  }

  function stream(beginning: Float32Array): Stream {
    if (!fsg) throw new Error('No grammar has been set.');
    stop();
    const { values, bands } = logMel(beginning);
    decoder.set_config('cmninit', meanCepstrum(values, bands).join(','));
    // The library takes the mean over only when it sets up its features anew (0.1 ms).
    const frontEnd = module._decoder_init_fe(handle);
    const features = module._decoder_init_feat_s3file(handle, 0);
    if (module._acmod_reinit_feat(decoder.cacmod, frontEnd, features) < 0) throw new Error('The speech engine could not set up its features. Reload the page.');
    decoder.start();
    streaming = true;
    let fed = 0;
    return {
      feed(audio) {
        for (let at = 0; at < audio.length; at += PIECE) decoder.process_audio(audio.subarray(at, at + PIECE), false, false);
        fed += audio.length;
      },
      words: () => bestPath()?.words.map(({ word }) => word) ?? [],
      end() {
        stop();
        return fed < SHORTEST ? null : bestPath();
      },
    };
  }

  function logMel(audio: Float32Array): { values: Float32Array; bands: number } {
    const { data, nfeat } = decoder.spectrogram(audio);
    return { values: data, bands: nfeat };
  }

  return { setGrammar, decode, stream, logMel, dispose: () => decoder.delete() };
}
