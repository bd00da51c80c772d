import { DIGITAL_NERVES, FEEL, FLEXORS, KEY_POINTS, LOOK, MOVE, PERFUSION, POWER, SPECIAL, SYMPTOMS, WOUND } from './items';
import type { Protocol, Stage } from './protocol';

const perfusion: Stage = { id: 'perfusion', name: 'Perfusion', sides: 'both', items: Object.values(PERFUSION) };
const { PT, FCR, FDS3, FPL, FDP2, APB, OP, FCU, FDP5, ADM, DI1, PI, ADP, TRI, BR, wristExtension, ED, EIP, EPL, APL } = POWER;
const { tinelWrist, phalen, compression, okSign, tinelElbow, elbowFlexion, froment, crossed, pronator, spurling, grip, keyPinch, tipPinch } = SPECIAL;

/** Look, feel, move, then nerve by nerve: the usual order of a hand examination [common practice, no source]. */
const complete: Protocol = {
  id: 'complete', name: 'Complete examination', purpose: 'Everything, both hands: for a first visit or an unclear complaint.',
  stages: [
    { id: 'look', name: 'Look', sides: 'both', items: Object.values(LOOK) },
    { id: 'feel', name: 'Feel', sides: 'both', items: Object.values(FEEL) },
    perfusion,
    { id: 'move', name: 'Move', sides: 'both', items: Object.values(MOVE) },
    { id: 'sensation', name: 'Sensation', sides: 'both', items: KEY_POINTS },
    { id: 'power.median', name: 'Median nerve power', sides: 'both', items: [PT, FCR, FDS3, FPL, FDP2, APB, OP] },
    { id: 'power.ulnar', name: 'Ulnar nerve power', sides: 'both', items: [FCU, FDP5, ADM, DI1, PI, ADP] },
    { id: 'power.radial', name: 'Radial nerve power', sides: 'both', items: [TRI, BR, wristExtension, ED, EIP, EPL, APL] },
    { id: 'special', name: 'Special tests', sides: 'both', items: [tinelWrist, phalen, compression, okSign, tinelElbow, elbowFlexion, froment, crossed] },
    { id: 'pinch', name: 'Grip and pinch', sides: 'both', items: [grip, keyPinch, tipPinch] },
  ],
};

/** What must be known before a local anaesthetic: blood, feeling, tendons, motor nerves (after BOAST 5, peripheral nerve injury 2012 [from memory]; BSSH hand trauma guidance [from memory]). */
const wound: Protocol = {
  id: 'wound', name: 'Acute wound', purpose: 'The injured hand in an emergency: before anaesthetic, nerve and tendon by tendon.',
  stages: [
    { ...perfusion, sides: 'affected', items: [...perfusion.items, LOOK.colour] },
    { id: 'wound', name: 'Wound', sides: 'affected', items: [WOUND.wound, WOUND.bleeding, WOUND.foreign, WOUND.exposed] },
    { id: 'sensation', name: 'Sensation', sides: 'affected', items: [...DIGITAL_NERVES, ...KEY_POINTS.slice(2)] },
    { id: 'flexors', name: 'Flexor tendons', sides: 'affected', items: [WOUND.cascade, ...FLEXORS, FPL, FCR] },
    { id: 'extensors', name: 'Extensor tendons', sides: 'affected', items: [ED, EIP, EPL, wristExtension] },
    { id: 'motor', name: 'Motor nerves', sides: 'affected', items: [APB, DI1, ADM] },
  ],
};

const entrapment: Protocol = {
  id: 'entrapment', name: 'Nerve entrapment', purpose: 'Numbness, tingling or weakness without injury: both arms, neck to fingertip.',
  stages: [
    { id: 'symptoms', name: 'Symptoms', sides: 'both', items: Object.values(SYMPTOMS) },
    { id: 'look', name: 'Look', sides: 'both', items: [LOOK.thenar, LOOK.hypothenar, LOOK.web, LOOK.deformity] },
    { id: 'sensation', name: 'Sensation', sides: 'both', items: KEY_POINTS },
    { id: 'power', name: 'Power', sides: 'both', items: [APB, FPL, FDP2, PT, DI1, ADM, FDP5, EIP, ED, BR, TRI] },
    { id: 'provocation', name: 'Provocation tests', sides: 'both', items: [tinelWrist, phalen, compression, tinelElbow, elbowFlexion, froment, okSign, pronator, spurling] },
  ],
};

export const PROTOCOLS: Readonly<Record<string, Protocol>> = { complete, wound, entrapment };
export const DEFAULT_PROTOCOL = complete;

/** The protocol of that id, or undefined. */
export const protocolById = (id: string): Protocol | undefined => (Object.hasOwn(PROTOCOLS, id) ? PROTOCOLS[id] : undefined);
/** The protocol an examination was begun with; an unknown id falls back to the complete examination, which leaves nothing out. */
export const protocolOf = (record: { readonly setUp: { readonly protocol: string } | null }): Protocol => protocolById(record.setUp?.protocol ?? '') ?? DEFAULT_PROTOCOL;
