import { SIGNS, isSignCode, type Qualifier, type Quantity, type SignCode, type Unit } from '../vocabulary';
import type { Atom } from './atoms';
import { readNumber, readUnit } from './number';
import { addToPlaces, contains, isContainer, isLongFlexorAlone, isContainerSite, isEndOfBone, isInName, isMotor, isDigitsOnly, isMotorSite, isOutside, isPlaceKey, needsBase, type Place } from './place';

/** 'unclear': a side was said, but not certainly of this. */
export type SpokenSide = 'left' | 'right' | 'both' | 'other' | 'plural' | 'affected' | 'unaffected' | 'unclear';
export type Mark = '+' | '-' | '';

export interface SpokenSign { readonly code: SignCode; readonly negated: boolean; readonly adjective: boolean }

/** One assertion as said: what, where, with which result. Missing pieces are taken from its neighbours later (share.ts). */
export interface Frame {
  side?: SpokenSide;
  /** "left hand" rather than "left": the hand itself may be the place. */
  sideNamesHand?: boolean;
  /** The side was said behind a finding that was complete already: it may belong to what comes next. */
  sideTrails?: boolean;
  /** "weaker than the left": the side that is only compared with. */
  than?: 'left' | 'right';
  places: Place[];
  /** The other end: "from the palm to the wrist". */
  upTo?: Place[];
  /** "a single scar across ring and little": one thing in more than one place. */
  single?: boolean;
  signs: SpokenSign[];
  level?: string;
  levelNegated?: boolean;
  /** The level was a word of its own, not part of the sign's name. */
  levelApart?: boolean;
  /** A number without a unit: an MRC grade, millimetres or seconds, as the sign has it. */
  number?: number;
  numberTo?: number;
  mark?: Mark;
  markTo?: Mark;
  graded?: boolean;
  quantity?: Quantity;
  /** Value at which a test became positive. */
  at?: Quantity;
  qualifiers: Qualifier[];
  range?: 'active' | 'passive';
  /** "cannot extend": the movement is absent. */
  cannot?: boolean;
  /** "no active flexion": denied before a movement was named. */
  denied?: boolean;
  /** "… the radial is": what was denied before is so here. */
  affirmed?: boolean;
  /** "… the middle too": what was found before is so here. */
  also?: boolean;
  /** "… twenty active" at the end of what was measured. */
  rangeTrails?: boolean;
  /** Described together with the next frame: "neither swollen nor red | thumb". */
  sharesNext?: boolean;
  /** After "except": the opposite of the frame before. */
  except?: boolean;
  /** The reach of a "no" is not certain. */
  unsure?: boolean;
  /** How it is joined to the frame before. */
  joined?: 'and' | 'or' | 'comma';
  /** Joined by "but": what is left out is that of the frame before. */
  contrast?: boolean;
  /** Holds something that is no part of a finding, or that found no place in its meaning. */
  strange?: boolean;
  /** "swelling here", "tinel over the nerve": the place was shown or named without saying where on the hand. */
  nowhere?: boolean;
  /** "over fifteen", where the unit goes without saying. */
  comparator?: '<' | '>';
  /** "cannot fully extend" */
  fully?: boolean;
  /** "throughout": of the whole hand. */
  throughout?: boolean;
  /** "finger", and not which. */
  oneFinger?: boolean;
  /** "snuffbox at the base of the thumb": one place told by another, with nothing that makes them a list. */
  toldByAnother?: boolean;
  /** Said as a bidding ("extend"), which only a result makes a finding. */
  verb?: boolean;
  first?: 'place' | 'result' | 'sign';
}

const emptyFrame = (): Frame => ({ places: [], signs: [], qualifiers: [] });
export const hasResult = (frame: Frame): boolean => frame.level !== undefined || frame.number !== undefined || frame.quantity !== undefined;
const isEmpty = (frame: Frame): boolean =>
  frame.side === undefined && frame.places.length === 0 && frame.signs.length === 0 && !hasResult(frame) && frame.qualifiers.length === 0 && !frame.strange && !frame.except && !frame.range;
const onlyQualifies = (frame: Frame): boolean =>
  frame.qualifiers.length > 0 && frame.places.length === 0 && frame.signs.length === 0 && !hasResult(frame) && !frame.strange;

