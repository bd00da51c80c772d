import { SIGNS, SITES, type Side } from '../vocabulary';
import { hasResult, type Frame } from './frame';
import { impliedSign } from './meaning';
import { LIGAMENTS, isLongFlexorAlone, isMotor, sitesOf, type Place } from './place';

/**
 * Gives each frame of a sentence what it leaves to its neighbours: one side for all of them, the sign or the place
 * named before ("sensation index reduced, little normal"; "index finger: swollen, tender"), the place named behind
 * ("no wasting, no fasciculation of the thenar eminence").
 */
export function share(frames: readonly Frame[], currentSide?: Side | 'both'): Frame[] {
  const sides = new Set(frames.flatMap((frame) => (frame.side ? [frame.side] : [])));
  const onlySide = sides.size === 1 ? [...sides][0] : undefined;
  const doubtful = onlySide === undefined || onlySide === currentSide || currentSide === undefined ? 0 : doubtfulSides(frames);
  const shared: Frame[] = [];
  // "P I P flexion sixty, D I P flexion twenty, active": said last, of all that was measured.
  const last = frames.at(-1);
  if (last?.rangeTrails && frames.every((frame) => frame === last || (frame.range === undefined && frame.signs.length === 0 && hasResult(frame)))) for (const frame of frames) frame.range = last.range!;
  frames.forEach((said, index) => {
    const before = shared.at(-1);
    if (before && isBareResult(said) && hasResult(before)) { addResult(before, said); return; }
    const frame: Frame = { ...said, places: [...said.places], signs: [...said.signs], qualifiers: [...said.qualifiers] };
    const side = frame.side ?? onlySide ?? before?.side ?? frames.slice(index + 1).find((next) => next.side)?.side;
    if (side) frame.side = index < doubtful ? 'unclear' : side;
    if (before) takeFromBefore(frame, before);
    if (before?.upTo && frame.places.length > 0 && frame.places === before.places) frame.upTo = before.upTo;
    // "tense forearm fingers tingling": which of the places is the next one's?
    if (before?.toldByAnother && frame.places.length === 0) frame.nowhere = true;
    // "tender snuffbox, tingling": where does it tingle?
    if (frame.places.length === 0 && !frame.sideNamesHand && !frame.throughout && frame.signs.some(({ code }) => ['numbness', 'tingling', 'pain'].includes(code)) && shared.some(({ places }) => places.length > 0)) frame.nowhere = true;
    // "tender left elbow, Tinel positive": of which nerve?
    if (frame.places.length === 0 && frame.signs.some(({ code }) => code === 'tinel') && shared.some(({ places }) => places.some(isAtElbow))) frame.nowhere = true;
    takePlaceOfHandSign(frame, shared.findLast((earlier) => earlier.places.length > 0), shared.some(({ places }) => places.some(({ digits }) => digits.length > 0)));
    const after = frames[index + 1];
    // "no tenderness except over the snuffbox": the rest of the hand.
    if (after?.except && frame.places.length === 0) frame.sideNamesHand = true;
    // "no foreign body, no exposed tendon, left palm": of one kind, denied in one breath
    const deniedTogether = said.places.length === 0 && after !== undefined && after.first !== 'place' && after.places.length > 0 && isDeniedWound(said) && isDeniedWound(after);
    const homeless = deniedTogether || !after?.except && (said.sharesNext || (after?.contrast === true && isOfTheHand(frame)) || (!said.sideNamesHand && frame.signs.some((sign) => SIGNS[sign.code].site === undefined)));
    if (frame.places.length === 0 && homeless) frame.places = frames.slice(index + 1).find((next) => next.places.length > 0)?.places ?? before?.places ?? [];
    if (!said.sideNamesHand && frames.some((other) => other.sideNamesHand && other.side === frame.side)) frame.sideNamesHand = true;
    shared.push(frame);
  });
  return shared.filter((frame, index) => !shared.slice(0, index).some((before) => saysAgain(frame, before))).filter((frame) => frame.signs.length > 0 || frame.places.length > 0 || hasResult(frame) || frame.strange);
}

/**
 * "Thumb abduction four left index abduction three" while the right is examined: is the left of what stands before it,
 * behind it, or of all? How many frames from the start cannot be told; a side said first or last is of all of them.
 */
function doubtfulSides(frames: readonly Frame[]): number {
  const at = frames.findIndex((frame) => frame.side !== undefined);
  const last = frames.length - 1;
  if (frames[at]!.sideTrails) return at === last ? 0 : frames.length;
  return at;
}

