import { SENSORY_GRADES, type Level, type Unit } from './finding';
import type { SiteCode, SiteKind } from './site';

export type Category = 'look' | 'feel' | 'move' | 'sensation' | 'power' | 'special test' | 'perfusion' | 'wound' | 'symptom' | 'reflex';

export interface SignEntry {
  readonly category: Category;
  readonly name: string;
  /** Kinds of site it can be about. */
  readonly kinds: readonly SiteKind[];
  /** Site when none was said, for signs that live in one place ("Froment positive"). */
  readonly site?: SiteCode;
  readonly levels: readonly Level[];
  readonly grade?: true;
  readonly units?: readonly Unit[];
  /** Units of the value at which it became positive. */
  readonly at?: readonly Unit[];
  /** True: says "positive / negative" rather than "present / absent". */
  readonly test?: true;
}

const surface: readonly SiteKind[] = ['hand', 'region', 'digit', 'joint', 'skin', 'muscle', 'muscle group'];
const seen: readonly Level[] = ['present', 'absent'];
const look = (name: string, site?: SiteCode, levels: readonly Level[] = seen): SignEntry => ({ category: 'look', name, kinds: surface, levels, ...(site ? { site } : {}) });
const feel = (name: string, site?: SiteCode, levels: readonly Level[] = seen): SignEntry => ({ ...look(name, site, levels), category: 'feel' });
/** A thing that can be measured across. */
const sized = (sign: SignEntry): SignEntry => ({ ...sign, units: ['mm', 'cm'] });
const wound = (name: string, levels: readonly Level[] = seen): SignEntry => ({ category: 'wound', name, kinds: surface, levels, site: 'hand', units: ['mm', 'cm'] });
const test = (name: string, site: SiteCode, at?: readonly Unit[]): SignEntry =>
  ({ category: 'special test', name, kinds: ['hand', 'region', 'digit', 'joint', 'muscle', 'movement', 'skin', 'vessel'], levels: seen, site, test: true, ...(at ? { at } : {}) });
const symptom = (name: string): SignEntry => ({ category: 'symptom', name, kinds: surface, levels: seen, site: 'hand' });

