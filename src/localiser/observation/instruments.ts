/**
 * How an examination reads a hidden state: for every outcome its probability in each of the four states
 * (0 intact, 1 mildly reduced, 2 severely reduced, 3 lost). Each state's column adds up to 1.
 *
 * The tables are a design choice, set between the anatomist's view (a denervated muscle is 0 or 1) and simulated examiners who agree about as much as
 * Jepsen et al. measured (BMC Neurology 2006;6:8: kappa 0.54 for strength, 0.69 for touch [checked]);
 * tests/bench/localiser.ts prints the agreement of its own, different, examiners.
 */
export type PerState = readonly [number, number, number, number];
export interface Instrument { readonly name: string; readonly outcomes: Readonly<Record<string, PerState>> }

/** Power in bins of the MRC scale (Memorandum 45, 1976): 2- … 2+ count as 2, 3- … 3+ as 3, 5- as 4+. */
export const POWER: Instrument = {
  name: 'power',
  outcomes: {
    '0': [0.0004, 0.002, 0.03, 0.63], '1': [0.0003, 0.005, 0.09, 0.22], '2': [0.001, 0.02, 0.235, 0.1], '3': [0.0035, 0.125, 0.42, 0.025],
    '4-': [0.0098, 0.2, 0.1, 0.009], '4': [0.03, 0.34, 0.07, 0.008], '4+': [0.055, 0.15, 0.025, 0.003], '5': [0.9, 0.158, 0.03, 0.005],
  },
};
/** Movement said as full, limited or absent. */
export const RANGE: Instrument = { name: 'range', outcomes: { full: [0.95, 0.62, 0.12, 0.02], limited: [0.045, 0.36, 0.68, 0.13], absent: [0.005, 0.02, 0.2, 0.85] } };
/** One tendon tested alone: works, weak, or not at all. */
export const ISOLATION: Instrument = { name: 'isolated tendon', outcomes: { normal: [0.95, 0.4, 0.08, 0.02], weak: [0.04, 0.54, 0.42, 0.08], absent: [0.01, 0.06, 0.5, 0.9] } };

export const TOUCH: Instrument = { name: 'feeling', outcomes: { normal: [0.955, 0.21, 0.03, 0.015], reduced: [0.042, 0.765, 0.74, 0.2], absent: [0.003, 0.025, 0.23, 0.785] } };
export const VIBRATION: Instrument = { name: 'vibration', outcomes: { normal: [0.9, 0.5, 0.15, 0.05], reduced: [0.09, 0.45, 0.6, 0.25], absent: [0.01, 0.05, 0.25, 0.7] } };
/** Static two-point discrimination at a fingertip, bands of ASSH, The Hand: Examination and Diagnosis [memory]. */
export const TWO_POINT: Instrument = { name: 'two-point', outcomes: { 'under 6': [0.88, 0.42, 0.09, 0.03], '6-10': [0.09, 0.38, 0.28, 0.06], '11-15': [0.02, 0.12, 0.28, 0.11], 'over 15': [0.01, 0.08, 0.35, 0.8] } };
/**
 * Lightest Semmes-Weinstein filament felt, in the bands of the instrument's instructions (2011, table in PMC7873561 [checked]); a strict
 * limit of 2.83 gives many false positives (MacDermid 1997 [checked]). The probabilities are design choices.
 */
export const FILAMENT: Instrument = { name: 'filament', outcomes: {
  normal: [0.8, 0.25, 0.04, 0.01], 'light touch reduced': [0.17, 0.5, 0.21, 0.04], 'protective reduced': [0.02, 0.2, 0.4, 0.1], 'protective lost': [0.008, 0.04, 0.25, 0.25], 'not felt': [0.002, 0.01, 0.1, 0.6],
} };
/** Largest marking number of each band. */
export const FILAMENT_UP_TO: readonly (readonly [limit: number, band: string])[] = [[2.83, 'normal'], [3.61, 'light touch reduced'], [4.31, 'protective reduced'], [6.65, 'protective lost'], [Infinity, 'not felt']];
/** Numbness or tingling as the patient tells it. */
export const COMPLAINT: Instrument = binary('complaint', [0.1, 0.65, 0.8, 0.85]);
/** Dry skin, or no wrinkles in water, where sympathetic fibres are cut with the nerve: O'Riain 1973 [memory]. */
export const DRYNESS: Instrument = binary('dryness', [0.05, 0.12, 0.4, 0.85]);

/** Reflex of a muscle. Figures are a design choice. */
export const REFLEX: Instrument = { name: 'reflex', outcomes: { normal: [0.93, 0.45, 0.15, 0.05], reduced: [0.05, 0.42, 0.4, 0.15], absent: [0.02, 0.13, 0.45, 0.8] } };

/** Signs of posture and substitution: seen when the muscle behind them is weak. Accuracy not published as such (Goldman 2009); figures are a design choice. */
export const SUBSTITUTION: Instrument = binary('substitution', [0.03, 0.35, 0.8, 0.94]);
/** Palsy posture that needs near complete loss (wrist drop, finger drop, unable to make the fist or the pinch). */
export const DROP: Instrument = binary('drop', [0.006, 0.08, 0.62, 0.96]);

const WEEK = 7;
/** Muscle wasting is seen only weeks after denervation: before 2 weeks hardly ever, full after about 12. Common practice, no source. */
export function wasting(onsetDays: number | undefined): Instrument {
  const ripe = onsetDays === undefined ? 0.6 : Math.min(1, Math.max(0.03, (onsetDays - 2 * WEEK) / (10 * WEEK)));
  return binary('wasting', [0.03, 0.03 + 0.2 * ripe, 0.03 + 0.6 * ripe, 0.04 + 0.86 * ripe]);
}
/** A claw takes days to weeks to set in. Common practice, no source. */
export function clawing(onsetDays: number | undefined): Instrument {
  const ripe = onsetDays === undefined ? 0.75 : Math.min(1, Math.max(0.25, onsetDays / (4 * WEEK)));
  return binary('clawing', [0.01, 0.01 + 0.18 * ripe, 0.02 + 0.58 * ripe, 0.03 + 0.85 * ripe]);
}

/** A sign that is simply there or not: its sensitivity and false-positive rate are in the hypotheses. */
export const SIGN: Instrument = { name: 'sign', outcomes: { absent: [1, 1, 0, 0], present: [0, 0, 1, 1] } };

export function binary(name: string, present: PerState): Instrument {
  return { name, outcomes: { absent: present.map(p => 1 - p) as unknown as PerState, present } };
}