/** "Tapping over Guyon's canal gives tingling, Tinel positive": the name behind what was told already, without a place of its own. */
const saysAgain = (frame: Frame, before: Frame): boolean => before.places.length > 0 && frame.places.length === 0 && frame.side === before.side && frame.level !== undefined && frame.level === before.level
  && frame.signs.length === 1 && before.signs.length === 1 && SIGNS[frame.signs[0]!.code].test === true && frame.signs[0]!.code === before.signs[0]!.code && frame.signs[0]!.negated === before.signs[0]!.negated && !frame.at && frame.qualifiers.length === 0;

const isAtElbow = ({ sites }: Place): boolean => sites.some((site) => ['elbow', 'elbow.joint', 'cubital.tunnel', 'medial.epicondyle', 'lateral.epicondyle', 'radial.tunnel'].includes(site));

/** One digit was named first and the rest is said of it. */
const isTopic = ({ first, places }: Frame): boolean => first === 'place' && places.length === 1 && places[0]!.digits.length === 1;
const isDigitPart = ({ parts }: Place): boolean => parts.every((part) => ['radial', 'ulnar', 'pulp', 'dorsum', 'volar', 'A1', 'A2', 'A3', 'A4', 'A5'].includes(part));
const isDeniedWound = (frame: Frame): boolean => frame.signs.length > 0 && frame.signs.every((sign) => sign.negated && SIGNS[sign.code].category === 'wound');
const isOfTheHand = (frame: Frame): boolean => frame.signs.every((sign) => (SIGNS[sign.code].site ?? 'hand') === 'hand');
const isThereOrNot = (frame: Frame): boolean => frame.signs.every((sign) => SIGNS[sign.code].levels.includes('present') && !SIGNS[sign.code].levels.includes('normal'));

