import { SIGNS, SITES, isSiteCode, type Digit, type Qualifier, type SignCode, type SiteCode } from '../vocabulary';

/** A place as said, before it is known what was examined there: "radial side of the index and middle fingers". */
export interface Place {
  readonly digits: Digit[];
  /** pulp, radial, ulnar, dorsum, volar, nail, sheath, A1 or whole, of a digit or of a larger part. */
  readonly parts: string[];
  readonly joints: string[];
  readonly moves: string[];
  /** Muscle families told apart by digit or number: FDS, FDP, LUM, DI, PI. */
  readonly families: string[];
  readonly ordinals: number[];
  /** Places that stand for themselves: "thenar eminence", "wrist", "A P B". */
  readonly sites: SiteCode[];
  /** Whether the digit came first ("index tip") or what belongs to it ("tip of the index"). */
  order?: 'base first' | 'parts first';
}

const emptyPlace = (): Place => ({ digits: [], parts: [], joints: [], moves: [], families: [], ordinals: [], sites: [] });

const PLACE_KEYS: ReadonlySet<string> = new Set(['digit', 'part', 'joint', 'move', 'family', 'ord', 'site']);
export const isPlaceKey = (key: string): boolean => PLACE_KEYS.has(key);

/** Larger parts that can carry a side word or a movement: "volar wrist", "finger flexion". */
const BASES: readonly SiteCode[] = ['wrist', 'elbow', 'fingers', 'forearm', 'hand'];
const isBase = (key: string, value: string): boolean => key === 'digit' || (key === 'site' && (BASES as readonly string[]).includes(value));
const hasBase = (place: Place): boolean => place.digits.length > 0 || place.sites.some((site) => BASES.includes(site));
/** Named without its digit, though it belongs to one; "of the thumb" after it adds nothing. */
const OF_THE_THUMB: readonly SiteCode[] = ['D1.CMC', 'ADP', 'FPL', 'EPL', 'EPB', 'APL', 'APB', 'FPB', 'OP', 'thenar', 'trapezium'];

const modifiers = (place: Place): number => place.parts.length + place.joints.length + place.moves.length + place.families.length;
const has = (place: Place, key: string, value: string): boolean => (key === 'joint' ? (place.joints.includes('knuckle') ? ['MCP'] : place.joints) : key === 'move' ? place.moves : []).includes(value);
const countOf = (place: Place, key: string): number =>
  ({ part: place.parts, joint: place.joints, move: place.moves, family: place.families } as Record<string, readonly string[]>)[key]?.length ?? 0;

/** True when the place still waits for this digit, wrist or hand: "flexor sheath | index finger", "volar | wrist". */
export function needsBase(place: Place | undefined, key: string, value: string): boolean {
  if (!place || !isBase(key, value) || hasBase(place) || place.ordinals.length > 0 || modifiers(place) === 0) return false;
  if (value === 'fingers' && place.families.length > 0) return true;
  return place.sites.length === 0 && (key === 'digit' || place.parts.length > 0 || place.moves.length > 0);
}

/** Parts so large that a place within them says it better. */
const CONTAINERS: readonly string[] = ['hand', 'palm', 'hand.dorsum', 'wrist', 'forearm'];
export const isContainerSite = (key: string, value: string): boolean => key === 'site' && CONTAINERS.includes(value);
export const isContainer = (place: Place | undefined): boolean => place !== undefined && place.digits.length === 0 && modifiers(place) === 0 && place.sites.length === 1 && CONTAINERS.includes(place.sites[0]!);

/**
 * "scaphoid tubercle at the wrist", "palm over the ring finger": of two places joined by a preposition only,
 * the closer one counts. True when the new piece adds nothing; drops a container that it makes closer.
 */
