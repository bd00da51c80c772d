import type { Finding, ItemKey, Quantity, Side } from '../vocabulary';

/** What is known besides the findings. All optional. */
export interface Options {
  /** Time since onset or injury: wasting and clawing need weeks. */
  readonly onset?: Quantity;
  /** The side complained of; the other one is then expected to be normal. */
  readonly injuredSide?: Side | 'both';
  /** Items not to propose again although no finding names them (declared not testable, for example). */
  readonly skip?: readonly { readonly side: Side; readonly item: ItemKey }[];
  /** Only these items are proposed as next tests. Without it, the localiser's own list. */
  readonly candidates?: readonly ItemKey[];
  /**
   * How common each single explanation is where this is used, as a relative weight (an emergency bay sees more cuts, a clinic more compressions):
   * given its id and its usual weight. What is no number from 0 up counts as the usual weight.
   */
  readonly howCommon?: (id: string, usual: number) => number;
  /** How far a finding may be trusted, 0 to 1 (1 when absent): a queried finding carries less. */
  readonly trust?: (finding: Finding) => number;
}

/** A finding that speaks for or against a hypothesis. */
export interface Evidence {
  readonly finding: Finding;
  /**
   * Strength in bits, given the other findings. In `for`: how much more expected than in an intact hand. In `spared` (positive) and
   * `against` (negative): how much more expected than under all other explanations; in `spared` also than with
   * the neighbouring lesion of the same nerve that would touch it, if that is more.
   */
  readonly bits: number;
  /** One plain line: "Left · power, abductor pollicis brevis: grade 2 (weak)". */
  readonly words: string;
}

export type LesionKind =
  | 'normal' | 'nerve' | 'plexus' | 'root' | 'tendon' | 'joint' | 'bone' | 'ligament' | 'pain'
  | 'polyneuropathy' | 'motor neurone' | 'vessel' | 'compartment' | 'infection' | 'soft tissue' | 'unexplained';

/** One explanation of one hand's findings. The explanations of a side exclude one another; their probabilities add up to 1. */
export interface RankedLesion {
  /** Stable id, for example "median.carpal-tunnel", or two joined by "+". */
  readonly id: string;
  readonly kind: LesionKind;
  /** "median nerve" */
  readonly structure: string;
  /** "at the wrist or carpal tunnel, below its palmar cutaneous branch"; empty when it has no level. */
  readonly level: string;
  readonly side: Side;
  readonly probability: number;
  /** One plain sentence with the level and how complete the loss looks. */
  readonly words: string;
  /** Findings that speak for it, strongest first (normal ones are in `spared`). */
  readonly for: readonly Evidence[];
  readonly against: readonly Evidence[];
  /** Normal findings that decide for it: the structures it spares and its rivals would not. */
  readonly spared: readonly Evidence[];
}

/** Probability that a structure is involved at all, alone or as one of two. */
export interface InvolvedStructure { readonly structure: string; readonly side: Side; readonly probability: number }

export interface NextTest {
  readonly item: ItemKey;
  readonly side: Side;
  /** Expected information in bits. */
  readonly gain: number;
  /** Bits per unit of burden (time and pain; 1 = a quick painless test): what the list is sorted by. */
  readonly value: number;
  readonly words: string;
  /** The two explanations that it tells apart best. */
  readonly separates: readonly string[];
}

/** Does any explanation fit what was found? */
export type Fit = 'ok' | 'poor' | 'too little';

export interface SideLocalisation {
  readonly fit: Fit;
  /** One sentence that a clinician can read out. */
  readonly words: string;
  /** Explanations of this side, most probable first. */
  readonly ranked: readonly RankedLesion[];
  readonly structures: readonly InvolvedStructure[];
  /** Ids of explanations that these findings cannot separate from the first. */
  readonly cannotTellApart: readonly string[];
  /** The tests that would separate these from one another, most telling per burden first; empty when nothing on the list would. */
  readonly wouldTellApart: readonly NextTest[];
  readonly stability: Stability;
}

/** Left against right, when both hands were examined. */
export interface Comparison {
  /** Probability that only the left, only the right, both, or neither hand has a lesion; they add up to 1. */
  readonly leftOnly: number;
  readonly rightOnly: number;
  readonly both: number;
  readonly neither: number;
  /** Items found differently on the two sides, the greatest difference first. */
  readonly differing: readonly { readonly item: ItemKey; readonly worse: Side; /** "power, abductor pollicis brevis: left grade 3, right grade 5" */ readonly words: string }[];
  /** Items abnormal on both sides alike: they speak for one condition of both hands, or for what is usual in this person. */
  readonly alike: readonly { readonly item: ItemKey; readonly words: string }[];
  readonly words: string;
}

export interface Stability {
  /** True when no single wrong finding would change the first explanation. */
  readonly stable: boolean;
  /** Findings on which the first place hangs. */
  readonly hangsOn: readonly Finding[];
  readonly words: string;
}

export interface Localisation {
  readonly sides: Readonly<Partial<Record<Side, SideLocalisation>>>;
  /** Both sides together, most probable first; explanations under 1 % are left out. */
  readonly ranked: readonly RankedLesion[];
  readonly cannotTellApart: readonly string[];
  readonly wouldTellApart: readonly NextTest[];
  readonly nextTests: readonly NextTest[];
  /** Only when both hands were examined. */
  readonly comparison?: Comparison;
  readonly stability: Stability;
  readonly fit: Fit;
  /** What was wrong with the input, one plain sentence each: contradictions, impossible grades, unknown codes. */
  readonly problems: readonly string[];
  readonly caution: string;
}

/** Stands on every output. */
export const CAUTION = 'This supports the examiner and does not diagnose. Follow local protocols, senior advice and licensed practice.';