function takeFromBefore(frame: Frame, before: Frame): void {
  if (frame.affirmed || frame.also || (frame.denied && hasResult(before) && frame.signs.length === 0 && !hasResult(frame) && !frame.places.some(isMotor))) { takeElliptic(frame, before); return; }
  // "tender over the snuffbox but not the radial styloid"
  if (frame.denied && frame.signs.length === 0 && before.signs.length > 0 && !hasResult(frame)) {
    ofSameDigit(frame, before);
    frame.signs = before.signs.map((sign) => ({ ...sign, negated: true }));
    frame.strange ||= !isThereOrNot(before) || hasResult(before) || before.signs.some((sign) => sign.negated);
    return;
  }
  const [own] = frame.places;
  const family = before.places.at(-1);
  // "index F D P five, little four"
  if (own && family && frame.places.length === 1 && family.families.length + family.moves.length > 0 && own.digits.length > 0 && own.parts.length + own.joints.length + own.moves.length + own.families.length === 0 && frame.signs.length === 0)
    frame.places = [{ ...own, families: family.families, moves: family.moves, joints: family.joints }];
  // "radial border of the little dull, ulnar border fine": of the same finger
  const [part] = frame.places;
  const named = before.places.at(-1);
  if (part && named && frame.places.length === 1 && part.parts.length > 0 && part.digits.length + part.sites.length + part.joints.length + part.moves.length + part.families.length + part.ordinals.length === 0 && named.digits.length > 0 && hasResult(frame) && (frame.signs.length === 0 ? isDigitPart(part) : isTopic(before) && part.parts.every((of) => ['radial', 'ulnar', 'pulp'].includes(of))))
    frame.places = [{ ...part, digits: named.digits }];
  // "left index laceration, F D P zero": a long flexor without its finger, amid what is said of one
  if (part && named && frame.places.length === 1 && isLongFlexorAlone(part) && named.families.length === 0 && isTopic(before) && !named.digits.includes('D1'))
    frame.places = [{ ...part, digits: named.digits }];
  const implied = impliedSign(frame);
  // "pin radial side absent, ulnar side normal" goes on about the pin.
  const goesOn = implied === 'light.touch' && before.signs.every((sign) => SIGNS[sign.code].category === 'sensation');
  if (frame.signs.length === 0 && before.signs.length > 0 && (!implied || goesOn)) {
    frame.signs = before.signs;
    if (frame.except && !hasResult(frame)) takeOpposite(frame, before);
    if (frame.places.length === 0) frame.places = before.places;
    else if (!frame.except && !hasResult(frame) && hasResult(before)) copyResult(frame, before);
    return;
  }
  const [place] = frame.places;
  const base = before.places.at(-1);
  // "index M C P flexes to ninety, P I P to seventy five"; "index F D P five, F D S four"
  if (place && base && frame.places.length === 1 && place.digits.length + place.sites.length + place.parts.length + place.ordinals.length === 0 && base.digits.length > 0 && frame.signs.length === 0) {
    if (place.joints.length > 0 && base.joints.length > 0 && place.moves.length > 0) frame.places = [{ ...place, digits: base.digits }];
    // "index M C P nought to ninety, P I P twenty to one hundred"
    if (place.joints.length > 0 && base.joints.length > 0 && base.moves.length === 0 && place.moves.length === 0) frame.places = [{ ...place, digits: base.digits }];
    else if (place.joints.length > 0 && base.joints.length > 0 && base.moves.length > 0 && place.moves.length === 0) frame.places = [{ ...place, digits: base.digits, moves: base.moves }];
    else if (place.families.length > 0 && base.families.length > 0) frame.places = [{ ...place, digits: base.digits }];
  }
  // "U C L of the middle M C P lax, R C L tight": of the same joint
  if (place && base && frame.places.length === 1 && place.parts.length > 0 && place.parts.every((part) => LIGAMENTS.includes(part)) && place.digits.length + place.joints.length + place.sites.length === 0 && base.digits.length > 0)
    frame.places = [{ ...place, digits: base.digits, joints: base.joints }];
  // "wrist flexion seventy, extension sixty"
  if (place && base && frame.places.length === 1 && place.moves.length > 0 && base.moves.length > 0 && place.digits.length + place.sites.length + place.joints.length === 0)
    frame.places = [{ ...place, digits: base.digits, sites: base.sites, joints: base.joints }];
  // "cord to the ring with contracture of the M C P": of the finger named last.
  if (place && base && frame.signs.length > 0 && frame.places.length === 1 && place.joints.length > 0 && place.digits.length + place.sites.length + place.moves.length + place.parts.length + place.ordinals.length === 0 && base.digits.length > 0 && frame.side === before.side)
    frame.places = [{ ...place, digits: base.digits }];
  if (frame.places.length > 0 || before.places.length === 0) return;
  // A topic named first holds for the describing words behind it: "index finger: swollen, tender, cold".
  const described = before.first === 'place' && frame.signs.length > 0 && frame.signs.every((sign) => sign.adjective);
  // "grip twenty kilograms right, fifteen left"
  if (frame.number !== undefined && !frame.graded && before.quantity && frame.signs.length === 0) { frame.quantity = { value: frame.number, unit: before.quantity.unit }; delete frame.number; }
  // "ring finger pale with capillary refill of five seconds"
  const along = before.first === 'place' && frame.joined === 'and' && isOfTheHand(frame) && frame.signs.every((sign) => !sign.negated);
  if (described) frame.first = 'place';
  if (described || frame.signs.length === 0 || along || (frame.contrast && isOfTheHand(frame))) frame.places = before.places;
}

/** What a bare "is", "too" or "not" makes of the result before it; of other results it is not known what they mean. */
const ELLIPTIC: Readonly<Record<'affirmed' | 'denied', Readonly<Record<string, string>>>> = {
  affirmed: { absent: 'present', present: 'present', positive: 'positive', negative: 'positive', normal: 'normal', painful: 'painful', painless: 'painful' },
  denied: { present: 'absent', positive: 'negative', painful: 'painless' },
};

/** "A three ring pulley tender, A four isn't": of the same finger. */
function ofSameDigit(frame: Frame, before: Frame): void {
  const [own, ...others] = frame.places;
  const base = before.places.at(-1);
  if (own && base && own.digits.length + own.sites.length + own.ordinals.length + own.moves.length === 0 && base.digits.length > 0) frame.places = [{ ...own, digits: base.digits }, ...others];
}

/** "Ulnar pulse not palpable, the radial is", "D I Ps stiff and the M C Ps too", "radial palpable, ulnar not". */
function takeElliptic(frame: Frame, before: Frame): void {
  const { level } = before;
  ofSameDigit(frame, before);
  if (frame.signs.length > 0 || frame.places.length === 0) { frame.strange ||= frame.affirmed === true; return; }
  const denial = frame.denied === true;
  if (frame.also) { frame.signs = before.signs; copyResult(frame, before); if (before.cannot) frame.cannot = true; if (before.range) frame.range = before.range; return; }
  frame.denied = false;
  const isLevel = level !== undefined && before.levelApart === true && !before.levelNegated;
  if (isLevel && ELLIPTIC[denial ? 'denied' : 'affirmed'][level]) { frame.signs = before.signs.map((sign) => ({ ...sign, negated: false })); frame.level = ELLIPTIC[denial ? 'denied' : 'affirmed'][level]!; frame.levelApart = true; }
  else if (!hasResult(before) && before.signs.length > 0 && isThereOrNot(before)) frame.signs = before.signs.map((sign) => ({ ...sign, negated: denial }));
  else frame.strange = true;
}

