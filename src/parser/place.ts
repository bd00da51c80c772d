import { SIGNS, SITES, isSiteCode, type Digit, type SignCode, type SiteCode } from '../vocabulary';

/** A place as said, before it is known what was examined there: "radial side of the index and middle fingers". */
export interface Place {
  readonly digits: Digit[];
  /** pulp, radial, ulnar, dorsum, volar, nail, sheath, A1 … of a digit. */
  readonly parts: string[];
  readonly joints: string[];
  readonly moves: string[];
  /** Muscle families told apart by digit or number: FDS, FDP, LUM, DI, PI. */
  readonly families: string[];
  readonly ordinals: number[];
  /** Places that stand for themselves: "thenar eminence", "wrist", "A P B". */
  readonly sites: SiteCode[];
  /** Whether digits came first ("index tip") or what belongs to them ("tip of the index"). */
  order?: 'digits first' | 'parts first';
}

export const emptyPlace = (): Place => ({ digits: [], parts: [], joints: [], moves: [], families: [], ordinals: [], sites: [] });

const BASES: readonly string[] = ['wrist', 'elbow', 'fingers', 'forearm', 'hand'];
const PLACE_KEYS: ReadonlySet<string> = new Set(['digit', 'part', 'joint', 'move', 'family', 'ord', 'site']);
export const isPlaceKey = (key: string): boolean => PLACE_KEYS.has(key);

const FAMILY_FIRST_DIGIT: Readonly<Record<string, number>> = { LUM: 2 };
const FOUR_FINGERS: readonly Digit[] = ['D2', 'D3', 'D4', 'D5'];
const PLURAL_JOINTS: Readonly<Record<string, string>> = { MCP: 'MCPs', PIP: 'PIPs', DIP: 'DIPs' };

/**
 * Adds one piece to the last place, or begins the next one ("index DIP flexion | middle …").
 * `linked` says that "and" or a comma stood before it.
 */
export function addToPlaces(places: Place[], key: string, value: string, linked: boolean): void {
  const last = places.at(-1);
  // "ring and little fingers": the noun adds nothing. "Finger flexion, little finger": the finger says which.
  if (last && value === 'fingers' && last.digits.length > 0 && modifierCount(last) === 0) return;
  if (last && key === 'digit' && !linked && last.digits.length === 0 && last.moves.length > 0 && last.sites.length === 1 && last.sites[0] === 'fingers') last.sites.length = 0;
  const place = last && !startsAnew(last, key, value, linked) ? last : emptyPlace();
  if (place !== last) places.push(place);
  switch (key) {
    case 'digit': for (const digit of value.split(' ')) if (!place.digits.includes(digit as Digit)) place.digits.push(digit as Digit); break;
    case 'part': place.parts.push(value); break;
    case 'joint': place.joints.push(value); break;
    case 'move': place.moves.push(value); break;
    case 'family': place.families.push(value); break;
    case 'ord': place.ordinals.push(Number(value)); break;
    case 'site': place.sites.push(value as SiteCode); break;
  }
  const isDigit = key === 'digit' || (key === 'site' && BASES.includes(value));
  place.order ??= isDigit ? 'digits first' : 'parts first';
}

const modifierCount = (place: Place): number => place.parts.length + place.joints.length + place.moves.length + place.families.length;
const hasBase = (place: Place): boolean => place.digits.length > 0 || place.sites.some((site) => BASES.includes(site));

function startsAnew(place: Place, key: string, value: string, linked: boolean): boolean {
  if (key === 'digit' && place.digits.length === 0 && place.sites.length === 0) return false;
  if (key === 'digit') return place.order === 'digits first' ? modifierCount(place) > 0 || place.sites.length > 0 : place.digits.length > 0 && !linked || place.sites.length > 0;
  if (key === 'site') return !(BASES.includes(value) && place.moves.length > 0 && !hasBase(place));
  if (place.sites.some((site) => !BASES.includes(site))) return true;
  if (key === 'ord') return place.order === 'digits first' || (place.families.length > 0 && place.ordinals.length > 0);
  return place.order === 'parts first' && hasBase(place) && sameKind(place, key) > 0;
}

const sameKind = (place: Place, key: string): number =>
  ({ part: place.parts, joint: place.joints, move: place.moves, family: place.families } as Record<string, readonly string[]>)[key]?.length ?? 0;

