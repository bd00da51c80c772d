import { currentStage } from '../../examination/progress';
import type { Protocol } from '../../examination/protocol';
import type { StageProgress } from '../../examination/progress';
import { progress, stageSides } from '../../examination/progress';
import type { ExaminationRecord } from '../../record';
import type { StageView } from './view';

const stageView = ({ stage, items, done }: StageProgress, current: boolean, record: ExaminationRecord): StageView => ({
  id: stage.id, name: stage.name, current, complete: done,
  total: items.length,
  done: items.filter(({ state }) => state === 'done').length,
  barred: items.filter(({ state }) => state === 'not testable').length,
  remaining: stageSides(stage, record.setUp).map((side) => ({ side, items: items.filter((entry) => entry.side === side && entry.state === 'remains').map(({ item }) => item.name) })),
});

/** The board: every stage of the protocol with how much is done, and what remains by side. */
export function stageViews(record: ExaminationRecord, protocol: Protocol): readonly StageView[] {
  const current = currentStage(record, protocol);
  return progress(record, protocol).map((entry) => stageView(entry, entry.stage.id === current.id, record));
}