const AT_A_PLACE: readonly string[] = ['look', 'feel', 'wound', 'perfusion'];
/**
 * Signs that may be of the whole hand ("swollen", "refill two seconds") behind a place that was named: they are of that place.
 * A denial behind a sign and its place ("tender snuffbox, no swelling") may be of the place or of the hand: asked.
 */
function takePlaceOfHandSign(frame: Frame, before: Frame | undefined, amidFingers: boolean): void {
  if (!before || frame.places.length > 0 || frame.signs.length === 0 || frame.sideNamesHand || frame.throughout || frame.side !== before.side) return;
  const ofHand = frame.signs.every(({ code }) => SIGNS[code].site === 'hand' && AT_A_PLACE.includes(SIGNS[code].category));
  // "tender flexor sheath of the little finger, held flexed": of that finger.
  const ofFinger = frame.signs.every(({ code }) => ['fingers', 'palm'].includes(SIGNS[code].site ?? '') && !SIGNS[code].test);
  const digits = before.places.filter((place) => place.digits.length > 0).map((place) => ({ ...place, parts: [], joints: [], moves: [], families: [], ordinals: [], sites: [] }));
  // "A one pulley tender, nodule": what is felt there keeps the place as it was said.
  const ofPlace = frame.signs.every(({ code }) => code === 'nodule' || code === 'cord') && digits.length > 0;
  const places = ofHand || ofPlace ? before.places : ofFinger ? digits : [];
  const fits = places.length > 0 && frame.signs.every(({ code }) => places.every((place) => { const sites = sitesOf(place, code); return sites.length > 0 && sites.every((site) => SIGNS[code].kinds.includes(SITES[site].kind)); }));
  // Of the hand, or of the finger that was talked of?
  if (!fits) { frame.nowhere ||= ofHand && amidFingers; return; }
  // "laceration left thumb, no tendon showing": of the wound; "swollen wrist, no bruising": of one look
  const ofOneKind = before.signs.length > 0 && before.signs.every((sign) => !sign.negated && frame.signs.every(({ code }) => SIGNS[code].category === SIGNS[sign.code].category && ['wound', 'look'].includes(SIGNS[code].category)));
  if (before.first === 'place' || ofOneKind || frame.signs.every((sign) => !sign.negated)) frame.places = places;
  else frame.nowhere = true;
}

const OPPOSITES: Readonly<Record<string, string>> = { present: 'absent', absent: 'present', positive: 'negative', negative: 'positive' };
/** After "except" a sign that is there or not is turned round; "sensation normal except the thumb" leaves open what it is there. */
function takeOpposite(frame: Frame, before: Frame): void {
  if (!hasResult(before) && isThereOrNot(before)) frame.signs = before.signs.map((sign) => ({ ...sign, negated: !sign.negated }));
  const level = before.level === undefined ? undefined : OPPOSITES[before.level];
  if (level) frame.level = level;
}

const isBareResult = (frame: Frame): boolean => hasResult(frame) && frame.side === undefined && frame.places.length === 0 && frame.signs.length === 0 && frame.range === undefined && !frame.except;
const INEXACT: readonly string[] = ['slow', 'brisk', 'reduced', 'limited', 'weak', 'normal', 'full'];

/** "Refill slow, four seconds": the measurement says it better. Any other second result makes the sentence no finding ("normal refill is under two seconds"). */
function addResult(before: Frame, said: Frame): void {
  const measured = said.quantity !== undefined || said.number !== undefined;
  if (!measured || before.level === undefined || !INEXACT.includes(before.level) || before.first === 'result') { before.strange = true; return; }
  delete before.level;
  copyResult(before, said);
}

function copyResult(frame: Frame, before: Frame): void {
  if (before.level !== undefined) frame.level = before.level;
  if (before.number !== undefined) { frame.number = before.number; frame.mark = before.mark ?? ''; if (before.comparator) frame.comparator = before.comparator; }
  if (before.quantity) frame.quantity = before.quantity;
}
