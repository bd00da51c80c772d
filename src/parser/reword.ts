import { SIGNS, isSignCode, isSiteCode } from '../vocabulary';
import type { Atom } from './atoms';
import { inCompany } from './company';
import { guard } from './guard';
import { isPlaceKey } from './place';

/** Puts idioms of the bedside into the plain order that frames are read from. */
export function reword(atoms: readonly Atom[]): readonly Atom[] {
  return guard(tendonsAsPlace(rowOfSigns(painOnMoving(painOnTest(numberedFingers(bothOfThem(countsAndRanges(marksOfTests(resultBehind(namedNerves(inCompany(atoms.flatMap(alsoHere).flatMap(fromThePalm)))))))))))));
}

/** "Posterior arm okay": behind what is examined it is a result; elsewhere it is only said. */
export function okay(atom: Atom, index: number, atoms: readonly Atom[]): Atom[] {
  if (atom.value !== 'okay') return [atom];
  const before = atoms[index - 1];
  const named = before !== undefined && (isPlaceKey(before.key) || before.key === 'sign');
  return named && !['sign', 'lvl', 'n', 'q', 'neg'].includes(atoms[index + 1]?.key ?? '') ? [{ ...atom, key: 'lvl', value: 'normal' }] : [];
}

/** "D I Ps stiff and the M C Ps too": behind a place, that it is so there as well; elsewhere the word adds nothing. */
const alsoHere = (atom: Atom, index: number, atoms: readonly Atom[]): Atom[] => (atom.key !== 'too' ? [atom] : isPlaceKey(atoms[index - 1]?.key ?? '') ? [{ ...atom, key: 'also' }] : []);

/** "… not palpable, the radial is": a bare "is" behind a place, with nothing after it. */
export function affirmed(atom: Atom, index: number, atoms: readonly Atom[]): Atom {
  const before = atoms[index - 1];
  const next = atoms[index + 1];
  const last = next === undefined || next.key === 'comma' || next.key === 'but';
  return atom.key === 'filler' && /^(is|are|does|has)$/.test(atom.words) && before !== undefined && (isPlaceKey(before.key) || before.key === 'branch') && last ? { ...atom, key: 'affirm' } : atom;
}

/** "From the palm" behind a measure is the distance of the fingertip; elsewhere the palm is where something begins. */
function fromThePalm(atom: Atom, index: number, atoms: readonly Atom[]): Atom[] {
  if (atom.key !== 'sign' || atom.words !== 'from the palm' || atoms[index - 1]?.key === 'unit') return [atom];
  return [{ ...atom, key: 'prep', value: '', words: 'from' }, { ...atom, key: 'site', value: 'palm', words: 'palm' }];
}

/** "Crepitus along the extensor tendons": the tendons are the place; nothing is said of them in sum. */
function tendonsAsPlace(atoms: readonly Atom[]): readonly Atom[] {
  const place = atoms.find((atom, index) => atom.value === 'summary.tendons' && atoms[index + 1]?.from === atom.from && atoms[index + 1]?.key === 'site');
  // "Flexor tendons intact to the ring": the finger says which of them.
  const ofDigit = place !== undefined && atoms.some(({ key }) => key === 'digit') && !atoms.some(({ key }) => key === 'and' || key === 'comma');
  if (ofDigit && atoms.some((atom) => atom.key === 'lvl')) return atoms.filter((atom) => !(atom.from === place.from && atom.key === 'site'));
  const alone = !atoms.some((atom) => atom.key === 'lvl' || (atom.key === 'sign' && atom !== place && !['summary.motor', 'summary.neurovascular', 'summary.nerve'].includes(atom.value)));
  return place === undefined || alone || atoms.some((atom) => atom.key === 'lvl') ? atoms : atoms.filter((atom) => atom !== place);
}

/**
 * "Radial and ulnar pulses both present": behind two items "both" counts them, and the side is said elsewhere or current.
 * Before two items ("both thumb and index") it may count the items or the hands: asked.
 */
