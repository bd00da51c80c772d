import type { Atom, UnitId } from '../observation/units';
import type { BySeverity, Hypothesis } from './hypothesis';
import { always, fixed, woundAt } from './hypothesis';
import type { TendonLine } from './zones';

const NAMES = { 2: 'index finger', 3: 'middle finger', 4: 'ring finger', 5: 'little finger' } as const;
type Finger = keyof typeof NAMES;
const FINGERS: readonly Finger[] = [2, 3, 4, 5];

/** A tendon that is cut or ruptured: mostly all of it; a partial cut keeps movement but is weak (Green's 2022 [memory]). */
const CUT: BySeverity = [0.08, 0.15, 0.02, 0.75];
const GREENS = "Green's 2022 [memory]; sensitivities a design choice";
const whenComplete = (p: number): BySeverity => [p * 0.15, p * 0.3, p * 0.6, p];

/** Tendons that run through several zones; the others have one place each. */
const lineOf = (atoms: readonly string[]): TendonLine | undefined => (atoms.every(atom => /^(E|APL)/.test(atom)) ? 'extensor' : atoms.every(atom => /^(FDP|FDS|FPL)/.test(atom)) ? 'flexor' : undefined);

const tendon = (id: string, structure: string, level: string, losses: Partial<Record<Atom, number>>, prior: number, place: string, signs: Record<UnitId, BySeverity>, source = GREENS): Hypothesis => {
  const line = lineOf(Object.keys(losses));
  return {
    id: `tendon.${id}`, kind: 'tendon', structure, level, prior, severity: CUT, losses: fixed(losses), variable: false, motorShare: 1, places: place.split(' '),
    signs: { ...seen(losses), ...signs, 'pain@power': [0.5, 0.45, 0.3, 0.15] }, pairs: true, source, ...(line ? { line } : {}),
  };
};

/** A torn tendon may be seen in the wound. */
const seen = (losses: Partial<Record<Atom, number>>): Record<UnitId, BySeverity> => Object.fromEntries(Object.keys(losses).map(atom => [`exposed.tendon@${atom.replace(/^ED[2-5]$/, 'ED')}`, always(0.35)]));

/** Where a wound over a tendon of a digit may be. */
const wounds = (...bands: readonly (readonly [string, number])[]): Record<UnitId, BySeverity> => ({ ...woundAt(bands.map(([band, p]) => [band, always(p)] as const)) });

const flexors = (n: Finger): readonly Hypothesis[] => [
  tendon(`FDP${n}`, `flexor digitorum profundus tendon of the ${NAMES[n]}`, 'alone, as a rule in zone 1', { [`FDP${n}`]: 1 }, 1, `D${n}`,
    { [`tenodesis@D${n}`]: whenComplete(0.6), [`cascade@D${n}`]: whenComplete(0.75), 'cascade@fingers': whenComplete(0.6), ...wounds([`D${n}`, 0.55], ['palm', 0.1]) }),
  tendon(`FDS${n}`, `flexor digitorum superficialis tendon of the ${NAMES[n]}`, '', { [`FDS${n}`]: 1 }, n === 5 ? 0.4 : 0.5, `D${n}`,
    { [`tenodesis@D${n}`]: whenComplete(0.15), [`cascade@D${n}`]: whenComplete(0.25), ...wounds([`D${n}`, 0.4], ['palm', 0.2], ['wrist', 0.2]) }),
  tendon(`both-flexors.D${n}`, `both flexor tendons of the ${NAMES[n]}`, 'in the flexor sheath (zone 2)', { [`FDP${n}`]: 1, [`FDS${n}`]: 1 }, 1, `D${n}`,
    { [`tenodesis@D${n}`]: whenComplete(0.93), [`cascade@D${n}`]: whenComplete(0.95), 'cascade@fingers': whenComplete(0.8), 'tenodesis@fingers': whenComplete(0.6), ...wounds([`D${n}`, 0.7], ['palm', 0.15]) }),
];

