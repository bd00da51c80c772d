import { MRC_GRADES, REACHES, SENSORY_GRADES, SIGNS, SITES, checkFinding, type Finding, type Level, type MrcGrade, type Qualifier, type Result, type SignCode, type SiteCode, type Unit } from '../vocabulary';
import { ONE_PLACE, hasResult, type Frame, type SpokenSign } from './frame';
import { isLongFlexor, isMotor, isMuscleMass, isNerve, isOnlyFelt, isSkin, isVessel, lacksBase, lacksFinger, lacksTendon, movers, qualifiersOfPlace, sitesOf, zonesOf, type Place } from './place';
import type { Gap } from './statement';

/** A finding that still lacks its side. */
export type Sideless = Omit<Finding, 'side'>;
export type Meaning =
  | { readonly kind: 'complete'; readonly items: readonly Sideless[] }
  /** options: what would be filed for each possible answer. */
  | { readonly kind: 'gap'; readonly gap: Gap; readonly question: string; readonly options: readonly (readonly Sideless[])[] }
  | { readonly kind: 'none' };

/** Spoken result words to the levels that may express them; the first that the sign knows is meant. */
const LEVELS: Readonly<Record<string, readonly Level[]>> = {
  normal: ['normal', 'full'], reduced: ['reduced', 'limited', 'weak'], absent: ['absent'], altered: ['altered'], increased: ['increased'], abnormal: ['altered'],
  present: ['present', 'normal'], positive: ['present'], negative: ['absent'], weak: ['weak', 'reduced'], strong: ['normal', 'present'], painful: ['present'], painless: ['absent'], notworking: ['absent'],
  warm: ['warm'], cool: ['cool'], cold: ['cold'], hot: ['hot'], pale: ['pale'], blue: ['blue'], red: ['red'], mottled: ['mottled'], black: ['black'],
  dry: ['dry'], moist: ['moist'], ...Object.fromEntries(SENSORY_GRADES.map((grade) => [grade, [grade]])), brisk: ['brisk', 'increased'], slow: ['slow'], full: ['full', 'normal'], limited: ['limited', 'reduced'], stiff: ['stiff'], hyperextended: ['hyperextended'],
};
/** What "not …" makes of a level; other levels cannot be turned round without guessing. */
const OPPOSITES: Readonly<Record<string, string>> = { present: 'absent', absent: 'present', positive: 'negative', negative: 'positive', painful: 'painless', full: 'limited', limited: 'full', abnormal: 'normal', stiff: 'full' };

/** A sign that is there or not: "normal" means not there, "abnormal" there. */
const isThereOrNot = (sign: SignCode): boolean => { const { levels } = SIGNS[sign]; return levels.includes('present') && !levels.includes('normal'); };
/** Tenodesis and its like: present is the normal answer. */
const PRESENT_IS_NORMAL: ReadonlySet<SignCode> = new Set<SignCode>(['tenodesis']);
/** Named without a result these say nothing yet. */
const needsResult = (sign: SignCode): boolean => !isThereOrNot(sign) || SIGNS[sign].category === 'special test' || sign === 'cascade' || sign === 'mcp.squeeze';

function levelResult(sign: SignCode, said: string, negated: boolean): Result | undefined {
  const word = negated ? OPPOSITES[said] : said;
  if (word === undefined) return undefined;
  const { levels } = SIGNS[sign];
  if (isThereOrNot(sign)) {
    if (word === 'normal') return { kind: 'level', level: PRESENT_IS_NORMAL.has(sign) ? 'present' : 'absent' };
    if (word === 'abnormal' || word === 'lost') return { kind: 'level', level: PRESENT_IS_NORMAL.has(sign) ? 'absent' : 'present' };
  }
  const level = LEVELS[word]?.find((candidate) => levels.includes(candidate));
  return level ? { kind: 'level', level } : undefined;
}

const DEFAULT_UNIT: Partial<Record<SignCode, Unit>> = { 'two.point': 'mm', refill: 's', 'extension.lag': 'deg', 'fixed.flexion': 'deg', monofilament: '{filament}' };
/** Measured by the least that is felt. */
const THRESHOLDS: ReadonlySet<SignCode> = new Set<SignCode>(['two.point', 'monofilament']);
const RANGES: ReadonlySet<SignCode> = new Set<SignCode>(['range', 'active.range', 'passive.range']);

export function gradeOf(number: number | undefined, mark: string | undefined): MrcGrade | undefined {
  const grade = `${number}${mark ?? ''}` as MrcGrade;
  return MRC_GRADES.includes(grade) ? grade : undefined;
}

