import { GAP, substitution, toPhones, type Phones } from './phones';

/** A word of the lexicon's tree: phones from the root spell it. */
interface Node { readonly phone: number; readonly children: Map<number, Node>; readonly words: string[]; readonly id: number }

/** A tree of pronunciations to search in. */
export interface PhoneTree { readonly root: Node; readonly size: number }

/** One to three words and the cost of hearing them as the phones that were asked for. */
export interface Match { readonly words: readonly string[]; readonly phones: Phones; readonly cost: number }

/** Each further word costs this much: a pause or a stress may fall between words. A design choice. */
export const WORD_COST = 0.1;
const SHORTEST = 2;

/**
 * Builds the tree. Words with fewer than two phones are left out: a recogniser drops or invents them too easily.
 * @param lexicon words with their ARPAbet pronunciations
 */
export function phoneTree(lexicon: Iterable<readonly [string, readonly string[]]>): PhoneTree {
  let size = 0;
  const node = (phone: number): Node => ({ phone, children: new Map(), words: [], id: size++ });
  const root = node(-1);
  for (const [word, pronunciations] of lexicon) {
    for (const pronunciation of pronunciations) {
      const phones = toPhones(pronunciation);
      if (phones.length < SHORTEST) continue;
      let at = root;
      for (const phone of phones) {
        let next = at.children.get(phone);
        if (!next) at.children.set(phone, (next = node(phone)));
        at = next;
      }
      if (!at.words.includes(word)) at.words.push(word);
    }
  }
  return { root, size };
}

/** A partial match: `done` phones of the target covered, standing at a node of the tree in the n-th word. */
interface Step { readonly cost: number; readonly done: number; readonly node: Node; readonly word: number; readonly from: Step | null; readonly ended: string | null }

/** Binary heap by cost. */
class Queue {
  private readonly heap: Step[] = [];
  get length(): number { return this.heap.length; }
  push(step: Step): void {
    const heap = this.heap;
    let at = heap.push(step) - 1;
    while (at > 0) {
      const up = (at - 1) >> 1;
      if (heap[up]!.cost <= step.cost) break;
      heap[at] = heap[up]!;
      at = up;
    }
    heap[at] = step;
  }
  pop(): Step | undefined {
    const heap = this.heap;
    const top = heap[0];
    const last = heap.pop();
    if (!top || !last || !heap.length) return top;
    let at = 0;
    for (;;) {
      let down = 2 * at + 1;
      if (down >= heap.length) break;
      if (down + 1 < heap.length && heap[down + 1]!.cost < heap[down]!.cost) down += 1;
      if (heap[down]!.cost >= last.cost) break;
      heap[at] = heap[down]!;
      at = down;
    }
    heap[at] = last;
    return top;
  }
}

function unwind(step: Step): Match {
  const words: string[] = [];
  const phones: number[] = [];
  for (let at: Step | null = step; at; at = at.from) {
    if (at.ended !== null) words.unshift(at.ended);
    else if (at.node.phone >= 0 && at.from?.node !== at.node) phones.unshift(at.node.phone);
  }
  return { words, phones, cost: step.cost - WORD_COST * (words.length - 1) };
}

export interface SearchOptions {
  /** Longest answer, in words. */
  readonly words?: number;
  /** Answers wanted. */
  readonly count?: number;
  /** Answers costlier than this are not looked for. */
  readonly limit?: number;
  /** Partial matches kept per place in tree and target; more give more alternatives. */
  readonly breadth?: number;
}

/**
 * The word sequences that sound most like the target, nearest first: uniform-cost search over tree × target,
 * so the first answer is the best there is.
 */
export function soundsMostLike(target: Phones, tree: PhoneTree, { words = 3, count = 30, limit = Infinity, breadth = 3 }: SearchOptions = {}): Match[] {
  const queue = new Queue();
  const visits = new Uint8Array(tree.size * (target.length + 1) * (words + 1));
  const found: Match[] = [];
  const add = (step: Step): void => { if (step.cost <= limit) queue.push(step); };
  add({ cost: 0, done: 0, node: tree.root, word: 0, from: null, ended: null });
  for (let step = queue.pop(); step && found.length < count; step = queue.pop()) {
    const { cost, done, node, word } = step;
    if (done === target.length && step.ended !== null) { found.push(unwind(step)); continue; }
    const place = (node.id * (target.length + 1) + done) * (words + 1) + word;
    if ((visits[place] ?? 0) >= breadth) continue;
    visits[place] = (visits[place] ?? 0) + 1;
    const next = target[done];
    if (next !== undefined && node !== tree.root) add({ ...step, cost: cost + GAP, done: done + 1, from: step, ended: null });
    for (const child of node.children.values()) {
      if (next !== undefined) add({ cost: cost + substitution(next, child.phone), done: done + 1, node: child, word, from: step, ended: null });
      add({ cost: cost + GAP, done, node: child, word, from: step, ended: null });
    }
    if (word < words) {
      for (const ended of node.words.slice(0, 2)) {
        if (done === target.length) add({ cost, done, node: tree.root, word: word + 1, from: step, ended });
        else if (word + 1 < words) add({ cost: cost + WORD_COST, done, node: tree.root, word: word + 1, from: step, ended });
      }
    }
  }
  return found;
}
