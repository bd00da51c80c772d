/**
 * The shape of a worked case, the plain names of the answers, and short constructors for its findings.
 *
 * Answers are named after rows of published level tables, not after anything inside src/localiser, so that the
 * cases stay an outside check: the test maps its own hypotheses onto these names.
 */
import { SIGNS, type Finding, type Level, type MrcGrade, type Qualifier, type Quantity, type Side, type SignCode, type SiteCode } from '../../../src/vocabulary';

/** Palmar halves of the digits: one proper digital nerve each (Gray's Anatomy 2020, from memory). */
export type DigitSide = `D${1 | 2 | 3 | 4 | 5}${'r' | 'u'}`;
type Finger = 'D2' | 'D3' | 'D4' | 'D5';
type AnyDigit = 'D1' | Finger;

/** Tendons by muscle; extensor digitorum also by finger ("ED4" = its slip to the ring finger). */
export type TendonName =
  | 'FPL' | `FDP${2 | 3 | 4 | 5}` | `FDS${2 | 3 | 4 | 5}` | 'FCR' | 'FCU' | 'PL'
  | 'EPL' | 'EPB' | 'APL' | 'EIP' | 'EDM' | `ED${2 | 3 | 4 | 5}` | 'ECU' | 'ECRL' | 'ECRB';

export type Structure =
  /** Median nerve. 1 arm or elbow above the branch to pronator teres; 2 between that branch and the anterior interosseous
   *  nerve (pronator level); 3 anterior interosseous nerve; 4 forearm below it, at or above the origin of the palmar
   *  cutaneous branch; 5 wrist or carpal tunnel; 6 recurrent motor branch; 8 palmar cutaneous branch.
   *  (Row 7, the digital branches, is named DN or CDN below.) */
  | 'ML1' | 'ML2' | 'ML3' | 'ML4' | 'ML5' | 'ML6' | 'ML8'
  /** Ulnar nerve. 1 elbow or above; 2 forearm below the branch to profundus, above the dorsal cutaneous branch; 3 distal
   *  forearm below that branch; 4 Guyon zone I; 5 deep branch before the abductor digiti minimi (zone II); 6 deep branch
   *  beyond the hypothenar branches; 7 superficial branch (zone III); 8 dorsal cutaneous branch. (Row 9: DN or CDN.) */
  | 'UL1' | 'UL2' | 'UL3' | 'UL4' | 'UL5' | 'UL6' | 'UL7' | 'UL8'
  /** Radial nerve. 1 axilla; 2 spiral groove; 3 above the elbow below brachioradialis and ECRL; 4 posterior interosseous
   *  nerve at the supinator; 5a its short branches (ED ECU EDM); 5b its long branches (APL EPL EPB EIP); 6 superficial radial. */
  | 'RL1' | 'RL2' | 'RL3' | 'RL4' | 'RL5a' | 'RL5b' | 'RL6'
  /** Roots C5 to T1, lower trunk, medial cord, lateral and medial cutaneous nerves of the forearm. */
  | 'RT5' | 'RT6' | 'RT7' | 'RT8' | 'RT1' | 'LT' | 'MCd' | 'LABC' | 'MABC'
  /** One proper digital nerve; one common digital nerve by its web (web2 = D2u + D3r, web3 = D3u + D4r, web4 = D4u + D5r). */
  | `DN:${DigitSide}` | `CDN:web${2 | 3 | 4}`
  /** Polyneuropathy, glove pattern. */
  | 'C24'
  /** Tendons and extensor apparatus. */
  | `TENDON:${TendonName}` | `CENTRAL-SLIP:${Finger}` | `TERMINAL-TENDON:${Finger}`
  /** Joints, ligaments, bone, sheaths, fascia. */
  | 'LIGAMENT:thumb.UCL' | 'LIGAMENT:scapholunate' | 'FRACTURE:scaphoid' | 'JOINT:D1.CMC' | 'DE-QUERVAIN' | `TRIGGER:${AnyDigit}` | 'DUPUYTREN'
  /** Vessels, compartments, infection. ARTERY:D2 = a digital artery of the index finger. */
  | 'ARTERY:radial' | 'ARTERY:ulnar' | 'ARTERY:brachial' | `ARTERY:${AnyDigit}` | 'ISCHAEMIA:hand' | `ISCHAEMIA:${AnyDigit}`
  | 'COMPARTMENT:forearm' | 'COMPARTMENT:hand' | `SHEATH-INFECTION:${AnyDigit}` | `JOINT-INFECTION:${Finger}.MCP` | 'NECROTISING-INFECTION'
  | 'normal' | 'none of these';

/** One structure, or every structure hurt at once (order means nothing). */
export type ExpectedStructure = Structure | readonly Structure[];

