import { DIGIT_NAMES, SIGNS } from '../vocabulary';
import type { Digit, ItemKey, SignCode, SiteCode } from '../vocabulary';
import type { Item } from './protocol';

/**
 * The items that protocols are made of. Bedside tests of power by muscle: O'Brien, Aids to the Examination of the
 * Peripheral Nervous System, 5th ed. 2010 [from memory]; a movement counts for a muscle only where it isolates it at the bedside.
 */
const item = (id: string, name: string, keys: readonly [ItemKey, ...ItemKey[]], anywhere?: readonly SignCode[]): Item => ({ id, name, keys, ...(anywhere ? { anywhere } : {}) });
const test = (id: string, name: string, sign: SignCode, site?: SiteCode): Item => item(id, name, [`${sign}@${site ?? (SIGNS[sign].site as SiteCode)}`]);

/** Any of the usual ways to test feeling counts. */
const feeling = (site: SiteCode, name: string): Item =>
  item(`sensation.${site}`, name, [`light.touch@${site}`, `pinprick@${site}`, `two.point@${site}`, `sensory.grade@${site}`]);
const power = (muscle: SiteCode, name: string, ...alike: ItemKey[]): Item => item(`power.${muscle}`, name, [`power@${muscle}`, ...alike]);
const moving = (movement: SiteCode, name: string, ...alike: ItemKey[]): Item =>
  item(`move.${movement}`, name, [`active.range@${movement}`, `range@${movement}`, `passive.range@${movement}`, ...alike]);

export const LOOK = {
  thenar: item('look.thenar', 'thenar wasting', ['wasting@thenar', 'wasting@APB']),
  hypothenar: item('look.hypothenar', 'hypothenar wasting', ['wasting@hypothenar', 'wasting@ADM']),
  web: item('look.web', 'first web wasting', ['wasting@DI1.belly', 'wasting@web1', 'wasting@interossei', 'wasting@DI1']),
  swelling: item('look.swelling', 'swelling', ['swelling@hand'], ['swelling', 'effusion']),
  scar: item('look.scar', 'scars or wounds', ['scar@hand'], ['scar', 'wound', 'laceration', 'puncture', 'bite', 'fight.bite', 'amputation']),
  deformity: item('look.deformity', 'deformity or posture', ['deformity@hand'], ['deformity', 'claw', 'mallet', 'boutonniere', 'swan-neck', 'ulnar.drift', 'z.thumb', 'rotation', 'wrist.drop', 'finger.drop', 'thumb.drop', 'ape.thumb', 'benediction', 'cascade', 'flexed.posture']),
  colour: item('look.colour', 'colour', ['colour@hand'], ['colour', 'erythema']),
  sweating: item('look.sweating', 'sweating', ['sweating@hand'], ['sweating']),
} as const satisfies Record<string, Item>;

export const FEEL = {
  temperature: item('feel.temperature', 'temperature', ['temperature@hand'], ['temperature']),
  tenderness: item('feel.tenderness', 'tenderness', ['tenderness@hand'], ['tenderness']),
  palm: item('feel.palm', 'palmar thickening', ['palmar.thickening@palmar.fascia'], ['palmar.thickening', 'cord']),
  squeeze: test('feel.squeeze', 'MCP squeeze', 'mcp.squeeze'),
} as const satisfies Record<string, Item>;

export const PERFUSION = {
  radial: item('perfusion.radial', 'radial pulse', ['pulse@radial.artery']),
  ulnar: item('perfusion.ulnar', 'ulnar pulse', ['pulse@ulnar.artery']),
  refill: item('perfusion.refill', 'capillary refill', ['refill@hand'], ['refill', 'perfusion']),
} as const satisfies Record<string, Item>;

export const MOVE = {
  fist: moving('fist', 'making a fist', 'active.range@fingers.flexion', 'range@fingers.flexion'),
  opening: moving('fingers.extension', 'finger extension'),
  thumb: moving('thumb.opposition', 'thumb opposition'),
  wristFlexion: moving('wrist.flexion', 'wrist flexion'),
  wristExtension: moving('wrist.extension', 'wrist extension'),
  pronation: moving('pronation', 'pronation'),
  supination: moving('supination', 'supination'),
} as const satisfies Record<string, Item>;

/** Autonomous test points of the nerves: O'Brien 2010; Green's 2022; Stewart 2010 [from memory]. */
export const KEY_POINTS: readonly Item[] = [
  feeling('D2.pulp', 'index fingertip (median)'),
  feeling('D5.pulp', 'little fingertip (ulnar)'),
  feeling('DR', 'dorsal first web (radial)'),
  feeling('PTH', 'thenar base (palmar branch of median)'),
  feeling('DU', 'ulnar back of hand (dorsal branch of ulnar)'),
];

/** A digital nerve can be cut alone: each side of each digit in a wound (Green's 2022 [from memory]). */
export const DIGITAL_NERVES: readonly Item[] = (['D1', 'D2', 'D3', 'D4', 'D5'] as const).flatMap((digit: Digit) => [
  feeling(`${digit}r`, `${DIGIT_NAMES[digit]}, radial side`),
  feeling(`${digit}u`, `${DIGIT_NAMES[digit]}, ulnar side`),
]);