/** "flexor sheath", "tip": something of a digit that has not been named yet. */
export const needsDigit = (place: Place): boolean => place.digits.length === 0 && place.sites.length === 0 && place.ordinals.length === 0 && (place.parts.length > 0 || place.families.length > 0);

export const isMotor = (place: Place): boolean =>
  place.moves.length > 0 || place.families.length > 0 || place.sites.some((site) => SIGNS.power.kinds.includes(kindOf(site)));

const kindOf = (site: SiteCode): (typeof SITES)[SiteCode]['kind'] => SITES[site].kind;

const PARTS: Readonly<Record<string, (digit: Digit) => string>> = {
  pulp: (digit) => `${digit}.pulp`, dorsum: (digit) => `${digit}.dorsum`, volar: (digit) => `${digit}.volar`,
  radial: (digit) => `${digit}r`, ulnar: (digit) => `${digit}u`, nail: (digit) => `${digit}.nail`, sheath: (digit) => `${digit}.sheath`, A1: (digit) => `${digit}.A1`,
};

const SKIN_SITES: Readonly<Partial<Record<SiteCode, SiteCode>>> = { web1: 'DR', thenar: 'PTH', hypothenar: 'PHY' };
const NERVE_SITES: Readonly<Partial<Record<SiteCode, SiteCode>>> = { wrist: 'carpal.tunnel', elbow: 'cubital.tunnel' };
const TOUCH: ReadonlySet<SignCode> = new Set<SignCode>(['light.touch', 'pinprick', 'two.point', 'vibration']);

/** The coded sites of a place for what was examined there, or the words why there is none. */
export function sitesOf(place: Place, sign: SignCode): SiteCode[] {
  const found = rawSites(place).filter(isSiteCode);
  return found.map((site) => (TOUCH.has(sign) ? SKIN_SITES[site] : sign === 'tinel' ? NERVE_SITES[site] : undefined) ?? site);
}

function rawSites(place: Place): string[] {
  const { digits, parts, joints, moves, families, ordinals, sites } = place;
  if (families.length > 0) return families.flatMap((family) => familyMembers(family, digits, ordinals));
  if (moves.length > 0) return moves.flatMap((move) => movementsOf(move, joints, digits, sites));
  if (joints.length > 0) return joints.flatMap((joint) => (digits.length > 0 ? digits.map((digit) => `${digit}.${joint}`) : [PLURAL_JOINTS[joint] ?? (joint === 'CMC' ? 'D1.CMC' : 'D1.IP')]));
  if (parts.length > 0) return (digits.length > 0 ? digits : FOUR_FINGERS).flatMap((digit) => parts.map((part) => PARTS[part]?.(digit) ?? ''));
  return [...digits, ...sites];
}

function familyMembers(family: string, digits: readonly Digit[], ordinals: readonly number[]): string[] {
  if (ordinals.length > 0) return ordinals.map((ordinal) => `${family}${ordinal}`);
  if (family === 'FDS' || family === 'FDP') return digits.map((digit) => `${family}${digit[1]}`);
  const first = FAMILY_FIRST_DIGIT[family];
  return first === undefined ? [] : digits.map((digit) => `${family}${Number(digit[1]) - first + 1}`);
}

function movementsOf(move: string, joints: readonly string[], digits: readonly Digit[], sites: readonly SiteCode[]): string[] {
  if (digits.length === 0 && sites.length > 0) return sites.map((site) => (joints.length > 0 ? `${PLURAL_JOINTS[joints[0]!]}.${move}` : `${site}.${move}`));
  if (digits.length === 0 && joints.length > 0) return joints.map((joint) => (PLURAL_JOINTS[joint] ? `${PLURAL_JOINTS[joint]}.${move}` : `D1.${joint}.${move}`));
  if (digits.length === 0) return [isSiteCode(move) ? move : isSiteCode(`thumb.${move}`) && !isSiteCode(`fingers.${move}`) ? `thumb.${move}` : isSiteCode(`wrist.${move}`) && !isSiteCode(`fingers.${move}`) ? `wrist.${move}` : ''];
  return digits.flatMap((digit) => (joints.length > 0 ? joints.map((joint) => `${digit}.${joint}.${move}`) : [digit === 'D1' ? `thumb.${move}` : `${digit}.${move}`]));
}
