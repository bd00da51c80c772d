import type { Loss, Variant } from '../anatomy/deficit';
import type { Atom, UnitId } from '../observation/units';
import type { LesionKind } from '../localisation';

/** How much of a structure's function is gone. */
export const SEVERITIES = ['mild', 'partial', 'complete'] as const;
export type Severity = (typeof SEVERITIES)[number];
export type BySeverity = readonly [mild: number, partial: number, complete: number];

/** One explanation of one hand's findings. All numbers are probabilities unless a comment says otherwise. */
export interface Hypothesis {
  readonly id: string;
  readonly kind: LesionKind;
  readonly structure: string;
  readonly level: string;
  /** Relative prior weight; the whole list is normalised. */
  readonly prior: number;
  readonly severity: BySeverity;
  /** The supply or continuity that is lost when the lesion is complete. */
  readonly losses: (variant: Variant) => ReadonlyMap<Atom, readonly Loss[]>;
  /** True when the losses differ between anatomical variants. */
  readonly variable: boolean;
  /** How much less muscles suffer than skin while the lesion is not complete (compression: sensory first). */
  readonly motorShare: number;
  /** Signs that it shows, by unit, with their sensitivity by severity. */
  readonly signs: Readonly<Record<UnitId, BySeverity>>;
  /** May be one of two lesions in a hand. */
  readonly pairs: boolean;
  /** Where a wound or blow would have to be for it; two lesions at one place go together more often. */
  readonly place: string;
  readonly source: string;
}

export const always = (p: number): BySeverity => [p, p, p];
export const NO_LOSS = (): ReadonlyMap<Atom, readonly Loss[]> => new Map();

/** Losses that do not depend on how a person is made. */
export const fixed = (parts: Readonly<Partial<Record<Atom, number>>>) => {
  const losses = new Map((Object.entries(parts) as [Atom, number][]).map(([atom, part]) => [atom, [{ part, chance: 1 }]] as const));
  return () => losses as ReadonlyMap<Atom, readonly Loss[]>;
};