function bothOfThem(atoms: readonly Atom[]): readonly Atom[] {
  const at = atoms.findIndex((atom) => atom.key === 'side' && /\bboth$/.test(atom.words));
  if (at < 0) return atoms;
  const isItem = (atom: Atom | undefined): boolean => atom !== undefined && (isPlaceKey(atom.key) || atom.key === 'sign');
  // "… ulnar thirty, both right": two items, one side
  const side = atoms[at + 1];
  if (side?.key === 'side' && side.value !== 'both') return atoms.filter((_, index) => index !== at);
  const result = ['lvl', 'n', 'grade', 'sign'].includes(atoms[at + 1]?.key ?? '');
  const before = atoms.slice(0, at);
  const pair = before.some((atom, index) => atom.key === 'and' && isItem(atoms[index - 1]) && isItem(atoms[index + 1]));
  const oneSide = atoms.some((atom) => atom.key === 'side' && atom.value !== 'both');
  if (result && (oneSide || pair) && isItem(atoms[at - 1])) return atoms.filter((_, index) => index !== at);
  let next = at + 1;
  while ((isItem(atoms[next]) && atoms[next]!.key !== 'sign') || atoms[next]?.key === 'prep') next += 1;
  const pairBehind = next > at + 1 && atoms[next]?.key === 'and' && isItem(atoms[next + 1]);
  return pairBehind ? atoms.map((atom, index) => (index === at ? { ...atom, value: 'unclear' } : atom)) : atoms;
}

/** "Phalen +", "Tinel -": behind a test the mark is its result. */
function marksOfTests(atoms: readonly Atom[]): readonly Atom[] {
  return atoms.map((atom, index) => {
    const before = atoms[index - 1];
    const next = atoms[index + 1]?.key;
    if (!['plus', 'minus', 'dash'].includes(atom.key) || before?.key !== 'sign' || !isSignCode(before.value) || !SIGNS[before.value].test) return atom;
    return next === undefined || ['comma', 'prep', 'side', 'sign'].includes(next) ? { ...atom, key: 'lvl', value: atom.key === 'plus' ? 'positive' : 'negative' } : atom;
  });
}

/** "Tenderness nil": behind its sign the word is the result, not a denial of what comes next. */
function resultBehind(atoms: readonly Atom[]): readonly Atom[] {
  return atoms.map((atom, index) => {
    if (atom.key !== 'neg' || atom.words !== 'nil') return atom;
    const denies = atoms.slice(index + 1).some((next) => next.key === 'sign') && atoms[index - 1]?.key !== 'sign';
    return denies || !atoms.slice(0, index).some((before) => before.key === 'sign' || before.key === 'move' || before.key === 'family') ? atom : { ...atom, key: 'lvl', value: 'absent' };
  });
}

/** "All four lumbricals five": a number between "all" and what it counts is no result. "Between four minus and four" is a range. */
function countsAndRanges(atoms: readonly Atom[]): readonly Atom[] {
  const between = atoms.findIndex((atom) => atom.key === 'between');
  const and = between < 0 ? -1 : atoms.findIndex((atom, index) => index > between && atom.key === 'and');
  return atoms.flatMap((atom, index) => {
    if (index === between) return [];
    // "twenty through ninety"
    if (atom.key === 'prep' && atom.words === 'through' && ['n', 'unit', 'hundred', 'half'].includes(atoms[index - 1]?.key ?? '') && atoms[index + 1]?.key === 'n') return [{ ...atom, key: 'to' }];
    if (index === and) return [{ ...atom, key: 'to' }];
    const counts = atom.key === 'n' && atoms[index - 1]?.key === 'all' && (isPlaceKey(atoms[index + 1]?.key ?? '') || atoms[index + 1]?.key === 'sign');
    return counts ? [] : [atom];
  });
}

/**
 * "F D P four and five, grade two": numbers between a long flexor and a grade or a result are its fingers.
 * "Fingers two to five numb": the numbers behind "fingers" or "digits" are theirs.
 */