export function isOutside(places: Place[], key: string, value: string): boolean {
  const last = places.at(-1);
  if (!last || needsBase(last, key, value)) return false;
  if (isContainerSite(key, value)) return !isContainer(last) && places.length > 0;
  if (isContainer(last) && ['site', 'digit', 'part', 'joint'].includes(key)) places.pop();
  return false;
}

/** Whether a place said before ("wrist swelling over the ulnar styloid") holds the closer one that follows, so that only the closer one counts. */
export function contains(outer: readonly Place[], key: string, value: string): boolean {
  const [place] = outer;
  if (!place || outer.length > 1) return false;
  if (isContainer(place)) return true;
  if (place.sites.length === 1 && place.sites[0] === 'fingers' && modifiers(place) === 0) return key === 'digit' && value !== 'D1';
  return key === 'site' && place.digits.length === 1 && place.digits[0] === 'D1' && modifiers(place) === 0 && OF_THE_THUMB.includes(value as SiteCode);
}

const ZONE = /^(?:(flexor|extensor)\.)?zone(\d)$/;
/** The tendons whose zone it is: told by name, or by the surface ("volar, zone two"). */
const zoneOf = ({ parts }: Place): { readonly tendons?: string; readonly zone: string } | undefined => {
  const [, named, zone] = parts.map((part) => ZONE.exec(part)).find((match) => match !== null) ?? [];
  const tendons = named ?? (parts.includes('volar') ? 'flexor' : parts.includes('dorsum') ? 'extensor' : undefined);
  return zone === undefined ? undefined : { zone, ...(tendons ? { tendons } : {}) };
};

/** "U C L laxity, left thumb", "zone T two of the thumb": the thumb is in the name. */
export const isInName = (place: Place | undefined, key: string, value: string): boolean => key === 'digit' && value === 'D1'
  && ((place?.sites.length === 1 && OF_THE_THUMB.includes(place.sites[0]!)) || (place?.digits.join() === 'D1' && zoneOf(place) !== undefined));

/**
 * Adds one piece to the last place, or begins the next one ("index DIP flexion | middle …").
 * `linked` says that "and" or a comma stood before it, `anew` that a digit of its own follows ("… and radial side of the ring").
 */
export function addToPlaces(places: Place[], key: string, value: string, linked: boolean, anew = false): void {
  const last = places.at(-1);
  // "ring and little fingers": the noun adds nothing.
  if (last && value === 'fingers' && last.digits.length > 0 && modifiers(last) === 0) return;
  if (last && key === 'digit' && value === 'D1' && !linked && last.sites.length === 1 && OF_THE_THUMB.includes(last.sites[0]!)) return;
  // "thumb U C L": the structure is the place.
  if (last && key === 'site' && OF_THE_THUMB.includes(value as SiteCode) && last.digits.length === 1 && last.digits[0] === 'D1' && modifiers(last) === 0) last.digits.length = 0;
  // "finger flexion, little finger": the finger says which.
  if (last && key === 'digit' && !linked && last.digits.length === 0 && last.moves.length > 0 && last.sites.length === 1 && last.sites[0] === 'fingers') last.sites.length = 0;
  // "all fingers F D S intact"
  if (last && key === 'family' && !linked && last.sites.length === 1 && last.sites[0] === 'fingers' && modifiers(last) === 0) { last.sites.length = 0; last.digits.push(...FOUR_FINGERS); }
  // "F D S intact in all fingers"
  if (last && value === 'fingers' && last.families.length > 0 && last.digits.length === 0) { last.digits.push(...FOUR_FINGERS); return; }
  const place = last && !anew && !startsAnew(last, key, value, linked) ? last : emptyPlace();
  if (place !== last) places.push(place);
  if (place !== last && last && linked && last.order === 'base first' && !anew && ((key === 'joint' && last.parts.length > 0) || (key === 'part' && last.joints.length > 0))) place.digits.push(...last.digits);
  switch (key) {
    case 'digit': for (const digit of value.split(' ')) if (!place.digits.includes(digit as Digit)) place.digits.push(digit as Digit); break;
    case 'part': place.parts.push(value); break;
    case 'joint': if (!place.joints.includes(value)) place.joints.push(value); break;
    case 'move': if (!place.moves.includes(value)) place.moves.push(value); break;
    case 'family': place.families.push(value); break;
    case 'ord': place.ordinals.push(Number(value)); break;
    case 'site': place.sites.push(value as SiteCode); break;
  }
  place.order ??= isBase(key, value) ? 'base first' : 'parts first';
}

