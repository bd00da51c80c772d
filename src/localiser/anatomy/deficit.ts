import type { NerveSite, Root, SegmentId } from './nerves';
import { ROOTS, SEGMENTS, TRUNK_OF, cordOf, lineOf } from './nerves';
import type { NeuralAtom } from './supply';
import { NEURAL_ATOMS, SUPPLY } from './supply';

/**
 * Anatomical variants that reroute several muscles at once; a person has one of these.
 * Martin-Gruber: median to ulnar in the forearm, 19.5 % (95 % CI 16.2-23.1), Roy 2016, 10,562 limbs [checked].
 * Riche-Cannieu: deep ulnar to recurrent median in the palm, 55.5 % anatomically, Roy 2016 [checked]; how often it carries
 * enough fibres to matter was not found: 0.08 is a design choice.
 */
export const VARIANTS = { usual: 0.725, 'Martin-Gruber': 0.195, 'Riche-Cannieu': 0.08 } as const;
export type Variant = keyof typeof VARIANTS;
export const VARIANT_IDS = Object.keys(VARIANTS) as readonly Variant[];

/** Part of the supply that takes the other way in a variant: not published as a figure, a design choice. */
const REROUTED = 0.5;

type Way = { readonly line: readonly SegmentId[]; readonly part: number };

function ways(atom: NeuralAtom, from: SegmentId, variant: Variant): readonly Way[] {
  const line = lineOf(from);
  if (variant === 'Martin-Gruber' && line.includes('ulnar.deep'))
    return [{ line, part: 1 - REROUTED }, { line: ['median.elbow', 'median.pronator', ...line.slice(line.indexOf('ulnar.forearm'))], part: REROUTED }];
  if (variant === 'Riche-Cannieu' && (atom === 'APB' || atom === 'OP' || atom === 'FPB') && from === 'median.recurrent')
    return [{ line, part: 1 - REROUTED }, { line: lineOf('ulnar.deep-distal'), part: REROUTED }];
  return [{ line, part: 1 }];
}

/** True if fibres of `root` that run along `line` pass through `site`. */
function passes(line: readonly SegmentId[], root: Root, site: NerveSite): boolean {
  if (site === root || site === TRUNK_OF[root]) return true;
  const first = line[0];
  return (first !== undefined && site === cordOf(SEGMENTS[first].nerve, root)) || (line as readonly NerveSite[]).includes(site);
}

/** One possibility: the part (0 to 1) of a structure's supply that is lost, and how often it is so. */
export interface Loss { readonly part: number; readonly chance: number }

/** The part of `atom`'s supply that a complete lesion at `site` takes away, for each way people are made. */
export function lossOf(atom: NeuralAtom, site: NerveSite, variant: Variant = 'usual'): readonly Loss[] {
  const { from, joint, roots, spared } = SUPPLY[atom];
  const lostBy = (segment: SegmentId) => ways(atom, segment, variant).reduce((sum, { line, part }) =>
    sum + part * ROOTS.reduce((carried, root) => carried + (passes(line, root, site) ? roots[root] ?? 0 : 0), 0), 0);
  const branches = joint
    ? [{ part: from.reduce((sum, branch) => sum + branch.share * lostBy(branch.from), 0), chance: 1 }]
    : from.map(branch => ({ part: lostBy(branch.from), chance: branch.share }));
  const chanceSpared = isSegment(site) ? spared?.[site] ?? 0 : 0;
  return merge([...branches.map(({ part, chance }) => ({ part, chance: chance * (1 - chanceSpared) })), ...(chanceSpared ? [{ part: 0, chance: chanceSpared }] : [])]);
}

const isSegment = (site: NerveSite): site is SegmentId => Object.hasOwn(SEGMENTS, site);

function merge(losses: readonly Loss[]): readonly Loss[] {
  const byPart = new Map<number, number>();
  for (const { part, chance } of losses) { const key = Math.round(part * 1e9) / 1e9; byPart.set(key, (byPart.get(key) ?? 0) + chance); }
  return [...byPart].map(([part, chance]) => ({ part, chance }));
}

/** Mean part lost, over the ways people are made. */
export const meanLoss = (losses: readonly Loss[]): number => losses.reduce((sum, { part, chance }) => sum + part * chance, 0);

/** Everything a complete lesion at `site` takes something from, with the losses: the computed deficit. */
export function deficitOf(site: NerveSite, variant: Variant = 'usual'): ReadonlyMap<NeuralAtom, readonly Loss[]> {
  const deficit = new Map<NeuralAtom, readonly Loss[]>();
  for (const atom of NEURAL_ATOMS) {
    const losses = lossOf(atom, site, variant);
    if (losses.some(({ part }) => part > 0)) deficit.set(atom, losses);
  }
  return deficit;
}
