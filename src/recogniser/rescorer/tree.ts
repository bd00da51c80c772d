/** Sentences as a tree, so that what they begin with in common is computed once. */
export interface SentenceTree {
  readonly tokens: readonly number[];
  /** Depth of each node. */
  readonly positions: readonly number[];
  /** [nodes × nodes]: 0 where a node sees another (itself and what it came from), very negative elsewhere. */
  readonly mask: Float32Array;
  /** Pairs of a node and a token that follows it, once each. */
  readonly links: readonly (readonly [node: number, token: number])[];
  /** For each sentence, the links it goes along. */
  readonly paths: readonly (readonly number[])[];
}

const UNSEEN = -1e9;

/** @param begin tokens before every sentence, at least one; @param sentences tokens of each, with its end */
export function treeOf(begin: readonly number[], sentences: readonly (readonly number[])[]): SentenceTree {
  const tokens = [...begin];
  const parents = begin.map((_, i) => i - 1);
  const children = new Map<string, number>();
  const links: [number, number][] = [];
  const linkAt = new Map<string, number>();
  const once = (at: Map<string, number>, key: string, make: () => number): number => {
    const found = at.get(key) ?? make();
    at.set(key, found);
    return found;
  };
  const paths = sentences.map((sentence) => {
    let node = begin.length - 1;
    return sentence.map((token, i) => {
      const key = `${node},${token}`;
      const from = node;
      const link = once(linkAt, key, () => links.push([from, token]) - 1);
      if (i + 1 < sentence.length) node = once(children, key, () => { parents.push(from); return tokens.push(token) - 1; });
      return link;
    });
  });
  const mask = new Float32Array(tokens.length ** 2).fill(UNSEEN);
  const positions = tokens.map((_, node) => {
    let depth = -1;
    for (let seen = node; seen >= 0; seen = parents[seen] ?? -1) { mask[node * tokens.length + seen] = 0; depth += 1; }
    return depth;
  });
  return { tokens, positions, mask, links, paths };
}