function gradeResult(frame: Frame): Result | undefined {
  const grade = gradeOf(frame.number, frame.mark);
  if (!grade) return undefined;
  if (frame.numberTo === undefined) return { kind: 'grade', grade };
  const to = gradeOf(frame.numberTo, frame.markTo);
  return to && { kind: 'grade', grade, to };
}

function resultOf(frame: Frame, sign: SpokenSign): Result | undefined {
  const { code } = sign;
  // "no thumb abduction four": the denial and the result cannot both be meant.
  if (frame.denied && hasResult(frame) && frame.level !== 'present' && frame.level !== 'absent') return undefined;
  if (frame.quantity || frame.number !== undefined) {
    // "Cannot feel two points at ten millimetres" is beyond ten; of other signs a denied measure is not known.
    if (sign.negated || frame.cannot) return frame.quantity && THRESHOLDS.has(code) && !frame.quantity.comparator ? { kind: 'quantity', quantity: { ...frame.quantity, comparator: '>' } } : undefined;
  }
  if (frame.quantity) return { kind: 'quantity', quantity: frame.quantity };
  if (frame.number !== undefined) {
    if (SIGNS[code].grade) return frame.comparator ? undefined : gradeResult(frame);
    // No power grade is above five: such a number can only be an angle.
    const unit = DEFAULT_UNIT[code] ?? (RANGES.has(code) && isAngle(frame) ? 'deg' : undefined);
    if (!unit || frame.graded || (frame.numberTo !== undefined && unit === '{filament}')) return undefined;
    return { kind: 'quantity', quantity: { value: frame.number, ...(frame.numberTo === undefined ? {} : { to: frame.numberTo }), unit, ...(frame.comparator ? { comparator: frame.comparator } : {}) } };
  }
  // "cannot fully extend" moves, but not all the way.
  if (frame.cannot) return frame.level === undefined || frame.level === 'full' ? { kind: 'level', level: frame.level === 'full' || frame.fully ? 'limited' : 'absent' } : undefined;
  if (frame.denied) return { kind: 'level', level: 'absent' };
  if (frame.level !== undefined) {
    // "Hollow lost": what a describing word calls lost may be the thing itself.
    if (code === 'wasting' && sign.adjective && frame.levelApart && frame.level === 'absent') return undefined;
    // Patchy loss leaves some feeling.
    if (!sign.negated && frame.level === 'absent' && SIGNS[code].category === 'sensation' && frame.qualifiers.includes('patchy')) return { kind: 'level', level: 'reduced' };
    if (!sign.negated) return levelResult(code, frame.level, frame.levelNegated ?? false);
    // "neither Phalen nor Tinel positive"
    if (frame.level === 'positive') return { kind: 'level', level: 'absent' };
    // "no tenderness present" and "no tenderness, normal" stay absent; "no sensation reduced" is not guessed at. "Not pale" is no colour.
    return frame.level === 'present' || (frame.level === 'normal' && isThereOrNot(code)) ? { kind: 'level', level: 'absent' } : sign.adjective && code === 'tenderness' ? { kind: 'level', level: 'absent' } : undefined;
  }
  const { levels } = SIGNS[code];
  if (sign.negated) return levels.includes('absent') ? { kind: 'level', level: 'absent' } : undefined;
  if (frame.qualifiers.includes('equivocal') && isThereOrNot(code)) return { kind: 'level', level: 'present' };
  if (levels.includes('weak') && frame.qualifiers.includes('weaker than other side')) return { kind: 'level', level: 'weak' };
  // "Grip the same as the other side": as good as that.
  if (levels.includes('normal') && (frame.qualifiers.includes('equal to other side') || frame.qualifiers.includes('stronger than other side'))) return { kind: 'level', level: 'normal' };
  if (RANGES.has(code) && frame.fully) return { kind: 'level', level: 'full' };
  if (code === 'range' && frame.qualifiers.includes('pain-limited')) return { kind: 'level', level: 'limited' };
  return needsResult(code) ? undefined : { kind: 'level', level: 'present' };
}

const POWER_WORDS: readonly string[] = ['normal', 'weak', 'absent', 'reduced', 'strong', 'notworking'];
const RANGE_WORDS: readonly string[] = ['full', 'limited', 'stiff', 'hyperextended'];
const FELT_WORDS: readonly string[] = ['reduced', 'altered', 'increased'];
const TOUCH_WORDS: readonly string[] = ['normal', 'absent'];
const TENDON_WORDS: readonly string[] = ['present', 'absent', 'notworking', 'normal'];

