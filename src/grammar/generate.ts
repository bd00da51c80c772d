import type { Expansion } from './jsgf';
import type { Rules } from './rules';

/** A sentence of the grammar with the tags met on its way, in order. */
export interface GeneratedSentence {
  readonly words: readonly string[];
  readonly tags: readonly string[];
  /** For each tag, how many words stand before it. */
  readonly tagAt: readonly number[];
}

/** Small seeded random numbers in [0, 1) (mulberry32), so that a failing sentence can be had again. */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Makes random sentences of a rule, the same for the same seed. A repetition goes on with probability 0.3. */
export function createGenerator(rules: Rules, seed: number): (rule: string) => GeneratedSentence {
  const random = seededRandom(seed);
  return (name) => {
    const words: string[] = [];
    const tags: string[] = [];
    const tagAt: number[] = [];
    const walk = (part: Expansion): void => {
      switch (part.kind) {
        case 'word': words.push(part.word); break;
        case 'tag': tags.push(part.tag); tagAt.push(words.length); break;
        case 'rule': walk(rules.get(part.name)!.expansion); break;
        case 'sequence': part.items.forEach(walk); break;
        case 'alternatives': walk(part.options[Math.floor(random() * part.options.length)]!); break;
        case 'optional': if (random() < 0.5) walk(part.item); break;
        case 'repeat':
          for (let count = 0; count < part.min || random() < 0.3; count += 1) walk(part.item);
          break;
      }
    };
    walk(rules.get(name)!.expansion);
    return { words, tags, tagAt };
  };
}
