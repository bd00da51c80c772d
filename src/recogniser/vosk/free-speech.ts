import type { Recogniser, RecogniserEvent, Utterance } from '../recogniser';
import { LIMITS } from './judge';

/** What the language makes of words said freely. The parser brings it (createSense), because engines stand before it. */
export type MakeSense = (text: string) => { /** Whether it says or names anything of the examination. */ readonly concerns: boolean; /** Words that the language lacks. */ readonly strange: readonly string[] };

const NOT_OURS = 'Speech that is not for the recorder.';

/**
 * The safety rules for words that no grammar vouches for. What says nothing of the examination is ignored, and its words are
 * dropped: they may be the patient's. A word that the language lacks may be a wrong hearing of one that it has, so what holds one
 * is asked about, however sure the engine was.
 */
export function weighFreeSpeech(utterance: Utterance, makeSense: MakeSense): Utterance {
  const { text, verdict } = utterance;
  const { concerns, strange } = makeSense(text);
  if (verdict === 'ignored' || !concerns || strange.length / text.split(/\s+/).length >= LIMITS.unknown) {
    const { audio: _audio, ...rest } = utterance;
    return { ...rest, verdict: 'ignored', why: NOT_OURS, text: '', words: [], alternatives: [] };
  }
  const [first] = strange;
  return first && verdict === 'accepted' ? { ...utterance, verdict: 'queried', why: `The recorder does not know the word "${first}" here.` } : utterance;
}

/** An engine that hears freely, with every utterance weighed by what it means before anybody sees it. */
export function withSense(recogniser: Recogniser, makeSense: MakeSense): Recogniser {
  const weigh = (event: RecogniserEvent): RecogniserEvent => (event.type === 'utterance' ? { ...event, utterance: weighFreeSpeech(event.utterance, makeSense) } : event);
  return {
    engine: recogniser.engine,
    load: () => recogniser.load(),
    setGrammar: (grammar) => recogniser.setGrammar(grammar),
    push: (audio) => recogniser.push(audio),
    finish: () => recogniser.finish(),
    listen: (listener) => recogniser.listen((event) => listener(weigh(event))),
    dispose: () => recogniser.dispose(),
  };
}
