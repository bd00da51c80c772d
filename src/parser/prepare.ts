import nlp from 'compromise/two';
import type { Token } from './atoms';
import type { Slips } from './slips';

interface Splitter { readonly one: { readonly tokenize: { readonly splitSentences: (text: string, world: unknown) => string[] } } }

const { abbreviations } = (nlp.model() as { one: { abbreviations: Record<string, true> } }).one;
for (const short of ['lac', 'approx', 'lt', 'rt', 'ext', 'flex', 'sens', 'abd', 'add', 'cap', 'sec', 'secs', 'min', 'mins', 'deg', 'mm', 'cm', 'pos', 'neg', 'bilat', 'opp', 'pt']) abbreviations[short] = true;
const { splitSentences } = (nlp.methods() as unknown as Splitter).one.tokenize;

/** Where each sentence of a note stands in it. Speech has no stops and is one sentence. Boundaries are compromise's, with the clinic's abbreviations. */
export function sentencesOf(text: string): { readonly start: number; readonly text: string }[] {
  if (!/[.!?\n]\s*\S/.test(text)) return [{ start: 0, text }];
  let start = 0;
  return splitSentences(text, nlp.world()).map((sentence) => {
    const at = text.indexOf(sentence, start);
    const found = { start: at < 0 ? start : at, text: sentence };
    start = found.start + sentence.length;
    return found;
  });
}

/** Most words of a sentence that may be taken for slips; with more, it is not our language. */
const MOST_SLIPS = 2;

/**
 * Second reading of words that the grammar lacks: contractions written out (compromise), spelling slips mended (slips.ts).
 * Undefined when that does not help.
 */
export function prepare(tokens: readonly Token[], isUnknown: (index: number) => boolean, slips: Slips): Token[] | undefined {
  const isStrange = (token: Token, index: number): boolean => isUnknown(index) && !slips.knows(token.word);
  const strange = tokens.filter(isStrange).length;
  if (strange === 0 || strange > MOST_SLIPS || strange * 3 > tokens.length) return undefined;
  const prepared: Token[] = [];
  for (const [index, token] of tokens.entries()) {
    if (!isStrange(token, index)) { prepared.push(token); continue; }
    // "stiffish": a bit of what it is an "-ish" of, but never of a number
    const base = /^([a-z]{4,}?)[a-z]?ish$/.exec(token.word) && [token.word.slice(0, -3), token.word.slice(0, -4)].find((stem) => stem.length > 2 && slips.knows(stem));
    const words = base ? ['slightly', base] : token.word.includes("'") ? nlp(token.word).contractions().expand().all().text().split(' ') : [slips.mend(token.word)];
    if (words.some((word) => word === undefined || word === token.word)) return undefined;
    for (const word of words) prepared.push({ ...token, word: word! });
  }
  return prepared;
}
