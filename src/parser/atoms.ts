import type { PhraseNode } from '../grammar';

/** The smallest piece of meaning: one tag of a phrase, with the words it stands for. */
export interface Atom {
  readonly key: string;
  readonly value: string;
  /** Words of the phrase, and which tokens of the text they are (from included, to excluded). */
  readonly words: string;
  readonly from: number;
  readonly to: number;
}

export interface Token { readonly word: string; readonly start: number; readonly end: number }

/** Letters with apostrophes, numbers with decimals, or a single other character. */
const TOKEN = /\d+(?:st|nd|rd|th)\b|\d+(?:\.\d+)?|\p{L}[\p{L}\p{M}]*(?:['’]\p{L}+)?|[^\s]/gu;
const PLAIN: ReadonlyMap<string, string> = new Map(Object.entries({ '+': 'plus', '–': '-', '−': '-', '°': 'degrees', '&': 'and', '<': 'under', '>': 'above', '½': 'half', '@': 'at' }));

/** Splits a text to lower-case words, numbers and marks, each with its place in the text. */
export function tokenise(text: string): Token[] {
  return [...text.matchAll(TOKEN)].filter((match) => !isHyphen(text, match.index)).map((match) => {
    const raw = PLAIN.get(match[0]) ?? (PLAIN_LETTERS.test(match[0]) ? match[0] : match[0].normalize('NFKD').replace(/\p{M}/gu, '').replace('’', "'")).toLowerCase();
    return { word: raw, start: match.index, end: match.index + match[0].length };
  });
}

const PLAIN_LETTERS = /^[a-z']+$/i;
/** "swan-neck": a hyphen between letters joins words that the grammar knows apart. */
const isHyphen = (text: string, at: number): boolean => text[at] === '-' && /\p{L}/u.test(text[at - 1] ?? '') && /\p{L}/u.test(text[at + 1] ?? '');

const MARKS: ReadonlyMap<string, string> = new Map(Object.entries({ '.': 'stop', ';': 'stop', '!': 'stop', '?': 'ask', ',': 'comma', ':': 'colon', '/': 'slash', '-': 'dash', '(': 'comma', ')': 'comma' }));

interface Step { readonly cost: number; readonly to: number; readonly tags?: readonly string[] }

/** Reads tokens as the cheapest row of phrases: first as few unknown words, then as few phrases as can be. */
export function readAtoms(tokens: readonly Token[], tree: PhraseNode): Atom[] {
  const best: Step[] = new Array<Step>(tokens.length + 1);
  best[tokens.length] = { cost: 0, to: tokens.length };
  for (let from = tokens.length - 1; from >= 0; from -= 1) {
    const word = tokens[from]!.word;
    const mark = MARKS.get(word);
    const single = /^\d/.test(word) ? [`n=${word}`] : mark ? [mark] : undefined;
    let chosen: Step = { cost: best[from + 1]!.cost + (single ? 1 : 1000), to: from + 1, ...(single ? { tags: single } : {}) };
    let node: PhraseNode | undefined = tree;
    for (let to = from; to < tokens.length; to += 1) {
      const { word: next } = tokens[to]!;
      // "Tinel's" is the grammar's "tinel"; "there's" is a word of its own.
      node = node.next.get(next) ?? (next.endsWith("'s") ? node.next.get(next.slice(0, -2)) : undefined);
      if (!node) break;
      const cost = best[to + 1]!.cost + 1;
      if (node.tags && cost <= chosen.cost) chosen = { cost, to: to + 1, tags: node.tags };
    }
    best[from] = chosen;
  }
  const atoms: Atom[] = [];
  for (let from = 0; from < tokens.length; from = best[from]!.to) {
    const { to, tags } = best[from]!;
    const words = tokens.slice(from, to).map((token) => token.word).join(' ');
    for (const tag of tags ?? ['unknown']) {
      const [key = '', value = ''] = tag.split('=', 2);
      atoms.push({ key, value, words, from, to });
    }
  }
  return atoms;
}
