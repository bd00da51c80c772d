import { SIGNS, isSignCode, type Qualifier, type Quantity, type SignCode, type Unit } from '../vocabulary';
import type { Atom } from './atoms';
import { addToPlaces, isMotor, isPlaceKey, needsDigit, type Place } from './place';

export type SpokenSide = 'left' | 'right' | 'both' | 'other' | 'affected' | 'unaffected';

export interface SpokenSign { readonly code: SignCode; readonly negated: boolean; readonly adjective: boolean }

/** One assertion as said: what, where, with which result. Missing pieces are taken from its neighbours later. */
export interface Frame {
  side?: SpokenSide;
  /** "left hand" rather than "left": the hand itself may be the place. */
  sideNamesHand?: boolean;
  places: Place[];
  signs: SpokenSign[];
  level?: string;
  levelNegated?: boolean;
  /** A number without a unit: an MRC grade, millimetres or seconds, as the sign has it. */
  number?: number;
  numberTo?: number;
  mark?: '+' | '-' | '';
  markTo?: '+' | '-' | '';
  graded?: boolean;
  quantity?: Quantity;
  /** Value at which a test became positive. */
  at?: Quantity;
  qualifiers: Qualifier[];
  range?: 'active' | 'passive';
  /** After "except": the opposite of the frame before. */
  except?: boolean;
  /** The reach of a "no" is not certain. */
  unsure?: boolean;
  unknown?: boolean;
  first?: 'place' | 'result' | 'sign';
}

const emptyFrame = (): Frame => ({ places: [], signs: [], qualifiers: [] });
export const hasResult = (frame: Frame): boolean => frame.level !== undefined || frame.number !== undefined || frame.quantity !== undefined;
const isEmpty = (frame: Frame): boolean => frame.side === undefined && frame.places.length === 0 && frame.signs.length === 0 && !hasResult(frame) && frame.qualifiers.length === 0;

interface SpokenNumber { readonly value: number; readonly next: number }

/** Reads number words and digits from atom `at`: "two point eight", "one hundred and ten", "35". */
export function readNumber(atoms: readonly Atom[], at: number): SpokenNumber | undefined {
  const first = atoms[at];
  if (first?.key !== 'n') return undefined;
  let value = Number(first.value);
  let next = at + 1;
  if (value >= 20 && value < 100 && value % 10 === 0 && atoms[next]?.key === 'n' && Number(atoms[next]!.value) < 10 && !/\d/.test(first.words + atoms[next]!.words)) value += Number(atoms[next++]!.value);
  if (atoms[next]?.key === 'hundred') {
    value *= 100;
    next += 1;
    const after = atoms[next]?.key === 'and' ? next + 1 : next;
    const rest = readNumber(atoms, after);
    if (rest && rest.value < 100) return { value: value + rest.value, next: rest.next };
  }
  if (atoms[next]?.key === 'point' && atoms[next + 1]?.key === 'n') {
    let decimals = '';
    for (next += 1; atoms[next]?.key === 'n' && /^\d$/.test(atoms[next]!.value); next += 1) decimals += atoms[next]!.value;
    if (decimals !== '') value = Number(`${value}.${decimals}`);
  }
  return { value, next };
}

