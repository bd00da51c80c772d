import type { Atom } from './atoms';
import { isLigament } from './guard';
import { isPlaceKey } from './place';

/**
 * Words whose meaning is in the company they keep: "radial" may be an artery, a nerve, a side of a finger, a ligament or a
 * way to bend the wrist. Where the company leaves it open, the sentence is no finding.
 */
export function inCompany(atoms: readonly Atom[]): readonly Atom[] {
  return smallWords(referredTinel(tightLigaments(facingSides(worseNumbness(tubercles(bonesNamedTogether(branches(atoms))))))));
}

const isSign = (atom: Atom, ...codes: readonly string[]): boolean => atom.key === 'sign' && codes.includes(atom.value);
const as = (atom: Atom, key: string, value: string): Atom => ({ ...atom, key, value });

const OF_ARTERIES = /palpable|pulse|thready|bounding|feeble|volume|arter/;
const SIDES: ReadonlySet<string> = new Set(['radial', 'ulnar']);

/** "Radial" and "ulnar" alone, by what else is said. */
function branches(atoms: readonly Atom[]): readonly Atom[] {
  if (!atoms.some(({ key }) => key === 'branch')) return atoms;
  const read = branchReader(atoms);
  return atoms.flatMap((atom, index) => (atom.key === 'branch' ? read(atom, index) : [atom]));
}

function branchReader(atoms: readonly Atom[]): (atom: Atom, index: number) => Atom[] {
  const lost = (atom: Atom): Atom[] => [as(atom, 'unfit', '')];
  const toArtery = (atom: Atom): Atom[] => (SIDES.has(atom.value) ? [as(atom, 'site', `${atom.value}.artery`)] : lost(atom));
  const artery = atoms.some((atom) => isSign(atom, 'pulse')) || atoms.some(({ key, words }) => (key === 'lvl' || key === 'neg') && OF_ARTERIES.test(words));
  if (artery && !atoms.some(({ key }) => key === 'digit')) return toArtery;
  if (atoms.some(({ key, value }) => key === 'move' && /deviation$/.test(value))) return (atom) => [as(atom, 'move', `${atom.value}-deviation`)];
  if (atoms.some((atom) => isLigament(atom)) && atoms.some((atom) => isSign(atom, 'laxity'))) {
    // "Collaterals stable, radial and ulnar": both were named.
    const both = ['RCL', 'UCL'].every((part) => atoms.some(({ key, value }) => key === 'part' && value === part));
    return (atom) => (both ? [] : [as(atom, 'part', atom.value === 'radial' ? 'RCL' : 'UCL')]);
  }
  if (atoms.some(({ key }) => key === 'digit') && atoms.some((atom) => isSign(atom, 'light.touch', 'pinprick', 'two.point', 'laxity', 'monofilament', 'sensory.grade'))) return (atom) => (SIDES.has(atom.value) ? [as(atom, 'part', atom.value)] : lost(atom));
  return lost;
}

/** "Second and third metacarpals", "index and middle knuckles": behind a number or a finger the plural names each of them. */
function bonesNamedTogether(atoms: readonly Atom[]): readonly Atom[] {
  return atoms.map((atom, index) => {
    const before = atoms[index - 1]?.key;
    if (atom.key !== 'site' || (before !== 'ord' && before !== 'digit')) return atom;
    return atom.words === 'metacarpals' ? as(atom, 'part', 'metacarpal') : atom.words === 'knuckles' ? as(atom, 'joint', 'knuckle') : atom;
  });
}

/** "Snuffbox and tubercle": the scaphoid's. */
const tubercles = (atoms: readonly Atom[]): readonly Atom[] => {
  const ofScaphoid = atoms.some(({ key, value }) => key === 'site' && (value === 'snuffbox' || value === 'scaphoid'));
  return atoms.map((atom) => (atom.key !== 'tubercle' ? atom : ofScaphoid ? as(atom, 'site', 'scaphoid.tubercle') : as(atom, 'unfit', '')));
};

/** "Numbness in the ring, getting worse". */
function worseNumbness(atoms: readonly Atom[]): readonly Atom[] {
  if (!atoms.some(({ key }) => key === 'worse')) return atoms;
  if (!atoms.some((atom) => isSign(atom, 'numbness'))) return atoms.map((atom) => (atom.key === 'worse' ? as(atom, 'unfit', '') : atom));
  return atoms.flatMap((atom) => (atom.key === 'worse' ? [] : [isSign(atom, 'numbness') ? as(atom, 'sign', 'worsening.numbness') : atom]));
}