export interface WorkedCase {
  readonly id: string;
  readonly title: string;
  /** Time since the complaint or injury began. */
  readonly onset?: Quantity;
  readonly findings: readonly Finding[];
  readonly expect: {
    readonly structure: ExpectedStructure;
    /** Other answers that the findings cannot separate from the first; `decides` says why. */
    readonly also?: readonly ExpectedStructure[];
    /** The level in words, for reading. */
    readonly level?: string;
    readonly side: Side | 'both';
  };
  /** The spared or lost structures that decide. */
  readonly decides: string;
  /** The next best answer, and what rejects it. */
  readonly rival?: string;
  readonly source: string;
  /** checked: the deciding pattern was compared with the named source or a page quoting it; else written from memory of it. */
  readonly tag: 'checked' | 'from memory' | 'common practice, no source';
}

/** A finding before its side is said. */
type Unsided = Omit<Finding, 'side'>;
interface Extra { readonly at?: Quantity; readonly qualifiers?: readonly Qualifier[] }

const level = (sign: SignCode, result: Level, site: SiteCode, extra: Extra = {}): Unsided => ({ sign, site, result: { kind: 'level', level: result }, ...extra });
const usualSite = (sign: SignCode): SiteCode => {
  const { site } = SIGNS[sign];
  if (!site) throw new Error(`${sign} has no usual site: name one.`);
  return site;
};

/** Everything found on one side. */
export const on = (side: Side, ...groups: readonly (readonly Unsided[])[]): Finding[] => groups.flat().map((finding) => ({ side, ...finding }));
/** The same found on both sides. */
export const bothSides = (...groups: readonly (readonly Unsided[])[]): Finding[] => [...on('right', ...groups), ...on('left', ...groups)];

/** Power by MRC grade, of muscles or movements. */
export const power = (grade: MrcGrade, ...sites: readonly SiteCode[]): Unsided[] => sites.map((site) => ({ sign: 'power', site, result: { kind: 'grade', grade } }));
/** Power limited by pain. */
export const painful = (grade: MrcGrade, ...sites: readonly SiteCode[]): Unsided[] => power(grade, ...sites).map((finding) => ({ ...finding, qualifiers: ['pain-limited'] }));
/** Light touch. */
export const touch = (result: 'normal' | 'reduced' | 'absent' | 'increased' | 'altered', ...areas: readonly SiteCode[]): Unsided[] => areas.map((site) => level('light.touch', result, site));
export const vibration = (result: 'normal' | 'reduced' | 'absent', ...areas: readonly SiteCode[]): Unsided[] => areas.map((site) => level('vibration', result, site));
/** Static two-point discrimination in millimetres. */
export const twoPoint = (mm: number, ...areas: readonly SiteCode[]): Unsided[] =>
  areas.map((site) => ({ sign: 'two.point', site, result: { kind: 'quantity', quantity: { value: mm, unit: 'mm' } }, qualifiers: ['static'] }));
/** Power said in words, of muscles or movements. */
export const strength = (result: 'normal' | 'weak' | 'absent', ...sites: readonly SiteCode[]): Unsided[] => sites.map((site) => level('power', result, site));
/** Power that could not be tested, and why. */
export const untestable = (reason: string, ...sites: readonly SiteCode[]): Unsided[] => sites.map((site) => ({ sign: 'power', site, result: { kind: 'not testable', reason } }));
/** Any sign with any of its words; without a site, its usual one. */
export const sign = (code: SignCode, result: Level, ...sites: readonly SiteCode[]): Unsided[] => (sites.length ? sites : [usualSite(code)]).map((site) => level(code, result, site));
/** A test that was positive, or a sign that was there; `seconds` = when it turned positive. */
export const positive = (code: SignCode, site: SiteCode = usualSite(code), seconds?: number): Unsided[] =>
  [level(code, 'present', site, seconds === undefined ? {} : { at: { value: seconds, unit: 's' } })];
export const negative = (code: SignCode, site: SiteCode = usualSite(code)): Unsided[] => [level(code, 'absent', site)];
/** Capillary refill in seconds. */
export const refill = (seconds: number, site: SiteCode): Unsided[] => [{ sign: 'refill', site, result: { kind: 'quantity', quantity: { value: seconds, unit: 's' } } }];
/** A measured angle. */
export const degrees = (code: SignCode, value: number, site: SiteCode): Unsided[] => [{ sign: code, site, result: { kind: 'quantity', quantity: { value, unit: 'deg' } } }];

export const days = (value: number): Quantity => ({ value, unit: 'd' });
export const hours = (value: number): Quantity => ({ value, unit: 'h' });
