import { accepts, compileRule, type Automaton } from './automaton';
import { southernBritish } from './accents';
import { GrammarError } from './jsgf';
import { readDictionary, type Pronunciations } from './lexicon';
import { everyPart, type Rules } from './rules';
import type { Arc, SpokenGrammar } from './spoken-grammar';

/** Name and text of a dictionary file in CMUdict format. */
export interface DictionaryText { readonly file: string; readonly text: string }

/** Words that the spoken rule can reach, each with the place where it first stands. */
function wordsOf(rules: Rules, name: string): Map<string, { file: string; line: number; rule: string }> {
  const words = new Map<string, { file: string; line: number; rule: string }>();
  const seen = new Set<string>();
  const visit = (ruleName: string): void => {
    if (seen.has(ruleName)) return;
    seen.add(ruleName);
    const rule = rules.get(ruleName)!;
    for (const part of everyPart(rule.expansion)) {
      if (part.kind === 'rule') visit(part.name);
      else if (part.kind === 'word' && !words.has(part.word)) words.set(part.word, { file: rule.file, line: part.line, rule: rule.name });
    }
  };
  visit(name);
  return words;
}

/**
 * Pronunciations of every word of a rule. The project's lexicon adds to the base dictionary, so a word may have variants from both,
 * and each American one brings its British one along.
 * Throws GrammarError naming file, line, rule and word when a word has none.
 */
export function pronounce(rules: Rules, name: string, lexicon: DictionaryText, base: DictionaryText): Pronunciations {
  const words = wordsOf(rules, name);
  const wanted = new Set(words.keys());
  const own = readDictionary(lexicon.text, lexicon.file, wanted);
  const general = readDictionary(base.text, base.file, wanted);
  const all = new Map<string, string[]>();
  for (const [word, place] of words) {
    const variants = [...new Set([...(own.get(word) ?? []), ...(general.get(word) ?? [])])];
    if (variants.length === 0) throw new GrammarError(place.file, place.line, `rule <${place.rule}>: "${word}" has no pronunciation; add it to ${lexicon.file}.`);
    all.set(word, [...new Set([...variants, ...variants.flatMap((phones) => southernBritish(word, phones) ?? [])])]);
  }
  return all;
}

/**
 * Compiles what a recogniser listens for: the public rule `name` (usually "spoken") as a minimal deterministic
 * word automaton with one final state, each word with its pronunciations. Every state shares its probability evenly
 * among what may follow it (natural logarithms), as JSGF engines do for alternatives without weights.
 * Throws GrammarError when a word has no pronunciation.
 */
export function spokenGrammar(rules: Rules, lexicon: DictionaryText, base: DictionaryText, name = 'spoken'): SpokenGrammar {
  const automaton = compileRule(rules, name);
  return toSpokenGrammar(name, automaton, pronounce(rules, name, lexicon, base));
}

export function toSpokenGrammar(name: string, automaton: Automaton, pronunciations: Pronunciations): SpokenGrammar {
  const final = automaton.next.length;
  const arcs: Arc[] = [];
  automaton.next.forEach((words, from) => {
    const weight = -Math.log(words.size + (automaton.accepting[from] ? 1 : 0));
    for (const [word, to] of words) arcs.push({ from, to, word, weight });
    if (automaton.accepting[from]) arcs.push({ from, to: final, word: null, weight });
  });
  return { name, states: final + 1, start: 0, final, arcs, pronunciations };
}

/** Whether a spoken grammar has this sentence: for the contrast check that swaps one word. */
export function acceptor(grammar: SpokenGrammar): (words: readonly string[]) => boolean {
  const next = Array.from({ length: grammar.states }, () => new Map<string, number>());
  const accepting = new Array<boolean>(grammar.states).fill(false);
  for (const arc of grammar.arcs) if (arc.word === null) accepting[arc.from] = true; else next[arc.from]!.set(arc.word, arc.to);
  return (words) => accepts({ next, accepting }, words);
}
