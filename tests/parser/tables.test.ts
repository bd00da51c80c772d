import { describe, expect, it } from 'vitest';
import { on, parse, read } from './say';
import type { Context } from '../../src/parser';
import type { Finding } from '../../src/vocabulary';

type Row = readonly [said: string, ...meaning: readonly string[]];
const table = (rows: readonly Row[], context: Partial<Context> = {}): void => {
  it.each(rows.map(([said, ...meaning]) => ({ said, meaning })))('$said', ({ said, meaning }) => expect(read(said, context)).toEqual(meaning));
};

describe('denials reach as far as they are said', () => {
  table([
    ['no wasting or fasciculation of the right thenar eminence', 'R wasting@thenar = absent', 'R fasciculation@thenar = absent'],
    ['no wasting swelling or deformity of the right hand', 'R wasting@hand = absent', 'R swelling@hand = absent', 'R deformity@hand = absent'],
    ['no swelling but tenderness over the left wrist', 'L swelling@wrist = absent', 'L tenderness@wrist = present'],
    ['wasting but no fasciculation of the right thenar eminence', 'R wasting@thenar = present', 'R fasciculation@thenar = absent'],
    ['not tender over the scaphoid tubercle but tender in the snuffbox left', 'L tenderness@scaphoid.tubercle = absent', 'L tenderness@snuffbox = present'],
    ['tender over the snuffbox but not the scaphoid tubercle left', 'L tenderness@snuffbox = present', 'L tenderness@scaphoid.tubercle = absent'],
    ['left wrist neither swollen nor tender', 'L swelling@wrist = absent', 'L tenderness@wrist = absent'],
    ['left wrist non tender apart from the radial styloid', 'L tenderness@wrist = absent', 'L tenderness@radial.styloid = present'],
    ['denies numbness or tingling in the right thumb', 'R numbness@D1 = absent', 'R tingling@D1 = absent'],
    ['no loss of sensation in the right thumb', 'R light.touch@D1 = normal'],
    ['no colour change or swelling right hand', 'R colour@hand = normal', 'R swelling@hand = absent'],
    ['no wasting of the thenar and swelling of the wrist left', 'L wasting@thenar = absent', 'gap unsure'],
    ['light touch normal in the right hand except the little finger', 'R light.touch@hand = normal', 'gap result'],
    ['tinel not positive left', 'L tinel@carpal.tunnel = absent'],
    ['no active flexion of the right little finger', 'R active.range@D5.flexion = absent'],
  ]);
});

describe('sides are said, current, or asked for', () => {
  table([
    ['tender snuffbox', 'gap side'],
    ['wasting of the thenar eminence both hands', 'L wasting@thenar = present', 'R wasting@thenar = present'],
    ['left hand', 'side left'],
    ['no wasting, no scars, no swelling, left hand', 'L wasting@hand = absent', 'L scar@hand = absent', 'L swelling@hand = absent'],
    ['phalen negative left positive right', 'L phalen@wrist = absent', 'R phalen@wrist = present'],
    ['radial and ulnar pulses both present on the right', 'R pulse@radial.artery = present', 'R pulse@ulnar.artery = present'],
    ['a p b weaker than the left', 'R power@APB = weak [weaker than other side]'],
    ['injured hand is cold', 'gap side'],
    ['other hand a p b four', 'gap side'],
    ['right', 'unparsed'],
    ['left hand please', 'unparsed'],
  ]);
  describe('with the right hand current', () => table([
    ['tender snuffbox', 'R tenderness@snuffbox = present'],
    ['other side phalen positive', 'L phalen@wrist = present'],
    ['now the other hand', 'side left'],
    ['left a p b three', 'L power@APB = 3'],
  ], on('right')));
  describe('with the left side injured', () => table([
    ['injured hand is cold', 'L temperature@hand = cold'],
    ['unaffected side a p b five', 'R power@APB = 5'],
  ], { injuredSide: 'left' }));
  it('a side called in a note holds for the sentences behind it, a side in a finding does not', () => {
    expect(read('Left hand. No wasting. APB 4/5.')).toEqual(['side left', 'L wasting@hand = absent', 'L power@APB = 4']);
    expect(read('Right APB 4/5. FPL 5/5.')).toEqual(['R power@APB = 4', 'gap side']);
  });

it('asks which of the hands when only one is current, and files both when both are', () => {
  expect(read('cold hands', on('left'))).toEqual(['gap side']);
  expect(read('cold hands', { currentSide: 'both' })).toEqual(['L temperature@hand = cold', 'R temperature@hand = cold']);
});
});

