import type { Loss, Variant } from '../anatomy/deficit';
import { VARIANT_IDS, meanLoss } from '../anatomy/deficit';
import type { Hypothesis, Severity } from '../hypotheses';
import { HYPOTHESES, SEVERITIES, signBase, signIn } from '../hypotheses';
import type { Atom, Unit, UnitId } from '../observation/units';
import { isMotorAtom, listedAs } from '../observation/units';

/**
 * The network of one hand: variant V and hypothesis H are independent roots, severity S depends on H,
 * the hidden state X of each unit depends on (V, H, S), and each finding depends on its unit's state alone.
 * A configuration is one (V, H, S).
 */
export interface Configuration { readonly hypothesis: number; readonly severity: number; readonly variant: number }

export const STATES = 4;
/** "None of these": any structure may be in any state, any sign may be there. */
const UNEXPLAINED: Hypothesis = {
  id: 'unexplained', kind: 'unexplained', structure: 'no single or double lesion of the list', level: '', prior: 1.6, severity: [0.3, 0.4, 0, 0.3], losses: () => new Map(), variable: false, motorShare: 1, signs: {}, pairs: false, places: [],
  source: 'Design choice: what a record looks like that follows no anatomy',
};
/** Few, some or most structures are out of order, whichever they are. Design choices. */
const UNEXPLAINED_STATES: Readonly<Record<Severity, readonly [number, number, number, number]>> = {
  mild: [0.86, 0.05, 0.05, 0.04], partial: [0.68, 0.12, 0.11, 0.09], patchy: [0.68, 0.12, 0.11, 0.09], complete: [0.42, 0.2, 0.2, 0.18],
};
const UNEXPLAINED_SIGN = 0.1;

export const LESIONS: readonly Hypothesis[] = [...HYPOTHESES, UNEXPLAINED];
export const LESION_INDEX: ReadonlyMap<string, number> = new Map(LESIONS.map(({ id }, index) => [id, index]));
export const NORMAL = LESION_INDEX.get('normal')!;
export const POLYNEUROPATHY = LESION_INDEX.get('polyneuropathy')!;

/** Per hypothesis: first configuration, and how many variants are told apart (1 when its losses are the same in all). */
const blocks: readonly { readonly start: number; readonly variants: number }[] = (() => {
  let start = 0;
  return LESIONS.map(({ variable }) => { const block = { start, variants: variable ? VARIANT_IDS.length : 1 }; start += block.variants * SEVERITIES.length; return block; });
})();
/** By hypothesis, then variant (only where it matters), then severity. */
export const CONFIGURATIONS: readonly Configuration[] = LESIONS.flatMap((_, hypothesis) => Array.from({ length: blocks[hypothesis]!.variants }, (__, variant) => SEVERITIES.map((___, severity) => ({ hypothesis, severity, variant }))).flat());
export const variantsOf = (hypothesis: number): number => blocks[hypothesis]!.variants;
export const configurationAt = (variant: number, hypothesis: number, severity: number): number => {
  const { start, variants } = blocks[hypothesis]!;
  return start + (variants === 1 ? 0 : variant) * SEVERITIES.length + severity;
};

/** Part of the supply that is out of action, and how unevenly structures share in it. Design choices. */
const DEPTH: Readonly<Record<Severity, { part: number; spread: number }>> = { mild: { part: 0.3, spread: 0.12 }, partial: { part: 0.62, spread: 0.14 }, patchy: { part: 0.9, spread: 0.12 }, complete: { part: 1, spread: 0.06 } };
/** In a patchy lesion, the chance that a structure is among those hit. A design choice. */
const HIT = 0.45;
/** Lost part at which a structure passes from intact to mildly, severely reduced, and lost. A design choice. */
const STEPS = [0.2, 0.55, 0.88] as const;
/** Chance of at least each step where no lesion reaches: coarse skin, old trouble, age. Design choices. */
const BACKGROUND = { motor: [0.015, 0.004, 0.001], skin: [0.015, 0.004, 0.001] } as const;

/** Probabilities of the four states when `part` of the supply is out of action. */
export function statesFor(part: number, spread: number, background: readonly [number, number, number] = BACKGROUND.motor): readonly [number, number, number, number] {
  const atLeast = STEPS.map((step, index) => (part < 0.03 ? background[index]! : Math.max(background[index]!, 1 / (1 + Math.exp((step - part) / spread)))));
  return [1 - atLeast[0]!, atLeast[0]! - atLeast[1]!, atLeast[1]! - atLeast[2]!, atLeast[2]!];
}

