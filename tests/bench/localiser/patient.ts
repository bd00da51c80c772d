/**
 * Simulated patients and examiners. The anatomy (which lesion takes what) is the localiser's, the rest is not: depth of
 * the lesion, unevenness between structures, the ways people are made, and the examiner are continuous here and four tables there;
 * sensitivities of signs vary from patient group to patient group; some findings are plain mistakes.
 */
import type { Loss } from '../../../src/localiser/anatomy/deficit';
import { VARIANTS, VARIANT_IDS } from '../../../src/localiser/anatomy/deficit';
import type { Hypothesis } from '../../../src/localiser/hypotheses';
import { SEVERITIES, signBase } from '../../../src/localiser/hypotheses';
import { LESIONS } from '../../../src/localiser/inference/network';
import type { Priors } from '../../../src/localiser/inference/pairs';
import { PAIRS } from '../../../src/localiser/inference/pairs';
import { partsOf, probeOf } from '../../../src/localiser/observation/reading';
import type { Atom } from '../../../src/localiser/observation/units';
import { isMotorAtom } from '../../../src/localiser/observation/units';
import type { Finding, ItemKey, Level, MrcGrade, Result } from '../../../src/vocabulary';
import type { Random } from './random';

export interface Patient {
  /** Explanation id as the localiser names it. */
  readonly truth: string;
  readonly structure: string;
  readonly lesions: readonly Hypothesis[];
  /** Part of an atom's function that is lost, 0 to 1. */
  readonly lost: (atom: Atom) => number;
  readonly shows: (unit: string) => boolean;
}

/** An examiner: how far the judgement of strength and feeling wanders, chosen so that two of them agree as Jepsen et al. measured. */
export const EXAMINER = { strength: 0.087, touch: 0.116, twoPoint: 0.18, bias: 0.03, mistakes: 0.004 } as const;

const RANGE_OF = { mild: [0.2, 0.42], partial: [0.45, 0.8], patchy: [0.8, 1], complete: [0.94, 1] } as const;
const UNEVEN = 0.08;
const OLD_TROUBLE = 0.015;
const MENDED_AT_RANDOM = 0.45;

const structureOf = (lesions: readonly Hypothesis[]): string => lesions.flatMap(lesion => lesion.parts ?? [lesion]).map(({ structure }) => structure).sort().join(' + ');

/** Draws one hand. @param priors how often each lesion and each pair is drawn. */
export function draw(random: Random, { single, logPair, logOneLesion }: Priors): Patient {
  const two = random.next() > Math.exp(logOneLesion);
  const chosen = two ? [PAIRS[random.weighted([...logPair].map(Math.exp))]!].flatMap(({ first, second }) => [first, second]) : [random.weighted(single)];
  const lesions = chosen.map(index => LESIONS[index]!);
  const variant = VARIANT_IDS[random.weighted(VARIANT_IDS.map(id => VARIANTS[id]))]!;
  const depths = lesions.map(({ severity }) => {
    const name = SEVERITIES[random.weighted([...severity])]!;
    const [low, high] = RANGE_OF[name];
    return { name, index: SEVERITIES.indexOf(name), depth: low + (high - low) * random.next() };
  });
  const scatter = 0.1 + 0.4 * random.next(); // where no anatomy holds, this share of structures is out of order
  const atoms = new Map<Atom, number>();
  const lost = (atom: Atom): number => {
    const known = atoms.get(atom);
    if (known !== undefined) return known;
    const [often, deep] = lesions[0]!.kind === 'unexplained' ? [scatter, 0.7] : [OLD_TROUBLE, 0.4];
    let loss = random.next() < often ? 0.2 + deep * random.next() : 0;
    lesions.forEach((lesion, at) => {
      const { name, depth } = depths[at]!;
      const ways: readonly Loss[] | undefined = lesion.losses(variant).get(atom);
      if (!ways) return;
      const way = ways[random.weighted(ways.map(({ chance }) => chance))]!;
      if (way.part <= 0 || (name === 'patchy' && random.next() > MENDED_AT_RANDOM)) return;
      const share = isMotorAtom(atom) && (name === 'mild' || name === 'partial') ? lesion.motorShare : 1;
      loss = Math.max(loss, way.part * depth * share + random.normal(0, name === 'complete' ? UNEVEN / 2 : UNEVEN));
    });
    loss = Math.min(1, Math.max(0, loss));
    atoms.set(atom, loss);
    return loss;
  };
  const signs = new Map<string, boolean>();
  const shows = (unit: string): boolean => {
    const known = signs.get(unit);
    if (known !== undefined) return known;
    const base = signBase(unit) * (0.6 + 0.8 * random.next());
    const sensitivity = lesions.map(({ signs: own }, at) => Math.min(0.99, Math.max(base, (own[unit]?.[depths[at]!.index] ?? 0) + random.normal(0, own[unit] ? 0.07 : 0))));
    const present = random.next() < 1 - sensitivity.reduce((miss, p) => miss * (1 - p), 1);
    signs.set(unit, present);
    return present;
  };
  return { truth: lesions.map(({ id }) => id).join('+'), structure: structureOf(lesions), lesions, lost, shows };
}