/** A number that no power grade can be: above five, or an arc ("zero to ninety"). */
const isAngle = ({ number, numberTo, graded }: Frame): boolean => !graded && number !== undefined && Math.max(number, numberTo ?? 0) > 5;
const turnsByAngle = (place: Place): boolean => place.moves.length > 0 || place.joints.length > 0 || place.sites.some((site) => site === 'pronation' || site === 'supination');

/** The sign that a frame without one must be about: a graded movement is power, a limited joint is range. */
export function impliedSign(frame: Frame): SignCode | undefined {
  const { level, quantity } = frame;
  if (frame.places.length > 0 && frame.places.every(isNerve)) return hasResult(frame) ? 'summary.nerve' : undefined;
  // "globally weak"
  if (frame.places.length === 0 && frame.throughout && frame.side !== undefined && (level === 'weak' || frame.graded)) return 'summary.motor';
  const graded = frame.number !== undefined || level === 'weak';
  const motor = frame.places.length > 0 && frame.places.every((place) => isMotor(place) || (graded && isMuscleMass(place)));
  if (frame.range && (hasResult(frame) || frame.cannot || frame.denied)) return frame.range === 'active' ? 'active.range' : 'passive.range';
  if (frame.denied && frame.places.length > 0 && frame.places.every(isLongFlexor)) return frame.places[0]!.families[0] === 'FDS' ? 'fds.isolation' : 'fdp.isolation';
  if (frame.denied && motor && frame.places.every((place) => place.moves.length === 0 && place.sites.some((site) => SITES[site].kind === 'muscle'))) return 'power';
  if ((frame.cannot || frame.denied) && motor) return 'active.range';
  if (isAngle(frame) && frame.places.length > 0 && frame.places.every(turnsByAngle)) return 'range';
  if (quantity) return quantity.unit === 'deg' && (motor || frame.places.every((place) => place.joints.length > 0)) ? 'range' : quantity.unit === 'kg' && motor ? 'power' : undefined;
  if (motor && (frame.number !== undefined || frame.qualifiers.some((qualifier) => COMPARED.includes(qualifier) || qualifier === 'equal to other side'))) return 'power';
  if (level === undefined && frame.fully && frame.places.length > 0 && frame.places.every((place) => place.moves.length > 0)) return 'range';
  if (level === undefined) return motor && frame.qualifiers.includes('pain-limited') ? 'range' : undefined;
  if (frame.places.length > 0 && frame.places.every(isLongFlexor) && TENDON_WORDS.includes(level)) return frame.places[0]!.families[0] === 'FDS' ? 'fds.isolation' : 'fdp.isolation';
  if (motor && POWER_WORDS.includes(level)) return 'power';
  if (motor && level === 'painful') return 'movement.pain';
  if (motor && RANGE_WORDS.includes(level)) return 'range';
  if (frame.places.length > 0 && frame.places.every(isVessel)) return 'pulse';
  // "wrist painful"
  if ((level === 'painful' || level === 'painless') && frame.places.length > 0) return 'pain';
  // "Ulnar side of the ring absent" is its feeling; "index fingertip absent" may be the tip itself.
  if (frame.places.length > 0 && frame.places.some(isSkin) && (FELT_WORDS.includes(level) || (TOUCH_WORDS.includes(level) && frame.places.some(isOnlyFelt)))) return 'light.touch';
  if (frame.places.length > 0 && RANGE_WORDS.includes(level) && (level !== 'limited' || frame.places.some((place) => place.joints.length > 0))) return 'range';
  return undefined;
}

/** "Pain on wrist flexion", "not red", "active bleeding": the words mean another sign than they name. */
function meant(sign: SpokenSign, frame: Frame): SpokenSign {
  if (sign.code === 'pain' && frame.places.length > 0 && frame.places.every(isMotor)) return { ...sign, code: 'movement.pain' };
  if (sign.code === 'colour' && sign.negated && frame.level === 'red') return { ...sign, code: 'erythema' };
  // "Power normal throughout" is said of the whole hand.
  if (sign.code === 'power' && frame.places.length === 0 && frame.throughout) return { ...sign, code: 'summary.motor' };
  if (sign.code === 'range' && frame.range) return { ...sign, code: frame.range === 'active' ? 'active.range' : 'passive.range' };
  return sign;
}

function qualifiersOf(frame: Frame, sign: SignCode): Qualifier[] {
  const spoken = frame.range && (sign === 'bleeding' || sign === 'movement.pain') ? [...frame.qualifiers, frame.range] : frame.qualifiers;
  // Power is tested against resistance anyway; static and moving are ways to test two points ("crepitus on moving the wrist").
  const without: readonly Qualifier[] = [...(sign === 'power' ? ['resisted'] as const : []), ...(sign === 'two.point' ? [] : ['static', 'moving'] as const)];
  return [...new Set([...spoken.filter((qualifier) => !without.includes(qualifier)), ...(SIGNS[sign].category === 'sensation' ? [] : frame.places.flatMap(qualifiersOfPlace))])];
}

