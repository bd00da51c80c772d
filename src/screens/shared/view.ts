import type { EngineName } from '../../recogniser/vosk';
import type { Side } from '../../vocabulary';

/** What the screens show, free of how it was found out. Built by pure functions in this folder from the parts to the left. */

export type HeardVerdict = 'accepted' | 'doubted' | 'understood' | 'queried' | 'settled' | 'ignored' | 'unparsed' | 'held';

export interface FindingRow {
  readonly id: string;
  readonly words: string;
  readonly state: 'filed' | 'withdrawn' | 'replaced';
  readonly by: 'examiner' | 'reviewer';
}

export interface HeardRow {
  readonly id: string;
  readonly text: string;
  /** ISO 8601. */
  readonly at: string;
  readonly verdict: HeardVerdict;
  readonly why?: string;
  readonly confidence: number;
  readonly source: string;
  /** What it was understood as: coded findings, an order, a side. */
  readonly coded: readonly string[];
  readonly findings: readonly FindingRow[];
  readonly alternatives: readonly string[];
  /** The engine that could give a second opinion, if it was heard by one and none was given. */
  readonly other: EngineName | null;
  /** What a second opinion said. */
  readonly secondOpinion?: string;
}

export interface AnswerView { readonly label: string; readonly say: readonly string[] }
export interface QuestionView { readonly utteranceId: string; readonly question: string; readonly text: string; readonly answers: readonly AnswerView[]; /** Words of the way out: what no answer means. */ readonly none: string }

export interface StageView {
  readonly id: string;
  readonly name: string;
  readonly current: boolean;
  readonly complete: boolean;
  readonly done: number;
  readonly total: number;
  /** Not testable, with the reason said. */
  readonly barred: number;
  readonly remaining: readonly { readonly side: Side; readonly items: readonly string[] }[];
}

export interface CautionView { readonly id: string; readonly title: string; readonly text: string; readonly because: readonly string[]; readonly source: string; readonly acknowledged: boolean }

export interface PlaceView {
  readonly id: string;
  readonly words: string;
  readonly percent: string;
  readonly speaksFor: readonly string[];
  /** Normal findings that decide for it. */
  readonly spared: readonly string[];
  readonly speaksAgainst: readonly string[];
}
/** Explanations of one hand that the findings cannot tell apart, most probable first, and the tests that would; none when no test of the list would. */
export interface ApartView { readonly places: readonly Pick<PlaceView, 'id' | 'words' | 'percent'>[]; readonly tests: readonly string[] }
export interface LocalisationView { /** False while no place stands out. */ readonly clear: boolean; readonly places: readonly PlaceView[]; /** That of the first place's hand comes first. */ readonly apart: readonly ApartView[]; readonly nextTests: readonly { readonly words: string; readonly why: string }[]; readonly note?: string }

export const VERDICT_WORDS: Readonly<Record<HeardVerdict, string>> = {
  accepted: 'Filed', doubted: 'Filed, in doubt', understood: 'Understood', queried: 'Asked back, not filed', settled: 'Asked and settled', ignored: 'Not for the recorder', unparsed: 'Kept, not understood', held: 'Kept, not filed: on hold',
};

/** "Left", "Right", "Both", or what to do when none is set. */
export const sideInWords = (side: Side | 'both' | null | undefined): string =>
  side === 'left' ? 'Left' : side === 'right' ? 'Right' : side === 'both' ? 'Both' : 'No side set';

/** Probability as a whole percentage; never "100 %" or "0 %" for something that isn't certain. */
export function percent(probability: number): string {
  if (!Number.isFinite(probability)) return '?';
  if (probability > 0.99) return 'over 99 %';
  if (probability < 0.01) return 'under 1 %';
  return `${Math.round(probability * 100)} %`;
}

const NUMBERS = ['one', 'two', 'three'] as const;
/** Ways to give an answer by voice: its number and, for a side, the side. Empty where it can only be pressed. */
export const waysToSay = (index: number, label: string): readonly string[] => [
  ...(NUMBERS[index] ? [`option ${NUMBERS[index]}`] : []),
  ...(label === 'Left' || label === 'Right' ? [`${label.toLowerCase()} side`] : label === 'Both' ? ['both sides'] : []),
];