const takesAt = (sign: SignCode, unit: Unit): boolean => SIGNS[sign].at?.includes(unit) ?? false;
/** Tests that are done in one place: another place named with them may be where they were felt. */
export const ONE_PLACE: ReadonlySet<SignCode> = new Set<SignCode>(['phalen', 'reverse.phalen', 'carpal.compression', 'froment', 'jeanne', 'wartenberg', 'ok.sign', 'elbow.flexion.test', 'ulnar.pressure', 'finkelstein', 'eichhoff', 'what', 'cmc.grind', 'ulnar.grind', 'piano.key', 'scaphoid.shift', 'scaphoid.compression', 'lunotriquetral', 'ucl.stress', 'spurling', 'roos', 'flick', 'palmaris.brevis.sign']);
/** Ways to do one test, of which one measurement has only one. */
const EXCLUSIVE: readonly (readonly Qualifier[])[] = [['static', 'moving'], ['30 Hz', '128 Hz', '256 Hz']];
/** Words for a stretch from one place to another. */
const REACHING = /^(extend|run|radiat|spread|reach|up to|down to|as far as|through)/;
/** What is one thing though it reaches over a row of fingers. */
const ONE_STRETCH: ReadonlySet<string> = new Set(['wound', 'look']);
/** Words between two places that keep them in one list. */
const LIST_WORDS: ReadonlySet<string> = new Set(['and', 'or', 'comma', 'prep', 'slash', 'side', 'with', 'to', 'verb', 'it', 'dash', 'one', 'fully']);

/** Reads one sentence's atoms as a row of frames: a new frame begins where a slot would be filled twice. */
export function readFrames(atoms: readonly Atom[]): Frame[] {
  return new FrameReader(atoms).read();
}

class FrameReader {
  private readonly frames: Frame[] = [];
  private frame = emptyFrame();
  private negation: 'no' | 'not' | undefined;
  private freshNegation = false;
  private link: 'and' | 'or' | 'comma' | undefined;
  private placesSinceSign = false;
  private lastWasPlace = false;
  private linkedPlaces = 0;
  private graded = false;
  private comparator: '<' | '>' | undefined;
  private preposition = false;
  /** Whether the first side of the sentence stood before what it is of. */
  private sidesLead: boolean | undefined;
  /** "thumb to ring": the next digit ends a row. */
  private spans = false;
  /** "from the wrist …": a stretch of the limb, which no site is. */
  private from = false;
  private at = 0;

  constructor(private readonly atoms: readonly Atom[]) {}

  read(): Frame[] {
    for (this.at = 0; this.at < this.atoms.length; this.at += 1) this.take(this.atoms[this.at]!);
    // "right not": what it denies was not said.
    if (this.negation !== undefined && this.freshNegation && !this.frame.denied) {
      // "ulnar styloid tender, radial styloid not"
      const elliptic = this.negation === 'not' && this.frame.places.length > 0 && this.frame.signs.length === 0 && !hasResult(this.frame) && this.frames.length > 0;
      if (elliptic) this.frame.denied = true;
      else this.frame.strange = true;
    }
    this.begin();
    return this.frames;
  }

  private begin(): void {
    const before = this.frames.at(-1);
    if (before && onlyQualifies(this.frame) && (before.side === undefined || this.frame.side === undefined || before.side === this.frame.side)) {
      before.qualifiers.push(...this.frame.qualifiers);
      if (this.frame.side) before.side = this.frame.side;
    } else if (!isEmpty(this.frame)) this.frames.push(this.frame);
    this.frame = emptyFrame();
    this.placesSinceSign = false;
    this.lastWasPlace = false;
    this.linkedPlaces = 0;
  }

