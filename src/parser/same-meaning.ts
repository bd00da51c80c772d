import type { ParseUtterance } from './parse';

/** Wording is not meaning: statements carry the text they came from, and questions quote it. */
const withoutWording = (key: string, value: unknown): unknown => (key === 'text' || key === 'question' ? undefined : value);

/**
 * Whether two sentences mean the same, whatever the context ("on the left wrist", "left wrist"): for engines that
 * weigh one hearing against another. Remembers what it has read.
 */
export function createSameMeaning(parse: ParseUtterance): (one: string, other: string) => boolean {
  const meanings = new Map<string, string>();
  const meaning = (text: string): string => {
    let known = meanings.get(text);
    if (known === undefined) {
      const statements = parse(text, { findings: [] });
      known = statements.some(({ type }) => type === 'unparsed') ? text : JSON.stringify(statements, withoutWording);
      if (meanings.size > 5_000) meanings.clear();
      meanings.set(text, known);
    }
    return known;
  };
  return (one, other) => meaning(one) === meaning(other);
}
