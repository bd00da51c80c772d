/**
 * Sentences as the network's tokens: byte-pair encoding (Sennrich et al. 2016) over the pieces that set-up kept, in the order
 * in which they were learned. A piece that was not kept is simply spelled with smaller ones.
 */
export interface TokenTable {
  /** Pieces in the order of their merging; "Ġ" stands for the space before a word. */
  readonly pieces: readonly string[];
  /** What every sentence begins with, and the full stop and the end that follow it. */
  readonly begin: readonly number[];
  readonly stop: number;
  readonly end: number;
}

/** A word's pieces after each merging, the single characters first: always the pair that was learned earliest. */
export function mergings(word: string, rank: ReadonlyMap<string, number>): string[][] {
  const steps = [[...word]];
  for (;;) {
    const parts = steps.at(-1) ?? [];
    const ranks = parts.slice(1).map((part, i) => rank.get(`${parts[i]}${part}`) ?? Infinity);
    const lowest = Math.min(...ranks);
    if (!Number.isFinite(lowest)) return steps;
    const at = ranks.indexOf(lowest);
    steps.push([...parts.slice(0, at), `${parts[at]}${parts[at + 1]}`, ...parts.slice(at + 2)]);
  }
}

export const rankOf = (pieces: readonly string[]): ReadonlyMap<string, number> => new Map(pieces.map((piece, i) => [piece, i]));

/** Words to tokens. Throws for a character that no piece has. */
export function tokeniser({ pieces }: Pick<TokenTable, 'pieces'>): (word: string) => readonly number[] {
  const rank = rankOf(pieces);
  const known = new Map<string, readonly number[]>();
  const split = (word: string): number[] => (mergings(word, rank).at(-1) ?? []).map((part) => {
    const token = rank.get(part);
    if (token === undefined) throw new Error(`The rescorer has no token for "${part}" in "${word}".`);
    return token;
  });
  return (word) => {
    const found = known.get(word) ?? split(word);
    known.set(word, found);
    return found;
  };
}

/** A sentence as the network saw them written: a capital first, a full stop last. */
export const written = (sentence: string): string[] => `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}`.split(' ').map((word) => `Ġ${word}`);
