/**
 * The recogniser's view of the grammar: a finite automaton over words, compiled from the JSGF in grammars/.
 * Recursion-free by construction, so every engine can take it: as a finite-state grammar (embedded engine)
 * or as a phrase list (second engine).
 */
export interface Arc {
  readonly from: number;
  readonly to: number;
  /** A spoken word in lower case, or null for a silent transition. */
  readonly word: string | null;
  /** Natural-log weight, 0 or less. */
  readonly weight: number;
}

export interface SpokenGrammar {
  readonly name: string;
  readonly states: number;
  readonly start: number;
  /** One final state. */
  readonly final: number;
  readonly arcs: readonly Arc[];
  /** Every word of the arcs, with one or more pronunciations in ARPAbet without stress ("TH IY N ER"). */
  readonly pronunciations: ReadonlyMap<string, readonly string[]>;
}
