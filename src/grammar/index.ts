/**
 * The spoken and written language, compiled from grammars/ (JSGF). Pure: it takes texts. Read them with
 * sources.node.ts (Node) or sources.browser.ts (Vite), which stay out of this entry so that neither platform meets the other's imports.
 */
export { GrammarError } from './jsgf';
export { linkGrammars, type GrammarTexts, type Rules } from './rules';
export { accepts, compileRule, type Automaton } from './automaton';
export { PHONES, readDictionary, type Pronunciations } from './lexicon';
export { acceptor, pronounce, spokenGrammar, type DictionaryText } from './spoken';
export { createGenerator, seededRandom, type GeneratedSentence } from './generate';
export { readContrasts, rivalsOf, type ContrastClass } from './contrasts';
export type { GrammarSources } from './sources';
export type { Arc, SpokenGrammar } from './spoken-grammar';
export { phraseTree, type PhraseNode } from './phrases';
