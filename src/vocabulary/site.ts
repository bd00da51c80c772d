/**
 * Every place, structure, joint and movement that a finding can be about, as data.
 * Codes of muscles and skin areas are plain abbreviations of standard anatomical names (Gray's Anatomy;
 * O'Brien, Aids to the Examination of the Peripheral Nervous System, 5th ed. 2010). D1 = thumb … D5 = little;
 * r = radial (lateral) side, u = ulnar (medial) side. Palmar interossei use the three-muscle count.
 */

export type SiteKind =
  | 'hand'      // the whole hand, forearm or arm region
  | 'region'    // a surface region or landmark (thenar eminence, snuffbox, first web …)
  | 'digit'     // a whole digit
  | 'joint'
  | 'skin'      // an area of skin tested for feeling
  | 'vessel'
  | 'nerve'     // a nerve named as a whole, in a summary of its function
  | 'muscle'
  | 'muscle group' // muscles tested or named together
  | 'movement'; // a movement tested for power or range, not one muscle

export interface SiteEntry { readonly kind: SiteKind; readonly name: string }

const digits = { D1: 'thumb', D2: 'index finger', D3: 'middle finger', D4: 'ring finger', D5: 'little finger' } as const;
export type Digit = keyof typeof digits;
export const DIGITS = Object.keys(digits) as readonly Digit[];
export const DIGIT_NAMES: Readonly<Record<Digit, string>> = digits;

const hands = {
  hand: 'hand', palm: 'palm', 'hand.dorsum': 'back of the hand', wrist: 'wrist', 'wrist.volar': 'volar wrist',
  'wrist.dorsal': 'dorsal wrist', 'wrist.radial': 'radial side of the wrist', 'wrist.ulnar': 'ulnar side of the wrist',
  forearm: 'forearm', 'forearm.volar': 'volar forearm', 'forearm.dorsal': 'dorsal forearm', elbow: 'elbow', arm: 'upper arm', neck: 'neck',
} as const;

const regions = {
  thenar: 'thenar eminence', hypothenar: 'hypothenar eminence', web1: 'first web space', web2: 'second web space',
  web3: 'third web space', web4: 'fourth web space', interossei: 'interosseous spaces', 'DI1.belly': 'first dorsal interosseous',
  snuffbox: 'anatomical snuffbox', 'scaphoid.tubercle': 'scaphoid tubercle', 'scapholunate': 'scapholunate interval',
  'radial.styloid': 'radial styloid', 'ulnar.styloid': 'ulnar styloid', lister: "Lister's tubercle", pisiform: 'pisiform', hamate: 'hook of the hamate',
  'carpal.tunnel': 'carpal tunnel', 'guyon.canal': "Guyon's canal", 'cubital.tunnel': 'cubital tunnel', 'pronator': 'pronator teres',
  'radial.tunnel': 'radial tunnel', 'lateral.epicondyle': 'lateral epicondyle', 'medial.epicondyle': 'medial epicondyle',
  'extensor.compartment1': 'first extensor compartment', 'extensor.compartment2': 'second extensor compartment',
  'extensor.compartment3': 'third extensor compartment', 'extensor.compartment4': 'fourth extensor compartment',
  'extensor.compartment5': 'fifth extensor compartment', 'extensor.compartment6': 'sixth extensor compartment',
  TFCC: 'triangular fibrocartilage', 'thumb.UCL': 'ulnar collateral ligament of the thumb', 'thumb.RCL': 'radial collateral ligament of the thumb',
  'palmar.fascia': 'palmar fascia', 'distal.radius': 'distal radius', 'ulnar.head': 'ulnar head', 'metacarpals': 'metacarpals',
  metacarpal1: 'first metacarpal', metacarpal2: 'second metacarpal', metacarpal3: 'third metacarpal', metacarpal4: 'fourth metacarpal', metacarpal5: 'fifth metacarpal',
  scaphoid: 'scaphoid', lunate: 'lunate', triquetrum: 'triquetrum', trapezium: 'trapezium', trapezoid: 'trapezoid', capitate: 'capitate', carpus: 'carpus',
  'flexor.forearm': 'flexor compartment of the forearm', 'extensor.forearm': 'extensor compartment of the forearm', fingers: 'fingers', knuckles: 'knuckles',
} as const;

const vessels = { 'radial.artery': 'radial artery', 'ulnar.artery': 'ulnar artery', 'brachial.artery': 'brachial artery' } as const;