function startsAnew(place: Place, key: string, value: string, linked: boolean): boolean {
  if (needsBase(place, key, value)) return false;
  if (key === 'digit') {
    if (place.sites.length > 0 || place.ordinals.length > 0) return true;
    return place.order === 'base first' ? modifiers(place) > 0 : place.digits.length > 0 && !linked;
  }
  if (key === 'site') return place.digits.length > 0 || place.sites.length > 0 || modifiers(place) > 0;
  if (place.sites.some((site) => !BASES.includes(site))) return true;
  // "base of the right thumb metacarpal": the end of a bone, said before it
  if (key === 'part' && !linked && isBone(value) && place.parts.length > 0 && place.parts.every((part) => BONE_PARTS[part])) return false;
  if (key === 'joint' && place.ordinals.length > 0) return place.families.length > 0;
  // "thumb tender at the base and the M C P": another part, not one that says better which.
  if (linked && place.order === 'base first' && ((key === 'joint' && place.parts.length > 0) || (key === 'part' && place.joints.length > 0))) return true;
  if (key === 'ord') return place.order === 'base first' || (place.families.length > 0 && place.ordinals.length > 0);
  if (place.parts.includes('whole') || value === 'whole') return place.order !== 'parts first' || hasBase(place);
  // "volar index | zone two"
  if (key === 'part' && !linked && ZONE.test(value) && place.digits.length > 0 && !zoneOf(place)) return false;
  // "radial side of the index | tip"
  if (key === 'part' && !linked && ['pulp', 'volar', 'dorsum'].includes(value) && place.parts.every((part) => part === 'radial' || part === 'ulnar')) return false;
  return place.order === 'parts first' && hasBase(place) && countOf(place, key) > 0 && !has(place, key, value);
}

const kindOf = (site: SiteCode): (typeof SITES)[SiteCode]['kind'] => SITES[site].kind;
const isMuscleOrMovement = (site: SiteCode): boolean => ['muscle', 'muscle group', 'movement'].includes(kindOf(site));

/** Power or movement is tested there: a muscle, a movement, a muscle family. */
export const isMotor = (place: Place): boolean => place.moves.length > 0 || place.families.length > 0 || place.sites.some(isMuscleOrMovement);
export const isMotorSite = (key: string, value: string): boolean => key === 'site' && isSiteCode(value) && isMuscleOrMovement(value);
/** Named like a region, but what is graded there are its muscles: "interossei four", "thenar muscles weak". */
export const isMuscleMass = (place: Place): boolean => place.digits.length + modifiers(place) === 0 && place.sites.length > 0 && place.sites.every((site) => AS_MUSCLES[site] !== undefined);
/** A movement without what moves: "abduction four". */
export const lacksBase = (place: Place): boolean => place.moves.length > 0 && place.digits.length + place.joints.length + place.sites.length === 0 && placeCodes(place).every((code) => code === '');
/** What can make a movement that was named alone, as places to choose from. */
export const movers = (place: Place): Place[] => ([{ digits: ['D1'] }, { sites: ['fingers'] }, { sites: ['wrist'] }, { sites: ['elbow'] }] as const)
  .map((base) => ({ ...place, digits: [...('digits' in base ? base.digits : [])], sites: [...('sites' in base ? base.sites : [])] }) as Place).filter((moved) => placeCodes(moved).every(isSiteCode));
