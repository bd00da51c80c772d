import type { Finding, ItemKey, MrcGrade, Result, Side } from '../vocabulary';

/** An order to the recorder itself. */
export type Order =
  | { readonly order: 'withdraw'; readonly which: 'last' }
  | { readonly order: 'amend'; readonly side?: Side; readonly result?: Result; readonly grade?: MrcGrade } // "amend the last one to grade four", "amend, left"
  | { readonly order: 'what remains'; readonly side?: Side }
  | { readonly order: 'read back' }
  | { readonly order: 'hold' }
  | { readonly order: 'carry on' }
  | { readonly order: 'next stage' }
  | { readonly order: 'go to stage'; readonly stage: string }
  | { readonly order: 'conclude' }
  | { readonly order: 'acknowledge' }                         // the caution on the screen
  | { readonly order: 'choose'; readonly option: 1 | 2 | 3 }  // one of the numbered answers to a question
  | { readonly order: 'confirm'; readonly yes: boolean };   // answers a question the recorder asked

/** Something understood in part: it is shown and asked about, never filed. */
export type Gap = 'side' | 'result' | 'site' | 'contradiction' | 'unsure';

export type Statement =
  | { readonly type: 'findings'; readonly findings: readonly Finding[]; readonly text: string }
  | { readonly type: 'side'; readonly side: Side | 'both'; readonly text: string }
  | { readonly type: 'not testable'; readonly side: Side | 'both'; readonly items: readonly ItemKey[]; readonly reason: string; readonly text: string }
  | { readonly type: 'order'; readonly order: Order; readonly text: string }
  /** Understood but incomplete; findings hold what would be filed for each possible answer (for a missing side: left, right). */
  | { readonly type: 'gap'; readonly gap: Gap; readonly question: string; readonly options: readonly (readonly Finding[])[]; readonly text: string }
  | { readonly type: 'unparsed'; readonly text: string };

/** What the parser may lean on: never more than what is on the screen at that moment. */
export interface Context {
  readonly currentSide?: Side | 'both';
  readonly injuredSide?: Side;
  /** Findings already filed, oldest first: for "same on the right", "and the middle", comparatives and contradictions. */
  readonly findings: readonly Finding[];
}