const losses: readonly (readonly ReadonlyMap<Atom, readonly Loss[]>[])[] = VARIANT_IDS.map((variant: Variant) => LESIONS.map(lesion => lesion.losses(variant)));

function possibilities(members: Unit, deficit: ReadonlyMap<Atom, readonly Loss[]>): readonly Loss[] {
  const atoms = Object.entries(members) as [Atom, number][];
  const [first] = atoms;
  if (atoms.length === 1 && first) return deficit.get(first[0]) ?? [];
  const part = atoms.reduce((sum, [atom, weight]) => { const loss = deficit.get(atom); return loss ? sum + weight * meanLoss(loss) : sum; }, 0);
  return part > 0 ? [{ part: Math.min(1, part), chance: 1 }] : [];
}

function structuralRows(members: Unit): Float64Array {
  const rows = new Float64Array(CONFIGURATIONS.length * STATES);
  const motor = (Object.keys(members) as Atom[]).every(isMotorAtom);
  const background = motor ? BACKGROUND.motor : BACKGROUND.skin;
  CONFIGURATIONS.forEach(({ hypothesis, severity, variant }, index) => {
    const lesion = LESIONS[hypothesis]!;
    const row = [0, 0, 0, 0];
    if (lesion.kind === 'unexplained') UNEXPLAINED_STATES[SEVERITIES[severity]!].forEach((p, state) => { row[state] = p; });
    else {
      const { part, spread } = DEPTH[SEVERITIES[severity]!];
      const name = SEVERITIES[severity]!;
      const depth = motor && (name === 'mild' || name === 'partial') ? part * lesion.motorShare : part;
      const lost = possibilities(members, losses[variant]![hypothesis]!);
      const hit = name === 'patchy' ? HIT : 1;
      for (const possible of lost.length ? lost : [{ part: 0, chance: 1 }]) {
        statesFor(possible.part * depth, spread, background).forEach((p, state) => { row[state]! += p * possible.chance * hit; });
        if (hit < 1) statesFor(0, spread, background).forEach((p, state) => { row[state]! += p * possible.chance * (1 - hit); });
      }
    }
    rows.set(row, index * STATES);
  });
  return rows;
}

function signRows(unit: UnitId): Float64Array {
  const rows = new Float64Array(CONFIGURATIONS.length * STATES);
  const base = signBase(unit);
  CONFIGURATIONS.forEach(({ hypothesis, severity }, index) => {
    const lesion = LESIONS[hypothesis]!;
    // A lesion never makes a sign rarer than it is without it.
    const present = lesion.kind === 'unexplained' ? UNEXPLAINED_SIGN : Math.max(base, signIn(lesion, unit)?.[severity] ?? 0);
    rows[index * STATES] = 1 - present;
    rows[index * STATES + 3] = present;
  });
  return rows;
}

/** Differences below this come from the order of additions. */
const ROUNDING = 1e-12;

/** Signs that at least one hypothesis speaks about. */
const KNOWN_SIGNS: ReadonlySet<UnitId> = new Set(LESIONS.flatMap(({ signs }) => Object.keys(signs)));

/** One unit's part of the network. */
export interface Table {
  /** P(state | configuration), four per configuration. */
  readonly rows: Float64Array;
  /** P(state or better | configuration), four per configuration: the worse of two states multiplies these. */
  readonly upTo: Float64Array;
  /** For each hypothesis 1 if it changes the unit in any way, else 0. */
  readonly touched: Uint8Array;
}
const cache = new Map<UnitId, Table>();

/** The table of a unit, computed once and kept; undefined for a sign that no hypothesis speaks about. */
export function tableOf(unit: UnitId, members?: Unit): Table | undefined {
  const known = cache.get(unit);
  if (known) return known;
  if (!members && !KNOWN_SIGNS.has(unit) && !KNOWN_SIGNS.has(listedAs(unit))) return undefined;
  const rows = members ? structuralRows(members) : signRows(unit);
  const upTo = rows.map((_, at) => { let sum = 0; for (let i = at - (at % STATES); i <= at; i++) sum += rows[i]!; return sum; });
  const touched = new Uint8Array(LESIONS.length);
  const healthy = configurationAt(0, NORMAL, 0) * STATES;
  CONFIGURATIONS.forEach(({ hypothesis }, index) => {
    for (let state = 0; state < STATES; state++) if (Math.abs(rows[index * STATES + state]! - rows[healthy + state]!) > ROUNDING) touched[hypothesis] = 1;
  });
  const table = { rows, upTo, touched };
  cache.set(unit, table);
  return table;
}