/** "Facing sides of index and middle": the ulnar side of the one and the radial side of the other. */
function facingSides(atoms: readonly Atom[]): readonly Atom[] {
  const at = atoms.findIndex(({ key }) => key === 'facing');
  if (at < 0) return atoms;
  const digits = atoms.flatMap((atom, index) => (index > at && atom.key === 'digit' ? [{ atom, index }] : []));
  const [one, two] = digits;
  const neighbours = one && two && digits.length === 2 && Math.abs(Number(one.atom.value[1]) - Number(two.atom.value[1])) === 1;
  if (!neighbours) return atoms.map((atom, index) => (index === at ? as(atom, 'unfit', '') : atom));
  const radialFirst = one.atom.value < two.atom.value;
  return atoms.flatMap((atom, index) => {
    if (index === at) return [];
    if (index !== one.index && index !== two.index) return index > at && index < one.index && atom.key === 'prep' ? [] : [atom];
    return [atom, as(atom, 'part', (index === one.index) === radialFirst ? 'ulnar' : 'radial')];
  });
}

/** "R C L tight", "collateral firm": a ligament that holds. */
function tightLigaments(atoms: readonly Atom[]): readonly Atom[] {
  if (!atoms.some(isLigament)) return atoms;
  return atoms.flatMap((atom, index) => {
    const before = atoms[index - 1];
    if (isSign(atom, 'tense') && /^(tight|firm|hard|rock hard)$/.test(atom.words)) return [as(atom, 'sign', 'laxity'), as(atom, 'lvl', 'absent')];
    return before !== undefined && atom.from === before.from && isSign(before, 'tense') && atom.key === 'adj' ? [] : [atom];
  });
}

/** "Tinel positive at the elbow into the little finger": where it was felt is not where it was tapped. */
function referredTinel(atoms: readonly Atom[]): readonly Atom[] {
  const into = atoms.findIndex(({ key, words }) => key === 'prep' && /^(into( the)?|radiat\w+ (in)?to( the)?|down into|shooting (in)?to)$/.test(words));
  if (into < 0 || !atoms.some((atom) => isSign(atom, 'tinel'))) return atoms;
  let end = into + 1;
  while (isPlaceKey(atoms[end]?.key ?? '') || ['and', 'comma', 'prep', 'side'].includes(atoms[end]?.key ?? '')) end += 1;
  const tapped = atoms.some(({ key }, index) => isPlaceKey(key) && (index < into || index >= end));
  return [...atoms.slice(0, into), ...(tapped ? [] : [as(atoms[into]!, 'here', '')]), ...atoms.slice(into, end).filter(({ key }) => key === 'side'), ...atoms.slice(end)];
}

/** Short words that mean something only beside certain others; elsewhere they make no finding. */
function smallWords(atoms: readonly Atom[]): readonly Atom[] {
  return atoms.flatMap((atom, index) => {
    const next = atoms[index + 1];
    const earlier = atoms.slice(0, index);
    switch (atom.key) {
      // "posterior interosseous out"
      case 'out': return [atoms.some(({ key, value }) => key === 'nerve' || (key === 'site' && value.startsWith('territory')) || (key === 'part' && /^(radial|ulnar)$/.test(value))) ? as(atom, 'lvl', 'absent') : as(atom, 'unfit', '')];
      // "superficialis to the ring isolated, working"
      case 'isolated': return atoms.some(({ key, value }) => key === 'family' && /^FD[SP]$/.test(value)) ? [] : [as(atom, 'unfit', '')];
      // "stressing the index P I P": what gives or does not
      case 'stress': return atoms.some((other) => isSign(other, 'laxity')) ? [] : [as(atom, 'unfit', '')];
      // "extends to seventy"
      case 'prep': return /^extends? to$/.test(atom.words) && next?.key === 'n' ? [as(atom, 'move', 'extension')] : [atom];
      // "A three ring pulley": the pulley has its name already
      case 'part': return atom.words === 'pulley' && earlier.some(({ key, value }) => key === 'part' && /^A[1-5]$/.test(value)) ? [] : [atom];
      // "metacarpal tender at the neck": of the bone
      case 'site': if (atom.value === 'neck' && earlier.some(({ key, value }) => key === 'part' && value === 'metacarpal')) return [as(atom, 'part', 'neck')];
      // "2 s L hand": the unit and the side
        return atom.words === 's l' && earlier.at(-1)?.key === 'n' ? [as(atom, 'unit', 's'), as(atom, 'side', 'left')] : [atom];
      default: return [atom];
    }
  });
}
