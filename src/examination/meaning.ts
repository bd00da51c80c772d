import { SIGNS, SITES } from '../vocabulary';
import type { Finding, MrcGrade, Quantity, SignCode, SiteKind, Unit } from '../vocabulary';

/** What a finding says about health: a default reading for boards and tables, never a diagnosis. */
export type Meaning = 'normal' | 'abnormal' | 'unclear' | 'not testable';

/** Signs whose presence is the healthy answer: the tenodesis effect, a tendon that works, wrinkles in water (O'Riain 1973 [from memory]). */
const HEALTHY_WHEN_PRESENT: ReadonlySet<SignCode> = new Set<SignCode>(['tenodesis', 'fds.isolation', 'fdp.isolation', 'wrinkles', 'pulse']);
/** Signs that qualify another and are neither good nor bad alone: Bouvier says that a claw can be corrected. */
const NEITHER: ReadonlySet<SignCode> = new Set<SignCode>(['bouvier']);
const HEALTHY_LEVELS = new Set(['normal', 'full', 'brisk', 'moist', 'S4']);

/**
 * Limits above which a measurement counts as abnormal by default (each is for the clinician to adjust):
 * static two-point discrimination 6 mm or more (ASSH, The Hand: Examination and Diagnosis [from memory]), moving 4 mm or more (Dellon 1978 [from memory]),
 * capillary refill over 2 s (Schriger & Baraff 1988 [checked]), thumb UCL opening over 30° (Heyman 1993 [from memory]).
 */
export const REFILL_LIMIT_S = 2;
export const TWO_POINT_LIMIT_MM = { static: 6, moving: 4 } as const;
const LAXITY_LIMIT_DEG = 30;
/** Heaviest filament that still counts as normal on the hand (instrument instructions 2011, table in PMC7873561 [checked]); as a strict limit it gives many false positives (MacDermid 1997 [checked]). */
const FILAMENT_LIMIT = 2.83;

/** Abnormal from the limit on (or only beyond it); "less than" and "more than" only where they settle it. */
function against(limit: number, { value, comparator }: Quantity, atLimit: 'abnormal' | 'normal'): Meaning {
  switch (comparator) {
    case '<': return value <= limit ? 'normal' : 'unclear';
    case '>': return value >= limit ? 'abnormal' : 'unclear';
    default: return value === limit ? atLimit : value > limit ? 'abnormal' : 'normal';
  }
}

function measured({ sign, result, qualifiers }: Finding): Meaning {
  if (result.kind !== 'quantity') return 'unclear';
  const { quantity } = result;
  switch (sign) {
    case 'two.point': return against(TWO_POINT_LIMIT_MM[qualifiers?.includes('moving') ? 'moving' : 'static'], quantity, 'abnormal');
    case 'refill': return against(REFILL_LIMIT_S, quantity, 'normal');
    case 'laxity': return against(LAXITY_LIMIT_DEG, quantity, 'normal');
    case 'monofilament': return against(FILAMENT_LIMIT, quantity, 'normal');
    case 'extension.lag': case 'fixed.flexion': case 'tip.palm.distance': return against(0, quantity, 'normal');
    default: return SIGNS[sign].category === 'wound' ? 'abnormal' : 'unclear'; // a range or a force needs the other side to compare with
  }
}

/** Warm fingers are well perfused; a warm joint is inflamed [common practice, no source]. */
const WARM_IS_WELL: ReadonlySet<SiteKind> = new Set<SiteKind>(['hand', 'digit']);

export function meaning(finding: Finding): Meaning {
  const { sign, site, result } = finding;
  if (result.kind === 'not testable') return 'not testable';
  if (NEITHER.has(sign) || finding.qualifiers?.includes('equivocal')) return 'unclear';
  if (result.kind === 'grade') return result.grade === '5' ? 'normal' : 'abnormal';
  if (result.kind === 'quantity') return measured(finding);
  const { level } = result;
  if (HEALTHY_LEVELS.has(level)) return 'normal';
  if (level === 'present') return HEALTHY_WHEN_PRESENT.has(sign) ? 'normal' : 'abnormal';
  if (level === 'absent') return SIGNS[sign].levels.includes('present') && !HEALTHY_WHEN_PRESENT.has(sign) ? 'normal' : 'abnormal';
  if (sign === 'temperature' && level === 'warm') return WARM_IS_WELL.has(SITES[site].kind) ? 'normal' : 'abnormal';
  return 'abnormal';
}