describe('nothing is filed that was not said', () => {
  table([
    // a denial that nothing takes up, or that denies something else
    ['no reduced sensation left thumb', 'unparsed'],
    ['left thumb abduction not four', 'unparsed'],
    ['no left thumb abduction four', 'gap result'],
    ['no, tender left thumb', 'unparsed'],
    ['left thumb not very swollen', 'gap unsure'],
    ['no marked swelling of the left thumb', 'gap unsure'],
    // a comparison or a place beyond what was named
    ['laceration below the left elbow', 'unparsed'],
    ['left more than right numbness in the thumb', 'unparsed'],
    ['little swelling in the left thumb', 'unparsed'],
    ['a little swollen left thumb', 'L swelling@D1 = present [mild]'],
    // shown, not said
    ['swelling here on the left', 'gap site'],
    ['left tinel positive over the radial nerve', 'gap site'],
    ['left finger numb', 'gap site'],
    ['this finger is numb left', 'unparsed'],
    // a word in other company
    ['hard lump left dorsal wrist', 'L lump@wrist.dorsal = present'],
    ['sharp pain in the left wrist', 'L pain@wrist = present'],
    ['fine tremor left hand', 'L tremor@hand = present'],
    ["don't touch the left thumb", 'unparsed'],
    ['split pulp left thumb', 'unparsed'],
    ['left index fingertip absent', 'unparsed'],
    // as far as it goes
    ['cannot fully extend the left index finger', 'L active.range@D2.extension = limited'],
    ['active left wrist flexion four', 'gap result'],
    ['left abduction four', 'gap site'],
    ['all four lumbricals five left', 'L power@LUM1 = 5', 'L power@LUM2 = 5', 'L power@LUM3 = 5', 'L power@LUM4 = 5'],
    // what "both" counts
    ['left thumb and index both numb', 'L numbness@D1 = present', 'L numbness@D2 = present'],
    ['both thumb and index numb', 'gap side'],
    ['both sides of the left index numb', 'L numbness@D2r = present', 'L numbness@D2u = present'],
    // a place said once is meant for what is said with it
    ['ring finger pale and cold no refill left', 'L colour@D4 = pale', 'L temperature@D4 = cold', 'L refill@D4 = absent'],
    ['swelling and warmth over the left index m c p', 'L swelling@D2.MCP = present', 'L temperature@D2.MCP = warm'],
  ]);
  describe('with the right hand current a left amid the sentence is asked about', () => table([
    ['thumb abduction four left index abduction three', 'gap side'],
    ['left thumb abduction four index abduction three', 'L power@thumb.abduction = 4', 'L power@D2.abduction = 3'],
    ['thumb abduction four index abduction three left', 'L power@thumb.abduction = 4', 'L power@D2.abduction = 3'],
  ], on('right')));
});

