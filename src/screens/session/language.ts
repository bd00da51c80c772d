import { linkGrammars, readContrasts, spokenGrammar } from '../../grammar';
import type { SpokenGrammar } from '../../grammar';
import { bundledSources, grammarSources } from '../../grammar/sources.browser';
import { createParser, createSense } from '../../parser';
import type { ParseUtterance } from '../../parser';
import { createWorkerRecogniser } from '../../recogniser';
import type { Recogniser } from '../../recogniser';
import { ENGINE_WORDS, FramedVosk, withSense } from '../../recogniser/vosk';
import type { EngineName } from '../../recogniser/vosk';
import { enginesHere, planHearing, secondStopped } from '../hearing/engines';
import { FirstThatWorks } from '../hearing/first-that-works';
import { loadSettings } from '../shared/settings';
import type { Settings } from '../shared/settings';
import { loadVoice } from '../shared/voice-store';

/** The language as bundled with the page, and the engines that listen for it. The language is made once, when first needed. */

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}

const rules = once(() => linkGrammars(bundledSources.grammars));
export const parser: () => ParseUtterance = once(() => createParser(rules()));
const sense = once(() => createSense(rules(), parser()));
const contrasts = once(() => readContrasts(bundledSources.contrasts));

let listened: Promise<SpokenGrammar> | undefined;
/** What the recogniser listens for. Needs the general dictionary, fetched from this page's own server. */
export function heardGrammar(): Promise<SpokenGrammar> {
  listened ??= grammarSources().then(({ lexicon, base }) => spokenGrammar(rules(), lexicon, base));
  // A failed fetch may succeed the next time.
  listened.catch(() => { listened = undefined; });
  return listened;
}

/** Where this page serves the acoustic model. */
export const modelUrl = (): string => new URL('models/', document.baseURI).href;

const builtIn = (): Recogniser => createWorkerRecogniser({
  modelUrl: modelUrl(), contrasts: contrasts(), partials: true, keepAudio: true, profile: loadVoice,
  makeWorker: () => new Worker(new URL('./hearing-worker.ts', import.meta.url), { type: 'module', name: 'hearing' }),
});

function second(speech: Settings['speech']): Recogniser {
  const engine = new FramedVosk({ base: 'models/vosk', contrasts: contrasts(), mode: speech === 'free' ? 'open' : 'grammar' });
  return speech === 'free' ? withSense(engine, sense()) : engine;
}

/** One engine by its name, not loaded yet. */
export const makeEngine = (engine: EngineName, speech: Settings['speech'] = 'short'): Recogniser => (engine === 'vosk' ? second(speech) : builtIn());

/** The same, remembered if it stops while it hears. */
function makeWatched(engine: EngineName, speech: Settings['speech']): Recogniser {
  const made = makeEngine(engine, speech);
  if (engine === 'vosk') made.listen((event) => { if (event.type === 'failed' && event.fatal) secondStopped(event.message); });
  return made;
}

/** The engine of the settings, and the built-in one where that can't be had. What is installed and set is looked up when it is loaded. */
export const makeRecogniser = (): Recogniser => new FirstThatWorks(async () => {
  const { engine, speech, note } = planHearing(await enginesHere(), loadSettings());
  const engines = engine === 'vosk' ? ['vosk', 'embedded'] as const : [engine];
  return { engines: engines.map((name) => ({ words: ENGINE_WORDS[name], make: () => makeWatched(name, speech) })), ...(note ? { note } : {}) };
});
