import type { ExaminationRecord, SetUp } from '../record';
import { SIDES, SIGNS, otherSide } from '../vocabulary';
import type { Finding, ItemKey, Side, SignCode, SiteCode } from '../vocabulary';
import { meaning } from './meaning';
import { contains } from './parts';
import type { Item, Protocol, Stage } from './protocol';

export type ItemState = 'done' | 'not testable' | 'remains';

export interface ItemProgress { readonly item: Item; readonly side: Side; readonly state: ItemState; readonly reason?: string }
export interface StageProgress { readonly stage: Stage; readonly done: boolean; readonly items: readonly ItemProgress[] }

const splitKey = (key: ItemKey): [SignCode, SiteCode] => {
  const at = key.indexOf('@');
  return [key.slice(0, at) as SignCode, key.slice(at + 1) as SiteCode];
};

/**
 * True when something said about sign@site answers for the item. What was said of a larger site answers for its parts only
 * if it was healthy ("no wasting of the hand"): "wasting of the hand" does not say of which part. Feeling of a digit always answers for its tip.
 */
function answers(sign: SignCode, site: SiteCode, healthy: boolean, item: Item): boolean {
  if (item.anywhere?.includes(sign)) return true;
  return item.keys.some((key) => {
    const [keySign, keySite] = splitKey(key);
    if (keySign !== sign) return false;
    return keySite === site || (contains(site, keySite) && (healthy || (SIGNS[sign].category === 'sensation' && keySite === `${site}.pulp`)));
  });
}

/** True when the finding marks the item done. */
export const marksDone = (finding: Finding, item: Item): boolean =>
  finding.result.kind !== 'not testable' && answers(finding.sign, finding.site, meaning(finding) === 'normal', item);

function itemProgress(record: ExaminationRecord, item: Item, side: Side): ItemProgress {
  if (record.findings.some(({ finding }) => finding.side === side && marksDone(finding, item))) return { item, side, state: 'done' };
  // "Cannot test feeling of the hand" leaves none of its parts, hence healthy = true here.
  const barred = record.notTestable.find((entry) => entry.side === side && answers(...splitKey(entry.item), true, item))?.reason
    ?? record.findings.flatMap(({ finding }) => (finding.side === side && finding.result.kind === 'not testable' && answers(finding.sign, finding.site, true, item) ? [finding.result.reason] : []))[0];
  return barred === undefined ? { item, side, state: 'remains' } : { item, side, state: 'not testable', reason: barred };
}

/** Sides in the order to examine: the affected side first, the other for comparison. */
export const sidesInOrder = (setUp: SetUp | null): readonly Side[] => {
  const injured = setUp?.injuredSide;
  return injured === 'left' || injured === 'right' ? [injured, otherSide(injured)] : SIDES;
};

/** The sides a stage holds, in the order to examine. */
export const stageSides = (stage: Stage, setUp: SetUp | null): readonly Side[] => {
  const order = sidesInOrder(setUp);
  const single = setUp?.injuredSide === 'left' || setUp?.injuredSide === 'right';
  return stage.sides === 'affected' && single ? order.slice(0, 1) : order;
};

/** Every item of the protocol with its state, stage by stage, the affected side first. Pure. */
export const progress = (record: ExaminationRecord, protocol: Protocol): StageProgress[] => protocol.stages.map((stage) => {
  const items = stageSides(stage, record.setUp).flatMap((side) => stage.items.map((item) => itemProgress(record, item, side)));
  return { stage, items, done: items.every(({ state }) => state !== 'remains') };
});

export interface Remainder { readonly stage: Stage; readonly side: Side; readonly items: readonly Item[] }

/** What remains, by stage and side; nothing for what is done or can't be tested. Pure. */
export const remaining = (record: ExaminationRecord, protocol: Protocol, side?: Side): Remainder[] =>
  progress(record, protocol).flatMap(({ stage, items }) => stageSides(stage, record.setUp).flatMap((each) => {
    const left = items.filter((entry) => entry.side === each && entry.state === 'remains').map(({ item }) => item);
    return left.length && (side === undefined || side === each) ? [{ stage, side: each, items: left }] : [];
  }));

export interface Share { readonly total: number; readonly done: number; readonly notTestable: number; readonly remaining: number; /** Of all items, 0 to 1, not done for whatever reason. */ readonly notDone: number }

/** How much of the examination was done. */
export function share(record: ExaminationRecord, protocol: Protocol): Share {
  const states = progress(record, protocol).flatMap(({ items }) => items.map(({ state }) => state));
  const count = (state: ItemState): number => states.filter((entry) => entry === state).length;
  const done = count('done');
  return { total: states.length, done, notTestable: count('not testable'), remaining: count('remains'), notDone: states.length ? (states.length - done) / states.length : 0 };
}

/** The stage under way: the one last set, or the first. */
export const currentStage = (record: ExaminationRecord, protocol: Protocol): Stage =>
  protocol.stages.find(({ id }) => id === record.stage) ?? protocol.stages[0] as Stage;

/** The stage after the current one; undefined at the end. */
export const nextStage = (record: ExaminationRecord, protocol: Protocol): Stage | undefined =>
  protocol.stages[protocol.stages.indexOf(currentStage(record, protocol)) + 1];