describe('bones, ligaments, groups, arcs and what is stated in sum', () => {
  table([
    ['tender over the neck of the left fifth metacarpal', 'L tenderness@metacarpal5 = present [at the neck]'],
    ['tender middle phalanx left ring finger', 'L tenderness@D4.middle-phalanx = present'],
    ['left lunate tender', 'L tenderness@lunate = present'],
    ['left index p i p radial collateral ligament tender', 'L tenderness@D2.PIP.RCL = present'],
    ['volar plate of the left middle p i p tender', 'L tenderness@D3.PIP.plate = present'],
    ['a two pulley tender left ring', 'L tenderness@D4.A2 = present'],
    ['left interossei three', 'L power@interossei.all = 3'],
    ['thenar muscles four left', 'L power@thenar.muscles = 4'],
    ['left intrinsics weak', 'L power@intrinsics = weak'],
    ['left index p i p twenty to ninety degrees', 'L range@D2.PIP = 20 to 90 deg'],
    ['fixed flexion thirty degrees left ring p i p', 'L fixed.flexion@D4.PIP = 30 deg'],
    ['extensor lag twenty degrees left ring p i p', 'L extension.lag@D4.PIP = 20 deg'],
    ['left hand neurovascularly intact', 'L summary.neurovascular@hand = normal'],
    ['left median nerve intact', 'L summary.nerve@nerve.median = normal'],
    ['a i n intact left', 'L summary.nerve@nerve.AIN = normal'],
    ['median nerve intact', 'gap side'],
    ['power five throughout left hand', 'L summary.motor@hand = 5'],
    ['paronychia left index', 'L paronychia@D2 = present'],
    ['subungual haematoma left thumb', 'L bruising@D1.nail = present'],
    ['skin loss left thumb tip two centimetres', 'L skin.loss@D1.pulp = 2 cm'],
    ['monofilament four point three one left little tip', 'L monofilament@D5.pulp = 4.31 {filament}'],
    ['joint position sense normal left index', 'L joint.position@D2 = normal'],
  ]);
});

// Flexor and extensor zones, those of the thumb with a T: Kleinert & Verdan 1983; thumb flexor zones as in the RCEM learning module on flexor tendon injury zones.
describe('tendon zones are of flexors or of extensors, of the thumb or of a finger, or it is asked', () => {
  table([
    ['laceration extensor zone t two left', 'L laceration@extensor.zoneT2 = present'],
    ['laceration flexor zone T II right thumb', 'R laceration@flexor.zoneT2 = present'],
    ['laceration of the left thumb extensor zone three', 'L laceration@extensor.zoneT3 = present'],
    ['zone two flexor laceration of the left thumb', 'L laceration@flexor.zoneT2 = present'],
    ['laceration flexor zone four left thumb', 'L laceration@flexor.zone4 = present'],
    ['left ring finger laceration in flexor zone two', 'L laceration@D4.flexor.zone2 = present'],
    ['laceration flexor zone two index and middle left', 'L laceration@D2.flexor.zone2 = present', 'L laceration@D3.flexor.zone2 = present'],
    ['laceration dorsal left index zone three', 'L laceration@D2.extensor.zone3 = present'],
    ['wound in zone seven left', 'L wound@extensor.zone7 = present'],
    ['laceration thumb zone two left', 'gap site'],
    ['laceration zone two left index', 'gap site'],
    ['laceration extensor zone seven left ring finger', 'unparsed'],
  ]);
  it('with both as the answers to choose from', () => {
    expect(parse('laceration thumb zone two left', { findings: [] })).toMatchObject([{ options: [[{ site: 'flexor.zoneT2' }], [{ site: 'extensor.zoneT2' }]] }]);
  });
});

// S0 to S4: Medical Research Council 1954 (S0 no sensation, S4 normal: Cochrane review CD012574, PMC9728628); the pluses Mackinnon & Dellon 1988, from memory.
describe('sensation beside touch and pin', () => {
  table([
    ['sensory grade three plus left index', 'L sensory.grade@D2 = S3+'],
    ['left index tip S3+', 'L sensory.grade@D2.pulp = S3+'],
    ['s zero in the left ulnar territory', 'L sensory.grade@territory.ulnar = S0'],
    ['thumb s three index s four left', 'L sensory.grade@D1 = S3', 'L sensory.grade@D2 = S4'],
    ['sensory grade five left thumb', 'unparsed'], ['left thumb sensory grade three to three plus', 'unparsed'], ['capillary refill 2 s 3 left', 'unparsed'],
    ['left index grade three plus', 'unparsed'],
    ["can't tell a key from a coin with the right hand", 'R stereognosis@hand = absent'],
    ['stereognosis intact left', 'L stereognosis@hand = normal'],
    ['temperature sense reduced left index', 'L temperature.sense@D2 = reduced'],
    ["can't tell hot from cold left thumb", 'L temperature.sense@D1 = absent'],
    ['temperature normal left thumb', 'L temperature@D1 = normal'],
    ['vibration normal at 256 hertz and reduced at 30 hertz left index', 'L vibration@D2 = normal [256 Hz]', 'L vibration@D2 = reduced [30 Hz]'],
    ['30 hz fork not felt left little', 'L vibration@D5 = absent [30 Hz]'],
    ['static two point eight millimetres moving two point five millimetres left index', 'L two.point@D2 = 8 mm [static]', 'L two.point@D2 = 5 mm [moving]'],
  ]);
});

