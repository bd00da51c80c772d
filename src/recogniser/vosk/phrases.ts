import type { Arc, SpokenGrammar } from '../../grammar/spoken-grammar';
import type { SpellingTable } from './spelling-map';

/** The word the engine writes for speech outside its list, if the list holds it. */
export const UNKNOWN = '[unk]';

/** The automaton without silent arcs: from each state, the words that can come next and where they lead. */
interface WordGraph { readonly next: readonly (readonly Arc[])[]; readonly ends: readonly boolean[] }

function wordGraph(grammar: SpokenGrammar): WordGraph {
  const out: Arc[][] = Array.from({ length: grammar.states }, () => []);
  for (const arc of grammar.arcs) out[arc.from]?.push(arc);
  const closure = (state: number): Set<number> => {
    const seen = new Set([state]);
    for (const at of seen) for (const arc of out[at] ?? []) if (arc.word === null) seen.add(arc.to);
    return seen;
  };
  const closures = out.map((_, state) => closure(state));
  return {
    next: closures.map((states) => [...states].flatMap((state) => (out[state] ?? []).filter(({ word }) => word !== null))),
    ends: closures.map((states) => states.has(grammar.final)),
  };
}

/** For every state the shortest way on to the end (the arc to take), or null where it ends or none leads there. */
function waysToEnd({ next, ends }: WordGraph): (Arc | null)[] {
  const into: Arc[][] = next.map(() => []);
  next.forEach((arcs, from) => { for (const arc of arcs) into[arc.to]?.push({ ...arc, from }); });
  const way: (Arc | null)[] = next.map(() => null);
  const seen = new Set<number>(ends.flatMap((end, state) => (end ? [state] : [])));
  for (const state of seen) for (const arc of into[state] ?? []) if (!seen.has(arc.from)) { seen.add(arc.from); way[arc.from] = arc; }
  return way.map((arc, state) => (seen.has(state) ? arc : null));
}

const START = '';

/**
 * Sentences of the grammar that together hold every pair of neighbouring words it allows, every first and
 * every last word. The engine makes a bigram of its phrase list, so these sentences give it all that the
 * full language would, however many sentences that has.
 */
export function coveringSentences(grammar: SpokenGrammar): string[][] {
  const graph = wordGraph(grammar);
  const toEnd = waysToEnd(graph);
  const alive = (arc: Arc): boolean => Boolean(graph.ends[arc.to]) || toEnd[arc.to] !== null;
  const covered = new Set<string>();
  const pair = (a: string, b: string): string => `${a} ${b}`;
  const sentences: string[][] = [];
  // Breadth first, each place (arc) reached once by its shortest way from the start.
  const places: { readonly arc: Arc; readonly before: number }[] = [];
  const reached = new Set<Arc>();
  const visit = (state: number, before: number): void => {
    for (const arc of graph.next[state] ?? []) if (!reached.has(arc) && alive(arc)) { reached.add(arc); places.push({ arc, before }); }
  };
  const prefix = (place: number): Arc[] => {
    const way: Arc[] = [];
    for (let at = place; at >= 0; at = places[at]!.before) way.unshift(places[at]!.arc);
    return way;
  };
  const finish = (way: Arc[]): void => {
    for (;;) {
      const last = way.at(-1)!;
      const fresh = graph.next[last.to]?.find((arc) => alive(arc) && !covered.has(pair(last.word!, arc.word!)));
      const on = fresh ?? (graph.ends[last.to] ? null : toEnd[last.to]);
      if (!on) break;
      covered.add(pair(last.word!, on.word!));
      way.push(on);
    }
    covered.add(pair(way.at(-1)!.word!, START));
    way.forEach((arc, n) => covered.add(pair(n ? way[n - 1]!.word! : START, arc.word!)));
    sentences.push(way.map((arc) => arc.word!));
  };
  visit(grammar.start, -1);
  for (let at = 0; at < places.length; at += 1) {
    const { arc, before } = places[at]!;
    const previous = before < 0 ? START : places[before]!.arc.word!;
    if (!covered.has(pair(previous, arc.word!))) finish(prefix(at));
    if (graph.ends[arc.to] && !covered.has(pair(arc.word!, START))) {
      covered.add(pair(arc.word!, START));
      sentences.push(prefix(at).map(({ word }) => word!));
    }
    for (const on of graph.next[arc.to] ?? []) if (alive(on) && !covered.has(pair(arc.word!, on.word!))) finish([...prefix(at), on]);
    visit(arc.to, at);
  }
  return sentences;
}

/** How a word is to be written for the engine: as it is, or in one of its spellings; empty if it can't be written. */
export type Writing = (word: string) => readonly (readonly string[])[];

export const writingOf = (known: ReadonlySet<string>, table: SpellingTable): Writing =>
  (word) => table.get(word) ?? (known.has(word) ? [[word]] : []);

/** The grammar's words that can't be written for the engine. */
export const unwritable = (grammar: SpokenGrammar, writing: Writing): string[] =>
  [...new Set(grammar.arcs.flatMap(({ word }) => (word !== null && !writing(word).length ? [word] : [])))].sort();

/**
 * The phrase list for the engine: the covering sentences with every word written as the engine knows it
 * (a word with two spellings gives its phrases twice), and the unknown word, so that other speech has somewhere to go.
 * A word that can't be written is left out with every way through it: see `unwritable`.
 */
export function phraseList(grammar: SpokenGrammar, writing: Writing): string[] {
  const phrases = new Set<string>();
  const arcs = grammar.arcs.filter(({ word }) => word === null || writing(word).length);
  for (const sentence of coveringSentences({ ...grammar, arcs })) {
    const ways = sentence.map(writing);
    const most = Math.max(...ways.map((list) => list.length));
    for (let n = 0; n < most; n += 1) phrases.add(ways.map((list) => list[n % list.length]!.join(' ')).join(' '));
  }
  return [...phrases, UNKNOWN];
}
