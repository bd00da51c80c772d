import { GrammarError } from './jsgf';

/** Word to its pronunciations (ARPAbet without stress, phones separated by one space). */
export type Pronunciations = ReadonlyMap<string, readonly string[]>;

/** The phones of the embedded acoustic model: CMUdict's 39 without stress (speech.cs.cmu.edu/cgi-bin/cmudict). */
export const PHONES = new Set('AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH T TH UH UW V W Y Z ZH'.split(' '));

/** Space, tab and the bracket of "word(2)". */
const endsWord = (code: number): boolean => code === 32 || code === 9 || code === 40;

/**
 * Reads a dictionary in CMUdict format ("word PH ON EM", further variants "word(2) …", ";;" comments),
 * keeping only the wanted words when they are given. Throws GrammarError on an unknown phone.
 */
export function readDictionary(text: string, file: string, wanted?: ReadonlySet<string>): Map<string, string[]> {
  const found = new Map<string, string[]>();
  let line = 0;
  for (let start = 0; start < text.length;) {
    let end = text.indexOf('\n', start);
    if (end < 0) end = text.length;
    line += 1;
    // Most of a large dictionary is passed over, so the word is looked up before the line is taken apart.
    const from = start;
    start = end + 1;
    if (wanted) {
      let stop = from;
      while (stop < end && !endsWord(text.charCodeAt(stop))) stop += 1;
      if (stop < end && !wanted.has(text.slice(from, stop))) continue;
    }
    const entry = text.slice(from, end).trimEnd();
    if (entry === '' || entry.startsWith(';;')) continue;
    const gap = entry.search(/\s/);
    const word = entry.slice(0, gap).replace(/\(\d+\)$/, '');
    if (gap < 0 || (wanted && !wanted.has(word))) { if (gap < 0) throw new GrammarError(file, line, `"${entry}" has no pronunciation.`); continue; }
    const phones = entry.slice(gap).trim().split(/\s+/).map((phone) => phone.replace(/\d$/, ''));
    const strange = phones.find((phone) => !PHONES.has(phone));
    if (strange) throw new GrammarError(file, line, `"${word}": "${strange}" is not an ARPAbet phone.`);
    const spelled = phones.join(' ');
    const variants = found.get(word);
    if (!variants) found.set(word, [spelled]);
    else if (!variants.includes(spelled)) variants.push(spelled);
  }
  return found;
}
