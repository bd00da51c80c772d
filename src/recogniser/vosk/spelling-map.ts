import type { HeardWord } from '../recogniser';
import type { SoundsLike } from './sounds-like';

/** The spellings of every word that has some. */
export type SpellingTable = ReadonlyMap<string, readonly (readonly string[])[]>;

export const spellingTable = ({ spellings }: SoundsLike): SpellingTable =>
  new Map(Object.entries(spellings).map(([word, list]) => [word, list.map(({ words }) => words)]));

/**
 * Puts the grammar's words back where the recogniser wrote their spellings. A word so put back lasts from the
 * start of its first part to the end of its last and is as sure as its least sure part.
 * No spelling begins with another (see soundsLike), so there is one reading.
 */
export function mapBack(heard: readonly HeardWord[], table: SpellingTable): HeardWord[] {
  const byFirst = new Map<string, { word: string; parts: readonly string[] }[]>();
  for (const [word, list] of table) for (const parts of list) byFirst.set(parts[0] ?? '', [...(byFirst.get(parts[0] ?? '') ?? []), { word, parts }]);
  const out: HeardWord[] = [];
  for (let at = 0; at < heard.length;) {
    const first = heard[at] as HeardWord;
    const found = byFirst.get(first.word)?.find(({ parts }) => parts.every((part, n) => heard[at + n]?.word === part));
    const span = heard.slice(at, at + (found?.parts.length ?? 1));
    const last = span.at(-1) as HeardWord;
    out.push({ word: found?.word ?? first.word, start: first.start, end: last.end, confidence: Math.min(...span.map(({ confidence }) => confidence)) });
    at += span.length;
  }
  return out;
}

/** The same for plain text, for partial results, which carry no times. An unfinished spelling at the end stays as it is. */
export const mapBackText = (text: string, table: SpellingTable): string =>
  mapBack(text.split(/\s+/).filter(Boolean).map((word) => ({ word, start: 0, end: 0, confidence: 1 })), table).map(({ word }) => word).join(' ');
