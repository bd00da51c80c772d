import { phoneTree, soundsMostLike, type PhoneTree } from './lexicon-search';
import { editDistance, fromPhones, GAP, toPhones, type Phones } from './phones';

/** Words with their ARPAbet pronunciations. */
export type Lexicon = ReadonlyMap<string, readonly string[]>;

/** Words for a message: the first few, and how many more. */
export const someOf = (words: readonly string[], most = 8): string => (words.length > most ? `${words.slice(0, most).join(', ')} and ${words.length - most} more` : words.join(', '));

/** How a word that the model lacks is written in words that it has. */
export interface Spelling {
  readonly words: readonly string[];
  /** The pronunciation these words were taken to have, and the nearest one of the word they stand for. */
  readonly sounds: string;
  readonly target: string;
  /** Weighted edit distance between the two, in phones. */
  readonly distance: number;
  /** The grammar word that the spelling would be mistaken for first, and how far that is. */
  readonly rival?: { readonly word: string; readonly distance: number };
  readonly by: 'search' | 'hand';
}

/** What the second engine needs to know about a grammar's words. A plain JSON value. */
export interface SoundsLike {
  /** Grammar words that the model has. */
  readonly known: readonly string[];
  /** Grammar words that it lacks, with one to three spellings each, one for each way of saying it. */
  readonly spellings: Readonly<Record<string, readonly Spelling[]>>;
  /** Grammar words that it can't hear in any way, and why. */
  readonly unheard: Readonly<Record<string, string>>;
}

/** Spellings chosen by hand, by word: `{ "thenar": ["thin are", "the nar"] }`. */
export type Overrides = Readonly<Record<string, readonly string[]>>;

/** At most this far from the word, per phone of the word. A design choice; a voiced for an unvoiced stop costs 0.03, a vowel for its neighbour about 0.07. */
export const FARTHEST = 0.2;
/**
 * A spelling is at least this much nearer to its own word than to any other word of the grammar: half a lost phone.
 * Where two words lie closer than twice that themselves ("Tinel", "tunnel"), half their own distance is asked. A design choice.
 */
export const MARGIN = 0.5 * GAP;
const CANDIDATES = 60;
/** One for each way of saying the word, up to this many. */
const SPELLINGS = 3;
const LONGEST = 3;

interface Wanted { readonly word: string; readonly pronunciations: readonly Phones[] }

/** True if one word sequence begins with the other: then a text made of such sequences could be read in two ways. */
export const overlaps = (a: readonly string[], b: readonly string[]): boolean => a.slice(0, b.length).every((word, n) => word === b[n]);

/** Another word of the grammar, and by how much a spelling must be nearer to its own word than to this one. */
interface Other extends Wanted { readonly margin: number }

/** The other words of the grammar. Words of the same sound are left out: no spelling could tell them apart. */
function othersThan(own: Wanted, all: readonly Wanted[]): Other[] {
  return all.filter(({ word }) => word !== own.word).flatMap((other) => {
    const apart = Math.min(2 * MARGIN, ...own.pronunciations.flatMap((mine) => other.pronunciations.map((theirs) => editDistance(mine, theirs, 2 * MARGIN))));
    return apart > 0 ? [{ ...other, margin: apart / 2 }] : [];
  });
}

/** The word that phones at this distance from their own word would be mistaken for, if any. */
const mistakenFor = (phones: Phones, cost: number, others: readonly Other[]): string | undefined =>
  others.find(({ pronunciations, margin }) => pronunciations.some((pronunciation) => editDistance(phones, pronunciation, cost + margin) < cost + margin))?.word;

/** The other word nearest to these phones. */
function rivalOf(phones: Phones, others: readonly Wanted[]): { word: string; distance: number } | undefined {
  let best: { word: string; distance: number } | undefined;
  for (const { word, pronunciations } of others) {
    for (const pronunciation of pronunciations) {
      const distance = editDistance(phones, pronunciation, best?.distance);
      if (distance < (best?.distance ?? Infinity)) best = { word, distance };
    }
  }
  return best;
}

/**
 * Finds spellings for every grammar word that a model lacks.
 *
 * Three things hold for the result, whatever the model:
 * no spelling uses a word of the grammar, so none can be read as a real sentence or part of one;
 * no spelling begins with another, so spoken text has one reading (`mapBack` needs no guess);
 * each lies nearer to its own word than to any other word of the grammar, by a margin (see MARGIN).
 *
 * @param grammarWords the words that can be said, with their pronunciations
 * @param vocabulary the model's words, lower case
 * @param lexicon pronunciations of general words (CMUdict format); words it lacks can't be part of a spelling
 * @param overrides spellings by hand, which go before any search
 * @throws Error listing every hand-made spelling that breaks one of the first two rules or uses a word the model lacks
 */
