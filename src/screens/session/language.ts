import { linkGrammars, readContrasts, spokenGrammar } from '../../grammar';
import type { SpokenGrammar } from '../../grammar';
import { bundledSources, grammarSources } from '../../grammar/sources.browser';
import { createParser } from '../../parser';
import type { ParseUtterance } from '../../parser';
import { createWorkerRecogniser } from '../../recogniser';
import type { Recogniser } from '../../recogniser';
import { loadVoice } from '../shared/voice-store';

/** The language as bundled with the page, and the recogniser that listens for it. Each is made once, when first needed. */

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => (made ??= { value: make() }).value;
}

const rules = once(() => linkGrammars(bundledSources.grammars));
export const parser: () => ParseUtterance = once(() => createParser(rules()));

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

export const makeRecogniser = (): Recogniser => createWorkerRecogniser({
  modelUrl: modelUrl(),
  contrasts: readContrasts(bundledSources.contrasts),
  partials: true, keepAudio: true, profile: loadVoice,
  makeWorker: () => new Worker(new URL('./hearing-worker.ts', import.meta.url), { type: 'module', name: 'hearing' }),
});
