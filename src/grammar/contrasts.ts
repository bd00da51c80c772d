/** Words of one class differ in meaning and sound alike or matter most: a hearing of one must beat every other of its class. */
export type ContrastClass = readonly string[];

/** Reads grammars/contrasts.txt: one class a line, words (or short phrases) separated by "|", "-" for "the word is left out", "#" comments. */
export function readContrasts(text: string): ContrastClass[] {
  return text.split('\n').map((line) => line.replace(/#.*/, '').trim()).filter((line) => line !== '')
    .map((line) => line.split('|').map((word) => word.trim()).map((word) => (word === '-' ? '' : word)));
}

/**
 * Every sentence that differs from `words` by one contrast and that the grammar accepts: the rivals that the
 * hearing must be told apart from. For "left hand" it gives ["right", "hand"].
 */
export function rivalsOf(words: readonly string[], classes: readonly ContrastClass[], accepts: (words: readonly string[]) => boolean): string[][] {
  const rivals = new Map<string, string[]>();
  const own = words.join(' ');
  const offer = (from: number, length: number, instead: string): void => {
    const rival = [...words.slice(0, from), ...(instead === '' ? [] : instead.split(' ')), ...words.slice(from + length)];
    const key = rival.join(' ');
    if (key !== own && !rivals.has(key) && accepts(rival)) rivals.set(key, rival);
  };
  for (const members of classes) for (const member of members) {
    const said = member === '' ? [] : member.split(' ');
    for (let from = 0; from + said.length <= words.length; from += 1)
      if (said.every((word, offset) => words[from + offset] === word)) for (const other of members) if (other !== member) offer(from, said.length, other);
  }
  return [...rivals.values()];
}
