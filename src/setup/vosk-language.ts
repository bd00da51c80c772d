import { existsSync, readFileSync } from 'node:fs';
import { linkGrammars, readDictionary, spokenGrammar, type SpokenGrammar } from '../grammar';
import { grammarSources } from '../grammar/sources.node.ts';
import type { Overrides } from '../recogniser/vosk/sounds-like';
import type { Language } from './vosk-model';

const OVERRIDES = new URL('../../grammars/sounds-like.json', import.meta.url);

/** Hand-made spellings, `{ "word": ["other words", …] }`. @throws Error saying where the file is wrong */
export function readOverrides(text: string): Overrides {
  const value: unknown = JSON.parse(text);
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new Error('grammars/sounds-like.json must be an object: a word, and a list of spellings.');
  for (const [word, list] of Object.entries(value))
    if (!Array.isArray(list) || !list.every((text) => typeof text === 'string' && text.trim())) throw new Error(`grammars/sounds-like.json: "${word}" needs a list of spellings, such as ["thin are"].`);
  return value as Overrides;
}

/** The whole spoken language, compiled from grammars/. */
export function projectSpokenGrammar(): SpokenGrammar {
  const { grammars, lexicon, base } = grammarSources();
  return spokenGrammar(linkGrammars(grammars), lexicon, base);
}

/** The grammar's words, the general dictionary, and the hand-made spellings. */
export function projectLanguage(): Language {
  const { base } = grammarSources();
  return {
    grammarWords: projectSpokenGrammar().pronunciations,
    lexicon: readDictionary(base.text, base.file),
    overrides: existsSync(OVERRIDES) ? readOverrides(readFileSync(OVERRIDES, 'utf8')) : {},
  };
}