function numberedFingers(atoms: readonly Atom[]): readonly Atom[] {
  const at = atoms.findIndex((atom, index) => ((atom.key === 'family' && (atom.value === 'FDP' || atom.value === 'FDS')) || FINGERS.has(atom.words)) && isFingerNumber(atoms[index + 1]));
  if (at < 0) return atoms;
  let end = at + 1;
  while (isFingerNumber(atoms[end]) || (['and', 'comma', 'to', 'dash'].includes(atoms[end]?.key ?? '') && isFingerNumber(atoms[end + 1]))) end += 1;
  const named = FINGERS.has(atoms[at]!.words);
  // "Fingers four": a grade of all of them. Two numbers at least are fingers, and something must be said of them.
  const numbers = atoms.slice(at + 1, end).filter(isFingerNumber).length;
  const follows = atoms[end]?.key ?? '';
  // "FDP2 0/5": of two numbers and a scale the first is the finger.
  const scaled = !named && numbers === 1 && follows === 'n' && ['slash', 'out of'].includes(atoms[end + 1]?.key ?? '');
  if (named ? numbers < 2 || follows === 'unit' : !scaled && !['grade', 'lvl'].includes(follows)) return atoms;
  const fingers = atoms.slice(at + 1, end).filter((atom) => named || isFingerNumber(atom)).map((atom) => (isFingerNumber(atom) ? { ...atom, key: 'digit', value: `D${atom.value}` } : atom));
  return [...atoms.slice(0, named ? at : at + 1), ...fingers, ...atoms.slice(end)];
}

const FINGERS: ReadonlySet<string> = new Set(['fingers', 'digits']);
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

const FELT: ReadonlySet<string> = new Set(['light.touch', 'pinprick', 'vibration', 'temperature.sense', 'sensory.grade', 'numbness', 'tingling', 'sweating']);

/** Where a nerve is tapped or pressed, by the part that is named with it. */
const NERVES_AT: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  median: { wrist: 'carpal.tunnel', 'wrist.volar': 'carpal.tunnel', '': 'carpal.tunnel' },
  ulnar: { wrist: 'guyon.canal', 'wrist.volar': 'guyon.canal', elbow: 'cubital.tunnel' },
  radial: { wrist: 'wrist.radial', elbow: 'radial.tunnel' },
};

/**
 * A nerve is a place for feeling ("reduced in the distribution of the ulnar nerve"). Elsewhere it says what lies at the place
 * named with it; "tinel over the ulnar nerve" alone leaves open where it was tapped.
 */
function namedNerves(atoms: readonly Atom[]): readonly Atom[] {
  const nerve = atoms.find((atom) => atom.key === 'nerve');
  if (!nerve) return atoms;
  // "Median nerve intact": nothing but the nerve and what was said of it.
  if (!atoms.some((atom) => atom.key === 'sign' || isPlaceKey(atom.key))) return atoms.map((atom) => (atom.key === 'nerve' ? { ...atom, key: 'site', value: `nerve.${atom.value}` } : atom));
  const felt = atoms.some((atom) => atom.key === 'sign' && FELT.has(atom.value));
  // A nerve without skin of its own (anterior interosseous) leaves open what was felt where.
  if (felt) return atoms.map((atom) => (atom.key !== 'nerve' ? atom : isSiteCode(`territory.${atom.value}`) ? { ...atom, key: 'site', value: `territory.${atom.value}` } : { ...atom, key: 'here' }));
  const places = atoms.filter((atom) => isPlaceKey(atom.key));
  const tapped = NERVES_AT[nerve.value]?.[places[0]?.value ?? ''];
  if (tapped && places.length <= 1 && atoms.some((atom) => atom.value === 'tinel')) return atoms.flatMap((atom) => (atom === nerve ? [{ ...atom, key: 'site', value: tapped }] : isPlaceKey(atom.key) || atom.key === 'nerve' ? [] : [atom]));
  return atoms.flatMap((atom) => (atom.key !== 'nerve' ? [atom] : places.length > 0 ? [] : [{ ...atom, key: 'here' }]));
}