describe('who feels what', () => {
  table([
    // the examiner's hand
    ['left hand feels warm', 'L temperature@hand = warm'], ['can feel the radial pulse left', 'L pulse@radial.artery = present'], ["i can't feel a nodule in the left palm", 'L nodule@palm = absent'],
    // the patient's skin
    ['left thumb feels the filament two point eight three', 'L monofilament@D1 = 2.83 {filament}'], ['can feel the pin left thumb', 'L pinprick@D1 = normal'], ["can't feel me touching the left thumb", 'L light.touch@D1 = absent'],
    ['barely feels touch left thumb', 'L light.touch@D1 = reduced'], ['light touch just felt left thumb', 'L light.touch@D1 = reduced'], ['pin felt as touch left thumb', 'L pinprick@D1 = reduced'],
    ["can't feel two points at ten millimetres left index tip", 'L two.point@D2.pulp = >10 mm'], ['he says it feels numb left thumb', 'L numbness@D1 = present'],
    // told by the patient, or of what was not said
    ['left hand feels warm to the patient', 'unparsed'], ['he feels cold in the left hand', 'unparsed'], ['the patient feels swelling of the left wrist', 'unparsed'], ['complains of a swollen left wrist', 'unparsed'],
    ["can't feel the left thumb", 'unparsed'], ['left thumb feels different', 'unparsed'], ['left index feels dull', 'unparsed'], ['hardly any feeling left thumb', 'gap unsure'], ['feels for the pulse left', 'gap result'],
    // a measure that is denied
    ['no two centimetre laceration left palm', 'unparsed'], ['no extensor lag of twenty degrees left ring p i p', 'unparsed'],
  ]);
});

describe('places and sides told in one breath go with what they are said of, or it is asked', () => {
  table([
    // places before what is said of them
    ['left index hot and swollen palm tender', 'L temperature@D2 = hot', 'L swelling@D2 = present', 'L tenderness@palm = present'],
    ['left hand cool fingers pale', 'L temperature@hand = cool', 'L colour@fingers = pale'],
    ['left hand neither swollen nor red index pale', 'L swelling@hand = absent', 'L erythema@hand = absent', 'L colour@D2 = pale'],
    ['left hand cold and pale fingers', 'L temperature@hand = cold', 'L colour@fingers = pale'],
    ['left hand tender snuffbox swollen wrist', 'L tenderness@snuffbox = present', 'L swelling@wrist = present'],
    ['left ring a one pulley tender nodule', 'L tenderness@D4.A1 = present', 'L nodule@D4.A1 = present'],
    ['flexor sheath tender left little finger held flexed', 'L tenderness@D5.sheath = present', 'L flexed.posture@D5 = present'],
    ['left thumb tender at the base and the m c p', 'L tenderness@D1.CMC = present', 'L tenderness@D1.MCP = present'],
    ['tense left forearm fingers tingling', 'gap unsure', 'gap site'],
    ['nodule at the base of the ring finger left palm', 'gap unsure'],
    // a describing word goes with the noun behind it, a result with the place before it
    ['infected wound right knuckles with spreading redness', 'R wound@knuckles = present [infected]', 'R erythema@knuckles = present [spreading]'],
    ['tender left snuffbox mild swelling', 'L tenderness@snuffbox = present', 'L swelling@snuffbox = present [mild]'],
    ['posterior arm okay lower lateral arm reduced light touch right', 'R light.touch@AP = normal', 'R light.touch@ALL = reduced'],
    ['m c p of the left ring seventy active eighty five passive', 'L active.range@D4.MCP = 70 deg', 'L passive.range@D4.MCP = 85 deg'],
    ['left little finger a two and a four both tender', 'L tenderness@D5.A2 = present', 'L tenderness@D5.A4 = present'],
    ['crepitus along the left extensor tendons', 'L crepitus@extensors.long = present'],
    ['crepitus on moving the left wrist', 'L crepitus@wrist = present'],
    ['tender on squeezing the left m c p s', 'L mcp.squeeze@MCPs = present'], ['left thumb tender on squeezing', 'unparsed'],
    ['left ulnar nerve palpable', 'unparsed'], ['left thumb r c l tight', 'L laxity@thumb.RCL = absent'],
    ['cord from the palm to the left ring p i p', 'gap site'],
    ['held flexed left thumb change hands', 'L flexed.posture@D1 = present', 'gap side'],
    ['numb in the left a i n', 'gap site'],
    // tests that are done in one place
    ['phalen positive left thumb tingling', 'L phalen@wrist = present', 'L tingling@D1 = present'],
    ['phalen positive left middle finger', 'gap unsure'],
    ['finkelstein positive left radial styloid', 'L finkelstein@extensor.compartment1 = present'],
    ['ulnar nerve thickened left elbow tinel positive', 'L nerve.thickening@cubital.tunnel = present', 'gap site'],
    ['tender left snuffbox tingling', 'L tenderness@snuffbox = present', 'gap site'],
    // sides before, behind, or neither
    ['left a p b four f p l five right a p b five', 'L power@APB = 4', 'L power@FPL = 5', 'R power@APB = 5'],
    ['phalen positive left tinel negative right', 'L phalen@wrist = present', 'R tinel@carpal.tunnel = absent'],
    ['left a p b four f p l five right', 'L power@APB = 4', 'gap side'],
    ['numb left thumb index middle right', 'gap side'],
    ['left thumb numb right', 'L numbness@D1 = present', 'R numbness@D1 = present'],
    ['tender to the left of the thumb', 'unparsed'],
  ]);
});

