import type { Digit, Movement, Muscle, SiteCode } from '../../vocabulary';
import { DIGITS, SITES } from '../../vocabulary';
import type { NeuralAtom } from '../anatomy/supply';
import { MOTOR_ATOMS, SKIN_ATOMS } from '../anatomy/supply';

/** The slips that only a tendon injury can take away. */
export type SlipAtom = 'slip.D2' | 'slip.D3' | 'slip.D4' | 'slip.D5' | 'terminal.D2' | 'terminal.D3' | 'terminal.D4' | 'terminal.D5';
/** The smallest thing that can work or fail. */
export type Atom = NeuralAtom | SlipAtom;

/**
 * What an examination looks at: one atom, or several that act together with the part each plays (parts add up to 1;
 * a negative part is an antagonist that makes the sign stronger when it works).
 * Its hidden state has four steps: 0 intact, 1 mildly, 2 severely reduced, 3 lost.
 */
export type Unit = Readonly<Partial<Record<Atom, number>>>;
export type UnitId = string;

const equal = (...atoms: Atom[]): Unit => Object.fromEntries(atoms.map(atom => [atom, 1 / atoms.length]));

/** Extensor digitorum is one muscle with four tendons. */
const ED = equal('ED2', 'ED3', 'ED4', 'ED5');
const FLEXORS = equal('FDP2', 'FDP3', 'FDP4', 'FDP5', 'FDS2', 'FDS3', 'FDS4', 'FDS5');
const DEEP_FLEXORS = equal('FDP2', 'FDP3', 'FDP4', 'FDP5');
const SUBLIMIS = equal('FDS2', 'FDS3', 'FDS4', 'FDS5');
const MCP_FLEXORS = { 2: equal('LUM1', 'DI1', 'PI1'), 3: equal('LUM2', 'DI2', 'DI3'), 4: equal('LUM3', 'DI4', 'PI2'), 5: { FDM: 0.5, LUM4: 0.25, PI3: 0.25 } } as const;

/**
 * Which muscles a movement calls on, and how much. One entry = that muscle's own test.
 * Muscles per movement: Kendall 2005; O'Brien 2010 [memory]. The weights are a design choice.
 */