const extensors = (n: Finger): readonly Hypothesis[] => [
  tendon(`ED${n}`, `extensor tendon of the ${NAMES[n]}`, 'at the hand or wrist (zones 5 to 7)', { [`ED${n}`]: 1, ...(n === 5 ? { EDM: 0.7 } : n === 2 ? { EIP: 0.7 } : {}) }, 0.9, 'hand.dorsum',
    { [`tenodesis@D${n}`]: whenComplete(0.9), 'tenodesis@fingers': whenComplete(0.5), [`extension.lag@D${n}`]: whenComplete(0.8), [`extension.lag@D${n}.MCP`]: whenComplete(0.85), ...wounds(['hand.dorsum', 0.5], [`D${n}`, 0.15], ['wrist', 0.1]) }),
  tendon(`central-slip.D${n}`, `central slip of the ${NAMES[n]}`, 'at the PIP joint (zone 3)', { [`slip.D${n}`]: 1 }, 0.8, `D${n}`,
    { [`boutonniere@D${n}`]: whenComplete(0.7), 'boutonniere@fingers': whenComplete(0.6), [`elson@D${n}`]: whenComplete(0.88), 'elson@fingers': whenComplete(0.8), [`extension.lag@D${n}.PIP`]: whenComplete(0.8), [`tenderness@D${n}.PIP`]: always(0.8), [`swelling@D${n}.PIP`]: always(0.7), ...wounds([`D${n}`, 0.4]) },
    "Elson: Rubin 1996, the only one of four tests that showed both simulated injuries [checked]; sensitivities a design choice"),
  tendon(`terminal.D${n}`, `terminal extensor tendon of the ${NAMES[n]}`, 'at the DIP joint (zone 1)', { [`terminal.D${n}`]: 1 }, 0.9, `D${n}`,
    { [`mallet@D${n}`]: whenComplete(0.95), 'mallet@fingers': whenComplete(0.9), [`swan-neck@D${n}`]: whenComplete(0.2), [`extension.lag@D${n}.DIP`]: whenComplete(0.9), [`tenderness@D${n}.DIP`]: always(0.7), ...wounds([`D${n}`, 0.25]) }, 'RCEM teaching module [checked]; sensitivities a design choice'),
];

