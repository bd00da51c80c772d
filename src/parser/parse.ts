import { phraseTree, type PhraseNode, type Rules } from '../grammar';
import { readAtoms, tokenise, type Atom, type Token } from './atoms';
import { readOrder } from './order';
import { prepare, sentencesOf } from './prepare';
import { affirmed, okay } from './reword';
import { readFindings } from './sentence';
import { createSlips, type Slips } from './slips';
import type { Context, Statement } from './statement';

/** Reads one utterance or a pasted note. Never throws on any text; every part of it is in some statement's text. */
export type ParseUtterance = (text: string, context: Context) => Statement[];

/** Characters of one text that are read; what is beyond them is kept as unparsed. */
const LONGEST = 20_000;

/**
 * Makes the parser for a set of grammars (linkGrammars of src/grammar). Build it once: it takes as long as some hundred utterances.
 * A finding is filed only with a side that was said or is current; what is not understood comes back as 'unparsed'.
 */
export function createParser(rules: Rules): ParseUtterance {
  const tree = phraseTree(rules, 'phrase');
  let slips: Slips | undefined;
  return (text, context) => {
    const statements: Statement[] = [];
    let now = context;
    for (const sentence of sentencesOf(text.slice(0, LONGEST))) {
      for (const clause of clausesOf(readWords(sentence.text, tree, () => (slips ??= createSlips(tree))))) {
        const raw = (from: number): string => text.slice(sentence.start + from, sentence.start + clause.end).trim();
        const read = readClause(clause, raw, now);
        for (const statement of read) {
          if (statement.type === 'side') now = { ...now, currentSide: statement.side };
          if (statement.type === 'findings') now = { ...now, findings: [...now.findings, ...statement.findings] };
        }
        statements.push(...read);
      }
    }
    if (text.length > LONGEST) statements.push({ type: 'unparsed', text: text.slice(LONGEST) });
    return statements;
  };
}

interface Reading { readonly atoms: readonly Atom[]; readonly tokens: readonly Token[] }

/** Reads a sentence with the grammar; only when words are unknown, once more as a typist may have meant them. */
function readWords(text: string, tree: PhraseNode, slips: () => Slips): Reading {
  const tokens = tokenise(text);
  const atoms = readAtoms(tokens, tree);
  const unknown = new Set(atoms.filter((atom) => atom.key === 'unknown').map((atom) => atom.from));
  // What follows "because" is somebody's reason in any words.
  if (unknown.size === 0 || atoms.some((atom) => atom.key === 'because')) return { atoms, tokens };
  const prepared = prepare(tokens, (index) => unknown.has(index), slips());
  return prepared ? { atoms: readAtoms(prepared, tree), tokens: prepared } : { atoms, tokens };
}

interface Clause { readonly atoms: readonly Atom[]; readonly question: boolean; readonly start: number; readonly end: number; readonly startOf: (token: number) => number }

function readClause(clause: Clause, raw: (from: number) => string, context: Context): Statement[] {
  const { atoms } = clause;
  const text = raw(clause.start);
  const order = readOrder(atoms, (token) => raw(clause.startOf(token)), text, context);
  if (order) return [order];
  // "yes, tender over the snuffbox": the yes was said to somebody else.
  const about = corrections(atoms).map(affirmed).filter((atom) => atom.value !== 'yes' && (atom.key !== 'filler' || atom.value === 'okay')).flatMap(okay);
  // A finding is never asked for: "please" speaks to the patient.
  if (clause.question || about.some((atom) => atom.key === 'unknown' || atom.key === 'order' || atom.key === 'please')) return [{ type: 'unparsed', text }];
  const read = readFindings(about, text, context);
  return read.length > 0 ? read : [{ type: 'unparsed', text }];
}

/** "F P L four, strike that, three plus": amid a finding an order to withdraw or amend corrects the words before it. */
const corrections = (atoms: readonly Atom[]): readonly Atom[] => atoms.map((atom, index) =>
  (atom.key === 'order' && (atom.value === 'withdraw' || atom.value === 'amend') && index > 0 && index < atoms.length - 1 ? { ...atom, key: 'correct' } : atom));

/** Words that open a question; an examiner's finding does not begin with them. */
const ASKING: ReadonlySet<string> = new Set(['is', 'are', 'was', 'were', 'any', 'does', 'do', 'did', 'can', 'could', 'would', 'will', 'which', 'what', 'how', 'when', 'where', 'who', 'why']);

/** Parts a sentence at semicolons and their like. A full stop inside a sentence ends an abbreviation ("lac.") and weighs no more than a comma. */
function clausesOf({ atoms, tokens }: Reading): Clause[] {
  const rows: Atom[][] = [[]];
  for (const atom of atoms) {
    if (atom.key === 'stop' && atom.words === '.') rows.at(-1)!.push({ ...atom, key: 'comma' });
    else if (atom.key === 'stop') rows.push([]);
    else {
      rows.at(-1)!.push(atom);
      if (atom.words === '?') rows.push([]);
    }
  }
  return rows.filter((row) => row.some((atom) => atom.key !== 'comma')).map((row) => ({
    atoms: row.filter((atom) => atom.key !== 'ask'),
    question: row.some((atom) => atom.key === 'ask') || ASKING.has(row[0]!.words),
    start: tokens[row[0]!.from]!.start,
    end: tokens[row.at(-1)!.to - 1]!.end,
    startOf: (token) => tokens[token]?.start ?? Infinity,
  }));
}