const signs = {
  // look
  wasting: look('wasting'), fasciculation: look('fasciculation'), swelling: look('swelling', 'hand'), scar: sized(look('scar', 'hand')), bruising: look('bruising', 'hand'),
  deformity: look('deformity', 'hand'), colour: look('colour', 'hand', ['normal', 'pale', 'blue', 'red', 'mottled', 'black']), erythema: look('redness', 'hand'),
  sweating: look('sweating', 'hand', ['normal', 'dry', 'moist', 'reduced', 'increased', 'absent']), trophic: look('skin changes', 'hand'), 'hair.loss': look('hair loss', 'hand'),
  blister: look('blisters', 'hand'), 'nail.change': look('nail changes', 'hand'), 'nodes.heberden': look("Heberden's nodes", 'DIPs'), 'nodes.bouchard': look("Bouchard's nodes", 'PIPs'),
  squaring: look('squaring of the thumb base', 'D1.CMC'), ganglion: sized(look('ganglion', 'wrist')), lump: sized(look('lump', 'hand')), mallet: look('mallet deformity', 'fingers'), boutonniere: look('boutonnière deformity', 'fingers'),
  'swan-neck': look('swan-neck deformity', 'fingers'), 'ulnar.drift': look('ulnar drift', 'fingers'), 'z.thumb': look('Z-shaped thumb', 'D1'), rotation: look('rotational deformity', 'fingers'),
  claw: look('clawing', 'fingers'), 'wrist.drop': look('wrist drop', 'wrist'), 'finger.drop': look('finger drop', 'fingers'), 'thumb.drop': look('thumb drop', 'D1'), 'ape.thumb': look('thumb lying in the plane of the palm', 'D1'),
  benediction: look('index and middle stay straight on making a fist', 'fingers'), cascade: look('resting cascade broken', 'fingers'), 'flexed.posture': look('held flexed', 'fingers'), 'palm.hollow.lost': look('loss of the palmar hollow', 'palm'),
  dislocation: look('dislocation', 'fingers'), tremor: look('tremor', 'hand'), 'tendon.slip': look('extensor tendon slips off the knuckle', 'knuckles'), paronychia: look('paronychia', 'fingers'), felon: look('felon', 'fingers'),
  burn: sized(look('burn', 'hand')), horner: look('Horner syndrome', 'neck'), wrinkles: look('wrinkling in water', 'fingers', ['present', 'absent', 'reduced', 'normal']),
  // feel
  temperature: feel('temperature', 'hand', ['normal', 'warm', 'cool', 'cold', 'hot']), tenderness: feel('tenderness'), 'palmar.thickening': feel('palmar thickening', 'palmar.fascia'), cord: feel('palmar cord', 'palmar.fascia'),
  nodule: sized(feel('nodule', 'palm')), 'mcp.squeeze': feel('pain on MCP squeeze', 'MCPs'), triggering: feel('triggering', 'fingers'), crepitus: feel('crepitus'), tense: feel('tense to touch', 'forearm'), thrill: feel('thrill'),
  clunk: feel('clunk', 'wrist'), effusion: feel('joint effusion'), 'nerve.thickening': feel('palpable nerve thickening', 'cubital.tunnel'),
  // perfusion
  pulse: { category: 'perfusion', name: 'pulse', kinds: ['vessel'], levels: ['present', 'absent', 'weak', 'normal'] },
  refill: { category: 'perfusion', name: 'capillary refill', kinds: ['hand', 'digit'], site: 'hand', levels: ['normal', 'brisk', 'slow', 'absent'], units: ['s'] },
  perfusion: { category: 'perfusion', name: 'perfusion', kinds: ['hand', 'digit'], site: 'hand', levels: ['normal', 'reduced', 'absent'] },
  // move
  'active.range': { category: 'move', name: 'active movement', kinds: ['movement', 'joint', 'digit', 'hand'], levels: ['full', 'normal', 'limited', 'absent', 'stiff', 'hyperextended'], units: ['deg'] },
  'passive.range': { category: 'move', name: 'passive movement', kinds: ['movement', 'joint', 'digit', 'hand'], levels: ['full', 'normal', 'limited', 'absent', 'stiff', 'hyperextended'], units: ['deg'] },
  range: { category: 'move', name: 'movement', kinds: ['movement', 'joint', 'digit', 'hand'], levels: ['full', 'normal', 'limited', 'absent', 'stiff', 'hyperextended'], units: ['deg'] },
  'extension.lag': { category: 'move', name: 'extension lag', kinds: ['joint', 'digit'], levels: seen, units: ['deg'] },
  'fixed.flexion': { category: 'move', name: 'fixed flexion', kinds: ['joint', 'digit', 'hand', 'region'], levels: seen, units: ['deg'] },
  'passive.stretch.pain': { category: 'move', name: 'pain on passive stretch', kinds: ['hand', 'digit', 'movement', 'region'], site: 'fingers', levels: seen },
  'movement.pain': { category: 'move', name: 'pain on movement', kinds: ['movement', 'joint', 'digit', 'hand', 'region'], levels: seen },
  'tip.palm.distance': { category: 'move', name: 'fingertip to palm distance', kinds: ['digit', 'region'], site: 'fingers', levels: seen, units: ['mm', 'cm'] },
  laxity: { category: 'move', name: 'laxity on stress', kinds: ['joint', 'region'], levels: seen, units: ['deg'] },
  // sensation
  'light.touch': { category: 'sensation', name: 'light touch', kinds: ['skin', 'digit', 'hand', 'region'], levels: ['normal', 'reduced', 'absent', 'increased', 'altered'] },
  pinprick: { category: 'sensation', name: 'pinprick', kinds: ['skin', 'digit', 'hand', 'region'], levels: ['normal', 'reduced', 'absent', 'increased', 'altered'] },
  vibration: { category: 'sensation', name: 'vibration', kinds: ['skin', 'digit', 'joint', 'hand', 'region'], levels: ['normal', 'reduced', 'absent'] },
  'joint.position': { category: 'sensation', name: 'joint position sense', kinds: ['digit', 'joint', 'hand'], levels: ['normal', 'reduced', 'absent'] },
  // Marking number of the lightest Semmes-Weinstein filament felt: a number of its own kind, which UCUM writes as an annotation.
  monofilament: { category: 'sensation', name: 'lightest filament felt', kinds: ['skin', 'digit', 'hand', 'region'], levels: ['normal', 'reduced', 'absent'], units: ['{filament}'] },
  'two.point': { category: 'sensation', name: 'two-point discrimination', kinds: ['skin', 'digit'], levels: ['normal', 'reduced', 'absent'], units: ['mm'] },
  'temperature.sense': { category: 'sensation', name: 'temperature sense', kinds: ['skin', 'digit', 'hand', 'region'], levels: ['normal', 'reduced', 'absent', 'altered'] }, // telling hot from cold, not how warm the skin is
  stereognosis: { category: 'sensation', name: 'stereognosis', kinds: ['hand', 'digit'], site: 'hand', levels: ['normal', 'reduced', 'absent'] }, // telling objects by touch
  'sensory.grade': { category: 'sensation', name: 'sensory grade', kinds: ['skin', 'digit', 'hand', 'region'], levels: SENSORY_GRADES },
  // power
  power: { category: 'power', name: 'power', kinds: ['muscle', 'muscle group', 'movement'], levels: ['normal', 'weak', 'absent'], grade: true, units: ['kg'] },
  // special tests: 'present' = positive (abnormal), 'absent' = negative
  tinel: test('Tinel', 'carpal.tunnel'), phalen: test('Phalen', 'wrist', ['s']), 'reverse.phalen': test('reverse Phalen', 'wrist', ['s']), 'carpal.compression': test('carpal compression', 'carpal.tunnel', ['s']),
  froment: test('Froment', 'D1'), jeanne: test('Jeanne', 'D1'), wartenberg: test('Wartenberg (little finger abducted)', 'D5'), egawa: test('Egawa', 'D3'),
  'ok.sign': test('OK-sign pinch (unable)', 'D1'), 'elbow.flexion.test': test('elbow flexion test', 'cubital.tunnel', ['s']), 'ulnar.pressure': test('pressure provocation at the elbow', 'cubital.tunnel', ['s']),
  'scratch.collapse': test('scratch collapse', 'cubital.tunnel'), 'crossed.fingers': test('crossed fingers (unable)', 'fingers'), 'finger.flexion.sign': test('finger flexion sign', 'fingers'), bouvier: test('Bouvier', 'fingers'),
  'palmaris.brevis.sign': test('palmaris brevis sign', 'hypothenar'), finkelstein: test('Finkelstein', 'extensor.compartment1'), eichhoff: test('Eichhoff', 'extensor.compartment1'), what: test('wrist hyperflexion and thumb abduction', 'extensor.compartment1'),
  allen: test('Allen', 'hand', ['s']), 'allen.digital': test('digital Allen', 'fingers', ['s']), 'scaphoid.shift': test('scaphoid shift', 'scapholunate'), 'scaphoid.compression': test('axial thumb compression', 'D1'),
  'lunotriquetral': test('lunotriquetral ballottement', 'wrist.ulnar'), 'piano.key': test('piano key', 'DRUJ'), 'ulnar.grind': test('ulnocarpal grind', 'TFCC'), 'cmc.grind': test('CMC grind', 'D1.CMC'), elson: test('Elson', 'fingers'),
  'ucl.stress': test('thumb UCL stress', 'thumb.UCL'), 'bunnell': test('intrinsic tightness', 'fingers'), 'pronator.provocation': test('resisted pronation provocation', 'pronator'), 'middle.finger.extension': test('resisted middle finger extension', 'radial.tunnel'), flick: test('flick', 'hand'), spurling: test('Spurling', 'neck'), 'roos': test('elevated arm stress', 'arm'),
  tenodesis: { category: 'special test', name: 'tenodesis', kinds: ['hand', 'digit', 'muscle', 'region'], site: 'fingers', levels: seen }, // present = normal
  'fds.isolation': { category: 'special test', name: 'FDS isolation', kinds: ['digit', 'muscle'], levels: ['normal', 'present', 'absent', 'weak'] }, // present = tendon works
  'fdp.isolation': { category: 'special test', name: 'FDP isolation', kinds: ['digit', 'muscle'], levels: ['normal', 'present', 'absent', 'weak'] },
  // reflexes
  reflex: { category: 'reflex', name: 'reflex', kinds: ['muscle'], levels: ['normal', 'reduced', 'absent', 'increased'] },
  // summaries: kept as they were stated; they never stand for the items that they leave unnamed
  'summary.neurovascular': { category: 'perfusion', name: 'nerves and vessels, as stated in sum', kinds: ['hand', 'digit'], site: 'hand', levels: ['normal', 'altered'] },
  'summary.nerve': { category: 'sensation', name: 'function, as stated in sum', kinds: ['nerve'], levels: ['normal', 'reduced', 'absent'] },
  'summary.motor': { category: 'power', name: 'power of the whole hand, as stated in sum', kinds: ['hand'], site: 'hand', levels: ['normal', 'weak', 'absent'], grade: true },
  'summary.tendons': { category: 'move', name: 'tendons, as stated in sum', kinds: ['hand', 'digit', 'region', 'muscle group'], site: 'hand', levels: ['normal', 'altered'] },
  // wounds
  wound: wound('wound'), 'skin.loss': wound('skin loss'), laceration: wound('laceration'), puncture: wound('puncture wound'), bite: wound('bite'), 'fight.bite': wound('fight bite'), amputation: wound('amputation'), ulcer: wound('ulcer'), 'foreign.body': wound('foreign body'),
  injection: wound('high-pressure injection'), 'exposed.bone': wound('exposed bone'), 'exposed.tendon': wound('exposed tendon'), bleeding: wound('bleeding'), pus: wound('pus'), avulsion: wound('ring avulsion'), crush: wound('crush injury'), 'open.fracture': wound('open fracture'), 'chemical.burn': wound('chemical burn'),
  // symptoms said by the patient
  numbness: symptom('numbness'), tingling: symptom('tingling'), pain: symptom('pain'), 'night.symptoms': symptom('night symptoms'), 'pain.disproportionate': symptom('pain out of proportion'), 'cold.intolerance': symptom('cold intolerance'), 'neck.pain': { ...symptom('neck pain'), site: 'neck' }, 'worsening.numbness': symptom('numbness getting worse'),
} as const satisfies Record<string, SignEntry>;

export type SignCode = keyof typeof signs;
/** Every sign that can be found, with what it may be about and which results it may take. */
export const SIGNS: Readonly<Record<SignCode, SignEntry>> = signs;
export const SIGN_CODES = Object.keys(signs) as readonly SignCode[];
export const isSignCode = (text: string): text is SignCode => Object.hasOwn(signs, text);