const COMPARED: readonly Qualifier[] = ['weaker than other side', 'stronger than other side'];
/** Weaker and stronger are said of power, feeling, pulse and movement, not of what is seen or felt. */
const isComparable = (sign: SignCode): boolean => ['power', 'sensation', 'perfusion', 'move', 'reflex'].includes(SIGNS[sign].category);

const PLACED: ReadonlySet<SignCode> = new Set<SignCode>(['numbness', 'tingling', 'pain', 'bite', 'burn', 'crush', 'laceration', 'puncture', 'amputation', 'wound', 'foreign.body']);
/** "Dog bite", "numb": without place and side it may as well be the story of the accident. */
const isHomeless = (frame: Frame, sign: SpokenSign, result: Result): boolean =>
  PLACED.has(sign.code) && frame.places.length === 0 && frame.side === undefined && result.kind === 'level' && (SIGNS[sign.code].category === 'symptom' || result.level !== 'absent');

/** Kinds of finding that are at one spot, however it is told: "in the snuffbox at the base of the thumb". */
const ONE_SPOT: ReadonlySet<string> = new Set(['look', 'feel', 'wound', 'symptom', 'special test']);

/** What one frame asserts, without the side. */
export function meaningOf(frame: Frame): Meaning {
  // "full fist" alone bids the patient; with a side it says what was seen.
  if (frame.strange || (frame.verb && frame.side === undefined && !frame.cannot && frame.number === undefined && frame.quantity === undefined)) return { kind: 'none' };
  const implied = frame.signs.length === 0 ? impliedSign(frame) : undefined;
  if (implied && frame.places.length > 0 && frame.places.every(isLongFlexor) && implied.endsWith('.isolation')) return eachFlexor(frame);
  const signs: readonly SpokenSign[] = implied ? [{ code: implied, negated: false, adjective: false }] : frame.signs;
  if (signs.length === 0) {
    if (!hasResult(frame) && frame.places.length > 0 && frame.places.every(isMotor) && !frame.verb) return gap('result', 'What is the power?');
    return { kind: 'none' };
  }
  const unmoved = frame.places.find(lacksBase);
  if (unmoved && frame.places.length === 1) {
    const options = movers(unmoved).map((place) => meaningOf({ ...frame, signs: [...signs], places: [place] }));
    return gap('site', 'Which part moves?', options.flatMap((option) => (option.kind === 'complete' ? [option.items] : [])));
  }
  const zoned = frame.places.find(lacksTendon);
  if (zoned && frame.places.length === 1) {
    const options = zonesOf(zoned).map((place) => meaningOf({ ...frame, signs: [...signs], places: [place] }));
    return gap('site', 'Flexor or extensor zone?', options.flatMap((option) => (option.kind === 'complete' ? [option.items] : [])));
  }
  const missing = frame.places.find(lacksFinger);
  if (missing && frame.places.length === 1) return whichFinger(frame, missing, signs);
  const items: Sideless[] = [];
  for (const named of signs) {
    const sign = meant(named, frame);
    const { name } = SIGNS[sign.code];
    const sites = placesFor(frame, sign);
    if (sites === undefined) return { kind: 'none' };
    const result = resultOf(sign.code === 'erythema' && named.code === 'colour' ? { ...frame, level: undefined } as Frame : frame, sign);
    if (!result && RANGES.has(sign.code) && frame.number !== undefined && !frame.graded) return gap('result', `${name}: degrees, or a grade of power?`);
    // A bare name ("pulse") is talk; with a place or a side it is a finding cut short.
    // "Froment is testing the adductor": a test and a muscle, and nothing that was found
    if (!result && SIGNS[sign.code].test && frame.places.some(isMotor)) return { kind: 'none' };
    if (!result) return hasResult(frame) || (frame.places.length === 0 && frame.side === undefined) ? { kind: 'none' } : gap('result', `What was found: ${name}?`);
    if (sites.length === 0 || frame.nowhere || isHomeless(frame, sign, result)) return gap('site', `Where: ${name}?`);
    const upTo = endOf(frame, sites, sign.code);
    if (upTo === 'unclear') return gap('site', `Which places: ${name}?`);
    if (frame.oneFinger && sites.includes('fingers')) return gap('site', 'Which finger?');
    if (!isComparable(sign.code) && qualifiersOf(frame, sign.code).some((qualifier) => COMPARED.includes(qualifier))) return { kind: 'none' };
    if (SIGNS[sign.code].test && sites.some((site) => SITES[site].kind === 'movement')) return { kind: 'none' };
    const qualifiers = qualifiersOf(frame, sign.code);
    const itemAt = (site: SiteCode): Sideless => ({ sign: sign.code, site, ...(upTo ? { upTo } : {}), result, ...(frame.at ? { at: frame.at } : {}), ...(qualifiers.length > 0 ? { qualifiers } : {}) });
    // "Phalen positive, middle finger": what was tested, or where it was felt?
    const home = SIGNS[sign.code].site;
    if (home && ONE_PLACE.has(sign.code) && sites.some((site) => site !== home && !site.startsWith(`${home}.`))) return gap('unsure', `${name} is tested at the ${SITES[home].name}: file it there, or at the place named?`, [[itemAt(home)], sites.map(itemAt)]);
    items.push(...(upTo ? sites.slice(0, 1) : sites).map(itemAt));
  }
  if (items.some((item) => checkFinding({ ...item, side: 'left' }).length > 0)) return { kind: 'none' };
  if (frame.toldByAnother && items.some((item) => ONE_SPOT.has(SIGNS[item.sign].category))) {
    const spots = [...new Set(items.map(({ site }) => site))];
    if (spots.length > 1) return gap('unsure', `Which place: ${spots.map((site) => SITES[site].name).join(', or ')}?`, spots.map((site) => items.filter((item) => item.site === site)));
  }
  return frame.unsure ? gap('unsure', 'How far does the "no" reach?', [items]) : { kind: 'complete', items };
}