describe('a finding with two places is two, or one that reaches from the one to the other, or it is asked', () => {
  table([
    ['scar across index and middle left', 'L scar@D2 = present', 'L scar@D3 = present'],
    ['laceration from the left thenar eminence to the second web', 'L laceration@thenar to web2 = present'],
    ['three centimetre laceration from the left thumb to the wrist', 'L laceration@D1 to wrist = 3 cm'],
    ['laceration across the left palm from the first web to the hypothenar eminence', 'L laceration@web1 to hypothenar = present'],
    ['laceration along the left index from the d i p to the p i p', 'L laceration@D2.DIP to D2.PIP = present'],
    ['laceration from the left p i p of the ring to the palm', 'L laceration@D4.PIP to palm = present'],
    ['scar from thumb to little finger left', 'L scar@D1 to D5 = present'],
    ['single scar across the left ring and little', 'L scar@D4 to D5 = present'],
    ['laceration of the left palm extending to the thumb', 'L laceration@palm to D1 = present'],
    ['redness spreading from the hand to the elbow left', 'L erythema@hand to elbow = present [spreading]'],
    ['numbness from the wrist to the elbow left', 'L numbness@wrist to elbow = present'],
    ['no scar from wrist to elbow left', 'L scar@wrist to elbow = absent'],
    // a row of fingers, each of them numb
    ['numb from the left thumb to the ring', 'L numbness@D1 = present', 'L numbness@D2 = present', 'L numbness@D3 = present', 'L numbness@D4 = present'],
    // feeling is tested at places, not along a way
    ['light touch reduced from the wrist to the elbow left', 'gap site'], ['tender from the scaphoid to the lunate left', 'gap site'], ['laceration from the left palm to the wrist and thumb', 'gap site'],
  ]);
});

describe('corrections inside an utterance', () => {
  table([
    ['left thumb abduction grade three no grade four', 'L power@thumb.abduction = 4'],
    ['right correction left thumb tip absent light touch', 'L light.touch@D1.pulp = absent'],
    ['index i mean middle finger is swollen on the right', 'R swelling@D3 = present'],
    ['three centimetre no two centimetre laceration left palm', 'L laceration@palm = 2 cm'],
    ['tinel positive sorry negative at the right wrist', 'R tinel@carpal.tunnel = absent'],
    ['tender thumb no index finger swelling left', 'L tenderness@D1 = present', 'L swelling@D2 = absent'],
  ]);
});