export const POWER = {
  PT: power('PT', 'pronation', 'power@pronation'),
  FCR: power('FCR', 'wrist flexion', 'power@wrist.flexion'),
  FDS3: power('FDS3', 'finger PIP flexion', 'power@D3.PIP.flexion', 'power@PIPs.flexion', 'fds.isolation@D3', 'power@FDS2', 'power@FDS4', 'fds.isolation@D2', 'fds.isolation@D4'),
  FPL: power('FPL', 'thumb tip flexion', 'power@D1.IP.flexion', 'fdp.isolation@D1'),
  FDP2: power('FDP2', 'index tip flexion', 'power@D2.DIP.flexion', 'fdp.isolation@D2', 'fdp.isolation@FDP2'),
  APB: power('APB', 'palmar abduction of the thumb', 'power@thumb.palmar-abduction'),
  OP: power('OP', 'opposition', 'power@thumb.opposition'),
  FCU: power('FCU', 'flexor carpi ulnaris'),
  FDP5: power('FDP5', 'little tip flexion', 'power@D5.DIP.flexion', 'fdp.isolation@D5', 'fdp.isolation@FDP5'),
  ADM: power('ADM', 'little finger abduction', 'power@D5.abduction', 'power@fingers.abduction'),
  DI1: power('DI1', 'index finger abduction', 'power@D2.abduction', 'power@fingers.abduction'),
  PI: power('PI3', 'finger adduction', 'power@fingers.adduction', 'power@D5.adduction', 'power@D2.adduction', 'power@PI1', 'power@PI2'),
  ADP: power('ADP', 'thumb adduction', 'power@thumb.adduction', 'power@pinch.key'),
  TRI: power('TRI', 'elbow extension', 'power@elbow.extension'),
  BR: power('BR', 'brachioradialis'),
  wristExtension: power('ECRL', 'wrist extension', 'power@wrist.extension', 'power@ECRB'),
  ED: power('ED', 'finger extension', 'power@fingers.extension', 'power@MCPs.extension'),
  EIP: power('EIP', 'index extension alone', 'power@D2.extension'),
  EPL: power('EPL', 'lifting the thumb', 'power@thumb.retropulsion', 'power@D1.IP.extension'),
  APL: power('APL', 'radial abduction of the thumb', 'power@thumb.radial-abduction'),
} as const satisfies Record<string, Item>;

/** Both long flexors of every finger, each on its own: a cut of one hides behind the other (RCEM module; Green's 2022 [from memory]). */
export const FLEXORS: readonly Item[] = (['D2', 'D3', 'D4', 'D5'] as const).flatMap((digit) => {
  const n = digit.slice(1) as '2' | '3' | '4' | '5';
  return [
    item(`tendon.FDS${n}`, `FDS, ${DIGIT_NAMES[digit]}`, [`fds.isolation@${digit}`, `fds.isolation@FDS${n}`, `power@FDS${n}`, `power@${digit}.PIP.flexion`, `active.range@${digit}.PIP.flexion`]),
    item(`tendon.FDP${n}`, `FDP, ${DIGIT_NAMES[digit]}`, [`fdp.isolation@${digit}`, `fdp.isolation@FDP${n}`, `power@FDP${n}`, `power@${digit}.DIP.flexion`, `active.range@${digit}.DIP.flexion`]),
  ];
});

export const SPECIAL = {
  tinelWrist: item('test.tinel.wrist', 'Tinel at the wrist', ['tinel@carpal.tunnel', 'tinel@wrist', 'tinel@wrist.volar']),
  phalen: test('test.phalen', 'Phalen', 'phalen'),
  compression: test('test.compression', 'carpal compression', 'carpal.compression'),
  okSign: test('test.ok', 'OK-sign pinch', 'ok.sign'),
  tinelElbow: item('test.tinel.elbow', 'Tinel at the elbow', ['tinel@cubital.tunnel', 'tinel@elbow']),
  elbowFlexion: test('test.elbow', 'elbow flexion test', 'elbow.flexion.test'),
  froment: test('test.froment', 'Froment', 'froment'),
  crossed: test('test.crossed', 'crossed fingers', 'crossed.fingers'),
  pronator: test('test.pronator', 'resisted pronation', 'pronator.provocation'),
  spurling: test('test.spurling', 'Spurling', 'spurling'),
  grip: item('pinch.grip', 'grip', ['power@grip']),
  keyPinch: item('pinch.key', 'key pinch', ['power@pinch.key']),
  tipPinch: item('pinch.tip', 'tip pinch', ['power@pinch.tip']),
} as const satisfies Record<string, Item>;

export const WOUND = {
  wound: item('wound.site', 'wound, site and size', ['wound@hand'], ['wound', 'laceration', 'puncture', 'bite', 'fight.bite', 'amputation', 'avulsion', 'crush', 'injection', 'open.fracture', 'burn', 'chemical.burn']),
  bleeding: item('wound.bleeding', 'bleeding', ['bleeding@hand'], ['bleeding']),
  foreign: item('wound.foreign', 'foreign body', ['foreign.body@hand'], ['foreign.body']),
  exposed: item('wound.exposed', 'exposed tendon or bone', ['exposed.tendon@hand', 'exposed.bone@hand'], ['exposed.tendon', 'exposed.bone', 'open.fracture']),
  cascade: item('tendon.cascade', 'resting cascade', ['cascade@fingers'], ['cascade']),
} as const satisfies Record<string, Item>;

export const SYMPTOMS = {
  numbness: item('symptom.numbness', 'numbness', ['numbness@hand'], ['numbness', 'worsening.numbness']),
  tingling: item('symptom.tingling', 'tingling', ['tingling@hand'], ['tingling']),
  night: item('symptom.night', 'night symptoms', ['night.symptoms@hand'], ['night.symptoms']),
  neck: item('symptom.neck', 'neck pain', ['neck.pain@neck'], ['neck.pain']),
} as const satisfies Record<string, Item>;
