import type { Atom } from './atoms';
import { isPlaceKey } from './place';

type Kind = 'side' | 'place' | 'number' | 'level' | 'sign' | 'word';

function kindOf(atom: Atom | undefined): Kind {
  if (!atom) return 'word';
  if (isPlaceKey(atom.key)) return 'place';
  switch (atom.key) {
    case 'side': return 'side';
    case 'n': case 'grade': case 'plus': case 'minus': case 'unit': case 'point': case 'hundred': case 'half': return 'number';
    case 'lvl': return 'level';
    case 'sign': return 'sign';
    default: return 'word';
  }
}

const isJoint = (atom: Atom | undefined): boolean => atom !== undefined && ['comma', 'prep', 'adj', 'turn', 'dash', 'it'].includes(atom.key);

/** A grade may replace a result in words, and the other way round. */
const EXCHANGED: Partial<Record<Kind, Kind>> = { number: 'level', level: 'number' };

/**
 * Carries out corrections inside a sentence: "grade three, no, grade four" keeps only the four;
 * "left, sorry, right thumb" only the right. What replaces and what is replaced are of one kind.
 */
export function mend(atoms: readonly Atom[]): readonly Atom[] {
  for (let at = 0; at < atoms.length; at += 1) {
    const atom = atoms[at]!;
    const bareNo = atom.key === 'neg' && atom.words === 'no';
    if (atom.key !== 'correct' && !bareNo) continue;
    let begin = at + 1;
    while (isJoint(atoms[begin])) begin += 1;
    // "sorry no, left": the marker may come in several words.
    if (atom.key === 'correct' && (atoms[begin]?.key === 'correct' || (atoms[begin]?.words === 'no' && kindOf(atoms[begin + 1]) !== 'sign'))) return mend([...atoms.slice(0, at), ...atoms.slice(begin)].map((next, index) => (index === at && next.key === 'neg' ? { ...next, key: 'correct' } : next)));
    const negated = atoms[begin]?.key === 'neg';
    const kind = kindOf(atoms[negated ? begin + 1 : begin]);
    let last = at - 1;
    while (isJoint(atoms[last])) last -= 1;
    if (bareNo && (kind === 'word' || kind === 'sign' || kindOf(atoms[last]) !== kind)) continue;
    const end = endOfRun(atoms, negated ? begin + 1 : begin, kind);
    // "tender thumb, no index finger swelling" denies; it does not correct.
    if (bareNo && kind === 'place' && kindOf(atoms[end]) === 'sign' && atoms.slice(0, at).some((before) => before.key === 'sign')) continue;
    // "Sorry, cold hands" is an apology; with a side or a number it mends what was said before.
    if (at === 0 && atom.words === 'sorry' && kind !== 'side' && kind !== 'number') return atoms;
    if (kind === 'word') { if (at === 0) return mend(atoms.slice(begin)); continue; }
    const old = lastRun(atoms, at, kind, atoms[begin]!.key) ?? lastRun(atoms, at, EXCHANGED[kind] ?? kind);
    // With nothing of its kind before it, what the correction replaces is not known; only a side may come as an afterthought.
    if (!old && at > 0 && kind !== 'side') continue;
    // "left index, correction, left middle": the side is said again with what it is of.
    if (kind === 'side' && old && kindOf(atoms[end]) === 'place') {
      const place = lastRun(atoms, at, 'place', atoms[end]!.key);
      const [one, other] = place && place.from < old.from ? [place, old] : [old, place];
      if (other) return mend([...atoms.slice(0, one!.from), ...atoms.slice(one!.to, other.from), ...atoms.slice(other.to, at), ...atoms.slice(begin)]);
    }
    const better = atoms.slice(begin, end);
    const rest = atoms.slice(end);
    return mend(old ? [...atoms.slice(0, old.from), ...better, ...atoms.slice(old.to, at), ...rest] : [...atoms.slice(0, at), ...better, ...rest]);
  }
  return atoms;
}

function endOfRun(atoms: readonly Atom[], from: number, kind: Kind): number {
  let end = from;
  while (end < atoms.length && (kindOf(atoms[end]) === kind || atoms[end]!.from === atoms[end - 1]?.from)) end += 1;
  return end;
}

/** The last run of a kind before `at`; of places, the last that begins with the same sort of word, if one is given. */
function lastRun(atoms: readonly Atom[], at: number, kind: Kind, key?: string): { from: number; to: number } | undefined {
  let to = at;
  while (to > 0 && !(kindOf(atoms[to - 1]) === kind && (kind !== 'place' || key === undefined || atoms[to - 1]!.key === key))) to -= 1;
  if (to === 0) return undefined;
  let from = to;
  while (from > 0 && kindOf(atoms[from - 1]) === kind && (kind !== 'place' || key === undefined || atoms[from - 1]!.key === key)) from -= 1;
  if (kind === 'sign' && atoms[from - 1]?.key === 'neg') from -= 1;
  while (to < at && atoms[to]!.from === atoms[to - 1]!.from) to += 1;
  return { from, to };
}
