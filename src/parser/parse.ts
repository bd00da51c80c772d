import { phraseTree, type Rules } from '../grammar';
import { readAtoms, tokenise, type Atom } from './atoms';
import { readFrames } from './frame';
import { statementsOf } from './meaning';
import { readOrder } from './order';
import type { Context, Statement } from './statement';

/** Reads one utterance or a pasted note. Never throws on any text; every part of it is in some statement's text. */
export type ParseUtterance = (text: string, context: Context) => Statement[];

/**
 * Makes the parser for a set of grammars (linkGrammars of src/grammar). Build it once: about 20 ms.
 * A finding is filed only with a side that was said or is current; what is not understood comes back as 'unparsed'.
 */
export function createParser(rules: Rules): ParseUtterance {
  const tree = phraseTree(rules, 'phrase');
  return (text, context) => {
    const tokens = tokenise(text);
    const statements: Statement[] = [];
    let now = context;
    for (const sentence of sentences(readAtoms(tokens, tree))) {
      const from = sentence[0]!.from;
      const to = sentence.at(-1)!.to;
      const raw = (first: number): string => text.slice(tokens[first]?.start ?? 0, tokens[to - 1]!.end);
      const said = readOrder(sentence, raw, raw(from), now);
      const read = said ? [said] : statementsOf(readFrames(sentence), raw(from), now);
      for (const statement of read) if (statement.type === 'side') now = { ...now, currentSide: statement.side };
      statements.push(...(read.length > 0 ? read : [{ type: 'unparsed', text: raw(from) } as const]));
    }
    return statements;
  };
}

/** Full stops and their like part sentences. A question is never a finding. */
function sentences(atoms: readonly Atom[]): Atom[][] {
  const rows: Atom[][] = [[]];
  for (const atom of atoms) {
    if (atom.key === 'stop') { if (rows.at(-1)!.length > 0) rows.push([]); }
    else rows.at(-1)!.push(atom);
  }
  return rows.filter((row) => row.length > 0);
}
