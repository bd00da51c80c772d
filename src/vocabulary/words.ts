import type { Finding, Quantity, Result } from './finding';
import { SIGNS } from './sign';
import { SITES } from './site';

const UNIT_WORDS: Record<Quantity['unit'], string> = { mm: 'mm', cm: 'cm', s: 's', min: 'min', h: 'h', d: 'days', deg: '°', kg: 'kg', '{filament}': '' };
const COMPARATOR_WORDS = { '<': 'less than ', '>': 'more than ' } as const;
export const quantityInWords = ({ value, to, unit, comparator }: Quantity): string => {
  const amount = to === undefined ? String(value) : `${value} to ${to}`;
  return `${comparator ? COMPARATOR_WORDS[comparator] : ''}${unit === 'deg' ? `${amount}°` : `${amount} ${UNIT_WORDS[unit]}`.trim()}`;
};

export function resultInWords(result: Result, isTest = false): string {
  switch (result.kind) {
    case 'level': return isTest && result.level === 'present' ? 'positive' : isTest && result.level === 'absent' ? 'negative' : result.level;
    case 'grade': return `grade ${result.grade}${result.to ? ` to ${result.to}` : ''}`;
    case 'quantity': return quantityInWords(result.quantity);
    case 'not testable': return `not testable: ${result.reason}`;
  }
}

/** The place, with its other end where the finding reaches to one: "palm, up to the volar wrist". */
export const placeInWords = ({ site, upTo }: Pick<Finding, 'site' | 'upTo'>): string => [SITES[site].name, ...(upTo ? [`up to the ${SITES[upTo].name}`] : [])].join(', ');

/** One line a colleague can read: "Left · power, abductor pollicis brevis: grade 3 (painful)". */
export function findingInWords(finding: Finding): string {
  const sign = SIGNS[finding.sign];
  const side = finding.side === 'left' ? 'Left' : 'Right';
  const extras = [...(finding.upTo ? [`up to the ${SITES[finding.upTo].name}`] : []), ...(finding.at ? [`at ${quantityInWords(finding.at)}`] : []), ...(finding.qualifiers ?? [])];
  return `${side} · ${sign.name}, ${SITES[finding.site].name}: ${resultInWords(finding.result, sign.test)}${extras.length ? ` (${extras.join(', ')})` : ''}`;
}
