import { linkGrammars, phraseTree, spokenGrammar, type GrammarSources } from '../../../src/grammar';
import { createParser } from '../../../src/parser';

/** Milliseconds of each step that makes the language ready, as it is done once when the page starts. */
export interface CompileTimes { readonly link: number; readonly compile: number; readonly phrases: number; readonly parser: number; readonly arcs: number }

/** Compiles everything once and times it. Runs in Node and in a page. */
export function timeCompile({ grammars, lexicon, base }: GrammarSources): CompileTimes {
  const start = performance.now();
  const rules = linkGrammars(grammars);
  const linked = performance.now();
  const { arcs } = spokenGrammar(rules, lexicon, base);
  const compiled = performance.now();
  phraseTree(rules, 'phrase');
  const laid = performance.now();
  createParser(rules)('left thumb abduction grade four', { findings: [] });
  return { link: linked - start, compile: compiled - linked, phrases: laid - compiled, parser: performance.now() - laid, arcs: arcs.length };
}
