import baseUrl from '../../node_modules/soundswallower/model/en-us/dict.txt?url';
import contrasts from '../../grammars/contrasts.txt?raw';
import lexicon from '../../grammars/lexicon.dict?raw';
import type { GrammarSources } from './sources';

const files = import.meta.glob<string>('../../grammars/*.jsgf', { query: '?raw', import: 'default', eager: true });
const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

/** The grammars as bundled with the page: what the parser needs, at once. */
export const bundledSources: Omit<GrammarSources, 'base'> = {
  grammars: Object.fromEntries(Object.entries(files).map(([path, text]) => [nameOf(path), text])),
  lexicon: { file: 'lexicon.dict', text: lexicon },
  contrasts,
};

/** All sources, with the general dictionary fetched from the page's own origin. */
export async function grammarSources(): Promise<GrammarSources> {
  const answer = await fetch(baseUrl);
  if (!answer.ok) throw new Error(`The pronunciation dictionary could not be read (${answer.status} for ${baseUrl}). Reload the page; if that fails, run "npm start" again.`);
  return { ...bundledSources, base: { file: 'dict.txt', text: await answer.text() } };
}