export const isNerve = (place: Place): boolean => place.sites.some((site) => kindOf(site) === 'nerve');
/** A patch of skin and nothing else: "ulnar side of the ring finger", "median territory". */
export const isSkin = (place: Place): boolean => !isMotor(place) && placeCodes(place).some((site) => isSiteCode(site) && kindOf(site) === 'skin');
/** Skin that is named for its feeling alone, and not also as a part that can be looked at: a side of a digit, a territory. */
export const isOnlyFelt = (place: Place): boolean => isSkin(place) && placeCodes(place).every((site) => !/\.(pulp|dorsum)$/.test(site));
export const isVessel = (place: Place): boolean => place.sites.some((site) => kindOf(site) === 'vessel');
/** A long flexor without its finger. */
export const lacksFinger = (place: Place): boolean => place.families.some((family) => family === 'FDS' || family === 'FDP') && place.digits.length === 0 && place.ordinals.length === 0;
/** Digits as a whole. */
export const isDigitsOnly = (place: Place): boolean => place.digits.length > 0 && place.sites.length + place.ordinals.length + modifiers(place) === 0;
/** "F D P" still without its finger. */
export const isLongFlexorAlone = (place: Place | undefined): boolean => place !== undefined && lacksFinger(place) && place.sites.length + place.moves.length + place.joints.length === 0;
export const isLongFlexor = (place: Place): boolean => place.families.length > 0 && place.families.every((family) => family === 'FDS' || family === 'FDP');

const FOUR_FINGERS: readonly Digit[] = ['D2', 'D3', 'D4', 'D5'];
const PLURAL_JOINTS: Readonly<Record<string, string>> = { MCP: 'MCPs', PIP: 'PIPs', DIP: 'DIPs' };

const PARTS: Readonly<Record<string, (digit: Digit) => string>> = {
  pulp: (digit) => `${digit}.pulp`, dorsum: (digit) => `${digit}.dorsum`, volar: (digit) => `${digit}.volar`, whole: (digit) => digit, base: (digit) => (digit === 'D1' ? 'D1.CMC' : digit),
  'radial dorsum': (digit) => `${digit}.dorsum`, 'ulnar dorsum': (digit) => `${digit}.dorsum`,
  radial: (digit) => `${digit}r`, ulnar: (digit) => `${digit}u`, nail: (digit) => `${digit}.nail`, sheath: (digit) => `${digit}.sheath`, A1: (digit) => `${digit}.A1`,
};
/** Bones, pulleys, ligaments and tendons of a digit, by the word for the part. */
const STRUCTURES: Readonly<Record<string, (digit: Digit) => string>> = {
  metacarpal: (digit) => `metacarpal${digit[1]}`, ...Object.fromEntries(['proximal-phalanx', 'middle-phalanx', 'distal-phalanx', 'A2', 'A3', 'A4', 'A5', 'central-slip', 'terminal-tendon', 'sagittal-band'].map((part) => [part, (digit: Digit) => `${digit}.${part}`])),
};
export const LIGAMENTS: readonly string[] = ['UCL', 'RCL', 'plate'];
/** Ends and middle of a long bone, kept as a qualifier of the bone. */
const BONE_PARTS: Readonly<Record<string, Qualifier>> = { base: 'at the base', shaft: 'at the shaft', neck: 'at the neck', head: 'at the head' };
const ASPECTS: Readonly<Record<string, Qualifier>> = { radial: 'radial half', ulnar: 'ulnar half', dorsum: 'dorsal', volar: 'volar' };
const isBone = (part: string): boolean => part === 'metacarpal' || part.endsWith('phalanx');

/** "Phalanx … at its shaft". */
export const isEndOfBone = (place: Place | undefined, part: string): boolean => BONE_PARTS[part] !== undefined && place !== undefined && place.parts.some(isBone) && !place.parts.some((other) => BONE_PARTS[other]);