export function soundsLike(grammarWords: Lexicon, vocabulary: ReadonlySet<string>, lexicon: Lexicon, overrides: Overrides = {}): SoundsLike {
  const all = [...grammarWords].map(([word, pronunciations]) => ({ word, pronunciations: pronunciations.map(toPhones) }));
  const known = all.filter(({ word }) => vocabulary.has(word)).map(({ word }) => word).sort();
  const taken: (readonly string[])[] = [];
  const spellings: Record<string, Spelling[]> = Object.create(null) as Record<string, Spelling[]>;
  const unheard: Record<string, string> = Object.create(null) as Record<string, string>;

  const byHand = all.filter(({ word }) => !vocabulary.has(word) && Object.hasOwn(overrides, word));
  const faults: string[] = [];
  for (const own of byHand) {
    spellings[own.word] = (overrides[own.word] ?? []).flatMap((text) => {
      const words = text.trim().toLowerCase().split(/\s+/);
      const fault = faultOf(words, vocabulary, grammarWords, taken);
      if (fault) { faults.push(`"${text}" for "${own.word}": ${fault}`); return []; }
      taken.push(words);
      return [handMade(words, own, all, lexicon)];
    });
  }
  if (faults.length) throw new Error(`Spellings that cannot be used: ${faults.join('; ')}.`);

  const usable = [...lexicon].filter(([word]) => vocabulary.has(word) && !grammarWords.has(word) && /^[a-z]+$/.test(word));
  const tree = phoneTree(usable);
  // Words with the fewest good spellings choose first.
  const missing = all.filter(({ word }) => !vocabulary.has(word) && !Object.hasOwn(overrides, word))
    .map((own) => candidatesFor(own, all, tree))
    .sort((a, b) => a.candidates.length - b.candidates.length || a.own.word.localeCompare(b.own.word));
  for (const round of Array.from({ length: SPELLINGS }, (_, n) => n)) {
    for (const { own, candidates, tooNear } of missing) {
      const mine = spellings[own.word] ?? [];
      if (mine.length < round) continue;
      const free = candidates.find(({ words, target }) => !taken.some((other) => overlaps(words, other) || overlaps(other, words)) && !mine.some((spelling) => spelling.target === target));
      if (free) {
        taken.push(free.words);
        spellings[own.word] = [...mine, withRival(free, own, all)];
      } else if (!mine.length) {
        unheard[own.word] = candidates.length ? 'every near spelling is taken by another word' : tooNear ? `what sounds like it sounds as much like "${tooNear}"` : 'no words of the model sound enough like it';
      }
    }
  }
  return { known, spellings, unheard };
}

/** Everything near enough, nearest first, and whether some of it was too near to another word. */
function candidatesFor(own: Wanted, all: readonly Wanted[], tree: PhoneTree): { readonly own: Wanted; readonly candidates: readonly Spelling[]; readonly tooNear?: string } {
  const others = othersThan(own, all);
  const found = new Map<string, Spelling>();
  let tooNear: string | undefined;
  for (const target of own.pronunciations) {
    for (const { words, phones, cost } of soundsMostLike(target, tree, { words: LONGEST, count: CANDIDATES, limit: FARTHEST * target.length })) {
      const rival = mistakenFor(phones, cost, others);
      if (rival !== undefined) tooNear ??= rival;
      else if (!found.has(words.join(' '))) found.set(words.join(' '), { words, sounds: fromPhones(phones), target: fromPhones(target), distance: cost, by: 'search' });
    }
  }
  const candidates = [...found.values()].sort((a, b) => a.distance - b.distance || a.words.length - b.words.length);
  return { own, candidates, ...(tooNear ? { tooNear } : {}) };
}

const withRival = (spelling: Spelling, own: Wanted, all: readonly Wanted[]): Spelling => {
  const rival = rivalOf(toPhones(spelling.sounds), othersThan(own, all));
  return rival ? { ...spelling, rival } : spelling;
};

function faultOf(words: readonly string[], vocabulary: ReadonlySet<string>, grammarWords: Lexicon, taken: readonly (readonly string[])[]): string | null {
  const lacking = words.find((word) => !vocabulary.has(word));
  if (lacking !== undefined) return `the model does not have "${lacking}"`;
  const spoken = words.find((word) => grammarWords.has(word));
  if (spoken !== undefined) return `"${spoken}" is a word of the grammar itself`;
  const other = taken.find((one) => overlaps(one, words) || overlaps(words, one));
  return other ? `it runs into the spelling "${other.join(' ')}"` : null;
}

/** A hand-made spelling is taken at its word; its distance is reported where the lexicon knows its parts. */
function handMade(words: readonly string[], own: Wanted, all: readonly Wanted[], lexicon: Lexicon): Spelling {
  const sounds = words.map((word) => lexicon.get(word)?.[0]);
  const target = fromPhones(own.pronunciations[0] ?? []);
  if (sounds.includes(undefined)) return { words, sounds: '', target, distance: NaN, by: 'hand' };
  const phones = toPhones(sounds.join(' '));
  const [best] = own.pronunciations.map((at) => ({ at, distance: editDistance(phones, at) })).sort((a, b) => a.distance - b.distance);
  return withRival({ words, sounds: fromPhones(phones), target: fromPhones(best?.at ?? []), distance: best?.distance ?? NaN, by: 'hand' }, own, all);
}