/** Reads one sentence's atoms as a row of frames. */
export function readFrames(atoms: readonly Atom[]): Frame[] {
  const frames: Frame[] = [];
  let frame = emptyFrame();
  let negation: 'no' | 'not' | undefined;
  let freshNegation = false;
  let link: 'and' | 'or' | 'comma' | undefined;
  let placesSinceSign = false;
  let lastWasPlace = false;
  let graded = false;
  let preposition = false;

  const begin = (): void => { if (!isEmpty(frame)) frames.push(frame); frame = emptyFrame(); placesSinceSign = false; lastWasPlace = false; };
  const takeResult = (): void => {
    if (hasResult(frame)) begin();
    frame.first ??= 'result';
  };

  for (let at = 0; at < atoms.length; at += 1) {
    const { key, value } = atoms[at]!;
    if (isPlaceKey(key)) {
      const complete = hasResult(frame) || frame.signs.length > 0;
      const lacksDigit = frame.places.some(needsDigit) && !hasResult(frame);
      if (lacksDigit && key === 'digit') { /* "flexor sheath tenderness, index finger" */ }
      else if (!lastWasPlace && complete && frame.places.length > 0 && !(preposition && frame.signs.length > 0 && !hasResult(frame))) begin();
      else if (!lastWasPlace && frame.places.length > 0 && preposition && frame.signs.length > 0) frame.places = [];
      frame.first ??= 'place';
      addToPlaces(frame.places, key, value, link !== undefined);
      placesSinceSign = true; lastWasPlace = true; link = undefined; preposition = false;
      continue;
    }
    switch (key) {
      case 'side':
        if (frame.side !== undefined && frame.side !== value) begin();
        frame.side = value as SpokenSide;
        if (/\b(hands?|sides?)\b/.test(atoms[at]!.words)) frame.sideNamesHand = true;
        break;
      case 'sign': {
        if (!isSignCode(value)) throw new Error(`The grammar names a sign "${value}" that the vocabulary lacks.`);
        const adjective = atoms[at + 1]?.from === atoms[at]!.from && (atoms[at + 1]?.key === 'adj' || atoms[at + 1]?.key === 'lvl');
        const listed = frame.signs.length > 0 && !hasResult(frame) && link !== undefined && !placesSinceSign;
        let negated = false;
        let unsure = false;
        if (negation && freshNegation) negated = true;
        else if (negation) {
          if (link === 'or') negated = true;
          else if (adjective !== (negation === 'not')) negation = undefined;
          else if (link !== undefined && !placesSinceSign) negated = true;
          else unsure = true;
        }
        const repeated = frame.signs.some((sign) => sign.code === value && sign.negated === negated) && !hasResult(frame);
        if (!repeated) {
          const motorDone = hasResult(frame) && frame.places.some(isMotor);
          if (!listed && (frame.signs.length > 0 || motorDone)) begin();
          if (unsure) frame.unsure = true;
          frame.signs.push({ code: value, negated, adjective });
          frame.first ??= 'sign';
        }
        freshNegation = false; link = undefined; placesSinceSign = false;
        break;
      }
      case 'lvl':
        takeResult();
        frame.level = value;
        // "not tender" is read as a negated sign; only a level of its own is negated here.
        if (negation === 'not' && freshNegation) frame.levelNegated = true;
        freshNegation = false;
        negation = undefined;
        break;
      case 'n': {
        const number = readNumber(atoms, at)!;
        let next = number.next;
        const unit = atoms[next]?.key === 'unit' ? (atoms[next++]!.value as Unit) : atoms[next]?.key === 'ord' && atoms[next]!.words === 'second' ? (next++, 's' as const) : undefined;
        const turnsPositive = unit !== undefined && frame.level !== undefined && frame.at === undefined && frame.signs.some((sign) => takesAt(sign.code, unit));
        if (turnsPositive) frame.at = { value: number.value, unit };
        else takeResult();
        if (unit && !turnsPositive) frame.quantity = { value: number.value, unit };
        else if (!unit) {
          frame.number = number.value;
          [frame.mark, next] = readMark(atoms, next);
          next = skipOutOf(atoms, next, frame);
          const to = atoms[next]?.key === 'to' ? readNumber(atoms, atoms[next + 1]?.key === 'grade' ? next + 2 : next + 1) : undefined;
          if (to) { frame.numberTo = to.value; [frame.markTo, next] = readMark(atoms, to.next); next = skipOutOf(atoms, next, frame); }
          if (graded || frame.mark !== '') frame.graded = true;
        }
        graded = false;
        at = next - 1;
        break;
      }
      case 'grade': graded = true; break;
      case 'q': frame.qualifiers.push(value as Qualifier); break;
      case 'range': frame.range = value as 'active' | 'passive'; break;
      case 'neg': negation = value as 'no' | 'not'; freshNegation = true; break;
      case 'and': case 'or': link = key; break;
      case 'comma': case 'slash': case 'dash': link ??= 'comma'; break;
      case 'but': begin(); negation = undefined; break;
      case 'except': { begin(); frame.except = true; negation = undefined; break; }
      case 'prep': preposition = true; break;
      case 'adj': case 'stop': case 'colon': case 'to': break;
      default: frame.unknown = true;
    }
    if (key !== 'and' && key !== 'or' && key !== 'comma' && key !== 'prep' && key !== 'slash') lastWasPlace = false;
    if (key !== 'prep') preposition = false;
  }
  begin();
  return frames;
}

function readMark(atoms: readonly Atom[], at: number): ['+' | '-' | '', number] {
  if (atoms[at]?.key === 'plus') return ['+', at + 1];
  if (atoms[at]?.key === 'minus' || (atoms[at]?.key === 'dash' && atoms[at + 1]?.key !== 'n')) return ['-', at + 1];
  return ['', at];
}

/** "four out of five", "4/5": the five is the scale, not a result. */
function skipOutOf(atoms: readonly Atom[], at: number, frame: Frame): number {
  const over = atoms[at]?.key;
  if ((over === 'slash' || over === 'out of') && atoms[at + 1]?.key === 'n' && atoms[at + 1]!.value === '5') { frame.graded = true; return at + 2; }
  return at;
}

const takesAt = (sign: SignCode, unit: Unit): boolean => SIGNS[sign].at?.includes(unit) ?? false;