export const MOVEMENT_UNITS: Readonly<Record<Movement, Unit>> = {
  'elbow.flexion': { BIC: 0.7, BR: 0.3 }, 'elbow.extension': { TRI: 1 }, pronation: { PT: 0.65, PQ: 0.35 }, supination: { BIC: 0.6, SUP: 0.4 },
  'wrist.flexion': { FCR: 0.45, FCU: 0.35, PL: 0.1, FDS3: 0.1 }, 'wrist.extension': { ECRL: 0.4, ECRB: 0.35, ECU: 0.25 },
  'wrist.radial-deviation': { ECRL: 0.5, FCR: 0.3, APL: 0.2 }, 'wrist.ulnar-deviation': { FCU: 0.5, ECU: 0.5 },
  'thumb.flexion': { FPL: 0.6, FPB: 0.4 }, 'thumb.extension': { EPL: 0.6, EPB: 0.4 }, 'thumb.palmar-abduction': { APB: 1 }, 'thumb.radial-abduction': { APL: 1 },
  'thumb.abduction': { APB: 0.6, APL: 0.4 }, 'thumb.adduction': { ADP: 1 }, 'thumb.opposition': { OP: 1 }, 'thumb.retropulsion': { EPL: 1 },
  'D1.IP.flexion': { FPL: 1 }, 'D1.IP.extension': { EPL: 1 }, 'D1.MCP.flexion': { FPB: 1 }, 'D1.MCP.extension': { EPB: 1 },
  'fingers.flexion': FLEXORS, 'fingers.extension': { ...mixed(ED, 0.8), EIP: 0.1, EDM: 0.1 }, 'fingers.abduction': equal('DI1', 'DI2', 'DI3', 'DI4', 'ADM'), 'fingers.adduction': equal('PI1', 'PI2', 'PI3'),
  'D2.flexion': equal('FDP2', 'FDS2'), 'D3.flexion': equal('FDP3', 'FDS3'), 'D4.flexion': equal('FDP4', 'FDS4'), 'D5.flexion': { FDP5: 0.65, FDS5: 0.35 },
  'D2.extension': { ED2: 0.6, EIP: 0.4 }, 'D3.extension': { ED3: 1 }, 'D4.extension': { ED4: 1 }, 'D5.extension': { ED5: 0.5, EDM: 0.5 },
  'D2.abduction': { DI1: 1 }, 'D3.abduction': equal('DI2', 'DI3'), 'D4.abduction': { DI4: 1 }, 'D5.abduction': { ADM: 1 },
  'D2.adduction': { PI1: 1 }, 'D4.adduction': { PI2: 1 }, 'D5.adduction': { PI3: 1 },
  'D2.MCP.flexion': MCP_FLEXORS[2], 'D3.MCP.flexion': MCP_FLEXORS[3], 'D4.MCP.flexion': MCP_FLEXORS[4], 'D5.MCP.flexion': MCP_FLEXORS[5],
  'D2.MCP.extension': { ED2: 0.6, EIP: 0.4 }, 'D3.MCP.extension': { ED3: 1 }, 'D4.MCP.extension': { ED4: 1 }, 'D5.MCP.extension': { ED5: 0.5, EDM: 0.5 },
  'D2.PIP.flexion': { FDS2: 0.7, FDP2: 0.3 }, 'D3.PIP.flexion': { FDS3: 0.7, FDP3: 0.3 }, 'D4.PIP.flexion': { FDS4: 0.7, FDP4: 0.3 }, 'D5.PIP.flexion': { FDS5: 0.5, FDP5: 0.5 },
  'D2.PIP.extension': { 'slip.D2': 0.6, LUM1: 0.2, DI1: 0.2 }, 'D3.PIP.extension': { 'slip.D3': 0.6, LUM2: 0.2, DI2: 0.2 }, 'D4.PIP.extension': { 'slip.D4': 0.6, LUM3: 0.2, DI4: 0.2 }, 'D5.PIP.extension': { 'slip.D5': 0.6, LUM4: 0.2, PI3: 0.2 },
  'D2.DIP.flexion': { FDP2: 1 }, 'D3.DIP.flexion': { FDP3: 1 }, 'D4.DIP.flexion': { FDP4: 1 }, 'D5.DIP.flexion': { FDP5: 1 },
  'D2.DIP.extension': { 'terminal.D2': 1 }, 'D3.DIP.extension': { 'terminal.D3': 1 }, 'D4.DIP.extension': { 'terminal.D4': 1 }, 'D5.DIP.extension': { 'terminal.D5': 1 },
  'MCPs.flexion': equal('LUM1', 'LUM2', 'LUM3', 'LUM4', 'DI1', 'DI2', 'DI4', 'PI3'), 'MCPs.extension': { ...mixed(ED, 0.8), EIP: 0.1, EDM: 0.1 },
  'PIPs.flexion': SUBLIMIS, 'PIPs.extension': { ...mixed(equal('slip.D2', 'slip.D3', 'slip.D4', 'slip.D5'), 0.6), LUM1: 0.1, LUM2: 0.1, LUM3: 0.1, LUM4: 0.1 },
  'DIPs.flexion': DEEP_FLEXORS, 'DIPs.extension': equal('terminal.D2', 'terminal.D3', 'terminal.D4', 'terminal.D5'),
  grip: { ...mixed(FLEXORS, 0.7), FPL: 0.1, ADP: 0.1, ADM: 0.05, ECRB: 0.05 }, 'pinch.key': { ADP: 0.5, DI1: 0.3, FPL: 0.2 }, 'pinch.tip': { FPL: 0.4, FDP2: 0.4, DI1: 0.2 }, fist: DEEP_FLEXORS,
};

function mixed(unit: Unit, factor: number): Unit {
  return Object.fromEntries(Object.entries(unit).map(([atom, part]) => [atom, part * factor]));
}

/** Muscles graded together as an examiner says it. */
const GROUP_UNITS: Readonly<Record<string, Unit>> = {
  'interossei.all': equal('DI1', 'DI2', 'DI3', 'DI4', 'PI1', 'PI2', 'PI3'), 'interossei.dorsal': equal('DI1', 'DI2', 'DI3', 'DI4'), 'interossei.palmar': equal('PI1', 'PI2', 'PI3'), lumbricals: equal('LUM1', 'LUM2', 'LUM3', 'LUM4'),
  'thenar.muscles': { APB: 0.6, OP: 0.25, FPB: 0.15 }, 'hypothenar.muscles': { ADM: 0.6, FDM: 0.2, ODM: 0.2 }, intrinsics: equal('DI1', 'DI2', 'PI2', 'ADM', 'APB', 'LUM2', 'LUM3', 'ADP'), 'flexors.long': FLEXORS, 'extensors.long': ED,
};

