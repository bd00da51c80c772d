import type { Caution } from '../../cautions';
import type { ExaminationRecord } from '../../record';
import { findingInWords } from '../../vocabulary';
import type { CautionView } from './view';

/** Cautions with the findings that raised them in words; those not acknowledged yet come first, else the order is kept. */
export function cautionViews(cautions: readonly Caution[], record: ExaminationRecord): readonly CautionView[] {
  const words = new Map(record.findings.map(({ id, finding }) => [id, findingInWords(finding)]));
  const views = cautions.map(({ id, title, text, because, setUp, source }): CautionView => ({
    id, title, text, source,
    because: [...because.flatMap((findingId) => words.get(findingId) ?? []), ...setUp],
    acknowledged: record.cautionsAcknowledged.includes(id),
  }));
  return [...views.filter(({ acknowledged }) => !acknowledged), ...views.filter(({ acknowledged }) => acknowledged)];
}