  private take(atom: Atom): void {
    if (isPlaceKey(atom.key)) { this.takePlace(atom); return; }
    switch (atom.key) {
      case 'side': this.takeSide(atom); break;
      case 'sign': this.takeSign(atom); break;
      case 'lvl': this.takeLevel(atom); break;
      case 'n': this.takeNumber(); break;
      case 'grade': this.graded = true; break;
      case 'q': this.takeQualifier(atom.value as Qualifier); break;
      case 'than': this.frame.than = atom.value as 'left' | 'right'; break;
      case 'range': this.takeRange(atom.value as 'active' | 'passive'); break;
      case 'cannot': if (hasResult(this.frame) || this.frame.signs.length > 0) this.begin(); this.frame.cannot = true; break;
      case 'neg': this.takeNegation(atom.value as 'no' | 'not'); break;
      // "not very swollen" says neither that it is nor that it is not.
      case 'vague': this.frame.unsure = true; break;
      case 'here': this.frame.nowhere = true; break;
      case 'one': this.frame.oneFinger = true; break;
      case 'throughout': this.frame.throughout = true; break;
      case 'fully': this.frame.fully = true; break;
      case 'and': case 'or': this.link = atom.key; break;
      case 'with': this.link = 'and'; break;
      case 'dash': if (this.lastWasPlace && this.atoms[this.at + 1]?.key === 'digit') { this.spans = true; break; } this.link ??= 'comma'; break;
      case 'comma': case 'slash': this.link ??= 'comma'; break;
      // "swelling +"
      case 'plus': if (this.frame.signs.length === 0) this.frame.strange = true; break;
      // "below the elbow", "more than the right": a comparison that is of no number.
      case 'cmp': this.comparator = atom.value === 'lt' ? '<' : '>'; if (this.atoms[this.at + 1]?.key !== 'n') this.frame.strange = true; break;
      case 'but': this.begin(); this.frame.contrast = true; this.negation = undefined; break;
      case 'except': this.begin(); this.frame.except = true; this.negation = undefined; break;
      case 'prep':
        this.preposition = true;
        if (/\bfrom( the)?$/.test(atom.words)) this.from = true;
        else if (this.lastWasPlace && (REACHING.test(atom.words) || (this.from && /^(to|into|onto)\b/.test(atom.words)))) this.spans = true;
        break;
      case 'single': this.frame.single = true; break;
      // "a cord going to the little finger"
      case 'turn': this.preposition = /\bto$/.test(atom.words); break;
      // "F D P to the index": whose tendon it is, not how far it goes.
      case 'to': if (isLongFlexorAlone(this.frame.places.at(-1)) && this.atoms[this.at + 1]?.key === 'digit') this.preposition = true; else this.spans = this.lastWasPlace; break;
      // "the radial styloid is", "the D I Ps too"
      case 'affirm': this.frame.affirmed = true; break;
      case 'also': this.frame.also = true; break;
      case 'verb': this.frame.verb = true; break;
      case 'adj': case 'colon': case 'it': case 'all': case 'out of': break;
      default: this.frame.strange = true;
    }
    if (!LIST_WORDS.has(atom.key)) this.lastWasPlace = false;
    if (atom.key !== 'prep' && atom.key !== 'side' && atom.key !== 'turn') this.preposition = false;
  }

  private takePlace(atom: Atom): void {
    const { key, value } = this.plainPlace(atom);
    if (this.takeEnd(key, value)) return;
    if (key === 'move' && this.negation === 'not' && this.freshNegation) { this.frame.cannot = true; this.negation = undefined; this.freshNegation = false; }
    const { frame } = this;
    if (this.link === undefined && isInName(frame.places.at(-1), key, value)) return;
    const complete = hasResult(frame) || frame.signs.length > 0;
    // "F D S five, middle F D P zero": a digit with a tendon of its own.
    const ownsNext = key === 'digit' && hasResult(frame) && ['family', 'move', 'joint'].includes(this.atoms[this.at + 1]?.key ?? '');
    const completes = !ownsNext && (needsBase(frame.places.at(-1), key, value) || this.refines(key, value));
    if (this.negation !== undefined && this.freshNegation && complete) this.begin();
    else if (this.isNextTopic()) { this.begin(); this.negation = undefined; }
    // "laceration at the volar surface F D S works": the tendon begins a finding of its own.
    else if (this.lastWasPlace && this.link === undefined && !this.preposition && frame.signs.length > 0 && (key === 'family' || isMotorSite(key, value)) && (!frame.places.some(isMotor) || (key === 'site' && frame.signs.every((sign) => ['look', 'feel'].includes(SIGNS[sign.code].category)))) && (frame.places.at(-1)?.ordinals.length === 0 || key === 'site')) this.begin();
    else if (!completes && !this.lastWasPlace && complete && frame.places.length > 0) {
      // "wrist swelling over the ulnar styloid": the closer place is the one that counts.
      if (this.preposition && frame.signs.length > 0 && (!hasResult(frame) || frame.signs.at(-1)!.adjective) && this.link === undefined) {
        if (!contains(frame.places, key, value)) frame.strange = true;
        frame.places = [];
      } else {
        // "thumb not numb, index numb": a sentence of its own, which the "not" does not reach.
        if (frame.first === 'place' && this.negation === 'not' && this.link !== 'or') this.negation = undefined;
        this.begin();
      }
    }
    if (this.negation !== undefined && this.freshNegation && this.frame.signs.length === 0 && !hasResult(this.frame)) this.frame.denied = true;
    if ((key === 'digit' || (key === 'part' && value === 'base')) && this.lastWasPlace && this.preposition && this.link === undefined && this.isInPalm()) return;
    if (this.lastWasPlace && this.preposition && this.link === undefined && isOutside(this.frame.places, key, value)) return;
    if (this.lastWasPlace && this.link !== undefined) this.linkedPlaces = this.frame.places.length;
    this.frame.first ??= 'place';
    const digits = this.spans && key === 'digit' ? digitsUpTo(this.frame.places.at(-1), value) : value;
    this.spans = false;
    const before = this.frame.places.length;
    const told = this.lastWasPlace && this.link === undefined && (this.preposition || isContainer(this.frame.places.at(-1)) || isContainerSite(key, value));
    if (completes && this.frame === frame && key === 'part' && this.refines(key, value) && this.tellsAspect(frame.places.at(-1)!, value)) frame.places.at(-1)!.parts.push(value);
    else addToPlaces(this.frame.places, key, digits, this.link !== undefined || digits !== value, this.hasOwnDigit(key));
    if (told && before > 0 && this.frame.places.length > before) this.frame.toldByAnother = true;
    this.placesSinceSign = true;
    this.lastWasPlace = true;
    this.link = undefined;
    this.preposition = false;
  }

