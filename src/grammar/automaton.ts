import type { Expansion } from './jsgf';
import { everyPart, type Rules } from './rules';

/** A deterministic, minimal acceptor of word sequences. State 0 starts. */
export interface Automaton {
  /** For each state, where each word leads. */
  readonly next: readonly ReadonlyMap<string, number>[];
  readonly accepting: readonly boolean[];
}

interface Nfa { readonly silent: number[][]; readonly spoken: [string, number][][] }

const addState = (nfa: Nfa): number => { nfa.silent.push([]); nfa.spoken.push([]); return nfa.silent.length - 1; };

/** Thompson's construction: adds the expansion after `from`, returns the state behind it. */
function build(nfa: Nfa, rules: Rules, expansion: Expansion, from: number, parts: Map<string, Automaton>): number {
  switch (expansion.kind) {
    case 'tag': return from;
    case 'word': { const to = addState(nfa); nfa.spoken[from]!.push([expansion.word, to]); return to; }
    case 'rule': return splice(nfa, partOf(rules, expansion.name, parts), from);
    case 'sequence': return expansion.items.reduce((state, item) => build(nfa, rules, item, state, parts), from);
    case 'alternatives': {
      const to = addState(nfa);
      for (const option of expansion.options) {
        const start = addState(nfa);
        nfa.silent[from]!.push(start);
        nfa.silent[build(nfa, rules, option, start, parts)]!.push(to);
      }
      return to;
    }
    case 'optional': {
      const start = addState(nfa);
      const to = addState(nfa);
      nfa.silent[from]!.push(start, to);
      nfa.silent[build(nfa, rules, expansion.item, start, parts)]!.push(to);
      return to;
    }
    case 'repeat': {
      const start = addState(nfa);
      const to = addState(nfa);
      nfa.silent[from]!.push(start);
      if (expansion.min === 0) nfa.silent[from]!.push(to);
      const end = build(nfa, rules, expansion.item, start, parts);
      nfa.silent[end]!.push(start, to);
      return to;
    }
  }
}

/** Gives equal texts one number, counting from 0 in the order of their coming. */
function numbering(): ((text: string) => number) & { readonly count: () => number } {
  const known = new Map<string, number>();
  return Object.assign((text: string): number => {
    let id = known.get(text);
    if (id === undefined) known.set(text, (id = known.size));
    return id;
  }, { count: () => known.size });
}

/** A rule by itself, as small as can be. Rules are used in many places, so each is made once and copied in. */
function partOf(rules: Rules, name: string, parts: Map<string, Automaton>): Automaton {
  let part = parts.get(name);
  if (!part) {
    const nfa: Nfa = { silent: [], spoken: [] };
    const start = addState(nfa);
    part = minimise(determinise(nfa, start, build(nfa, rules, rules.get(name)!.expansion, start, parts)));
    parts.set(name, part);
  }
  return part;
}

/** Copies an automaton in after `from`, returns the state behind it. */
function splice(nfa: Nfa, { next, accepting }: Automaton, from: number): number {
  const first = nfa.silent.length;
  for (let state = 0; state < next.length; state += 1) addState(nfa);
  const to = addState(nfa);
  nfa.silent[from]!.push(first);
  next.forEach((arcs, state) => {
    for (const [word, target] of arcs) nfa.spoken[first + state]!.push([word, first + target]);
    if (accepting[state]) nfa.silent[first + state]!.push(to);
  });
  return to;
}

/** Subset construction. */
function determinise(nfa: Nfa, start: number, final: number): { next: Map<string, number>[]; accepting: boolean[] } {
  const closure = (seeds: Iterable<number>): number[] => {
    const seen = new Set(seeds);
    const queue = [...seen];
    for (let state = queue.pop(); state !== undefined; state = queue.pop())
      for (const to of nfa.silent[state]!) if (!seen.has(to)) { seen.add(to); queue.push(to); }
    // Only states that spell a word or end the sentence tell subsets apart.
    return [...seen].filter((state) => state === final || nfa.spoken[state]!.length > 0).sort((a, b) => a - b);
  };
  const next: Map<string, number>[] = [];
  const accepting: boolean[] = [];
  const known = new Map<string, number>();
  const subsets: number[][] = [];
  const idOf = (subset: number[]): number => {
    const key = subset.join();
    const old = known.get(key);
    if (old !== undefined) return old;
    const id = subsets.push(subset) - 1;
    known.set(key, id);
    next.push(new Map());
    accepting.push(subset.includes(final));
    return id;
  };
  idOf(closure([start]));
  for (let id = 0; id < subsets.length; id += 1) {
    const targets = new Map<string, Set<number>>();
    for (const state of subsets[id]!) for (const [word, to] of nfa.spoken[state]!) {
      const set = targets.get(word);
      if (set) set.add(to); else targets.set(word, new Set([to]));
    }
    for (const [word, set] of targets) next[id]!.set(word, idOf(closure(set)));
  }
  return { next, accepting };
}