/** Named as a whole in a summary ("median nerve intact"); what lies on its way is a skin area or a landmark. */
const nerves = { 'nerve.median': 'median nerve', 'nerve.ulnar': 'ulnar nerve', 'nerve.radial': 'radial nerve', 'nerve.AIN': 'anterior interosseous nerve', 'nerve.PIN': 'posterior interosseous nerve' } as const;

/** Muscles that are graded together, as an examiner says it; the localiser reads single muscles and movements. */
const muscleGroups = {
  'interossei.all': 'interosseous muscles', lumbricals: 'lumbrical muscles',
  'thenar.muscles': 'thenar muscles', 'hypothenar.muscles': 'hypothenar muscles', intrinsics: 'small muscles of the hand', 'flexors.long': 'long flexors of the fingers', 'extensors.long': 'long extensors',
} as const;

const muscles = {
  TRI: 'triceps', BIC: 'biceps', BR: 'brachioradialis', SUP: 'supinator',
  ECRL: 'extensor carpi radialis longus', ECRB: 'extensor carpi radialis brevis', ECU: 'extensor carpi ulnaris',
  ED: 'extensor digitorum', EDM: 'extensor digiti minimi', EIP: 'extensor indicis', EPL: 'extensor pollicis longus', EPB: 'extensor pollicis brevis',
  APL: 'abductor pollicis longus', PT: 'pronator teres', PQ: 'pronator quadratus', FCR: 'flexor carpi radialis', FCU: 'flexor carpi ulnaris',
  PL: 'palmaris longus', FDS2: 'flexor digitorum superficialis of the index finger', FDS3: 'flexor digitorum superficialis of the middle finger',
  FDS4: 'flexor digitorum superficialis of the ring finger', FDS5: 'flexor digitorum superficialis of the little finger',
  FDP2: 'flexor digitorum profundus of the index finger', FDP3: 'flexor digitorum profundus of the middle finger',
  FDP4: 'flexor digitorum profundus of the ring finger', FDP5: 'flexor digitorum profundus of the little finger',
  FPL: 'flexor pollicis longus', APB: 'abductor pollicis brevis', OP: 'opponens pollicis', FPB: 'flexor pollicis brevis',
  LUM1: 'first lumbrical', LUM2: 'second lumbrical', LUM3: 'third lumbrical', LUM4: 'fourth lumbrical',
  ADM: 'abductor digiti minimi', FDM: 'flexor digiti minimi', ODM: 'opponens digiti minimi',
  DI1: 'first dorsal interosseous', DI2: 'second dorsal interosseous', DI3: 'third dorsal interosseous', DI4: 'fourth dorsal interosseous',
  PI1: 'first palmar interosseous', PI2: 'second palmar interosseous', PI3: 'third palmar interosseous',
  ADP: 'adductor pollicis', PB: 'palmaris brevis',
} as const;
export type Muscle = keyof typeof muscles;
export const MUSCLES = Object.keys(muscles) as readonly Muscle[];

const skin = {
  D1r: 'radial side of the thumb', D1u: 'ulnar side of the thumb', D2r: 'radial side of the index finger', D2u: 'ulnar side of the index finger',
  D3r: 'radial side of the middle finger', D3u: 'ulnar side of the middle finger', D4r: 'radial side of the ring finger', D4u: 'ulnar side of the ring finger',
  D5r: 'radial side of the little finger', D5u: 'ulnar side of the little finger',
  'D1.pulp': 'thumb tip', 'D2.pulp': 'index fingertip', 'D3.pulp': 'middle fingertip', 'D4.pulp': 'ring fingertip', 'D5.pulp': 'little fingertip',
  'D1.dorsum': 'back of the thumb', 'D2.dorsum': 'back of the index finger', 'D3.dorsum': 'back of the middle finger',
  'D4.dorsum': 'back of the ring finger', 'D5.dorsum': 'back of the little finger',
  PTH: 'thenar base (palmar branch of the median nerve)', PHY: 'hypothenar palm', DR: 'dorsal first web space', DU: 'ulnar back of the hand',
  FL: 'lateral forearm', FM: 'medial forearm', FP: 'posterior forearm', AP: 'posterior arm', ALL: 'lower lateral arm', AM: 'medial arm',
  'territory.median': 'median territory', 'territory.ulnar': 'ulnar territory', 'territory.radial': 'radial territory',
  'dermatome.C5': 'C5 dermatome', 'dermatome.C6': 'C6 dermatome', 'dermatome.C7': 'C7 dermatome', 'dermatome.C8': 'C8 dermatome', 'dermatome.T1': 'T1 dermatome',
} as const;
export type SkinArea = keyof typeof skin;
export const SKIN_AREAS = Object.keys(skin) as readonly SkinArea[];