const MRC: readonly (readonly [number, MrcGrade])[] = [[0.13, '5'], [0.2, '4+'], [0.36, '4'], [0.48, '4-'], [0.7, '3'], [0.84, '2'], [0.93, '1'], [Infinity, '0']];
const step = <T>(loss: number, steps: readonly (readonly [number, T])[]): T => steps.find(([limit]) => loss < limit)![1];
const level = (name: Level): Result => ({ kind: 'level', level: name });
const ALL_GRADES = MRC.map(([, grade]) => grade);

/** What one examiner finds. Returns nothing when the item can't be read by the localiser. @param bias this examiner's own leaning. */
export function examine(patient: Patient, item: ItemKey, random: Random, bias = 0): Finding | undefined {
  const { sign, site } = partsOf(item);
  const probe = probeOf(sign, site);
  if (!probe) return undefined;
  const found = (result: Result): Finding => ({ side: 'right', sign, site, result });
  const wrong = random.next() < EXAMINER.mistakes;
  if (!probe.members) {
    const abnormal = wrong ? random.next() < 0.5 : patient.shows(probe.unit);
    return found(signResult(sign, abnormal));
  }
  const loss = Math.max(0, Object.entries(probe.members).reduce((sum, [atom, part]) => sum + part * patient.lost(atom as Atom), 0));
  switch (probe.instrument.name) {
    case 'power': {
      const felt = loss + bias + random.normal(0, EXAMINER.strength);
      return found({ kind: 'grade', grade: wrong ? random.pick(ALL_GRADES) : step(felt, MRC) });
    }
    case 'feeling': case 'vibration': {
      const felt = loss + bias + random.normal(0, EXAMINER.touch);
      return found(level(wrong ? random.pick(['normal', 'reduced', 'absent'] as const) : step(felt, [[0.2, 'normal'], [0.86, 'reduced'], [Infinity, 'absent']] as const)));
    }
    case 'two-point': {
      const mm = step(loss + bias + random.normal(0, EXAMINER.twoPoint), [[0.25, 4], [0.5, 8], [0.78, 13], [Infinity, 20]] as const);
      return found({ kind: 'quantity', quantity: { value: wrong ? random.pick([4, 8, 13, 20]) : mm, unit: 'mm' } });
    }
    case 'reflex': return found(level(step(loss + random.normal(0, 0.15), [[0.3, 'normal'], [0.7, 'reduced'], [Infinity, 'absent']] as const)));
    case 'range': return found(level(step(loss + random.normal(0, 0.12), [[0.35, 'full'], [0.85, 'limited'], [Infinity, 'absent']] as const)));
    case 'isolated tendon': return found(level(step(loss + random.normal(0, 0.1), [[0.3, 'normal'], [0.8, 'weak'], [Infinity, 'absent']] as const)));
    case 'drop': return found(level(loss + random.normal(0, 0.14) > 0.62 ? 'present' : 'absent'));
    case 'substitution': return found(level(loss + random.normal(0, 0.18) > 0.38 ? 'present' : 'absent'));
    default: return found(level(loss + random.normal(0, 0.22) > 0.6 ? 'present' : 'absent')); // wasting, clawing
  }
}

function signResult(sign: Finding['sign'], abnormal: boolean): Result {
  switch (sign) {
    case 'tenodesis': case 'pulse': return level(abnormal ? 'absent' : 'present');
    case 'refill': return level(abnormal ? 'slow' : 'normal');
    case 'passive.range': return level(abnormal ? 'limited' : 'full');
    default: return level(abnormal ? 'present' : 'absent');
  }
}

/** Items that speak to a lesion or to a rival of it: what an examiner who has heard the complaint would look at. */
export function relevantItems(patient: Patient, items: readonly ItemKey[]): readonly ItemKey[] {
  return items.filter(item => {
    const { sign, site } = partsOf(item);
    const probe = probeOf(sign, site);
    if (!probe) return false;
    return patient.lesions.some(lesion => (probe.members ? Object.keys(probe.members).some(atom => lesion.losses('usual').has(atom as Atom)) : lesion.signs[probe.unit] !== undefined));
  });
}
