import { DIGITS } from '../../vocabulary';
import type { UnitId } from '../observation/units';
import { listedAs } from '../observation/units';
import { combinedLesions } from './combined';
import type { BySeverity, Hypothesis } from './hypothesis';
import { NERVE_LESIONS } from './nerves';
import { OTHER_STATES } from './other-states';
import { TENDON_LESIONS } from './tendons';

export * from './hypothesis';
export { zoneInWords } from './zones';

/** Every explanation but the pairs, normal first. */
const SINGLES: readonly Hypothesis[] = [...OTHER_STATES.filter(h => h.id === 'normal'), ...NERVE_LESIONS, ...TENDON_LESIONS, ...OTHER_STATES.filter(h => h.id !== 'normal')];
export const HYPOTHESES: readonly Hypothesis[] = [...SINGLES, ...combinedLesions(SINGLES)];

/** Chance of a sign where no hypothesis calls for it: 1 minus its specificity. */
const SIGN_BASE: Readonly<Record<UnitId, number>> = {
  'phalen@wrist': 0.33, 'phalen@carpal.tunnel': 0.33, 'reverse.phalen@wrist': 0.3, // 1 - 0.67, Dabbagh 2023 [checked]
  'tinel@carpal.tunnel': 0.22, 'tinel@wrist': 0.22, 'tinel@wrist.volar': 0.22, // 1 - 0.78, Dabbagh 2023 [checked]
  'carpal.compression@carpal.tunnel': 0.25, // 1 - 0.90 Durkan 1991 [memory]; 1 - (0.66-0.87) Kuhlman & Hennessey 1997 [checked]
  'flick@hand': 0.15, 'night.symptoms@hand': 0.3,
  'tinel@cubital.tunnel': 0.24, 'tinel@elbow': 0.24, 'tinel@medial.epicondyle': 0.24, // 24 % of symptom-free people, Rayan 1992 [checked, via secondary]
  'elbow.flexion.test@cubital.tunnel': 0.1, // 1 % Novak 1994, 20 % of healthy elbows Kuschner 2006 [checked, via secondary]
  'ulnar.pressure@cubital.tunnel': 0.08, // 2 % Novak 1994 [checked, via secondary]; healthy controls flatter a test
  'scratch.collapse@cubital.tunnel': 0.15, 'nerve.thickening@cubital.tunnel': 0.2, 'tenderness@cubital.tunnel': 0.2, // nerve tenderness 46 %, thickening 45 % accurate, Beekman 2009 [checked, via secondary]
  'finkelstein@extensor.compartment1': 0.04, 'eichhoff@extensor.compartment1': 0.15, 'what@extensor.compartment1': 0.3, // 0 and 11 % of symptom-free wrists, Wu 2018 [memory]; 1 - 0.29 in suspects, Goubau 2014 [checked]
  'tenderness@snuffbox': 0.25, 'tenderness@scaphoid.tubercle': 0.2, 'scaphoid.compression@D1': 0.15, 'movement.pain@wrist.ulnar-deviation': 0.2, // specificities 0.03-0.98 among injured wrists, Mallee 2014 [checked]: lower here, not all are injured
  'scaphoid.shift@scapholunate': 0.34, 'lunotriquetral@wrist.ulnar': 0.45, 'ulnar.grind@TFCC': 0.3, // LaStayo & Howell 1995 [memory]
  'allen@hand': 0.18, // 1 - 0.817, Jarvis 2000 [checked]
  ...Object.fromEntries(DIGITS.map(digit => [`open.fracture@${digit}`, 0.002])),
  'scar@hand': 0.25, 'scar@fingers': 0.15, // old scars are common: design choices
  'spurling@neck': 0.1, 'neck.pain@neck': 0.15, 'tenderness@neck': 0.1, 'roos@arm': 0.2, 'pain@hand': 0.3, 'pain@forearm': 0.15, 'tingling@hand': 0.25, 'numbness@hand': 0.2, 'pain@power': 0.08, 'wound@hand': 0.08, 'wound@fingers': 0.06,
};
/** Unless the table says otherwise: a complaint of pain, tenderness or swelling is common, a sign that needs something broken is rare. Design choices. */
const COMMON = /^(tenderness|pain|swelling|movement\.pain|passive\.range|range|passive\.stretch\.pain|erythema|hot|cold|tinel|night)/;
const SCARRED = 0.06;
export const signBase = (unit: UnitId): number => SIGN_BASE[unit] ?? (unit.startsWith('scar@') ? SCARRED : SIGN_BASE[listedAs(unit)] ?? (COMMON.test(unit) ? 0.05 : 0.015));
/** Chance that a lesion shows a sign; undefined where it says nothing about it. */
export const signIn = ({ signs }: Hypothesis, unit: UnitId): BySeverity | undefined => signs[unit] ?? signs[listedAs(unit)];
