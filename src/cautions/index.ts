import type { ExaminationRecord } from '../record';
import { SIDES } from '../vocabulary';
import type { Side } from '../vocabulary';
import { evidenceOf } from './evidence';
import { RED_FLAGS, placeName } from './red-flags';
import type { Grounds, RedFlag, Urgency } from './red-flags';

/** Red flags of the hand, raised by what was found. The recorder supports: it shows what guidance asks for and never orders treatment. */
export { RED_FLAGS } from './red-flags';
export type { RedFlag, Urgency } from './red-flags';

/** Every caution ends with it. */
export const DEFER = 'Follow your local protocol and senior advice.';

export interface Caution {
  /** Flag, side and place: 'flexor-sheath.left.D2'. Stable, so that showing and acknowledging can be recorded. */
  readonly id: string;
  readonly flag: string;
  readonly side: Side;
  readonly title: string;
  /** What guidance asks for, ending in DEFER. */
  readonly text: string;
  /** Ids of the findings that raised it; empty when the mechanism alone did. */
  readonly because: readonly string[];
  /** What the set-up added, in words. */
  readonly setUp: readonly string[];
  readonly urgency: Urgency;
  readonly source: string;
}

const ORDER: readonly Urgency[] = ['now', 'same day', 'before leaving'];

const toCaution = ({ id, title, text, urgency, source }: RedFlag, side: Side, { findings, setUp = [], at }: Grounds): Caution => ({
  id: [id, side, ...(at ? [at] : [])].join('.'), flag: id, side, title: `${title}: ${side}${at ? `, ${placeName(at)}` : ''}`, text: `${text} ${DEFER}`,
  because: findings.map((finding) => finding.id), setUp, urgency, source,
});

/** The cautions that stand, the most urgent first. Pure. */
export const cautionsFor = (record: ExaminationRecord): Caution[] => SIDES
  .flatMap((side) => {
    const evidence = evidenceOf(record, side);
    return RED_FLAGS.flatMap((flag) => flag.grounds(evidence).map((grounds) => toCaution(flag, side, grounds)));
  })
  .sort((a, b) => ORDER.indexOf(a.urgency) - ORDER.indexOf(b.urgency));

/**
 * Cautions to interrupt with: never shown, or shown for findings that are all gone and raised again by later ones.
 * Record a 'caution shown' for each once it is on the screen.
 */
export const newCautions = (record: ExaminationRecord): Caution[] => {
  const filedIn = new Map(record.findings.map(({ id, seq }) => [id, seq]));
  return cautionsFor(record).filter(({ id, because, setUp }) => {
    const shown = record.cautionsShown.get(id);
    return shown === undefined || (setUp.length === 0 && because.every((finding) => (filedIn.get(finding) ?? 0) > shown));
  });
};