const gap = (kind: Gap, question: string, options: readonly (readonly Sideless[])[] = []): Meaning => ({ kind: 'gap', gap: kind, question, options });

/** "F D S and F D P intact": each family has its own test. */
function eachFlexor(frame: Frame): Meaning {
  const meanings = (['FDS', 'FDP'] as const).flatMap((family) => {
    const places = frame.places.map((place) => ({ ...place, families: place.families.filter((other) => other === family) })).filter((place) => place.families.length > 0);
    return places.length > 0 ? [meaningOf({ ...frame, places, signs: [{ code: family === 'FDS' ? 'fds.isolation' : 'fdp.isolation', negated: false, adjective: false }] })] : [];
  });
  const complete = meanings.flatMap((meaning) => (meaning.kind === 'complete' ? meaning.items : []));
  return meanings.every((meaning) => meaning.kind === 'complete') ? { kind: 'complete', items: complete } : meanings.find((meaning) => meaning.kind !== 'complete')!;
}

/** "F D S weak": each finger is a possible answer. */
function whichFinger(frame: Frame, place: Place, signs: readonly SpokenSign[]): Meaning {
  const options = (['D2', 'D3', 'D4', 'D5'] as const).map((digit) => meaningOf({ ...frame, signs: [...signs], places: [{ ...place, digits: [digit] }] }));
  return options.every((option) => option.kind === 'complete') ? gap('site', 'Which finger?', options.map((option) => option.items)) : gap('result', 'Which finger, and what was found?');
}

/** The other end of what reaches from one place to another; 'unclear' when it is not one place to one place of a thing that can. */
function endOf({ upTo, single, places }: Frame, sites: readonly SiteCode[], sign: SignCode): SiteCode | 'unclear' | undefined {
  const ends = upTo ? upTo.flatMap((place) => sitesOf(place, sign)) : single && sites.length > 1 ? sites.slice(1) : undefined;
  if (ends === undefined) return undefined;
  const [end] = ends;
  return end !== undefined && ends.length === 1 && REACHES.has(SIGNS[sign].category) && (single === true || (sites.length === 1 && places.length === 1)) ? end : 'unclear';
}

/** Coded sites; empty when a place is needed and missing; undefined when what was said makes no place. */
function placesFor(frame: Frame, sign: SpokenSign): SiteCode[] | undefined {
  const entry = SIGNS[sign.code];
  if (frame.places.length > 0) {
    // "right hand, dorsum swollen"
    const ofHand = (place: Place): Place => (frame.sideNamesHand && place.parts.length > 0 && place.digits.length + place.sites.length === 0 ? { ...place, sites: ['hand'] } : place);
    const sites = frame.places.map((place) => sitesOf(ofHand(place), sign.code));
    return sites.some((found) => found.length === 0) ? undefined : [...new Set(sites.flat())];
  }
  if (entry.site) return [entry.site];
  const wholeHand = entry.kinds.includes('hand') && (frame.sideNamesHand || sign.negated || frame.throughout);
  return wholeHand ? ['hand'] : [];
}