const apb: Finding = { side: 'left', sign: 'power', site: 'APB', result: { kind: 'grade', grade: '4' } };
describe('what refers to the finding before it', () => {
  const after = (...findings: Finding[]): Partial<Context> => ({ findings, currentSide: 'left' });
  it.each([
    ['same on the right', [apb], ['R power@APB = 4']],
    ['and on the right', [apb], ['R power@APB = 4']],
    ['half a grade down on the right', [apb], ['R power@APB = 4-']],
    ['a grade down on the right', [apb], ['R power@APB = 3']],
    ['opponens as well', [apb], ['L power@OP = 4']],
    ['right five', [apb], ['R power@APB = 5']],
    ['and the middle', [{ side: 'left', sign: 'light.touch', site: 'D2.pulp', result: { kind: 'level', level: 'reduced' } }], ['L light.touch@D3.pulp = reduced']],
    ['and the middle', [{ side: 'left', sign: 'power', site: 'FDP2', result: { kind: 'grade', grade: '3' } }], ['L power@FDP3 = 3']],
    ['same on the right', [], ['unparsed']],
    ['and the middle', [{ ...apb, side: 'right' }], ['unparsed']],
    ['rest normal', [apb], ['gap site']],
  ] as [string, Finding[], string[]][])('%s', (said, findings, meaning) => expect(read(said, after(...findings))).toEqual(meaning));
  it.each([
    ['left a p b three', ['gap contradiction']],
    ['left a p b four', ['L power@APB = 4']],
    ['left a p b weak', ['L power@APB = weak']],
    ['left a p b normal', ['gap contradiction']],
    ['right a p b three', ['R power@APB = 3']],
  ] as [string, string[]][])('against an earlier grade four: %s', (said, meaning) => expect(read(said, after(apb))).toEqual(meaning));
});

describe('quantities, grades and units', () => {
  table([
    ['two point discrimination two point eight millimetres left index tip', 'L two.point@D2.pulp = 2.8 mm'],
    ['two point eight millimetres left index', 'L two.point@D2 = 8 mm'],
    ['laceration two point five centimetres left palm', 'L laceration@palm = 2.5 cm'],
    ['three and a half centimetre laceration left palm', 'L laceration@palm = 3.5 cm'],
    ['capillary refill less than two seconds right', 'R refill@hand = <2 s'],
    ['phalen positive at thirty seconds left', 'L phalen@wrist = present at 30 s'],
    ['elbow flexion test positive at one minute right', 'R elbow.flexion.test@cubital.tunnel = present at 60 s'],
    ['left elbow flexes to one hundred and thirty degrees', 'L range@elbow.flexion = 130 deg'],
    ['f p l four minus to four right', 'R power@FPL = 4- to 4'],
    ['right apb 3+/5 epl 5/5', 'R power@APB = 3+', 'R power@EPL = 5'],
    ['power six thumb abduction left', 'unparsed'],
    ['a p b five plus left', 'unparsed'],
    ['grip twenty kilograms right fifteen left', 'R power@grip = 20 kg', 'L power@grip = 15 kg'],
  ]);
});

describe('orders, and what is like them but said to somebody else', () => {
  table([
    ['withdraw that', 'order withdraw last'], ['take that last one out', 'order withdraw last'], ['what remains on the left', 'order what remains left'],
    ['read it back', 'order read back'], ['hold', 'order hold'], ['carry on', 'order carry on'], ['next stage please', 'order next stage'],
    ['go to the power stage', 'order go to stage power'], ['conclude', 'order conclude'], ['amend the last one to grade four', 'order amend 4'],
    ['amend left', 'order amend left'], ['yes', 'order confirm true'], ['no', 'order confirm false'],
    ['cannot test the left grip because of the cast', 'not testable left power@grip: cast'],
    ['pinprick not tested in the left thumb because he declined', 'not testable left pinprick@D1: he declined'],
    ['cannot test the left grip', 'gap result'],
    ['hold still', 'unparsed'], ['hold that', 'unparsed'], ['squeeze my fingers', 'unparsed'], ['make a fist', 'unparsed'], ['straighten', 'unparsed'],
    ['is your left thumb numb', 'unparsed'], ['any numbness in the left thumb', 'unparsed'], ['same on the other side please', 'unparsed'],
    ['normal capillary refill is less than two seconds', 'unparsed'],
  ]);
});

