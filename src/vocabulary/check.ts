import type { Finding } from './finding';
import { MRC_GRADES, QUALIFIERS } from './finding';
import { SIGNS, isSignCode, type Category } from './sign';
import { SITES, isSiteCode } from './site';

/** What can reach from one place to another: what is seen on the skin, wounds, and what is told. */
export const REACHES: ReadonlySet<Category> = new Set<Category>(['look', 'wound', 'symptom']);

/**
 * Says what is wrong with a finding, one plain sentence a fault; an empty list means it is sound.
 * Total: takes anything that came from storage, an import or a parser.
 */
export function checkFinding(finding: Finding): string[] {
  const faults: string[] = [];
  if (finding.side !== 'left' && finding.side !== 'right') faults.push(`Side is "${String(finding.side)}": say left or right.`);
  if (!isSiteCode(finding.site)) faults.push(`Unknown site "${String(finding.site)}".`);
  if (!isSignCode(finding.sign)) return [...faults, `Unknown sign "${String(finding.sign)}".`];
  const sign = SIGNS[finding.sign];
  if (isSiteCode(finding.site) && !sign.kinds.includes(SITES[finding.site].kind) && sign.site !== finding.site)
    faults.push(`${sign.name} is not examined at the ${SITES[finding.site].name}.`);
  if (finding.upTo !== undefined) {
    if (!isSiteCode(finding.upTo)) faults.push(`Unknown site "${String(finding.upTo)}".`);
    else if (finding.upTo === finding.site || !REACHES.has(sign.category) || !sign.kinds.includes(SITES[finding.upTo].kind)) faults.push(`${sign.name} does not reach from the ${SITES[finding.site]?.name} to the ${SITES[finding.upTo].name}.`);
  }
  const { result } = finding;
  switch (result?.kind) {
    case 'level': if (!sign.levels.includes(result.level)) faults.push(`${sign.name} cannot be "${result.level}".`); break;
    case 'grade':
      if (!sign.grade) faults.push(`${sign.name} takes no power grade.`);
      for (const grade of [result.grade, result.to]) if (grade !== undefined && !MRC_GRADES.includes(grade)) faults.push(`"${grade}" is not an MRC grade (0 to 5, plus or minus on 2 to 5).`);
      break;
    case 'quantity':
      if (!sign.units?.includes(result.quantity.unit)) faults.push(`${sign.name} is not measured in ${result.quantity.unit}.`);
      if (![undefined, '<', '>'].includes(result.quantity.comparator)) faults.push(`"${result.quantity.comparator}" is not a comparator (< or >).`);
      if (result.quantity.to !== undefined && !(Number.isFinite(result.quantity.to) && result.quantity.to > result.quantity.value && !result.quantity.comparator)) faults.push(`"${result.quantity.value} to ${result.quantity.to}" is no range.`);
      if (!Number.isFinite(result.quantity.value) || result.quantity.value < 0) faults.push(`${sign.name}: "${result.quantity.value}" is not a measurement.`);
      break;
    case 'not testable': if (!result.reason?.trim()) faults.push('Say why it could not be tested.'); break;
    default: faults.push('The finding has no result.');
  }
  if (finding.at && !sign.at?.includes(finding.at.unit)) faults.push(`${sign.name} has no value at which it turns positive in ${finding.at.unit}.`);
  for (const qualifier of finding.qualifiers ?? []) if (!QUALIFIERS.includes(qualifier)) faults.push(`Unknown qualifier "${qualifier}".`);
  return faults;
}