const powerInWords = (grade: MrcGrade): string => (grade === '0' ? 'absent' : grade === '5' ? 'normal' : 'weak');

/**
 * How a later finding stands to an earlier one of the same observation:
 * same = it says nothing new; refinement = it says the same more exactly ("weak", then grade 4) and takes its place;
 * another = a second wound beside the first; contradiction = both can't be so.
 */
export type Agreement = 'same' | 'refinement' | 'another' | 'contradiction';

const IN_BASE_UNIT: Partial<Record<Unit, number>> = { mm: 1, cm: 10, s: 1, min: 60, h: 3600, d: 86_400 };
/** What a quantity allows, as an open interval or a single value, in base units. */
const range = ({ value, to, unit, comparator }: Quantity): readonly [from: number, to: number] => {
  const amount = value * (IN_BASE_UNIT[unit] ?? 1);
  return [comparator === '<' ? -Infinity : amount, comparator === '>' ? Infinity : to === undefined ? amount : to * (IN_BASE_UNIT[unit] ?? 1)];
};
function apart(a: Quantity, b: Quantity): boolean {
  const [[aFrom, aTo], [bFrom, bTo]] = [range(a), range(b)];
  // "Less than 2 s" and 2 s touch but can't both be so.
  return aTo < bFrom || bTo < aFrom || ((aTo === bFrom || bTo === aFrom) && a.comparator !== b.comparator);
}

/** Words that say the same of one sign. */
const ALIKE: readonly (readonly string[])[] = [['normal', 'full'], ['normal', 'brisk'], ['normal', 'present']];
const alike = (a: string, b: string): boolean => a === b || ALIKE.some((pair) => pair.includes(a) && pair.includes(b));

function contradicts(earlier: Finding, later: Finding): boolean {
  const [a, b] = [earlier.result, later.result];
  if (a.kind === 'level' && b.kind === 'level') return !alike(a.level, b.level);
  if (a.kind === 'grade' && b.kind === 'grade') return a.grade !== b.grade || (a.to !== undefined && b.to !== undefined && a.to !== b.to);
  if (a.kind === 'quantity' && b.kind === 'quantity') return apart(a.quantity, b.quantity);
  if (a.kind === 'level' && b.kind === 'grade') return a.level !== powerInWords(b.grade);
  if (a.kind === 'grade' && b.kind === 'level') return b.level !== powerInWords(a.grade);
  const [one, other] = [meaning(earlier), meaning(later)];
  return one !== other && one !== 'unclear' && other !== 'unclear';
}

/** Everything said beyond the bare item, one token each: a finding that holds all tokens of another says no less. */
const details = ({ result, upTo, at, qualifiers = [] }: Finding): ReadonlySet<string> => new Set([
  ...qualifiers, ...(upTo ? [`up to ${upTo}`] : []), ...(at ? [JSON.stringify(at)] : []), ...(result.kind === 'level' ? [] : [result.kind]), ...(result.kind === 'quantity' && !result.quantity.comparator ? ['exactly'] : []), ...(result.kind === 'grade' && result.to ? [`to ${result.to}`] : []),
]);

export function agreement(earlier: Finding, later: Finding): Agreement {
  const isWound = SIGNS[earlier.sign].category === 'wound';
  const [said, told] = [details(earlier), details(later)];
  const addsNothing = [...told].every((detail) => said.has(detail));
  const losesNothing = [...said].every((detail) => told.has(detail));
  if (contradicts(earlier, later)) return isWound && earlier.result.kind === 'quantity' && later.result.kind === 'quantity' ? 'another' : 'contradiction';
  if (addsNothing) return 'same';
  return isWound && !losesNothing ? 'another' : 'refinement';
}
