import type { DictionaryText } from './spoken';
import type { GrammarTexts } from './rules';

/** Everything the language is made of, as text. Read by sources.node.ts or sources.browser.ts. */
export interface GrammarSources {
  readonly grammars: GrammarTexts;
  readonly lexicon: DictionaryText;
  /** Classes of words that must not be taken for one another, one class a line. */
  readonly contrasts: string;
  /** The general dictionary of the embedded engine. In the page it is fetched only when a recogniser needs it. */
  readonly base: DictionaryText;
}
