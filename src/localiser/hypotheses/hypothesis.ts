import type { Loss, Variant } from '../anatomy/deficit';
import type { Atom, UnitId } from '../observation/units';
import type { LesionKind } from '../localisation';
import type { TendonLine } from './zones';

/** How much of a structure's function is gone; patchy = some fascicles or strands wholly, others not at all. */
export const SEVERITIES = ['mild', 'partial', 'patchy', 'complete'] as const;
export type Severity = (typeof SEVERITIES)[number];
export type BySeverity = readonly [mild: number, partial: number, patchy: number, complete: number];

/** One explanation of one hand's findings. All numbers are probabilities unless a comment says otherwise. */
export interface Hypothesis {
  readonly id: string;
  /** Several lesions of one blow: their hypotheses. */
  readonly parts?: readonly Hypothesis[];
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
  /** Where a wound or blow would have to be for it; two lesions that share a place go together more often. */
  readonly places: readonly string[];
  /** Days after onset by which such a state has ended one way or another; absent where it lasts. */
  readonly overAfter?: number;
  /** A tendon whose zone a wound over it tells; absent where the structure has one place only. */
  readonly line?: TendonLine;
  readonly source: string;
}

export const always = (p: number): BySeverity => [p, p, p, p];
export const NO_LOSS = (): ReadonlyMap<Atom, readonly Loss[]> => new Map();

/** A wound at one place is often called by a wider name: a wound of the finger, of the hand. */
const WIDER: Readonly<Record<string, readonly string[]>> = { wrist: ['hand'], palm: ['hand'], 'hand.dorsum': ['hand'], D1: ['hand'], D2: ['fingers', 'hand'], D3: ['fingers', 'hand'], D4: ['fingers', 'hand'], D5: ['fingers', 'hand'] };

/** Chance that a wound is found at each band, for a lesion made there. */
export function woundAt(bands: readonly (readonly [band: string, chance: BySeverity])[]): Readonly<Record<UnitId, BySeverity>> {
  const signs: Record<UnitId, BySeverity> = {};
  const raise = (unit: UnitId, chance: BySeverity) => { const before = signs[unit]; signs[unit] = before ? chance.map((p, s) => Math.max(p, before[s]!)) as unknown as BySeverity : chance; };
  for (const [band, chance] of bands) for (const name of [band, ...(WIDER[band] ?? [])]) raise(`wound@${name}`, chance);
  return signs;
}

/** Losses that do not depend on how a person is made. */
export const fixed = (parts: Readonly<Partial<Record<Atom, number>>>) => {
  const losses = new Map((Object.entries(parts) as [Atom, number][]).map(([atom, part]) => [atom, [{ part, chance: 1 }]] as const));
  return () => losses as ReadonlyMap<Atom, readonly Loss[]>;
};