  /** "from the palm to the wrist": the other end. A row of digits ("numb from thumb to ring") is read elsewhere, unless one wound reaches over it. */
  private takeEnd(key: string, value: string): boolean {
    const { frame } = this;
    if (this.spans && key === 'site' && this.takeDermatomes(value)) return true;
    if (this.lastWasPlace && frame.upTo && this.link === undefined) { addToPlaces(frame.upTo, key, value, false); return true; }
    if (!this.spans) return false;
    const last = frame.places.at(-1);
    const isRow = key === 'digit' && last !== undefined && last.digits.length > 0 && (isDigitsOnly(last) || last.families.length > 0 || last.order === 'parts first') && !['part', 'joint', 'move'].includes(this.atoms[this.at + 1]?.key ?? '');
    if (!last || (isRow && !this.atoms.some((atom) => atom.key === 'sign' && isSignCode(atom.value) && ONE_STRETCH.has(SIGNS[atom.value].category)))) return false;
    frame.upTo = [];
    // "from the index D I P to the P I P": of the same finger.
    if ((key === 'joint' || key === 'part') && last.digits.length > 0 && !this.digitFollows()) addToPlaces(frame.upTo, 'digit', last.digits.join(' '), false);
    addToPlaces(frame.upTo, key, value, false);
    this.spans = false;
    this.from = false;
    this.preposition = false;
    return true;
  }

  /** "dermatomes C five to T one": each of them. */
  private takeDermatomes(value: string): boolean {
    const sites = this.frame.places.at(-1)?.sites;
    const [from, to] = [DERMATOMES.indexOf(sites?.at(-1) ?? ''), DERMATOMES.indexOf(value)];
    if (!sites || from < 0 || to <= from) return false;
    for (const site of DERMATOMES.slice(from + 1, to + 1)) addToPlaces(this.frame.places, 'site', site, true);
    this.spans = false;
    this.preposition = false;
    return true;
  }

  /**
   * "left index hot, swollen, palm tender", "left hand cool, fingers pale": where places stand before what is said of them, the describing
   * words already said are of the place (or the hand) before them.
   */
  private isNextTopic(): boolean {
    const { frame } = this;
    if (frame.places.length > 0 || frame.signs.length === 0 || !frame.signs.every((sign) => sign.adjective) || this.link !== undefined || this.preposition) return false;
    const [before] = this.frames.slice(-1);
    const topicBefore = before?.first === 'place' || (this.sidesLead === true && (before ?? frame).sideNamesHand === true);
    const told = this.atoms.slice(this.at + 1).filter(({ key }) => isPlaceKey(key) || key === 'sign' || key === 'lvl');
    return topicBefore && told.length > 0 && !isPlaceKey(told.at(-1)!.key);
  }

  /** "nodule in the palm over the ring finger": the finger only says in which line of the palm. */
  private isInPalm(): boolean {
    const last = this.frame.places.at(-1);
    return last?.sites.length === 1 && last.sites[0] === 'palm' && last.digits.length === 0 && this.atoms.some((atom) => atom.key === 'sign' && (atom.value === 'nodule' || atom.value === 'palmar.thickening'));
  }

