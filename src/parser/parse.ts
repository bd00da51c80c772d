import { phraseTree, type Rules } from '../grammar';
import { readAtoms, tokenise, type Atom } from './atoms';
import { readOrder } from './order';
import { readFindings } from './sentence';
import type { Context, Statement } from './statement';

/** Reads one utterance or a pasted note. Never throws on any text; every part of it is in some statement's text. */
export type ParseUtterance = (text: string, context: Context) => Statement[];

/**
 * Makes the parser for a set of grammars (linkGrammars of src/grammar). Build it once.
 * A finding is filed only with a side that was said or is current; what is not understood comes back as 'unparsed'.
 */
export function createParser(rules: Rules): ParseUtterance {
  const tree = phraseTree(rules, 'phrase');
  return (text, context) => {
    const tokens = tokenise(text);
    const statements: Statement[] = [];
    let now = context;
    for (const sentence of sentences(readAtoms(tokens, tree))) {
      const from = sentence.atoms[0]!.from;
      const to = sentence.atoms.at(-1)!.to;
      const raw = (first: number): string => text.slice(tokens[first]?.start ?? text.length, tokens[to - 1]!.end);
      const read = readSentence(sentence, raw, from, now);
      for (const statement of read) {
        if (statement.type === 'side') now = { ...now, currentSide: statement.side };
        if (statement.type === 'findings') now = { ...now, findings: [...now.findings, ...statement.findings] };
      }
      statements.push(...read);
    }
    return statements;
  };
}

interface Sentence { readonly atoms: readonly Atom[]; readonly question: boolean }

function readSentence({ atoms, question }: Sentence, raw: (fromToken: number) => string, from: number, context: Context): Statement[] {
  const text = raw(from);
  const order = readOrder(atoms, raw, text, context);
  if (order) return [order];
  // "yes, tender over the snuffbox": the yes was said to somebody else.
  const about = atoms.filter((atom) => atom.value !== 'yes' && atom.key !== 'filler');
  // A finding is never asked for: "please" speaks to the patient.
  if (question || about.some((atom) => atom.key === 'unknown' || atom.key === 'order' || atom.key === 'please')) return [{ type: 'unparsed', text }];
  const read = readFindings(about, text, context);
  return read.length > 0 ? read : [{ type: 'unparsed', text }];
}

/** Words that open a question; an examiner's finding does not begin with them. */
const ASKING: ReadonlySet<string> = new Set(['is', 'are', 'was', 'were', 'any', 'does', 'do', 'did', 'can', 'could', 'would', 'will', 'which', 'what', 'how', 'when', 'where', 'who', 'why']);

/** Full stops and their like part sentences. A question is never a finding. */
function sentences(atoms: readonly Atom[]): Sentence[] {
  const rows: { atoms: Atom[]; question: boolean }[] = [{ atoms: [], question: false }];
  for (const atom of atoms) {
    const row = rows.at(-1)!;
    if (atom.key === 'ask') row.question = true;
    if (atom.key === 'stop' || (atom.key === 'ask' && atom.words === '?')) {
      rows.push({ atoms: [], question: false });
    } else {
      if (row.atoms.length === 0 && ASKING.has(atom.words)) row.question = true;
      if (atom.key !== 'ask') row.atoms.push(atom);
    }
  }
  return rows.filter((row) => row.atoms.some((atom) => atom.key !== 'filler'));
}
