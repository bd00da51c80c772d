import { acceptor, rivalsOf, type ContrastClass, type SpokenGrammar } from '../grammar';
import { checkAutomaton } from './automaton';
import { openDecoder, type Decoder, type Path, type SearchSettings, type SpeechModule } from './decoder';
import type { Alternative } from './recogniser';
import type { Evidence } from './verdict';

/** What a stretch of audio was heard as, with everything needed to judge it. */
export interface Hearing { readonly path: Path; readonly evidence: Evidence; readonly alternatives: readonly Alternative[] }

export interface ListenerSettings { readonly search: SearchSettings; readonly check: SearchSettings; /** Natural-log weight of a phone in the free loop. */ readonly loopWeight: number }

export const LISTENER: ListenerSettings = {
  search: { beam: 1e-100, pbeam: 1e-100, wbeam: 1e-80, lw: 6.5, wip: 0.65, silprob: 0.1, fillprob: 0.1 },
  check: { beam: 1e-290, pbeam: 1e-290, wbeam: 1e-290, lw: 6.5, wip: 0.65, silprob: 0.1, fillprob: 0.1 },
  loopWeight: 0,
};

/** The 39 phones of CMUdict. */
const PHONES = 'AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split(' ');
/** More rivals than this would slow the check; they are ordered by class, the most dangerous first. */
const MOST_RIVALS = 150;

/**
 * Hears one stretch of audio at a time, in two passes. The first finds the best sentence of the grammar.
 * The second puts that sentence beside its rivals (other side, other polarity, other grade …) and beside a free phone loop,
 * all in one automaton, so that their scores can be compared frame by frame.
 */
export class Listener {
  private readonly main: Decoder;
  private readonly check: Decoder;
  private readonly settings: ListenerSettings;
  private readonly contrasts: readonly ContrastClass[];
  private grammar: SpokenGrammar | null = null;
  private accepts: (words: readonly string[]) => boolean = () => false;

  private constructor(main: Decoder, check: Decoder, contrasts: readonly ContrastClass[], settings: ListenerSettings) {
    this.main = main;
    this.check = check;
    this.contrasts = contrasts;
    this.settings = settings;
  }

  /** Opens both decoders on one model. */
  static async open(module: SpeechModule, modelDir: string, contrasts: readonly ContrastClass[], settings: ListenerSettings = LISTENER): Promise<Listener> {
    const main = await openDecoder(module, modelDir, settings.search);
    const check = await openDecoder(module, modelDir, settings.check);
    return new Listener(main, check, contrasts, settings);
  }

  setGrammar(grammar: SpokenGrammar): void {
    this.main.setGrammar(grammar);
    this.grammar = grammar;
    this.accepts = acceptor(grammar);
  }

  /** First pass only: what it sounds like so far. */
  glimpse(audio: Float32Array): string {
    return this.main.decode(audio)[0]?.words.map(({ word }) => word).join(' ') ?? '';
  }

  /** Both passes; null when no sentence of the grammar fits at all. */
  hear(audio: Float32Array): Hearing | null {
    if (!this.grammar) throw new Error('No grammar has been set.');
    const path = this.main.decode(audio)[0];
    if (!path) return null;
    const sentence = path.words.map(({ word }) => word);
    const rivals = rivalsOf(sentence, this.contrasts, this.accepts).slice(0, MOST_RIVALS);
    const { grammar, ends, loopEnd } = checkAutomaton([sentence, ...rivals], PHONES, this.grammar.pronunciations, this.settings.loopWeight);
    this.check.setGrammar(grammar);
    const [loop, own, ...others] = this.check.decode(audio, [loopEnd, ...ends]);
    const frames = Math.max(1, path.frames);
    const ownScore = own?.score ?? -Infinity;
    const alternatives = others
      .flatMap((other, i) => (other ? [{ text: rivals[i]?.join(' ') ?? '', margin: (ownScore - other.score) / frames }] : []))
      .sort((a, b) => a.margin - b.margin)
      .slice(0, 5);
    const margin = alternatives[0] ? alternatives[0].margin * frames : null;
    const phones = sentence.reduce((sum, word) => sum + (this.grammar?.pronunciations.get(word)?.[0]?.split(' ').length ?? 0), 0);
    return {
      path,
      alternatives,
      evidence: { perFrame: ownScore / frames, overLoop: loop ? (ownScore - loop.score) / frames : 0, margin, frames, words: sentence.length, phones },
    };
  }

  dispose(): void { this.main.dispose(); this.check.dispose(); }
}