  /** "thumb and index fingertips" are their pulps; "the fingertips" alone are the fingers. */
  private plainPlace(atom: Atom): Atom {
    if (atom.value !== 'tips') return atom;
    const last = this.frame.places.at(-1);
    let next = this.at + 1;
    while (this.atoms[next]?.key === 'prep' || this.atoms[next]?.key === 'side') next += 1;
    const ofDigits = (this.lastWasPlace && last !== undefined && last.digits.length > 0 && last.parts.length === 0) || this.atoms[next]?.key === 'digit';
    return ofDigits ? { ...atom, value: 'pulp' } : { ...atom, key: 'site', value: 'fingers' };
  }

  /** "ring finger swollen at the PIP joint": the joint belongs to the finger named before. */
  private refines(key: string, value: string): boolean {
    const { places, signs } = this.frame;
    const last = places.at(-1);
    return (this.preposition || this.link === undefined) && signs.length > 0 && (!hasResult(this.frame) || signs.at(-1)!.adjective) && (key === 'joint' || key === 'part') && places.length === 1
      && (isEndOfBone(last, value) || this.tellsAspect(last!, value) || (last!.digits.length > 0 && last!.parts.length + last!.joints.length + last!.moves.length === 0 && !this.hasOwnDigit(key)));
  }

  /** "distal radius tender dorsally", "index P I P lax on the radial side" */
  private tellsAspect({ sites, digits, joints, parts }: Place, value: string): boolean {
    if (parts.length > 0 || isPlaceKey(this.atoms[this.at + 1]?.key ?? '') || this.digitFollows()) return false;
    const ligament = joints.length === 1 && (value === 'radial' || value === 'ulnar') && this.frame.signs.every(({ code }) => code === 'laxity');
    return ligament || (sites.length === 1 && digits.length === 0 && (value === 'dorsum' || value === 'volar'));
  }

  /** "thumb, index and radial side of the ring": what follows has a digit of its own. */
  private hasOwnDigit(key: string): boolean {
    if (key === 'digit' || key === 'site') return false;
    const linked = this.link !== undefined || this.atoms[this.at + 1]?.words.startsWith('of');
    return Boolean(linked) && this.digitFollows() && this.frame.places.at(-1)?.order === 'base first';
  }

  private digitFollows(): boolean {
    let next = this.at + 1;
    while (this.atoms[next]?.key === 'prep' || this.atoms[next]?.key === 'side') next += 1;
    return this.atoms[next]?.key === 'digit';
  }

  private takeSide({ value, words, from }: Atom): void {
    // "held flexed, change hands": what was said before the change is of the hand before it.
    const next = this.atoms[this.at + 1];
    if (next?.key === 'turn' && next.from === from && !isEmpty(this.frame)) value = 'unclear';
    const namesHand = /\b(hands?|arm|limb)\b/.test(words);
    const complete = hasResult(this.frame) || (this.frame.signs.length > 0 && this.frame.places.length > 0);
    const follows = this.atoms.slice(this.at + 1).some(({ key }) => isPlaceKey(key) || key === 'sign' || key === 'lvl' || key === 'n');
    // "left A P B four F P L five right A P B five": where sides lead, this one leads too. At the end ("… five right") it is not known what it is of.
    if (this.sidesLead && complete && this.frame.side === undefined && !this.preposition) {
      if (follows) this.begin();
      else value = this.frames.some(({ side }) => side !== undefined && side !== value) ? 'unclear' : value;
    }
    // "numb left thumb, index, middle right": which of them are left?
    if (this.frame.side !== undefined && this.frame.side !== value && !follows && this.frame.first === 'sign' && this.frame.places.flatMap(({ digits }) => digits).length > 1 && this.lastWasPlace && !this.preposition) { this.frame.side = 'unclear'; return; }
    this.sidesLead ??= !complete;
    if (this.frame.side !== undefined && this.frame.side !== value) {
      // "left more than right": a side with nothing said of it.
      if (this.frame.places.length + this.frame.signs.length === 0 && !hasResult(this.frame) && this.frames.length === 0) this.frame.strange = true;
      this.begin();
    }
    this.frame.side = value as SpokenSide;
    if (hasResult(this.frame) || (this.frame.signs.length > 0 && this.frame.places.length > 0)) this.frame.sideTrails = true;
    if (namesHand) {
      this.frame.sideNamesHand = true;
      // "back of the right hand"
      if (this.frame.places.at(-1)?.parts.length && needsBase(this.frame.places.at(-1), 'site', 'hand')) addToPlaces(this.frame.places, 'site', 'hand', false);
    }
    if (!this.lastWasPlace) this.link = undefined;
  }