const joints = {
  'wrist.joint': 'wrist joint', DRUJ: 'distal radioulnar joint', 'elbow.joint': 'elbow joint', STT: 'scaphotrapezial joint', MCPs: 'MCP joints', PIPs: 'PIP joints', DIPs: 'DIP joints',
  'D1.CMC': 'thumb CMC joint', 'D1.MCP': 'thumb MCP joint', 'D1.IP': 'thumb IP joint',
  'D2.MCP': 'index MCP joint', 'D3.MCP': 'middle MCP joint', 'D4.MCP': 'ring MCP joint', 'D5.MCP': 'little MCP joint',
  'D2.PIP': 'index PIP joint', 'D3.PIP': 'middle PIP joint', 'D4.PIP': 'ring PIP joint', 'D5.PIP': 'little PIP joint',
  'D2.CMC': 'index CMC joint', 'D3.CMC': 'middle CMC joint', 'D4.CMC': 'ring CMC joint', 'D5.CMC': 'little CMC joint',
  'D2.DIP': 'index DIP joint', 'D3.DIP': 'middle DIP joint', 'D4.DIP': 'ring DIP joint', 'D5.DIP': 'little DIP joint',
} as const;

/** Movements. "fingers" = index to little together; a single joint's movement carries its joint in the code. */
const movements = {
  'elbow.flexion': 'elbow flexion', 'elbow.extension': 'elbow extension', pronation: 'pronation', supination: 'supination',
  'wrist.flexion': 'wrist flexion', 'wrist.extension': 'wrist extension', 'wrist.radial-deviation': 'radial deviation', 'wrist.ulnar-deviation': 'ulnar deviation',
  'thumb.flexion': 'thumb flexion', 'thumb.extension': 'thumb extension', 'thumb.palmar-abduction': 'palmar abduction of the thumb',
  'thumb.radial-abduction': 'radial abduction of the thumb', 'thumb.abduction': 'thumb abduction', 'thumb.adduction': 'thumb adduction', 'thumb.opposition': 'opposition', 'thumb.retropulsion': 'thumb retropulsion',
  'D1.IP.flexion': 'thumb IP flexion', 'D1.IP.extension': 'thumb IP extension', 'D1.MCP.flexion': 'thumb MCP flexion', 'D1.MCP.extension': 'thumb MCP extension',
  'fingers.flexion': 'finger flexion', 'fingers.extension': 'finger extension', 'fingers.abduction': 'finger abduction', 'fingers.adduction': 'finger adduction',
  'D2.flexion': 'index finger flexion', 'D3.flexion': 'middle finger flexion', 'D4.flexion': 'ring finger flexion', 'D5.flexion': 'little finger flexion',
  'D2.extension': 'index finger extension', 'D3.extension': 'middle finger extension', 'D4.extension': 'ring finger extension', 'D5.extension': 'little finger extension',
  'D2.abduction': 'index finger abduction', 'D3.abduction': 'middle finger abduction', 'D4.abduction': 'ring finger abduction', 'D5.abduction': 'little finger abduction',
  'D2.adduction': 'index finger adduction', 'D4.adduction': 'ring finger adduction', 'D5.adduction': 'little finger adduction',
  'D2.MCP.flexion': 'index MCP flexion', 'D3.MCP.flexion': 'middle MCP flexion', 'D4.MCP.flexion': 'ring MCP flexion', 'D5.MCP.flexion': 'little MCP flexion',
  'D2.MCP.extension': 'index MCP extension', 'D3.MCP.extension': 'middle MCP extension', 'D4.MCP.extension': 'ring MCP extension', 'D5.MCP.extension': 'little MCP extension',
  'D2.PIP.flexion': 'index PIP flexion', 'D3.PIP.flexion': 'middle PIP flexion', 'D4.PIP.flexion': 'ring PIP flexion', 'D5.PIP.flexion': 'little PIP flexion',
  'D2.PIP.extension': 'index PIP extension', 'D3.PIP.extension': 'middle PIP extension', 'D4.PIP.extension': 'ring PIP extension', 'D5.PIP.extension': 'little PIP extension',
  'D2.DIP.flexion': 'index DIP flexion', 'D3.DIP.flexion': 'middle DIP flexion', 'D4.DIP.flexion': 'ring DIP flexion', 'D5.DIP.flexion': 'little DIP flexion',
  'D2.DIP.extension': 'index DIP extension', 'D3.DIP.extension': 'middle DIP extension', 'D4.DIP.extension': 'ring DIP extension', 'D5.DIP.extension': 'little DIP extension',
  'MCPs.flexion': 'MCP flexion', 'MCPs.extension': 'MCP extension', 'PIPs.flexion': 'PIP flexion', 'PIPs.extension': 'PIP extension', 'DIPs.flexion': 'DIP flexion', 'DIPs.extension': 'DIP extension',
  grip: 'grip', 'pinch.key': 'key pinch', 'pinch.tip': 'tip pinch', fist: 'making a fist',
} as const;
export type Movement = keyof typeof movements;