describe('slips within the stated limit', () => {
  table([
    ['light tuoch reduced left thumb', 'L light.touch@D1 = reduced'],
    ['swelling of the right ring fingr', 'R swelling@D4 = present'],
    ['abductor policis brevis four left', 'L power@APB = 4'],
    // A side, a number or a denial is never guessed, nor one of two equally near words.
    ['rigth thumb swollen', 'unparsed'], ['left thumb adduction thre', 'unparsed'], ['left thumb aduction three', 'unparsed'], ['noo swelling left thumb', 'unparsed'],
  ]);
});

it('a note is read sentence by sentence, and what was not understood stays in its place', () => {
  const note = 'Right hand: no wasting. 2.5 cm lac. over the volar wrist. He runs a bakery. APB 4/5, FPL 5/5; tinel +ve at the wrist.';
  expect(read(note)).toEqual(['R wasting@hand = absent', 'gap side', 'unparsed', 'gap side', 'gap side']);
  expect(read(note, on('right'))).toEqual(['R wasting@hand = absent', 'R laceration@wrist.volar = 2.5 cm', 'unparsed', 'R power@APB = 4', 'R power@FPL = 5', 'R tinel@carpal.tunnel = present']);
});

describe('one breath does not say two things of one item, and a part named as near is not one that was examined', () => {
  table([
    ['left thumb swelling present and swelling absent', 'gap unsure'],
    ['left index temperature normal cool', 'gap unsure'],
    ['left thumb swelling present and swelling absent no scar of the palm', 'L scar@palm = absent', 'gap unsure'],
    ['lump in the left palm near the ring finger', 'L lump@palm = present'],
    ['swelling dorsal wrist beside the left ulnar head', 'L swelling@wrist.dorsal = present'],
    ['lump next to the left scaphoid', 'L lump@scaphoid = present'],
    ['tender between the left index and middle metacarpals', 'unparsed'],
    ['tender in the left snuffbox at the base of the thumb', 'gap unsure'],
    ['compression test positive at left carpal tunnel into the middle finger', 'gap unsure'],
    ['tender over the left thumb and index', 'L tenderness@D1 = present', 'L tenderness@D2 = present'],
  ]);
});

