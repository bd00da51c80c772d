import type { Unit } from '../vocabulary';
import type { Atom } from './atoms';

export interface SpokenNumber { readonly value: number; /** Index of the atom behind it. */ readonly next: number }

/** Reads number words and digits from atom `at`: "two point eight", "one hundred and ten", "three and a half", "35". */
export function readNumber(atoms: readonly Atom[], at: number): SpokenNumber | undefined {
  const first = atoms[at];
  if (first?.key !== 'n') return undefined;
  let value = Number(first.value);
  let next = at + 1;
  const spoken = (atom: Atom | undefined): boolean => atom?.key === 'n' && !/\d/.test(atom.words);
  if (spoken(first) && value >= 20 && value < 100 && value % 10 === 0 && spoken(atoms[next]) && Number(atoms[next]!.value) < 10) value += Number(atoms[next++]!.value);
  if (atoms[next]?.key === 'hundred') {
    value *= 100;
    next += 1;
    const rest = readNumber(atoms, atoms[next]?.key === 'and' ? next + 1 : next);
    if (rest && rest.value < 100) return { value: value + rest.value, next: rest.next };
  }
  if (atoms[next]?.key === 'point' && atoms[next + 1]?.key === 'n') {
    let decimals = '';
    for (next += 1; atoms[next]?.key === 'n' && /^\d$/.test(atoms[next]!.value); next += 1) decimals += atoms[next]!.value;
    if (decimals !== '') value = Number(`${value}.${decimals}`);
  } else if (atoms[next]?.key === 'half') { value += 0.5; next += 1; }
  return { value, next };
}

/** The unit at atom `at`; "second" is an ordinal elsewhere, but a unit behind a number. "A half" may follow the unit. */
export function readUnit(atoms: readonly Atom[], at: number): { readonly unit: Unit; readonly next: number } | undefined {
  const atom = atoms[at];
  if (atom?.key === 'unit') return { unit: atom.value as Unit, next: at + 1 };
  return atom?.key === 'ord' && atom.words === 'second' ? { unit: 's', next: at + 1 } : undefined;
}

/**
 * "Two point" names a test, but "two point five centimetres" is a number: it is one when a unit of length
 * other than the test's follows, or when the clause names its sign elsewhere.
 */
export function splitDecimals(atoms: readonly Atom[]): readonly Atom[] {
  const at = atoms.findIndex((atom, index) => atom.key === 'sign' && atom.words === 'two point' && atoms[index + 1]?.key === 'n');
  if (at < 0) return atoms;
  const number = readNumber(atoms, at + 1)!;
  const unit = readUnit(atoms, number.next)?.unit;
  const signElsewhere = atoms.some((atom, index) => index !== at && atom.key === 'sign' && atom.words !== 'two point');
  const graded = atoms[at - 1]?.key === 'grade';
  if (!signElsewhere && !graded && (unit === undefined || unit === 'mm')) return atoms;
  const { from, to } = atoms[at]!;
  const pieces: Atom[] = [{ key: 'n', value: '2', words: 'two', from, to }, { key: 'point', value: '', words: 'point', from, to }];
  return [...atoms.slice(0, at), ...pieces, ...atoms.slice(at + 1)];
}