/**
 * Moore's partition refinement: states that no continuation tells apart become one. Which words leave a state never changes,
 * so that is compared once, and the rounds compare only where they lead.
 */
function minimise({ next, accepting }: { next: Map<string, number>[]; accepting: boolean[] }): Automaton {
  const number = numbering();
  const leaving = next.map((arcs) => [...arcs].sort(([a], [b]) => (a < b ? -1 : 1)));
  const targets = leaving.map((arcs) => arcs.map(([, to]) => to));
  let block = leaving.map((arcs, state) => number(`${accepting[state]};${arcs.map(([word]) => word).join()}`));
  for (let count = new Set(block).size; ;) {
    const renumber = numbering();
    const before = block;
    block = before.map((own, state) => {
      let key = String(own);
      for (const to of targets[state]!) key += `,${before[to]}`;
      return renumber(key);
    });
    const finer = renumber.count();
    if (finer === count) break;
    count = finer;
  }
  // Block 0 holds state 0, because ids are given in the order of states.
  const merged: Map<string, number>[] = [];
  const ends: boolean[] = [];
  next.forEach((arcs, state) => {
    const id = block[state]!;
    if (merged[id]) return;
    merged[id] = new Map([...arcs].map(([word, to]) => [word, block[to]!]));
    ends[id] = accepting[state]!;
  });
  return { next: merged, accepting: ends };
}

/** Cuts an automaton down to the sentences that hold at most one of these words. */
function atMostOneOf(words: ReadonlySet<string>, { next, accepting }: Automaton): { next: Map<string, number>[]; accepting: boolean[] } {
  const states = next.length;
  const cut: Map<string, number>[] = [];
  for (const said of [0, 1]) for (const arcs of next) {
    const kept = [...arcs].filter(([word]) => said === 0 || !words.has(word));
    cut.push(new Map(kept.map(([word, to]) => [word, to + states * (said === 1 || words.has(word) ? 1 : 0)])));
  }
  return trim({ next: cut, accepting: [...accepting, ...accepting] });
}

/** Drops what the start cannot reach and what can no longer end, and numbers the rest anew from the start. */
function trim({ next, accepting }: { next: Map<string, number>[]; accepting: boolean[] }): { next: Map<string, number>[]; accepting: boolean[] } {
  const sources: number[][] = next.map(() => []);
  next.forEach((arcs, from) => { for (const to of arcs.values()) sources[to]!.push(from); });
  const alive = new Set(accepting.flatMap((ends, state) => (ends ? [state] : [])));
  for (const state of alive) for (const from of sources[state]!) alive.add(from);
  const ids = new Map([[0, 0]]);
  for (const state of ids.keys()) for (const to of next[state]!.values()) if (alive.has(to) && !ids.has(to)) ids.set(to, ids.size);
  const kept = [...ids.keys()];
  return {
    next: kept.map((state) => new Map([...next[state]!].filter(([, to]) => ids.has(to)).map(([word, to]) => [word, ids.get(to)!]))),
    accepting: kept.map((state) => accepting[state]!),
  };
}

/** The name of the public rule that lists words of which a sentence may hold only one (sides). */
export const ONCE = 'once';

/** Compiles one rule (and all that it uses) to the smallest deterministic automaton over its words. */
export function compileRule(rules: Rules, name: string, once: ReadonlySet<string> = wordsOfOnce(rules)): Automaton {
  const rule = rules.get(name);
  if (!rule) throw new Error(`There is no rule <${name}> in the grammars.`);
  const whole = partOf(rules, name, new Map());
  return once.size === 0 ? whole : minimise(atMostOneOf(once, whole));
}

export function wordsOfOnce(rules: Rules): ReadonlySet<string> {
  const rule = rules.get(ONCE);
  return new Set(rule ? [...everyPart(rule.expansion)].flatMap((part) => (part.kind === 'word' ? [part.word] : [])) : []);
}

/** True when the words, in this order, are a whole sentence of the automaton. */
export function accepts(automaton: Automaton, words: readonly string[]): boolean {
  let state: number | undefined = 0;
  for (const word of words) {
    state = automaton.next[state]!.get(word);
    if (state === undefined) return false;
  }
  return automaton.accepting[state]!;
}