/** "Distal radius tender dorsally": a side of a place that has no site for its sides. */
const aspectAlone = ({ parts, sites, digits, joints }: Place): boolean => parts.length > 0 && sites.length > 0 && digits.length + joints.length === 0 && parts.every((part) => part === 'dorsum' || part === 'volar') && sites.every((site) => parts.every((part) => BASE_PARTS[`${site} ${part}`] === undefined));

/** What a place says beside its site: "neck of the fifth metacarpal". */
export const qualifiersOfPlace = (place: Place): Qualifier[] => {
  const { parts, joints, moves } = place;
  if (aspectAlone(place)) return parts.flatMap((part) => ASPECTS[part] ?? []);
  if (parts.some(isBone)) return parts.flatMap((part) => BONE_PARTS[part] ?? ASPECTS[part] ?? []);
  // "volar M C P joint"
  return joints.length > 0 && moves.length === 0 ? parts.flatMap((part) => (part === 'volar' || part === 'dorsum' ? ASPECTS[part]! : [])) : [];
};

/** Sides of the larger parts. */
const BASE_PARTS: Readonly<Record<string, SiteCode>> = {
  'hand dorsum': 'hand.dorsum', 'hand volar': 'palm', 'hand ulnar': 'hypothenar', 'palm ulnar': 'hypothenar', 'palm radial': 'thenar', 'palm whole': 'palm', 'hand whole': 'hand', 'hand ulnar dorsum': 'DU', 'hand radial dorsum': 'DR', 'wrist ulnar dorsum': 'wrist.ulnar', 'wrist radial dorsum': 'wrist.radial', 'wrist dorsum': 'wrist.dorsal', 'wrist volar': 'wrist.volar', 'wrist radial': 'wrist.radial', 'wrist ulnar': 'wrist.ulnar', 'wrist whole': 'wrist',
  'forearm dorsum': 'forearm.dorsal', 'forearm volar': 'forearm.volar', 'forearm radial': 'FL', 'forearm ulnar': 'FM', 'forearm whole': 'forearm', 'fingers whole': 'fingers', 'fingers pulp': 'fingers', 'fingers dorsum': 'fingers', 'fingers volar': 'fingers', 'interossei dorsum': 'interossei',
};

/** Skin that feeling is tested on where the everyday name is that of a region. */
const SKIN_SITES: Readonly<Partial<Record<SiteCode, SiteCode>>> = { web1: 'DR', thenar: 'PTH', hypothenar: 'PHY' };
/** A muscle's belly as a place to look at or to press on. */
const AS_SEEN_OR_FELT: Readonly<Partial<Record<SiteCode, SiteCode>>> = { DI1: 'DI1.belly', PT: 'pronator' };
/** Where an artery is felt, for what is found over it. */
const VESSEL_AT: Readonly<Partial<Record<SiteCode, SiteCode>>> = { 'radial.artery': 'wrist.radial', 'ulnar.artery': 'wrist.ulnar', 'brachial.artery': 'elbow' };
/** Muscles graded together under the name of the region that they fill. */
const AS_MUSCLES: Readonly<Partial<Record<SiteCode, SiteCode>>> = { interossei: 'interossei.all', thenar: 'thenar.muscles', hypothenar: 'hypothenar.muscles', 'flexor.forearm': 'flexors.long', 'extensor.forearm': 'extensors.long' };
/** Skin areas are named for feeling, sweating and symptoms; elsewhere the part itself is meant. */
const PARTS_OF_SKIN: Readonly<Partial<Record<SiteCode, SiteCode>>> = { PTH: 'thenar', PHY: 'hypothenar', DR: 'web1' };
const TOUCH: ReadonlySet<SignCode> = new Set<SignCode>(['light.touch', 'pinprick', 'two.point', 'vibration', 'monofilament', 'temperature.sense', 'sensory.grade']);
/** Where a test lives, against the larger part that is named instead: "Tinel at the wrist" is over the carpal tunnel. */
const WITHIN: Readonly<Partial<Record<SiteCode, readonly SiteCode[]>>> = {
  'carpal.tunnel': ['wrist', 'wrist.volar', 'hand'], 'cubital.tunnel': ['elbow', 'elbow.joint', 'medial.epicondyle'], 'extensor.compartment1': ['wrist', 'D1', 'wrist.radial', 'radial.styloid'], scapholunate: ['wrist', 'snuffbox', 'scaphoid', 'scaphoid.tubercle'], 'wrist.ulnar': ['wrist'],
  DRUJ: ['wrist', 'wrist.ulnar', 'ulnar.head'], TFCC: ['wrist', 'wrist.ulnar'], 'D1.CMC': ['D1'], 'thumb.UCL': ['D1', 'D1.MCP'], pronator: ['forearm'], 'radial.tunnel': ['forearm', 'elbow'], fingers: ['hand'],
  DIPs: ['hand', 'fingers'], PIPs: ['hand', 'fingers'], MCPs: ['hand', 'fingers'], D1: ['hand'], 'palmar.fascia': ['hand'], arm: ['hand'], neck: ['hand'], hand: ['wrist'], wrist: ['hand'],
};