/** Tendon and muscle-tendon injuries. */
export const TENDON_LESIONS: readonly Hypothesis[] = [
  ...FINGERS.flatMap(flexors), ...FINGERS.flatMap(extensors),
  tendon('FPL', 'flexor pollicis longus tendon', '', { FPL: 1 }, 1.4, 'D1 wrist.volar', { 'tenodesis@D1': whenComplete(0.93), 'cascade@D1': whenComplete(0.7), ...wounds(['D1', 0.4], ['palm', 0.1], ['wrist', 0.15]) }, 'rupture in the rheumatoid wrist: Mannerfelt & Norman 1969 [memory]; sensitivities a design choice'),
  tendon('EPL', 'extensor pollicis longus tendon', '', { EPL: 1 }, 1.2, 'D1 hand.dorsum wrist.dorsal', { 'tenodesis@D1': whenComplete(0.75), 'extension.lag@D1.IP': whenComplete(0.7), 'tenderness@lister': always(0.4), ...wounds(['D1', 0.2], ['hand.dorsum', 0.2], ['wrist', 0.15]) }),
  tendon('EIP', 'extensor indicis tendon', '', { EIP: 1 }, 0.3, 'hand.dorsum', { ...wounds(['hand.dorsum', 0.4], ['wrist', 0.2]) }),
  tendon('EDM', 'extensor digiti minimi tendon', '', { EDM: 1, ED5: 0.3 }, 0.4, 'hand.dorsum', { ...wounds(['hand.dorsum', 0.4], ['wrist', 0.2]) }),
  tendon('ulnar-extensors', 'extensor tendons of the ring and little fingers', 'at the wrist (zone 7)', { ED4: 1, ED5: 1, EDM: 1 }, 0.5, 'wrist.dorsal', { 'tenodesis@D4': whenComplete(0.9), 'tenodesis@D5': whenComplete(0.9), 'tenodesis@fingers': whenComplete(0.85), 'piano.key@DRUJ': always(0.5), ...wounds(['wrist', 0.2], ['hand.dorsum', 0.2]) }),
  tendon('finger-extensors', 'extensor tendons of the fingers', 'at the wrist (zone 7)', { ED2: 1, ED3: 1, ED4: 1, ED5: 1, EDM: 0.9, EIP: 0.9 }, 0.4, 'wrist.dorsal', { 'tenodesis@D2': whenComplete(0.9), 'tenodesis@D3': whenComplete(0.9), 'tenodesis@D4': whenComplete(0.9), 'tenodesis@D5': whenComplete(0.9), 'tenodesis@fingers': whenComplete(0.95), ...wounds(['wrist', 0.4], ['hand.dorsum', 0.3], ['forearm', 0.15]) }),
  tendon('ECRL', 'extensor carpi radialis longus tendon', '', { ECRL: 1 }, 0.2, 'wrist.dorsal', wounds(['wrist', 0.4], ['forearm', 0.2])),
  tendon('ECRB', 'extensor carpi radialis brevis tendon', '', { ECRB: 1 }, 0.2, 'wrist.dorsal', wounds(['wrist', 0.4], ['forearm', 0.2])),
  tendon('EPB', 'extensor pollicis brevis tendon', '', { EPB: 1 }, 0.25, 'wrist.dorsal', wounds(['wrist', 0.3], ['D1', 0.3], ['hand.dorsum', 0.2])),
  tendon('APL', 'abductor pollicis longus tendon', '', { APL: 1 }, 0.25, 'wrist.dorsal', wounds(['wrist', 0.6])),
  tendon('PL', 'palmaris longus tendon', '', { PL: 1 }, 0.25, 'wrist.volar', wounds(['wrist', 0.65])),
  tendon('radial-wrist-extensors', 'radial wrist extensor tendons', '', { ECRL: 1, ECRB: 1 }, 0.5, 'wrist.dorsal', wounds(['wrist', 0.4], ['forearm', 0.3])),
  tendon('ECU', 'extensor carpi ulnaris tendon', '', { ECU: 1 }, 0.4, 'wrist.dorsal', { 'tenderness@extensor.compartment6': always(0.6), ...wounds(['wrist', 0.4]) }),
  tendon('first-compartment', 'tendons of the first extensor compartment', '', { APL: 1, EPB: 1 }, 0.4, 'wrist.dorsal', wounds(['wrist', 0.6])),
  tendon('FCR', 'flexor carpi radialis tendon', '', { FCR: 1 }, 0.4, 'wrist.volar', wounds(['wrist', 0.6])),
  tendon('FCU', 'flexor carpi ulnaris tendon', '', { FCU: 1 }, 0.5, 'wrist.volar', wounds(['wrist', 0.65])),
  tendon('wrist-flexors', 'flexor tendons at the wrist', 'in the distal forearm (zone 5)', { FCR: 0.7, PL: 0.9, FDS2: 1, FDS3: 1, FDS4: 1, FDS5: 0.8, FDP2: 0.8, FDP3: 0.8, FDP4: 0.8, FDP5: 0.7, FPL: 0.7, FCU: 0.3 }, 0.4, 'wrist.volar',
    { 'tenodesis@fingers': whenComplete(0.9), 'tenodesis@D2': whenComplete(0.85), 'tenodesis@D3': whenComplete(0.85), 'tenodesis@D4': whenComplete(0.8), 'cascade@fingers': whenComplete(0.85), ...wounds(['wrist', 0.7], ['forearm', 0.4]) }),
  tendon('TRI', 'triceps tendon', 'at the elbow', { TRI: 1 }, 0.2, 'elbow', wounds(['elbow', 0.3])),
  tendon('BIC', 'biceps tendon', 'at the elbow', { BIC: 1 }, 0.3, 'elbow', wounds(['elbow', 0.15])),
];