// How examiners say it is common practice, no source.
describe('an examiner never heard before says it in other ways', () => {
  describe('paired results', () => table([
    ['right radial pulse palpable ulnar not', 'R pulse@radial.artery = present', 'R pulse@ulnar.artery = absent'],
    ['ulnar artery pulse not palpable on the left the radial is', 'L pulse@ulnar.artery = absent', 'L pulse@radial.artery = present'],
    ['radial deviation twenty ulnar thirty left', 'L range@wrist.radial-deviation = 20 deg', 'L range@wrist.ulnar-deviation = 30 deg'],
    ['left index light touch radial reduced ulnar normal', 'L light.touch@D2r = reduced', 'L light.touch@D2u = normal'],
    ['right dips stiff and the m c p s too', 'R range@DIPs = stiff', 'R range@MCPs = stiff'],
    ['a three pulley of the left ring tender a four is not', 'L tenderness@D4.A3 = present', 'L tenderness@D4.A4 = absent'],
    ['radial alone on the left', 'unparsed'],
    ['left index normal ring not', 'unparsed'],
  ]));
  describe('joint by joint, from one end to the other', () => table([
    ['left index mcp nought to ninety pip twenty to one hundred dip zero to sixty', 'L range@D2.MCP = 0 to 90 deg', 'L range@D2.PIP = 20 to 100 deg', 'L range@D2.DIP = 0 to 60 deg'],
    ['left mcp nought to ninety pip twenty to a hundred and five', 'L range@MCPs = 0 to 90 deg', 'L range@PIPs = 20 to 105 deg'],
    ['passive range right middle p i p twenty through a hundred', 'R passive.range@D3.PIP = 20 to 100 deg'],
    ['left index p i p flexion sixty d i p flexion twenty active', 'L active.range@D2.PIP.flexion = 60 deg', 'L active.range@D2.DIP.flexion = 20 deg'],
    ['wrist extends to seventy flexes to sixty five right', 'R range@wrist.extension = 70 deg', 'R range@wrist.flexion = 65 deg'],
    ['cap refill two to three seconds right ring', 'R refill@D4 = 2 to 3 s'],
    ['two point six to eight millimetres right index tip', 'R two.point@D2.pulp = 6 to 8 mm'],
    ['dermatomes c six through c eight normal to pin left', 'L pinprick@dermatome.C6 = normal', 'L pinprick@dermatome.C7 = normal', 'L pinprick@dermatome.C8 = normal'],
    ['f d p index through ring five left', 'L power@FDP2 = 5', 'L power@FDP3 = 5', 'L power@FDP4 = 5'],
  ]));
  describe('one finger named first, the rest said of it', () => table([
    ['right little finger laceration f d s intact f d p absent', 'R laceration@D5 = present', 'R fds.isolation@FDS5 = normal', 'R fdp.isolation@FDP5 = absent'],
    ['left index f d s five radial side light touch absent ulnar side normal cap refill two seconds', 'L power@FDS2 = 5', 'L light.touch@D2r = absent', 'L light.touch@D2u = normal', 'L refill@D2 = 2 s'],
    ['wasting of the left thenar f d p five', 'L wasting@thenar = present', 'gap site'],
  ]));
  describe('said twice, filed once', () => table([
    ['clicks and catches left thumb it is triggering', 'L triggering@D1 = present'],
    ['tooth mark over the right ring m c p fight bite', 'R fight.bite@D4.MCP = present'],
    ['left thumb and index bone dry no sweat', 'L sweating@D1 = dry', 'L sweating@D2 = dry'],
    ['compression over the carpal tunnel positive in ten seconds left durkan', 'L carpal.compression@carpal.tunnel = present at 10 s'],
    ['cannot cross his fingers on the left crossed finger test positive', 'L crossed.fingers@fingers = present'],
    ['left froment positive jeanne negative', 'L froment@D1 = present', 'L jeanne@D1 = absent'],
    ['left phalen positive phalen negative', 'gap unsure'],
  ]));
  describe('degrees and companies of words', () => table([
    ['stiffish left ring p i p', 'L range@D4.PIP = stiff [mild]'],
    ['fiveish left a p b', 'unparsed'],
    ['tender snuffbox and tubercle left', 'L tenderness@snuffbox = present', 'L tenderness@scaphoid.tubercle = present'],
    ['left hand tubercle tender', 'unparsed'],
    ['facing sides of the left middle and ring absent to light touch', 'L light.touch@D3u = absent', 'L light.touch@D4r = absent'],
    ['facing sides of the left index and ring absent to light touch', 'unparsed'],
    ['second and third metacarpals tender on the right', 'R tenderness@metacarpal2 = present', 'R tenderness@metacarpal3 = present'],
    ['fifth metacarpal tender at the neck left', 'L tenderness@metacarpal5 = present [at the neck]'],
    ['distal radius tender dorsally right', 'R tenderness@distal.radius = present [dorsal]'],
    ['index p i p lax on the radial side left', 'L laxity@D2.PIP.RCL = present'],
    ['numbness in the right ring getting worse', 'R worsening.numbness@D4 = present'],
    ['right thumb getting worse', 'unparsed'],
    ['tinel positive at the left elbow into the little finger', 'L tinel@cubital.tunnel = present'],
    ['tinel positive into the left little finger', 'gap site'],
    ['power five throughout the right hand', 'R summary.motor@hand = 5'],
    ['grip the same as the other side left', 'L power@grip = normal [equal to other side]'],
    ['lac over extensor zone six just behind the knuckles right hand', 'R laceration@extensor.zone6 = present'],
    ['so froment is really testing the left adductor pollicis', 'unparsed'],
  ]));
  describe('a slip of the tongue', () => table([
    ['mucous cyst no call it a lump at the index d i p on the right', 'R lump@D2.DIP = present'],
    ['left thumb no just the left index numb', 'L numbness@D2 = present'],
  ]));
  it('right before an order is no side', () => expect(read('right carry on')).toEqual(['order carry on']));
});
