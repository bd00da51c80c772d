import { sameObservation, type Finding, type Result } from '../vocabulary';

const POWER_WORDS: Readonly<Record<string, (grade: string) => boolean>> = {
  normal: (grade) => grade === '5', absent: (grade) => grade === '0', weak: (grade) => grade !== '5' && grade !== '0',
};
const ALIKE: readonly (readonly string[])[] = [['normal', 'full'], ['normal', 'brisk'], ['present', 'normal']];

/** Whether two results of one item can both be true. */
export function agree(a: Result, b: Result): boolean {
  if (a.kind === 'not testable' || b.kind === 'not testable') return true;
  if (a.kind === 'level' && b.kind === 'level') return a.level === b.level || ALIKE.some((pair) => pair.includes(a.level) && pair.includes(b.level));
  if (a.kind === 'grade' && b.kind === 'grade') return [a.grade, a.to].some((grade) => grade !== undefined && [b.grade, b.to].includes(grade));
  if (a.kind === 'quantity' && b.kind === 'quantity') return a.quantity.unit !== b.quantity.unit || a.quantity.value === b.quantity.value || a.quantity.comparator !== b.quantity.comparator;
  const level = a.kind === 'level' ? a.level : b.kind === 'level' ? b.level : undefined;
  const grade = a.kind === 'grade' ? a.grade : b.kind === 'grade' ? b.grade : undefined;
  return level === undefined || grade === undefined || (POWER_WORDS[level]?.(grade) ?? true);
}

/** The latest filed finding of the same observation that a new one contradicts. */
export function contradicted(finding: Finding, filed: readonly Finding[]): Finding | undefined {
  const earlier = filed.findLast((old) => sameObservation(old, finding));
  return earlier && !agree(earlier.result, finding.result) ? earlier : undefined;
}
