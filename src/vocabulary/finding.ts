import type { Side } from './side';
import type { SiteCode } from './site';
import type { SignCode } from './sign';

/** Muscle power, Medical Research Council (Memorandum 45, 1976), with the usual plus and minus on 2 to 5. */
export const MRC_GRADES = ['0', '1', '2-', '2', '2+', '3-', '3', '3+', '4-', '4', '4+', '5-', '5'] as const;
export type MrcGrade = (typeof MRC_GRADES)[number];

/** Units by their UCUM codes (ucum.org): millimetre, centimetre, second, minute, hour, day, plane-angle degree, kilogram; in braces what has no unit. */
export const UNITS = ['mm', 'cm', 's', 'min', 'h', 'd', 'deg', 'kg', '{filament}'] as const;
export type Unit = (typeof UNITS)[number];
/**
 * Comparator as in HL7 FHIR R4 Quantity: "less than two seconds" is { value: 2, unit: 's', comparator: '<' }.
 * `to` is the upper end of an arc: "twenty to ninety degrees" is { value: 20, to: 90, unit: 'deg' }.
 */
export interface Quantity { readonly value: number; readonly to?: number; readonly unit: Unit; readonly comparator?: '<' | '>' }

/**
 * Feeling as a whole, from pain over touch to discrimination: the Medical Research Council's scale (Nerve Injuries Committee 1954, after
 * Highet; S0 no feeling, S4 normal: PMC9728628), with the pluses of Mackinnon & Dellon 1988 [from memory].
 */
export const SENSORY_GRADES = ['S0', 'S1', 'S1+', 'S2', 'S2+', 'S3', 'S3+', 'S4'] as const;
export type SensoryGrade = (typeof SENSORY_GRADES)[number];

/** Words a result may take. Each sign allows only some of them (see SIGNS). */
export type Level =
  | 'present' | 'absent'                               // a sign seen or felt, or not ("positive" / "negative" for tests)
  | 'normal' | 'reduced' | 'increased' | 'altered'     // feeling, movement, sweating …
  | 'weak'                                             // power said in words; "normal" and "absent" too
  | 'warm' | 'cool' | 'cold' | 'hot'                   // temperature
  | 'pale' | 'blue' | 'red' | 'mottled' | 'black'      // colour; "normal" too
  | 'dry' | 'moist'                                    // sweating; "normal" too
  | 'brisk' | 'slow'                                   // capillary refill said in words; "normal", "absent" too
  | 'full' | 'limited' | 'stiff' | 'hyperextended'     // range; "absent" too
  | SensoryGrade;

/** What was found. A missing result is impossible: "not tested" is simply no finding. */
export type Result =
  | { readonly kind: 'level'; readonly level: Level }
  | { readonly kind: 'grade'; readonly grade: MrcGrade; readonly to?: MrcGrade } // "four to four plus"
  | { readonly kind: 'quantity'; readonly quantity: Quantity }
  | { readonly kind: 'not testable'; readonly reason: string };

export const QUALIFIERS = [
  'patchy', 'painful', 'pain-limited', 'effort-limited', 'equivocal', 'mild', 'moderate', 'severe',
  'weaker than other side', 'stronger than other side', 'equal to other side', 'active', 'passive', 'resisted',
  'static', 'moving', '30 Hz', '128 Hz', '256 Hz', 'radial half', 'ulnar half', 'dorsal', 'volar', 'old', 'infected', 'clean', 'contaminated',
  'deep', 'superficial', 'bleeding', 'pulsatile', 'circumferential', 'fusiform', 'spreading', 'at the base', 'at the shaft', 'at the neck', 'at the head',
] as const;
export type Qualifier = (typeof QUALIFIERS)[number];

/**
 * One coded finding about one side. Who said it, when, how surely and from which utterance
 * is on the record event that carries it (src/record), so that the meaning alone can be compared.
 */
export interface Finding {
  readonly side: Side;
  readonly sign: SignCode;
  readonly site: SiteCode;
  /** The other end of one thing that reaches from the site: "laceration from the thenar eminence to the second web". */
  readonly upTo?: SiteCode;
  readonly result: Result;
  /** Time or value at which it happened: Phalen positive at 30 s. */
  readonly at?: Quantity;
  readonly qualifiers?: readonly Qualifier[];
}

/** Qualifiers that make two findings of one item different observations: static and moving two-point can both stand. */
const DISTINGUISHING: readonly Qualifier[] = ['active', 'passive', 'resisted', 'static', 'moving', '30 Hz', '128 Hz', '256 Hz', 'radial half', 'ulnar half', 'dorsal', 'volar'];
const variant = (finding: Finding): string => DISTINGUISHING.filter((qualifier) => finding.qualifiers?.includes(qualifier)).join(' ');

/** True when both are about the same observation of the same item on the same side. */
export const sameObservation = (a: Finding, b: Finding): boolean =>
  a.side === b.side && a.sign === b.sign && a.site === b.site && variant(a) === variant(b);

/** What was examined, without side and result: the thing that a stage holds and a correction replaces. */
export type ItemKey = `${SignCode}@${SiteCode}`;
export const itemKey = (finding: { sign: SignCode; site: SiteCode }): ItemKey => `${finding.sign}@${finding.site}`;
