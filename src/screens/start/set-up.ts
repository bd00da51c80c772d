import type { SetUp } from '../../record';
import type { Quantity, Side } from '../../vocabulary';
import { checkLabel } from './label';

/** What the start screen's form holds, as typed. */
export interface SetUpForm {
  readonly label: string;
  readonly injuredSide: Side | 'both' | '';
  readonly handedness: Side | 'both' | '';
  readonly mechanism: string;
  readonly onsetValue: string;
  readonly onsetUnit: Quantity['unit'];
  readonly protocol: string;
}

export const ONSET_UNITS: readonly { readonly unit: Quantity['unit']; readonly words: string }[] = [
  { unit: 'min', words: 'minutes ago' }, { unit: 'h', words: 'hours ago' }, { unit: 'd', words: 'days ago' },
];

/** Common causes of hand injury and complaint (common practice, no source); anything else can be typed. */
export const MECHANISMS = ['Cut by glass', 'Cut by a knife', 'Crush', 'Fall on the outstretched hand', 'Bite, animal', 'Punch or human bite', 'High-pressure injection', 'Burn', 'Ring pulled', 'Came on gradually'] as const;

export type Reading = { readonly ok: true; readonly setUp: SetUp } | { readonly ok: false; readonly hints: Readonly<Partial<Record<'label' | 'onset', string>>> };

/** Reads the form; every hint at once. Fields left empty stay absent: nothing is assumed. */
export function readSetUp(form: SetUpForm): Reading {
  const label = checkLabel(form.label);
  const value = Number(form.onsetValue.replace(',', '.'));
  const onsetGiven = form.onsetValue.trim() !== '';
  const onsetWrong = onsetGiven && !(Number.isFinite(value) && value >= 0);
  if (!label.ok || onsetWrong) {
    return { ok: false, hints: { ...(label.ok ? {} : { label: label.hint }), ...(onsetWrong ? { onset: 'Give the time as a number, such as 3 or 1.5, or leave it empty.' } : {}) } };
  }
  const mechanism = form.mechanism.trim();
  return {
    ok: true,
    setUp: {
      label: label.label, protocol: form.protocol,
      ...(form.injuredSide ? { injuredSide: form.injuredSide } : {}),
      ...(form.handedness ? { handedness: form.handedness } : {}),
      ...(mechanism ? { mechanism } : {}),
      ...(onsetGiven ? { onset: { value, unit: form.onsetUnit } } : {}),
    },
  };
}