const sheaths = {
  'D1.A1': 'A1 pulley of the thumb', 'D2.A1': 'A1 pulley of the index finger', 'D3.A1': 'A1 pulley of the middle finger', 'D4.A1': 'A1 pulley of the ring finger', 'D5.A1': 'A1 pulley of the little finger',
  'D1.sheath': 'flexor sheath of the thumb', 'D2.sheath': 'flexor sheath of the index finger', 'D3.sheath': 'flexor sheath of the middle finger', 'D4.sheath': 'flexor sheath of the ring finger', 'D5.sheath': 'flexor sheath of the little finger',
  'D1.nail': 'thumbnail', 'D2.nail': 'index fingernail', 'D3.nail': 'middle fingernail', 'D4.nail': 'ring fingernail', 'D5.nail': 'little fingernail',
  'D1.volar': 'palmar surface of the thumb', 'D2.volar': 'palmar surface of the index finger', 'D3.volar': 'palmar surface of the middle finger', 'D4.volar': 'palmar surface of the ring finger', 'D5.volar': 'palmar surface of the little finger',
  'flexor.zone1': 'flexor zone 1', 'flexor.zone2': 'flexor zone 2', 'flexor.zone3': 'flexor zone 3', 'flexor.zone4': 'flexor zone 4', 'flexor.zone5': 'flexor zone 5',
  'extensor.zone1': 'extensor zone 1', 'extensor.zone2': 'extensor zone 2', 'extensor.zone3': 'extensor zone 3', 'extensor.zone4': 'extensor zone 4', 'extensor.zone5': 'extensor zone 5',
  // Zones of the thumb, numbered on their own (Kleinert & Verdan 1983; flexors as in the RCEM teaching module on flexor zones): the words tell which is meant, for texts differ.
  'flexor.zoneT1': 'thumb flexor zone T1 (IP joint and beyond)', 'flexor.zoneT2': 'thumb flexor zone T2 (IP joint to A1 pulley)', 'flexor.zoneT3': 'thumb flexor zone T3 (thenar eminence)',
  'extensor.zoneT1': 'thumb extensor zone T1 (IP joint)', 'extensor.zoneT2': 'thumb extensor zone T2 (proximal phalanx)', 'extensor.zoneT3': 'thumb extensor zone T3 (MCP joint)', 'extensor.zoneT4': 'thumb extensor zone T4 (metacarpal)', 'extensor.zoneT5': 'thumb extensor zone T5 (wrist)',
  'extensor.zone6': 'extensor zone 6', 'extensor.zone7': 'extensor zone 7', 'extensor.zone8': 'extensor zone 8',
} as const;

const fingerNames = { D2: 'index', D3: 'middle', D4: 'ring', D5: 'little' } as const;
type Finger = keyof typeof fingerNames;
const FINGERS = Object.keys(fingerNames) as readonly Finger[];
const inFingers = <Code extends string>(entries: (finger: Finger, name: string) => readonly (readonly [Code, string])[]): Record<Code, string> =>
  Object.fromEntries(FINGERS.flatMap((finger) => entries(finger, fingerNames[finger]))) as Record<Code, string>;