/** The coded sites of a place for what was examined there; empty when the words make no place. */
export function sitesOf(place: Place, sign: SignCode): SiteCode[] {
  const codes = placeCodes(sign === 'laxity' ? collateral(place) : aspectAlone(place) && SEEN_OR_FELT.includes(SIGNS[sign].category) ? { ...place, parts: [] } : place);
  if (codes.length === 0 || !codes.every(isSiteCode)) return [];
  return [...new Set((codes as SiteCode[]).flatMap((site) => fit(site, sign)))];
}

const SEEN_OR_FELT: readonly string[] = ['look', 'feel', 'wound'];
/** "Index P I P lax on the radial side": the ligament of that side. */
const collateral = (place: Place): Place => (place.joints.length === 1 && place.moves.length === 0 && place.parts.length > 0 && place.parts.every((part) => part === 'radial' || part === 'ulnar')
  ? { ...place, parts: place.parts.map((part) => (part === 'radial' ? 'RCL' : 'UCL')) } : place);

/** The same place in the code that the sign uses. */
function fit(site: SiteCode, sign: SignCode): SiteCode[] {
  const entry = SIGNS[sign];
  // Feeling over a bone is that of its digit.
  if (TOUCH.has(sign)) return [SKIN_SITES[site] ?? (/-phalanx$/.test(site) ? (site.slice(0, 2) as SiteCode) : site)];
  if (entry.grade && AS_MUSCLES[site]) return [AS_MUSCLES[site]!];
  // Interossei named together are looked at and felt where they lie.
  if ((site === 'fingers.abduction' || site === 'fingers.adduction') && (entry.category === 'look' || entry.category === 'feel')) return ['interossei'];
  if (kindOf(site) === 'vessel' && sign !== 'pulse' && !entry.test) return [VESSEL_AT[site] ?? site];
  if (sign === 'mcp.squeeze' && (site === 'knuckles' || site === 'metacarpals' || site === 'hand')) return ['MCPs'];
  // A compartment is tense, not the skin over it.
  if (sign === 'tense' && (site === 'FL' || site === 'FM' || site === 'FP')) return ['forearm'];
  if (sign === 'tinel' && (site === 'elbow' || site === 'elbow.joint')) return ['cubital.tunnel'];
  if (entry.test && entry.site && WITHIN[entry.site]?.includes(site)) return [entry.site];
  if (sign === 'nerve.thickening' && (site === 'elbow' || site === 'elbow.joint' || site === 'medial.epicondyle')) return ['cubital.tunnel'];
  if (PARTS_OF_SKIN[site] && sign !== 'sweating' && (entry.category === 'look' || entry.category === 'feel' || entry.category === 'wound')) return [PARTS_OF_SKIN[site]!];
  if (AS_SEEN_OR_FELT[site] && !entry.grade && entry.category !== 'reflex' && entry.category !== 'move') return [AS_SEEN_OR_FELT[site]!];
  if (entry.category === 'look' && site === 'hand' && entry.site && entry.site !== 'hand') return [entry.site];
  if (entry.category === 'look' && entry.site === 'D1.CMC' && site === 'D1') return ['D1.CMC'];
  // "ring fingertip droops": a posture is of the finger.
  if (entry.category === 'look' && entry.site === 'fingers' && /\.(pulp|sheath|A\d|volar)$/.test(site) && sign !== 'felon' && sign !== 'wrinkles') return [site.slice(0, 2) as SiteCode];
  if (entry.kinds.includes(kindOf(site)) || entry.site === site) return [site];
  if (site === 'fingers') return [...FOUR_FINGERS];
  // Not a kind of place that the sign knows: the digit that it belongs to, or leave it to the check.
  const digit = /^D[1-5]/.exec(site)?.[0];
  return [digit && isSiteCode(digit) && (kindOf(site) === 'skin' || kindOf(site) === 'region' || kindOf(site) === 'joint') ? digit : site];
}

