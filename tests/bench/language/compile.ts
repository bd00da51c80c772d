import { linkGrammars, spokenGrammar, type GrammarSources } from '../../../src/grammar';
import { createParser } from '../../../src/parser';

/** Reads, links and compiles the grammars to what a recogniser listens for, as it is done once when the page starts; how many arcs that are. */
export function compileGrammar({ grammars, lexicon, base }: GrammarSources): number {
  return spokenGrammar(linkGrammars(grammars), lexicon, base).arcs.length;
}

/** Makes the parser and reads a first sentence with it; how many statements that gives. */
export function makeParser({ grammars }: GrammarSources): number {
  return createParser(linkGrammars(grammars))('left thumb abduction grade four', { findings: [] }).length;
}