const ligamentNames = { RCL: 'radial collateral ligament', UCL: 'ulnar collateral ligament', plate: 'volar plate' } as const;
type Ligament = keyof typeof ligamentNames;
const LIGAMENTS = Object.keys(ligamentNames) as readonly Ligament[];
/** Ligaments of the finger joints, each of a joint and, where none was said, of the finger. The collateral ligaments of the thumb MCP joint are regions of their own. */
const ligaments: Record<`${Finger}.${Ligament}` | `${Finger}.${'MCP' | 'PIP' | 'DIP'}.${Ligament}`, string> = inFingers((finger, name) => LIGAMENTS.flatMap((ligament) => [
  [`${finger}.${ligament}`, `${ligamentNames[ligament]} of the ${name} finger`] as const,
  ...(['MCP', 'PIP', 'DIP'] as const).map((joint) => [`${finger}.${joint}.${ligament}`, `${ligamentNames[ligament]} of the ${name} ${joint} joint`] as const),
]));
const thumbLigaments = { 'D1.IP.RCL': 'radial collateral ligament of the thumb IP joint', 'D1.IP.UCL': 'ulnar collateral ligament of the thumb IP joint', 'D1.IP.plate': 'volar plate of the thumb IP joint', 'D1.MCP.plate': 'volar plate of the thumb MCP joint' } as const;

const pulleys: Record<`${Finger}.${'A2' | 'A3' | 'A4' | 'A5'}`, string> = inFingers((finger, name) => (['A2', 'A3', 'A4', 'A5'] as const).map((pulley) => [`${finger}.${pulley}`, `${pulley} pulley of the ${name} finger`] as const));

/** The extensor mechanism over a finger: central slip at the PIP joint, terminal tendon at the DIP joint, sagittal bands at the MCP joint. */
const extensorParts = { 'central-slip': 'central slip', 'terminal-tendon': 'terminal extensor tendon', 'sagittal-band': 'sagittal band' } as const;
type ExtensorPart = keyof typeof extensorParts;
const extensors: Record<`${Finger}.${ExtensorPart}`, string> = inFingers((finger, name) => (Object.keys(extensorParts) as ExtensorPart[]).map((part) => [`${finger}.${part}`, `${extensorParts[part]} of the ${name} finger`] as const));

const phalanges: Record<`${Finger}.${'proximal' | 'middle' | 'distal'}-phalanx`, string> = inFingers((finger, name) => (['proximal', 'middle', 'distal'] as const).map((part) => [`${finger}.${part}-phalanx`, `${part} phalanx of the ${name} finger`] as const));
const thumbPhalanges = { 'D1.proximal-phalanx': 'proximal phalanx of the thumb', 'D1.distal-phalanx': 'distal phalanx of the thumb', 'D1.A2': 'A2 pulley of the thumb' } as const;

/** Tendon zones that lie in a finger (Kleinert & Verdan 1983; Verdan, in RadioGraphics 2003;23:593); without their finger, and nearer to the elbow, they are regions of the hand. */
const fingerZones: Record<`${Finger}.flexor.zone${1 | 2}` | `${Finger}.extensor.zone${1 | 2 | 3 | 4 | 5}`, string> = inFingers((finger, name) => [
  ...([1, 2] as const).map((zone) => [`${finger}.flexor.zone${zone}`, `flexor zone ${zone} of the ${name} finger`] as const),
  ...([1, 2, 3, 4, 5] as const).map((zone) => [`${finger}.extensor.zone${zone}`, `extensor zone ${zone} of the ${name} finger`] as const),
]);

const groups = { hand: hands, region: { ...regions, ...sheaths, ...ligaments, ...thumbLigaments, ...pulleys, ...extensors, ...phalanges, ...thumbPhalanges, ...fingerZones }, digit: digits, joint: joints, skin, vessel: vessels, nerve: nerves, muscle: muscles, 'muscle group': muscleGroups, movement: movements } as const;

export type SiteCode =
  | keyof typeof hands | keyof typeof regions | keyof typeof sheaths | keyof typeof ligaments | keyof typeof thumbLigaments | keyof typeof pulleys | keyof typeof extensors
  | keyof typeof fingerZones | keyof typeof phalanges | keyof typeof thumbPhalanges | keyof typeof nerves | keyof typeof muscleGroups | Digit | keyof typeof joints
  | SkinArea | keyof typeof vessels | Muscle | Movement;

/** Every site by its code. */
export const SITES: Readonly<Record<SiteCode, SiteEntry>> = Object.fromEntries(
  Object.entries(groups).flatMap(([kind, entries]) =>
    Object.entries(entries).map(([code, name]) => [code, { kind: kind as SiteKind, name }])),
) as Record<SiteCode, SiteEntry>;

export const isSiteCode = (text: string): text is SiteCode => Object.hasOwn(SITES, text);