  /**
   * "tender snuffbox, index numb": the last place of a list belongs to what comes next,
   * unless a place of its own follows that.
   */
  private reclaimPlaces(): Place[] {
    const { frame } = this;
    // "Phalen positive, thumb tingling": a test that is done in one place was complete without this one.
    const spare = frame.first === 'sign' && this.lastWasPlace && frame.level !== undefined && frame.signs.length === 1 && ONE_PLACE.has(frame.signs[0]!.code) && !this.preposition && !this.placeFollows();
    if (spare && this.atoms[this.at]?.key === 'sign') return frame.places.splice(0);
    if (!this.lastWasPlace || this.link !== undefined || this.linkedPlaces === 0 || this.frame.first === 'place') return [];
    return this.placeFollows() ? [] : this.frame.places.splice(this.linkedPlaces);
  }

  /** Whether what comes next has a place of its own. */
  private placeFollows(): boolean {
    for (const atom of this.atoms.slice(this.at + 1)) {
      if (isPlaceKey(atom.key)) return true;
      if (atom.key === 'sign' || atom.key === 'but') break;
    }
    return false;
  }

  private takeSign({ value, from, words }: Atom): void {
    if (!isSignCode(value)) throw new Error(`The grammar names a sign "${value}" that the vocabulary lacks.`);
    const tail = this.atoms[this.at + 1];
    const adjective = tail?.from === from && (tail.key === 'adj' || tail.key === 'lvl');
    let negated = this.negation !== undefined && this.freshNegation;
    let unsure = false;
    if (this.negation && !this.freshNegation) {
      if (this.link === 'or') negated = true;
      else if (adjective !== (this.negation === 'not')) this.negation = undefined;
      else if (this.link !== undefined && !this.placesSinceSign) negated = true;
      else unsure = true;
    }
    const { frame } = this;
    // "crepitus … crepitus present", "pale colour"
    const repeated = frame.signs.some((sign) => sign.code === value && sign.negated === negated && (sign.adjective || !hasResult(frame)));
    if (!repeated) {
      const otherSort = frame.signs.some((sign) => Boolean(SIGNS[sign.code].test) !== Boolean(SIGNS[value].test));
      const listed = !otherSort && !(tail?.from === from && tail.key === 'lvl') && frame.signs.length > 0 && !hasResult(frame) && this.link !== undefined && !this.placesSinceSign;
      // "retropulsion normal range": the result stood before its noun
      const behind = value === 'range' && frame.level !== undefined && frame.signs.length === 0 && !this.atoms.slice(this.at + 1).some(({ key }) => key === 'lvl' || key === 'n');
      const motorDone = hasResult(frame) && frame.places.some(isMotor) && value !== 'power' && !behind;
      // "ulnar side normal, refill two seconds": the sign has a result of its own
      const ownResult = frame.signs.length === 0 && frame.first === 'place' && hasResult(frame) && frame.level !== undefined && this.atoms[this.at + 1]?.key === 'n';
      if (!listed && (frame.signs.length > 0 || motorDone || ownResult)) {
        const places = this.reclaimPlaces();
        // "hot swollen index finger", "neither swollen nor red left thumb", "swelling and warmth over the knuckle"
        if (frame.places.length === 0 && !frame.sideNamesHand && frame.signs.length > 0 && (frame.signs.every((sign) => sign.adjective) || this.link === 'and' || this.link === 'or' || this.describesNext())) frame.sharesNext = true;
        this.begin();
        if (this.link) this.frame.joined = this.link;
        this.frame.places.push(...places);
        if (places.length > 0) this.frame.first = 'place';
      }
      this.frame.denied = false;
      if (unsure) this.frame.unsure = true;
      this.frame.signs.push({ code: value, negated, adjective });
      this.frame.first ??= 'sign';
    }
    this.freshNegation = false;
    // "no colour change or swelling": the no of the phrase reaches on.
    if (words.startsWith('no ')) this.negation = 'no';
    this.link = undefined;
    this.placesSinceSign = false;
  }

  /** "trigger nodule", "ganglion tender dorsal wrist": two signs in a row, without anything between them, are of one place. */
  private describesNext(): boolean {
    const { signs } = this.frame;
    return this.link === undefined && !hasResult(this.frame) && signs.every((sign) => !sign.negated && !SIGNS[sign.code].test);
  }

