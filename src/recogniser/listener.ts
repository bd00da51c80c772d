import { acceptor, rivalsOf, type ContrastClass, type SpokenGrammar } from '../grammar';
import { neighbourFinder, sentenceTree, withPhoneLoop } from './automaton';
import { framesInWords, openDecoder, type Decoder, type Path, type SearchSettings, type SpeechModule } from './decoder';
import { denoise } from './denoise';
import type { Alternative } from './recogniser';
import { FirstPass } from './first-pass';
import { snrOf } from './spectrum';
import type { Evidence } from './verdict';
import { adaptMeans, type VoiceProfile } from './voice-profile';

/** A sentence that may have been said. */
export interface Candidate {
  readonly text: string;
  /** Its words in time. */
  readonly path: Path;
  /** Its score minus that of the phone loop on the same audio, in nats: comparable between passes. */
  readonly overLoop: number;
}

/** What a stretch of audio was heard as, with everything needed to judge it. */
export interface Hearing {
  readonly path: Path;
  readonly evidence: Evidence;
  readonly alternatives: readonly Alternative[];
  /** Best first; the first is what was heard. */
  readonly candidates: readonly Candidate[];
}

export interface ListenerSettings {
  readonly search: SearchSettings;
  readonly check: SearchSettings;
  /** Signal-to-noise ratio in dB below which steady noise is turned down; above it, doing so costs more than it gains. */
  readonly denoiseBelow: number;
}

/** Chosen on the tuning voices and sentences; `npm run bench:hearing -- --only ablation` prints what they are worth. */
export const LISTENER: ListenerSettings = {
  search: { beam: 1e-80, pbeam: 1e-80, wbeam: 1e-60, lw: 6.5, wip: 0.65, silprob: 0.1, fillprob: 0.1 },
  // No pruning: the phone loop lies hundreds of nats above what is checked.
  check: { beam: 0, pbeam: 0, wbeam: 0, lw: 6.5, wip: 0.65, silprob: 0.1, fillprob: 0.1 },
  denoiseBelow: 28,
};

/**
 * Words that rivals may add to the check together; contrasts come first. It costs about 0.6 ms of processor for each of them and each
 * second of audio: eight seconds of talk that fits nothing, with 200 rivals of 20 words, took 9.5 s.
 */
const MOST_RIVAL_WORDS = 400;
/** So many beside the best are kept: the right sentence is among twenty 95 % of the time. */
const MOST_CANDIDATES = 20;

export interface ListenerParts {
  readonly contrasts: readonly ContrastClass[];
  /** Whether two sentences mean the same ("on the left wrist", "left wrist"): then neither is a rival of the other. */
  readonly sameMeaning?: (one: string, other: string) => boolean;
  readonly settings?: ListenerSettings;
  /** Of the speaker, computed for this very model. */
  readonly profile?: VoiceProfile;
}

/**
 * Hears one stretch of audio at a time. The first pass finds the best sentence of the grammar, while it is spoken. The second puts that
 * sentence beside its rivals (the contrasts: other side, other polarity, other grade …, and every sentence one word away)
 * and beside what the audio is worth without a grammar.
 */
export class Listener {
  private readonly first: FirstPass;
  private readonly check: Decoder;
  private readonly parts: ListenerParts;
  private readonly settings: ListenerSettings;
  private grammar: SpokenGrammar | null = null;
  private accepts: (words: readonly string[]) => boolean = () => false;
  private neighbours: (words: readonly string[]) => string[][] = () => [];

  private constructor(first: FirstPass, check: Decoder, parts: ListenerParts) {
    this.first = first;
    this.check = check;
    this.parts = parts;
    this.settings = parts.settings ?? LISTENER;
  }

  /** Opens both decoders on one model. */
  static async open(module: SpeechModule, modelDir: string, parts: ListenerParts): Promise<Listener> {
    const settings = parts.settings ?? LISTENER;
    const { profile } = parts;
    const changeMeans = profile && ((file: Uint8Array): void => adaptMeans(file, profile.transform));
    const first = new FirstPass(await openDecoder(module, modelDir, settings.search, changeMeans), settings.denoiseBelow);
    const check = await openDecoder(module, modelDir, settings.check, changeMeans);
    return new Listener(first, check, parts);
  }

