import { readdirSync, readFileSync } from 'node:fs';
import type { GrammarSources } from './sources';

const folder = new URL('../../grammars/', import.meta.url);
const read = (name: string): string => readFileSync(new URL(name, folder), 'utf8');

/** Reads grammars/ and the embedded engine's dictionary from disk (Node: headless command, tests, set-up). */
export function grammarSources(): GrammarSources {
  // By path: the package exports no sub-paths.
  const base = new URL('../../node_modules/soundswallower/model/en-us/dict.txt', import.meta.url);
  return {
    grammars: Object.fromEntries(readdirSync(folder).filter((name) => name.endsWith('.jsgf')).sort().map((name) => [name, read(name)])),
    lexicon: { file: 'lexicon.dict', text: read('lexicon.dict') },
    contrasts: read('contrasts.txt'),
    base: { file: 'dict.txt', text: readFileSync(base, 'utf8') },
  };
}
