import { SIGNS, isSignCode } from '../vocabulary';
import type { Atom } from './atoms';

/** Puts idioms of the bedside into the plain order that frames are read from. */
export function reword(atoms: readonly Atom[]): readonly Atom[] {
  return rowOfSigns(painOnMoving(painOnTest(numberedFlexors(bothOfThem(namedNerves(atoms.filter((atom) => atom.key !== 'too')))))));
}

/** "Pulses both present on the right": "both" counts the items, the side is said elsewhere. */
function bothOfThem(atoms: readonly Atom[]): readonly Atom[] {
  const oneSide = atoms.some((atom) => atom.key === 'side' && atom.value !== 'both');
  return oneSide ? atoms.filter((atom, index) => !(atom.words === 'both' && ['lvl', 'n', 'grade'].includes(atoms[index + 1]?.key ?? ''))) : atoms;
}

/** "F D P four and five, grade two": numbers between a long flexor and a grade or a result are its fingers. */
function numberedFlexors(atoms: readonly Atom[]): readonly Atom[] {
  const at = atoms.findIndex((atom) => atom.key === 'family' && (atom.value === 'FDP' || atom.value === 'FDS'));
  if (at < 0) return atoms;
  let end = at + 1;
  while (isFingerNumber(atoms[end]) || (atoms[end]?.key === 'and' && isFingerNumber(atoms[end + 1]))) end += 1;
  const resultFollows = ['grade', 'lvl'].includes(atoms[end]?.key ?? '');
  if (end === at + 1 || !resultFollows) return atoms;
  const fingers = atoms.slice(at + 1, end).filter(isFingerNumber);
  return [...atoms.slice(0, at + 1), ...fingers.map((atom) => ({ ...atom, key: 'digit', value: `D${atom.value}` })), ...atoms.slice(end)];
}

const isFingerNumber = (atom: Atom | undefined): boolean => atom?.key === 'n' && ['2', '3', '4', '5'].includes(atom.value);

/** "Pain on axial compression of the thumb" is a positive test, "no pain on …" a negative one. */
function painOnTest(atoms: readonly Atom[]): readonly Atom[] {
  return atoms.flatMap((atom, index) => {
    const next = atoms[index + 1];
    const test = atom.key === 'sign' && atom.value === 'pain' && next?.key === 'sign' && isSignCode(next.value) && SIGNS[next.value].test === true;
    if (!test) return [atom];
    return atoms[index - 1]?.key === 'neg' ? [] : [{ ...atom, key: 'lvl', value: 'positive' }];
  });
}

/** "Wasting swelling or deformity": speech has no commas, but a last "and" or "or" shows the list. */
function rowOfSigns(atoms: readonly Atom[]): readonly Atom[] {
  return atoms.flatMap((atom, index) => (atom.key === 'sign' && atoms[index - 1]?.key === 'sign' && endsInList(atoms, index) ? [{ key: 'comma', value: '', words: '', from: atom.from, to: atom.from }, atom] : [atom]));
}

function endsInList(atoms: readonly Atom[], from: number): boolean {
  let at = from;
  while (atoms[at]?.key === 'sign') at += 1;
  return (atoms[at]?.key === 'and' || atoms[at]?.key === 'or') && atoms[at + 1]?.key === 'sign';
}

/** "Pain on wrist movement", "painful thumb movement", "MCP squeeze tender": the pain is the result. */
function painOnMoving(atoms: readonly Atom[]): readonly Atom[] {
  const squeeze = atoms.findIndex((atom, index) => atom.value === 'mcp.squeeze' && atoms[index + 1]?.value === 'tenderness');
  if (squeeze >= 0) return atoms.flatMap((atom, index) => (index === squeeze + 1 ? [{ ...atom, key: 'lvl', value: 'painful' }] : atom.key === 'adj' && index === squeeze + 2 ? [] : [atom]));
  const moving = atoms.findIndex((atom) => atom.key === 'sign' && atom.value === 'range');
  const pain = atoms.findIndex((atom) => (atom.key === 'sign' && atom.value === 'pain') || (atom.key === 'lvl' && atom.value === 'painful'));
  const measured = atoms.some((atom) => atom.key === 'n' || (atom.key === 'lvl' && atom.value !== 'painful'));
  if (moving < 0 || pain < 0 || measured) return atoms;
  return atoms.flatMap((atom, index) => (index === pain ? [{ ...atom, key: 'sign', value: 'movement.pain' }] : index === moving ? [] : [atom]));
}

const FELT: ReadonlySet<string> = new Set(['light.touch', 'pinprick', 'vibration', 'numbness', 'tingling', 'sweating']);

/** A nerve is a place only for feeling ("reduced in the distribution of the ulnar nerve"); elsewhere it says what lies there. */
function namedNerves(atoms: readonly Atom[]): readonly Atom[] {
  const felt = atoms.some((atom) => atom.key === 'sign' && FELT.has(atom.value));
  return atoms.flatMap((atom) => (atom.key !== 'nerve' ? [atom] : felt ? [{ ...atom, key: 'site', value: `territory.${atom.value}` }] : []));
}