  setGrammar(grammar: SpokenGrammar): void {
    this.first.setGrammar(grammar);
    this.grammar = grammar;
    this.accepts = acceptor(grammar);
    this.neighbours = neighbourFinder(grammar);
  }

  /** Another utterance begins. */
  begin(): void { this.first.drop(); }

  /** Hears along with an utterance, as far as it has been spoken, from its beginning; returns what it sounds like so far. */
  follow(audio: Float32Array, noise: Float64Array): string { return this.first.follow(audio, noise).join(' '); }

  /** Both passes over a whole utterance; what has been followed of it need not be gone through again. Null when no sentence of the grammar fits at all. */
  hear(audio: Float32Array, noise: Float64Array): Hearing | null {
    if (!this.grammar) throw new Error('No grammar has been set.');
    const path = this.first.finish(audio, noise);
    if (!path) return null;
    const clean = this.clean(audio, noise);
    const sentence = path.words.map(({ word }) => word);
    const text = sentence.join(' ');
    const scored = this.score(clean, [sentence, ...this.rivals(sentence)]);
    const own = scored.find((candidate) => candidate.text === text);
    if (!own) return null;
    const frames = Math.max(1, path.frames);
    const same = this.parts.sameMeaning;
    const others = scored.filter((candidate) => candidate !== own).sort((a, b) => b.overLoop - a.overLoop);
    const alternatives = others
      .slice(0, 40)
      .filter((rival) => !same?.(text, rival.text))
      .slice(0, 5)
      .map((rival) => ({ text: rival.text, margin: (own.overLoop - rival.overLoop) / frames }));
    const spoken = framesInWords(path);
    return {
      path, alternatives, candidates: [own, ...others.slice(0, MOST_CANDIDATES)],
      evidence: {
        overLoop: own.overLoop / Math.max(1, spoken),
        margin: alternatives[0] ? alternatives[0].margin * frames : null,
        perToken: null,
        frames, spoken, words: sentence.length, snr: snrOf(audio, noise),
      },
    };
  }

  /** Candidates of the same audio around another sentence than the one heard first. */
  around(text: string, audio: Float32Array, noise: Float64Array): Candidate[] {
    const sentence = text.split(' ');
    return this.score(this.clean(audio, noise), [sentence, ...this.rivals(sentence)]).sort((a, b) => b.overLoop - a.overLoop).slice(0, MOST_CANDIDATES);
  }

  dispose(): void { this.first.dispose(); this.check.dispose(); }

  /** Scores sentences and the phone loop in one pass; those that do not fit the audio at all are left out. */
  private score(clean: Float32Array, sentences: readonly string[][]): Candidate[] {
    if (!this.grammar) throw new Error('No grammar has been set.');
    const tree = sentenceTree(sentences, this.grammar.pronunciations);
    const { grammar, loop: anySounds } = withPhoneLoop(tree.grammar);
    this.check.setGrammar(grammar);
    const [loop, ...paths] = this.check.decode(clean, [anySounds, ...tree.ends]);
    return !loop ? [] : paths.flatMap((path, i) => (path ? [{ text: sentences[i]?.join(' ') ?? '', path, overLoop: path.score - loop.score }] : []));
  }

  private clean(audio: Float32Array, noise: Float64Array): Float32Array {
    return snrOf(audio, noise) < this.settings.denoiseBelow ? denoise(audio, noise) : audio;
  }

  private rivals(sentence: readonly string[]): string[][] {
    const all = rivalsOf(sentence, this.parts.contrasts, this.accepts);
    if (this.parts.sameMeaning) all.push(...this.neighbours(sentence));
    let room = MOST_RIVAL_WORDS;
    return [...new Map(all.map((words) => [words.join(' '), words])).values()].filter((words) => {
      const changed = words.findIndex((word, i) => word !== sentence[i]);
      room -= changed < 0 ? 1 : words.length - changed;
      return room >= 0;
    });
  }
}