/** "Zone two" without whose tendons. */
export const lacksTendon = (place: Place): boolean => { const zoned = zoneOf(place); return zoned !== undefined && zoned.tendons === undefined; };
/** Both zones of a number, as places to choose from. */
export const zonesOf = (place: Place): Place[] => ['flexor', 'extensor'].map((tendons) => ({ ...place, parts: place.parts.map((part) => (ZONE.test(part) ? `${tendons}.${part}` : part)) })).filter((zoned) => placeCodes(zoned).every(isSiteCode));

/** The thumb has zones of its own up to the wrist, fingers share theirs from the palm on. */
function zoneCodes({ tendons = '', zone }: { readonly tendons?: string; readonly zone: string }, digits: readonly Digit[]): string[] {
  if (digits.length === 0) return [`${tendons}.zone${zone}`];
  return digits.map((digit) => (digit !== 'D1' ? `${digit}.${tendons}.zone${zone}` : tendons === 'flexor' && Number(zone) > 3 ? `flexor.zone${zone}` : `${tendons}.zoneT${zone}`));
}

function placeCodes(place: Place): string[] {
  const { digits, joints, moves, families, ordinals, sites } = place;
  const parts = closest(place.parts);
  const zoned = zoneOf(place);
  if (zoned) return zoneCodes(zoned, digits);
  if (families.length > 0) return families.flatMap((family) => familyMembers(family, digits, ordinals));
  if (parts.some((part) => LIGAMENTS.includes(part))) return parts.filter((part) => LIGAMENTS.includes(part)).flatMap((part) => ligamentsOf(part, digits, joints, sites));
  // "A two and A four pulleys": each of them
  const structures = parts.some((part) => STRUCTURES[part]) ? parts.flatMap((part) => STRUCTURES[part] ?? (part === 'A1' ? PARTS[part]! : [])) : [];
  if (structures.length > 0) return [...digits, ...ordinals.map((ordinal) => `D${ordinal}` as Digit)].flatMap((digit) => structures.map((of) => of(digit)));
  // "second and third M C P joints"
  if (ordinals.length > 0) return joints.length > 0 && digits.length === 0 ? joints.flatMap((joint) => jointsOf(joint, ordinals.map((ordinal) => `D${ordinal}` as Digit))) : [''];
  if (moves.length > 0) return moves.flatMap((move) => movementsOf(move, parts.includes('pulp') ? ['DIP'] : joints, digits, sites));
  if (joints.length > 0) return joints.flatMap((joint) => jointsOf(joint, digits));
  if (parts.length > 0 && sites.length > 0) return sites.flatMap((site) => parts.map((part) => BASE_PARTS[`${site} ${part}`] ?? ''));
  if (parts.length > 0) return digits.length > 0 ? digits.flatMap((digit) => parts.map((part) => PARTS[part]?.(digit) ?? '')) : [''];
  return [...digits, ...sites];
}