/** Muscle bellies seen or felt as one. */
export const BULK_UNITS: Readonly<Partial<Record<SiteCode, Unit>>> = {
  thenar: { APB: 0.7, OP: 0.15, FPB: 0.15 }, hypothenar: { ADM: 0.6, FDM: 0.2, ODM: 0.2 }, 'DI1.belly': { DI1: 1 }, web1: { DI1: 0.6, ADP: 0.4 }, interossei: equal('DI2', 'DI3', 'DI4'),
  hand: { DI1: 0.4, APB: 0.3, ADM: 0.3 }, forearm: equal('FCR', 'FDS3', 'FDP2', 'FDP5', 'ED3', 'BR'), 'flexor.forearm': equal('FCR', 'FDS3', 'FDP2', 'FDP5'), 'extensor.forearm': equal('ED3', 'ECU', 'ECRL', 'EPL'), arm: { BIC: 0.5, TRI: 0.5 },
};

/** Skin said as a whole. */
export const SKIN_UNITS: Readonly<Partial<Record<SiteCode, Unit>>> = {
  ...Object.fromEntries(DIGITS.flatMap(digit => {
    const halves = equal(`${digit}r` as Atom, `${digit}u` as Atom);
    return [[digit, halves], [`${digit}.pulp`, halves], [`${digit}.volar`, halves]];
  })),
  fingers: equal('D2r', 'D3r', 'D4r', 'D4u', 'D5u'), hand: equal('D1u', 'D2r', 'D3r', 'D5u', 'DR', 'DU', 'PTH', 'PHY'), palm: { PTH: 0.5, PHY: 0.5 }, 'hand.dorsum': { DR: 0.5, DU: 0.5 }, web1: { DR: 1 },
  thenar: { PTH: 1 }, hypothenar: { PHY: 1 }, forearm: { FL: 0.35, FM: 0.35, FP: 0.3 }, 'forearm.volar': { FL: 0.5, FM: 0.5 }, 'forearm.dorsal': { FP: 1 },
  'territory.median': equal('D1u', 'D2r', 'D2u', 'D3r', 'D3u', 'D4r'), 'territory.ulnar': equal('D4u', 'D5r', 'D5u'), 'territory.radial': equal('DR', 'D1.dorsum'),
  // Key points, ISNSCSI 2008 [checked]; C5 by the nearest area of the list.
  'dermatome.C5': { ALL: 1 }, 'dermatome.C6': equal('D1.dorsum', 'D1u', 'FL'), 'dermatome.C7': equal('D3.dorsum', 'D3r', 'D3u'), 'dermatome.C8': equal('D5.dorsum', 'D5r', 'D5u'), 'dermatome.T1': equal('FM', 'AM'),
};

/** The unit that power, bulk or range at a site speaks about; undefined when the site has no muscle of its own. */
export function motorUnit(site: SiteCode): Unit | undefined {
  if (SITES[site].kind === 'movement') return MOVEMENT_UNITS[site as Movement];
  if (SITES[site].kind === 'muscle') return site === 'ED' ? ED : { [site as Muscle]: 1 } as Unit;
  return GROUP_UNITS[site] ?? BULK_UNITS[site];
}
/** The skin that feeling at a site speaks about. */
export const skinUnit = (site: SiteCode): Unit | undefined => ((SKIN_ATOMS as readonly string[]).includes(site) ? { [site]: 1 } as Unit : SKIN_UNITS[site]);

/** Days after which a percussion sign may be found further down the nerve than its lesion. */
export const TINEL_STAGES = [90, 180, 360] as const;
/** The percussion sign at a site; later on it is another sign than early on, for it moves. @param days since onset; undefined counts as early. */
export function tinelUnit(site: string, days: number | undefined): UnitId {
  const stage = days === undefined ? undefined : TINEL_STAGES.findLast(from => days >= from);
  return `tinel@${site}${stage === undefined ? '' : ` after ${stage} d`}`;
}
/**
 * The sign that a hypothesis lists for a unit: a scar is what is left of a wound; a late percussion sign is, where a lesion does not say otherwise,
 * what it was early on.
 */
export const listedAs = (unit: UnitId): UnitId => unit.replace(/^scar@/, 'wound@').replace(/^(tinel@.+) after \d+ d$/, '$1');

/** Same members, same id: a muscle and the movement that only it makes share one hidden state. */
export const unitId = (unit: Unit): UnitId => Object.entries(unit).map(([atom, part]) => (part === 1 ? atom : `${atom}*${Math.round(part * 1000) / 1000}`)).sort().join(' ');

export const isMotorAtom = (atom: Atom): boolean => (MOTOR_ATOMS as readonly string[]).includes(atom) || atom.includes('.D');
export const digitOf = (site: string): Digit | undefined => DIGITS.find(digit => site === digit || site.startsWith(`${digit}.`) || site === `${digit}r` || site === `${digit}u`);
