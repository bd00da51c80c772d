import type { Finding, Result, Side, SignCode } from '../../vocabulary';
import { checkFinding, MRC_GRADES, resultInWords, SIGNS } from '../../vocabulary';

/** Results a sign can take, for the reviewer's list: levels and grades by name; measured values are typed. */
export interface ResultChoice { readonly key: string; readonly words: string; readonly result: Result }

const keyOf = (result: Result): string => (result.kind === 'level' ? result.level : result.kind === 'grade' ? `grade ${result.grade}` : result.kind);

export function resultChoices(sign: SignCode): readonly ResultChoice[] {
  const entry = SIGNS[sign];
  const levels = entry.levels.map((level): Result => ({ kind: 'level', level }));
  const grades = entry.grade ? MRC_GRADES.map((grade): Result => ({ kind: 'grade', grade })) : [];
  return [...levels, ...grades].map((result) => ({ key: keyOf(result), words: resultInWords(result, entry.test), result }));
}

export interface CorrectionForm {
  readonly side: Side;
  /** Key of a result choice, 'quantity' or 'not testable'. */
  readonly result: string;
  readonly value: string;
  readonly unit: string;
  readonly reason: string;
}

export const correctionFormOf = ({ side, sign, result }: Finding): CorrectionForm => ({
  side, result: keyOf(result),
  value: result.kind === 'quantity' ? String(result.quantity.value) : '',
  unit: result.kind === 'quantity' ? result.quantity.unit : SIGNS[sign].units?.[0] ?? '',
  reason: result.kind === 'not testable' ? result.reason : '',
});

function readResult(sign: SignCode, form: CorrectionForm): Result | undefined {
  if (form.result === 'quantity') return { kind: 'quantity', quantity: { value: form.value.trim() ? Number(form.value.replace(',', '.')) : NaN, unit: form.unit as never } };
  if (form.result === 'not testable') return { kind: 'not testable', reason: form.reason.trim() };
  return resultChoices(sign).find(({ key }) => key === form.result)?.result;
}

export type CorrectionReading = { readonly ok: true; readonly finding: Finding } | { readonly ok: false; readonly faults: readonly string[] };

/** The corrected finding, checked like every other; what the form doesn't touch (site, sign, qualifiers) stays. */
export function readCorrection(finding: Finding, form: CorrectionForm): CorrectionReading {
  const result = readResult(finding.sign, form);
  if (!result) return { ok: false, faults: ['Choose a result.'] };
  const corrected: Finding = { ...finding, side: form.side, result };
  const faults = checkFinding(corrected);
  return faults.length ? { ok: false, faults } : { ok: true, finding: corrected };
}