  private takeLevel({ value, from }: Atom): void {
    const { frame } = this;
    const belongsToSign = this.atoms[this.at - 1]?.from === from && this.atoms[this.at - 1]?.key === 'sign';
    if (value === 'painful' && hasResult(frame)) { frame.qualifiers.push('painful'); return; }
    // "first dorsal interosseous is wasted and weak"
    if (value === 'weak' && this.link !== undefined && frame.places.some(isMotor) && frame.signs.length > 0 && !frame.signs.some((sign) => SIGNS[sign.code].levels.includes('weak'))) {
      const places = [...frame.places];
      this.begin();
      this.frame.places = places;
      this.frame.first = 'place';
    }
    // "at thirty seconds phalen is positive"
    if (frame.quantity && (frame.signs.length === 0 ? frame.quantity.unit === 's' : frame.signs.some((sign) => takesAt(sign.code, frame.quantity!.unit)))) { frame.at = frame.quantity; delete frame.quantity; }
    // "can't cross the fingers, crossed finger test positive"
    if (frame.signs.some((sign) => SIGNS[sign.code].test) && ((frame.level === 'present' && value === 'positive') || (frame.level === 'absent' && value === 'negative'))) { this.link = undefined; return; }
    if (frame.level !== value) this.takeResult();
    this.frame.level = value;
    if (!belongsToSign) {
      this.frame.levelApart = true;
      if (this.negation !== undefined && this.freshNegation) this.frame.levelNegated = true;
      this.freshNegation = false;
      this.negation = undefined;
    }
    this.link = undefined;
  }

  private takeResult(): void {
    // "Finkelstein painful, positive": the pain was what makes it positive.
    if (this.frame.level === 'painful') { this.frame.level = undefined; if (!this.frame.signs.some((sign) => SIGNS[sign.code].test)) this.frame.qualifiers.push('painful'); }
    if (hasResult(this.frame)) {
      const places = this.reclaimPlaces();
      this.begin();
      this.frame.places.push(...places);
      if (places.length > 0) this.frame.first = 'place';
    }
    this.frame.first ??= 'result';
  }

  private takeRange(value: 'active' | 'passive'): void {
    // "seventy active, eighty five passive": said behind what was measured, to the last
    const trails = this.atoms.findLast(({ key }) => ['range', 'n', 'lvl', 'sign'].includes(key) || isPlaceKey(key))?.key === 'range' && this.frame.range === undefined && hasResult(this.frame);
    if (!trails && this.frame.places.length > 0 && (hasResult(this.frame) || this.frame.range)) this.begin();
    this.frame.range = value;
    if (trails) this.frame.rangeTrails = true;
  }

  /** "No, tender", "not … no …": a denial that nothing took up is an answer to somebody or a slip of the tongue. */
  private takeNegation(value: 'no' | 'not'): void {
    if ((this.freshNegation && this.negation !== undefined && !this.frame.denied) || this.atoms[this.at + 1]?.key === 'comma') this.frame.strange = true;
    this.negation = value;
    this.freshNegation = true;
  }

  /** Whether the next phrase is a noun that this word describes: "mild | swelling". */
  private describesSign(): boolean {
    let next = this.at + 1;
    while (this.atoms[next]?.from === this.atoms[this.at]!.from || this.atoms[next]?.key === 'q') next += 1;
    const noun = this.atoms[next];
    const tag = this.atoms[next + 1];
    return noun?.key === 'sign' && !this.frame.signs.some(({ code }) => code === noun.value) && !(tag?.from === noun.from && (tag.key === 'adj' || tag.key === 'lvl'));
  }

  /** "No marked swelling", "not deep": it is not certain that there is none at all. */
  private takeQualifier(value: Qualifier): void {
    if (this.negation !== undefined && this.freshNegation && value !== 'active') this.frame.unsure = true;
    // "infected wound of the knuckles with spreading redness": it describes what comes next
    if (this.frame.signs.length > 0 && (this.frame.places.length > 0 || hasResult(this.frame)) && this.describesSign()) this.begin();
    // "static eight, moving five": a measurement of its own
    const rivals = EXCLUSIVE.find((group) => group.includes(value)) ?? [];
    if (hasResult(this.frame) && this.frame.qualifiers.some((other) => other !== value && rivals.includes(other))) this.begin();
    this.frame.qualifiers.push(value);
  }