/** "Ulnar side of the index pulp" is one place: the side of the finger; "ulnar side of the back of the hand" likewise. */
function closest(parts: readonly string[]): readonly string[] {
  if (parts.some(isBone)) return parts.filter(isBone).slice(-1);
  const side = parts.find((part) => part === 'radial' || part === 'ulnar');
  if (!side || parts.length !== 2) return parts;
  if (parts.includes('dorsum')) return [`${side} dorsum`];
  return parts.includes('pulp') || parts.includes('volar') ? [side] : parts;
}

/** Said alone, the collateral ligament is the thumb's; of a finger without its joint it is the finger's. */
function ligamentsOf(part: string, digits: readonly Digit[], joints: readonly string[], sites: readonly SiteCode[]): string[] {
  if (sites.length > 0) return [''];
  const [joint] = joints;
  const ofThumb = joint === 'IP' || joint === 'DIP' ? `D1.IP.${part}` : part === 'plate' ? 'D1.MCP.plate' : `thumb.${part}`;
  if (digits.length === 0) return [part === 'plate' || joint === 'PIP' || joint === 'DIP' ? '' : ofThumb];
  return digits.map((digit) => (digit === 'D1' ? ofThumb : joint ? `${digit}.${joint}.${part}` : `${digit}.${part}`));
}

function jointsOf(joint: string, digits: readonly Digit[]): string[] {
  if (joint === 'knuckle') return digits.length > 0 ? digits.map((digit) => `${digit}.MCP`) : ['knuckles'];
  if (digits.length > 0) return digits.map((digit) => `${digit}.${joint === 'DIP' && digit === 'D1' ? 'IP' : joint}`);
  return [PLURAL_JOINTS[joint] ?? (joint === 'CMC' ? 'D1.CMC' : 'D1.IP')];
}

/** A family named without number or finger is meant as a whole; a long flexor is asked about (lacksFinger). */
/** Dorsal interossei spread the fingers and palmar ones close them: all of them together are tested by that movement. */
const GROUPS: Readonly<Record<string, SiteCode>> = { LUM: 'lumbricals', DI: 'fingers.abduction', PI: 'fingers.adduction' };

function familyMembers(family: string, digits: readonly Digit[], ordinals: readonly number[]): string[] {
  if (ordinals.length > 0) return ordinals.map((ordinal) => `${family}${ordinal}`);
  if (digits.length === 0 && GROUPS[family]) return [GROUPS[family]!];
  if (family === 'FDS' || family === 'FDP') return digits.map((digit) => `${family}${digit[1]}`);
  // Lumbricals are numbered from the index finger; interossei are told apart by number only.
  return family === 'LUM' ? digits.map((digit) => `LUM${Number(digit[1]) - 1}`) : [''];
}

function movementsOf(move: string, joints: readonly string[], digits: readonly Digit[], sites: readonly SiteCode[]): string[] {
  if (digits.length > 0) return digits.flatMap((digit) => (joints.length > 0 ? joints.map((joint) => `${digit}.${digit === 'D1' && joint === 'DIP' ? 'IP' : joint}.${move}`) : [digit === 'D1' ? `thumb.${move}` : `${digit}.${move}`]));
  if (joints.length > 0) return joints.map((joint) => (PLURAL_JOINTS[joint] ? `${PLURAL_JOINTS[joint]}.${move}` : `D1.${joint}.${move}`));
  if (sites.length > 0) return sites.map((site) => (`${site}.${move}`));
  // Said alone, only movements that one part makes: "opposition", "radial deviation".
  return [['thumb', 'wrist'].map((base) => `${base}.${move}`).find((code) => isSiteCode(code) && !isSiteCode(`fingers.${move}`)) ?? ''];
}
