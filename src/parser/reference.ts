import type { Atom } from './atoms';
import { isPlaceKey } from './place';

/** Words after which a part only says where another one is. */
const NEARBY = /^(beside|next to|adjacent to|near|behind|in front of( the)?|(just )?(proximal|distal|lateral|medial) to( the)?)$/;

/** "Lump in the palm near the ring finger": the finger is what the palm's lump is near, and was not examined. A side beside it counts. */
export function withoutReferences(atoms: readonly Atom[]): readonly Atom[] {
  let placed = false;
  let near = false;
  return atoms.filter((atom) => {
    const place = isPlaceKey(atom.key);
    if (atom.key === 'comma' || atom.key === 'and') { placed = placed && atom.key === 'and'; near = near && atom.key === 'and'; return true; }
    if (atom.key === 'prep' && NEARBY.test(atom.words) && placed) { near = true; return false; }
    if (near && (place || atom.key === 'prep')) return false;
    if (near && atom.key !== 'side' && atom.key !== 'q') near = false;
    placed ||= place;
    return true;
  });
}

/** "Between the index and the middle metacarpals" is neither of them, and which place it is was not said. */
export const isBetweenPlaces = (atoms: readonly Atom[]): boolean => {
  const at = atoms.findIndex((atom) => atom.key === 'between');
  const next = atoms.slice(at + 1).find((atom) => atom.key !== 'prep' && atom.key !== 'side');
  return at >= 0 && next !== undefined && isPlaceKey(next.key) && !atoms.slice(0, at).some((atom) => isPlaceKey(atom.key));
};