  private takeNumber(): void {
    const { atoms } = this;
    // "not four" leaves open what else.
    if (this.negation !== undefined && this.freshNegation && !this.frame.denied) this.frame.strange = true;
    const number = readNumber(atoms, this.at)!;
    const before = atoms[this.at - 1];
    const arc = this.readArc(number.next);
    const unit = arc ?? readUnit(atoms, number.next);
    let { next } = number;
    const comparator = this.comparator ?? (before?.key === 'prep' && /\bover$/.test(before.words) ? '>' : undefined);
    if (unit) {
      next = unit.next;
      const quantity = { value: number.value, ...(arc ? { to: arc.to } : {}), unit: unit.unit, ...(comparator ? { comparator } : {}) };
      const inSeconds = unit.unit === 'min' ? { ...quantity, value: number.value * 60, ...(arc ? { to: arc.to * 60 } : {}), unit: 's' as const } : quantity;
      // "phalen positive at thirty seconds", "positive within one minute"
      const { frame } = this;
      const turnsPositive = frame.level !== undefined && frame.at === undefined && frame.signs.some((sign) => takesAt(sign.code, inSeconds.unit));
      if (turnsPositive) frame.at = inSeconds;
      else if ((frame.level === 'slow' || frame.level === 'brisk') && frame.quantity === undefined && frame.signs.at(-1)?.code === 'refill') { delete frame.level; frame.quantity = quantity; }
      else { this.takeResult(); this.frame.quantity = quantity; }
    } else {
      // "reverse Phalen reproduces it at thirty"
      const { frame: { level, at, signs, places } } = this;
      if (before?.key === 'prep' && /^at\b/.test(before.words) && level !== undefined && at === undefined && places.every((place) => !isMotor(place)) && signs.some((sign) => takesAt(sign.code, 's'))) {
        this.frame.at = { value: number.value, unit: 's', ...(comparator ? { comparator } : {}) };
        this.comparator = undefined;
        this.at = next - 1;
        return;
      }
      this.takeResult();
      if (comparator) this.frame.comparator = comparator;
      this.frame.number = number.value;
      [this.frame.mark, next] = readMark(atoms, next);
      next = this.skipScale(next);
      const to = this.readRange(next);
      if (to) { this.frame.numberTo = to.value; [this.frame.markTo, next] = readMark(atoms, to.next); next = this.skipScale(next); }
      if (this.graded || this.frame.mark !== '') this.frame.graded = true;
    }
    this.graded = false;
    this.spans = false;
    this.comparator = undefined;
    this.negation = undefined;
    this.link = undefined;
    this.at = next - 1;
  }

  /** "twenty to ninety degrees", "twenty degrees to ninety degrees", "eight to ten millimetres" */
  private readArc(at: number): { to: number; unit: Unit; next: number } | undefined {
    const first = readUnit(this.atoms, at);
    const to = this.readRange(first?.next ?? at);
    const last = to && readUnit(this.atoms, to.next);
    return to && last && (!first || first.unit === last.unit) ? { to: to.value, unit: last.unit, next: last.next } : undefined;
  }

  /** "four to four plus", "4-5" */
  private readRange(at: number): { value: number; next: number } | undefined {
    const { atoms } = this;
    if (atoms[at]?.key !== 'to' && atoms[at]?.key !== 'dash') return undefined;
    return readNumber(atoms, atoms[at + 1]?.key === 'grade' ? at + 2 : at + 1);
  }

  /** "four out of five", "4/5": the five is the scale, not a result. */
  private skipScale(at: number): number {
    const over = this.atoms[at];
    const isScale = over?.key === 'slash' || over?.key === 'out of' || (over?.key === 'prep' && (over.words === 'over' || over.words === 'on'));
    if (!isScale || this.atoms[at + 1]?.value !== '5' || readUnit(this.atoms, at + 2)) return at;
    this.frame.graded = true;
    return at + 2;
  }
}

const DERMATOMES: readonly string[] = ['dermatome.C5', 'dermatome.C6', 'dermatome.C7', 'dermatome.C8', 'dermatome.T1'];
const DIGITS: readonly string[] = ['D1', 'D2', 'D3', 'D4', 'D5'];
/** "thumb to ring": the digits between, in hand order. */
function digitsUpTo(place: Place | undefined, end: string): string {
  const from = DIGITS.indexOf(place?.digits.at(-1) ?? end);
  return DIGITS.slice(from, DIGITS.indexOf(end) + 1).join(' ') || end;
}

function readMark(atoms: readonly Atom[], at: number): [Mark, number] {
  if (atoms[at]?.key === 'plus') return ['+', at + 1];
  if (atoms[at]?.key === 'minus' || (atoms[at]?.key === 'dash' && atoms[at + 1]?.key !== 'n')) return ['-', at + 1];
  return ['', at];
}
