import { LESIONS, LESION_INDEX } from '../../../src/localiser/inference/network';
import { nameOf } from '../../../src/localiser/inference/next-test';
import type { Priors } from '../../../src/localiser/inference/pairs';
import { USUAL, priorsFor } from '../../../src/localiser/inference/pairs';
import type { Weighted } from '../../../src/localiser/inference/posterior';
import type { Patient } from './patient';
import type { Guess } from './references';

/** Ways to draw lesions: as often as the prior has them, or every single lesion that can be named alike. */
export const DRAWS: Readonly<Record<'usual' | 'even', Priors>> = { usual: USUAL, even: priorsFor(id => (id === 'unexplained' ? 0 : 1)) };

const structureNames = new Map(LESIONS.map(lesion => [lesion.id, (lesion.parts ?? [lesion]).map(({ structure }) => structure)]));
/** The structures of an explanation's id, pairs taken apart. */
export function structureOf(id: string): string {
  const whole = structureNames.get(id);
  if (whole) return [...whole].sort().join(' + ');
  const cut = [...id.matchAll(/\+/g)].map(({ index }) => index).find(at => LESION_INDEX.has(id.slice(0, at)) && LESION_INDEX.has(id.slice(at + 1)));
  return cut === undefined ? id : [...structureNames.get(id.slice(0, cut))!, ...structureNames.get(id.slice(cut + 1))!].sort().join(' + ');
}

export const named = (ranked: readonly Weighted[]): Guess => ranked.map(explanation => ({ id: nameOf(explanation), probability: explanation.probability }));

/** "nerve", "two lesions", "several by one cut" … */
export const familyOf = ({ lesions: [first, second] }: Patient): string => (second ? 'two lesions' : first!.parts ? 'several by one cut' : first!.kind);
