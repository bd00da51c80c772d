import type { Digit } from '../../vocabulary';
import { DIGITS, DIGIT_NAMES } from '../../vocabulary';
import type { Atom, UnitId } from '../observation/units';
import { MOTOR_ATOMS, SKIN_ATOMS } from '../anatomy/supply';
import type { LesionKind } from '../localisation';
import type { BySeverity, Hypothesis } from './hypothesis';
import { NO_LOSS, always, fixed } from './hypothesis';

type Parts = Readonly<Partial<Record<Atom, number>>>;
type Signs = Record<UnitId, number | BySeverity>;

interface Draft { id: string; kind: LesionKind; structure: string; level?: string; prior: number; signs: Signs; losses?: Parts; severity?: BySeverity; place?: string; pairs?: boolean; source: string }

/** Sensitivities without a source of their own are design choices. */
const state = ({ level = '', losses, severity = [0.3, 0.4, 0, 0.3], place = 'elsewhere', pairs = false, signs, ...rest }: Draft): Hypothesis => ({
  ...rest, level, severity, places: [place], pairs, variable: false, motorShare: 1,
  losses: losses ? fixed(losses) : NO_LOSS,
  signs: Object.fromEntries(Object.entries(signs).map(([unit, p]) => [unit, typeof p === 'number' ? always(p) : p])),
});

const each = (signs: readonly string[], sites: readonly string[], p: number): Signs => Object.fromEntries(signs.flatMap(sign => sites.map(site => [`${sign}@${site}`, p])));
const halves = (digit: Digit, part: number): Parts => ({ [`${digit}r`]: part, [`${digit}u`]: part });
const flexorsOf = (digit: Digit): readonly Atom[] => (digit === 'D1' ? ['FPL'] : [`FDP${digit[1]}` as Atom, `FDS${digit[1]}` as Atom]);

/** Length-dependent: the further from the cord, the worse. Preston & Shapiro 2013 [memory]; the parts are a design choice. */
function distalLoss(): Parts {
  const skin = (area: string) => (['AP', 'ALL', 'AM'].includes(area) ? 0.03 : ['FL', 'FM', 'FP'].includes(area) ? 0.2 : 0.75);
  const near: readonly string[] = ['TRI', 'BIC', 'BR', 'PT', 'SUP', 'FCR', 'ECRL', 'ECRB', 'FCU', 'PL', 'ECU', 'ED2', 'ED3', 'ED4', 'ED5'];
  const hand = /^(APB|OP|FPB|LUM|ADM|FDM|ODM|DI|PI|ADP|PB)/;
  return Object.fromEntries([
    ...SKIN_ATOMS.map(area => [area, skin(area)]),
    ...MOTOR_ATOMS.map(muscle => [muscle, near.includes(muscle) ? 0.04 : hand.test(muscle) ? 0.45 : 0.15]),
  ]);
}

const digits: readonly Hypothesis[] = DIGITS.flatMap(digit => {
  const name = DIGIT_NAMES[digit];
  const joints = digit === 'D1' ? ['D1.MCP', 'D1.IP'] : [`${digit}.MCP`, `${digit}.PIP`, `${digit}.DIP`];
  const sheath = `${digit}.sheath`;
  return [
    state({ id: `trigger.${digit}`, kind: 'soft tissue', structure: `A1 pulley of the ${name}`, level: 'trigger finger', prior: 0.7, signs: { ...each(['triggering'], [digit], 0.93), 'triggering@fingers': 0.8, ...each(['tenderness', 'nodule'], [`${digit}.A1`], 0.7) }, source: "Green's 2022 [memory]" }),
    state({
      id: `sheath-infection.${digit}`, kind: 'infection', structure: `flexor sheath of the ${name}`, level: 'infection', prior: 0.4, place: digit,
      losses: Object.fromEntries(flexorsOf(digit).map(atom => [atom, 0.4])),
      signs: {
        // 0.914-0.971 each, Kennedy 2017; 97, 72, 69, 65 % of 75 patients, Pang 2007 [checked]: between the two
        [`swelling@${digit}`]: 0.96, ...each(['passive.stretch.pain', 'movement.pain'], [digit], 0.83), 'passive.stretch.pain@fingers': 0.5, [`flexed.posture@${digit}`]: 0.8, 'flexed.posture@fingers': 0.5, ...each(['tenderness'], [sheath, `${digit}.volar`, digit, `${digit}.A1`], 0.8),
        ...each(['erythema', 'hot'], [digit], 0.7), [`wound@${digit}`]: 0.5, [`pus@${digit}`]: 0.3, 'pain@power': 0.7, [`pain@${digit}`]: 0.95,
      }, source: 'Kennedy 2017; Pang 2007 [checked]',
    }),
    state({
      id: `ischaemia.${digit}`, kind: 'vessel', structure: `blood supply of the ${name}`, level: 'digital arteries', prior: 0.4, place: digit, losses: halves(digit, 0.6), pairs: true,
      signs: { ...each(['refill'], [digit], 0.92), ...each(['pale', 'perfusion'], [digit], 0.88), ...each(['cold'], [digit], 0.8), ...each(['allen.digital'], [digit], 0.7), 'allen.digital@fingers': 0.5, [`wound@${digit}`]: 0.6 },
      source: "Green's 2022 [memory]; BSSH draft standards [checked]",
    }),
    state({
      id: `joint.${digit}`, kind: 'joint', structure: `joints of the ${name}`, level: 'stiff or painful', prior: 0.8, place: digit,
      losses: Object.fromEntries(flexorsOf(digit).map(atom => [atom, 0.3])),
      signs: { ...each(['passive.range'], [digit, ...joints], 0.8), ...each(['range'], [digit, ...joints], 0.8), ...each(['tenderness', 'movement.pain', 'swelling', 'effusion'], joints, 0.65), [`swelling@${digit}`]: 0.4, 'pain@power': 0.6, [`deformity@${digit}`]: 0.3, [`rotation@${digit}`]: 0.2, [`pain@${digit}`]: 0.8 },
      source: 'Common practice, no source',
    }),
    ...(digit === 'D1' ? [] : [state({
      id: `joint-infection.${digit}`, kind: 'infection', structure: `MCP joint of the ${name}`, level: 'infection', prior: 0.2, place: digit, losses: { [`ED${digit[1]}`]: 0.3, [`LUM${Number(digit[1]) - 1}`]: 0.3 },
      signs: {
        ...each(['swelling', 'tenderness', 'movement.pain', 'hot', 'erythema'], [`${digit}.MCP`], 0.88), ...each(['swelling'], ['knuckles', 'hand.dorsum'], 0.6), ...each(['passive.range', 'range'], [`${digit}.MCP`], 0.8), 'pain@power': 0.7,
        [`wound@${digit}`]: 0.75, 'wound@hand.dorsum': 0.4, [`pus@${digit}.MCP`]: 0.4, [`fight.bite@${digit}`]: 0.6, 'fight.bite@hand.dorsum': 0.4,
      }, source: 'Patzakis 1987 [checked, via secondary]; sensitivities a design choice',
    })]),
  ];
});

/** Everything that is no nerve, plexus, root or tendon lesion of one place. */
export const OTHER_STATES: readonly Hypothesis[] = [
  state({ id: 'normal', kind: 'normal', structure: 'no lesion', level: '', prior: 30, severity: [1, 0, 0, 0], signs: {}, source: 'Prior: a design choice' }),
  ...digits,
  state({ id: 'polyneuropathy', kind: 'polyneuropathy', structure: 'all nerves, the longest first', level: 'polyneuropathy', prior: 4, severity: [0.35, 0.45, 0, 0.2], losses: distalLoss(), signs: { 'tingling@hand': 0.7, 'numbness@hand': 0.7, 'trophic@hand': 0.3, 'hair.loss@hand': 0.3 }, source: 'Preston & Shapiro 2013 [memory]' }),
  state({
    id: 'motor-neurone', kind: 'motor neurone', structure: 'motor neurones', level: 'weakness without loss of feeling', prior: 0.4, severity: [0.2, 0.45, 0.1, 0.25],
    losses: { APB: 0.9, OP: 0.8, FPB: 0.7, DI1: 0.9, ADP: 0.7, DI2: 0.6, DI3: 0.6, DI4: 0.6, PI1: 0.6, PI2: 0.6, PI3: 0.6, ADM: 0.45, FDM: 0.45, ODM: 0.45, LUM1: 0.6, LUM2: 0.6, LUM3: 0.6, LUM4: 0.6, FDP2: 0.3, FDP5: 0.3, FPL: 0.3, ED3: 0.3, ECRL: 0.2, BR: 0.15, TRI: 0.2, BIC: 0.2 },
    signs: each(['fasciculation'], ['hand', 'DI1.belly', 'thenar', 'DI1', 'APB', 'forearm', 'arm'], 0.6), source: 'Preston & Shapiro 2013 [memory]',
  }),
  state({
    id: 'pain-limited', kind: 'pain', structure: 'effort limited by pain', level: '', prior: 2.5, severity: [0.55, 0.3, 0.1, 0.05],
    losses: Object.fromEntries(MOTOR_ATOMS.map(muscle => [muscle, 0.45])), signs: { 'pain@power': 0.9, 'pain@hand': 0.9, 'movement.pain@hand': 0.7, 'movement.pain@fingers': 0.6 }, source: 'Common practice, no source',
  }),
  state({ id: 'de-quervain', kind: 'soft tissue', structure: 'first extensor compartment', level: 'de Quervain', prior: 2.5, losses: { APL: 0.25, EPB: 0.25 }, signs: {
    'finkelstein@extensor.compartment1': 0.85, // sensitivity not found; specificity 1.00 against 0.89, Wu 2018 [memory]
    'eichhoff@extensor.compartment1': 0.89, 'what@extensor.compartment1': 0.99, // Goubau 2014 [checked]
    ...each(['tenderness', 'swelling'], ['radial.styloid', 'extensor.compartment1', 'wrist.radial'], 0.75), 'pain@wrist.radial': 0.9, 'pain@power': 0.4 }, source: 'Goubau 2014 [checked]; Wu 2018 [memory]' }),
  state({ id: 'thumb-base', kind: 'joint', structure: 'thumb CMC joint', level: 'arthritis', prior: 2.5, losses: { APB: 0.2, OP: 0.2, ADP: 0.2 }, signs: { 'cmc.grind@D1.CMC': 0.6, 'tenderness@D1.CMC': 0.85, 'squaring@D1.CMC': 0.5, 'pain@D1.CMC': 0.9, 'crepitus@D1.CMC': 0.5, 'passive.range@D1.CMC': 0.5, 'pain@power': 0.4, 'z.thumb@D1': 0.2 }, source: 'Common practice, no source' }),
  state({ id: 'scaphoid', kind: 'bone', structure: 'scaphoid', level: 'fracture', prior: 1.6, losses: { APB: 0.1 }, signs: {
    'tenderness@snuffbox': 0.93, 'scaphoid.compression@D1': 0.8, 'tenderness@scaphoid.tubercle': 0.9, 'movement.pain@wrist.ulnar-deviation': 0.8, // Mallee 2014: 0.87-1.00, 0.48-1.00, 0.82-1.00, 0.67-1.00 [checked]
    'swelling@snuffbox': 0.5, 'swelling@wrist': 0.5, 'pain@power': 0.5, 'range@D1': 0.6, 'pain@wrist.radial': 0.8 }, source: 'Mallee 2014; Parvizi 1998 [checked]' }),
  state({ id: 'distal-radius', kind: 'bone', structure: 'distal radius', level: 'fracture', prior: 1.2, losses: { ECRL: 0.2, FCR: 0.2 }, signs: { 'tenderness@distal.radius': 0.95, 'deformity@wrist': 0.6, 'swelling@wrist': 0.9, 'bruising@wrist': 0.6, 'pain@power': 0.7, 'passive.range@wrist.joint': 0.8 }, source: 'Common practice, no source' }),
  state({ id: 'scapholunate', kind: 'ligament', structure: 'scapholunate ligament', level: '', prior: 0.8, signs: { 'scaphoid.shift@scapholunate': 0.69, 'tenderness@scapholunate': 0.8, 'clunk@wrist': 0.5, 'clunk@scapholunate': 0.5, 'pain@power': 0.4 }, source: 'LaStayo & Howell 1995 [memory]' }),
  state({ id: 'lunotriquetral', kind: 'ligament', structure: 'lunotriquetral ligament', level: '', prior: 0.4, signs: { 'lunotriquetral@wrist.ulnar': 0.64, 'tenderness@wrist.ulnar': 0.7 }, source: 'LaStayo & Howell 1995 [memory]' }),
  state({ id: 'ulnocarpal', kind: 'ligament', structure: 'triangular fibrocartilage and distal radioulnar joint', level: '', prior: 1, signs: { 'ulnar.grind@TFCC': 0.66, 'tenderness@TFCC': 0.85, 'piano.key@DRUJ': 0.45, 'tenderness@DRUJ': 0.5, 'pain@wrist.ulnar': 0.9 }, source: 'ulnomeniscotriquetral glide, LaStayo & Howell 1995 [memory]' }),
  state({ id: 'thumb-ucl', kind: 'ligament', structure: 'ulnar collateral ligament of the thumb', level: '', prior: 0.8, losses: { ADP: 0.3 }, signs: { ...each(['ucl.stress', 'tenderness', 'laxity'], ['thumb.UCL'], 0.9), 'laxity@D1.MCP': 0.9, 'pain@power': 0.5, 'swelling@D1.MCP': 0.7 }, source: 'Heyman 1993 [memory]' }),
  state({ id: 'wrist-joint', kind: 'joint', structure: 'wrist joint', level: 'stiff, swollen or painful', prior: 1.5, losses: { ECRL: 0.25, ECRB: 0.25, FCR: 0.25, FCU: 0.2 }, signs: { 'swelling@wrist': 0.7, 'tenderness@wrist.joint': 0.7, 'tenderness@wrist': 0.7, 'passive.range@wrist.joint': 0.85, 'movement.pain@wrist': 0.8, 'effusion@wrist.joint': 0.5, 'pain@power': 0.6 }, source: 'Common practice, no source' }),
  state({ id: 'septic-wrist', kind: 'infection', structure: 'wrist joint', level: 'infection', prior: 0.25, losses: { ECRL: 0.4, ECRB: 0.4, FCR: 0.4, FCU: 0.3 }, signs: { 'hot@wrist': 0.9, 'erythema@wrist': 0.7, 'swelling@wrist': 0.95, 'movement.pain@wrist': 0.95, 'effusion@wrist.joint': 0.8, 'pain@power': 0.8 }, source: 'BSR/BOA hot swollen joint guideline 2006 [memory]' }),
  state({ id: 'inflammatory-arthritis', kind: 'joint', structure: 'small joints of the hand', level: 'inflammatory arthritis', prior: 1.2, losses: { ADP: 0.2, FDP3: 0.2, FDS3: 0.2 }, signs: { 'mcp.squeeze@MCPs': 0.75, ...each(['swelling', 'tenderness'], ['MCPs', 'PIPs', 'knuckles'], 0.7), 'ulnar.drift@fingers': 0.3, 'swan-neck@fingers': 0.2, 'boutonniere@fingers': 0.2, 'swelling@wrist': 0.6 }, source: 'Common practice, no source' }),
  state({ id: 'osteoarthritis', kind: 'joint', structure: 'finger joints', level: 'osteoarthritis', prior: 1.2, signs: { 'nodes.heberden@DIPs': 0.75, 'nodes.bouchard@PIPs': 0.5, 'squaring@D1.CMC': 0.4, ...each(['passive.range', 'range', 'tenderness'], ['DIPs', 'PIPs'], 0.5) }, source: 'Common practice, no source' }),
  state({ id: 'palmar-fascia', kind: 'soft tissue', structure: 'palmar fascia', level: 'thickening', prior: 1.5, signs: { 'palmar.thickening@palmar.fascia': 0.9, 'cord@palmar.fascia': 0.85, 'nodule@palm': 0.7, 'palmar.thickening@palm': 0.9, 'cord@palm': 0.8, ...each(['passive.range', 'range'], ['D4', 'D5', 'D4.PIP', 'D5.PIP', 'D4.MCP', 'D5.MCP'], 0.5) }, source: 'Common practice, no source' }),
  state({ id: 'palm-infection', kind: 'infection', structure: 'deep palmar space', level: 'infection', prior: 0.3, losses: { FDP3: 0.4, FDP4: 0.4 }, signs: { 'palm.hollow.lost@palm': 0.8, 'swelling@palm': 0.8, 'swelling@hand.dorsum': 0.8, 'swelling@hand': 0.8, 'tenderness@palm': 0.9, 'hot@palm': 0.7, 'erythema@palm': 0.7, 'hot@hand': 0.6, 'pain@power': 0.7, 'wound@palm': 0.4 }, source: "Green's 2022 [memory]" }),
  state({ id: 'cellulitis', kind: 'infection', structure: 'skin of the hand', level: 'spreading infection', prior: 0.6, signs: { ...each(['erythema', 'hot', 'swelling'], ['hand', 'hand.dorsum', 'forearm'], 0.7), 'pain@hand': 0.7, 'wound@hand': 0.4, 'wound@hand.dorsum': 0.3 }, source: 'Common practice, no source' }),
  state({ id: 'necrotising', kind: 'infection', structure: 'deep fascia', level: 'necrotising infection', prior: 0.06, losses: { DR: 0.4, DU: 0.4, FL: 0.3, FM: 0.3 }, signs: { ...each(['blister'], ['hand', 'forearm'], 0.252), ...each(['crepitus'], ['hand', 'forearm'], 0.3), 'pain.disproportionate@hand': 0.8, 'pain.disproportionate@forearm': 0.8, ...each(['erythema', 'swelling', 'hot'], ['hand', 'forearm'], 0.85) }, source: 'blisters 0.252, Fernando 2019 [checked]; the rest a design choice' }),
  state({ id: 'compartment.forearm', kind: 'compartment', structure: 'flexor compartment of the forearm', level: 'raised pressure', prior: 0.3, place: 'forearm', losses: { FDP2: 0.6, FDP3: 0.6, FDP4: 0.6, FDP5: 0.6, FPL: 0.6, FDS2: 0.5, FDS3: 0.5, FDS4: 0.5, FDS5: 0.5, FCR: 0.4, PQ: 0.5, D1u: 0.5, D2r: 0.5, D2u: 0.5, D3r: 0.5, D3u: 0.5, D4r: 0.5, D4u: 0.35, D5r: 0.35, D5u: 0.35 }, signs: {
    // Ulmer 2002: each finding is rarely positive (0.13-0.19) and rarely false [checked, leg data]; firmness and stretch pain weighted higher as the cardinal findings of BOAST 2016
    ...each(['tense'], ['forearm', 'flexor.forearm', 'forearm.volar'], 0.75), ...each(['passive.stretch.pain'], ['fingers', 'hand', 'forearm'], 0.75), ...each(['pain.disproportionate'], ['forearm', 'hand'], 0.75), 'swelling@forearm': 0.8, 'tingling@hand': 0.6, 'pulse@radial.artery': 0.1, 'pain@power': 0.7 }, source: 'BOAST 2016 [checked, via secondary]; Ulmer 2002 [checked]' }),
  state({ id: 'compartment.hand', kind: 'compartment', structure: 'compartments of the hand', level: 'raised pressure', prior: 0.2, place: 'palm', losses: { DI1: 0.6, DI2: 0.6, DI3: 0.6, DI4: 0.6, ADP: 0.6, APB: 0.4, ADM: 0.4, LUM3: 0.4, LUM4: 0.4 }, signs: { ...each(['tense'], ['hand', 'hand.dorsum', 'palm', 'interossei'], 0.75), 'swelling@hand': 0.9, ...each(['pain.disproportionate'], ['hand'], 0.75), 'passive.stretch.pain@fingers': 0.7, 'crush@hand': 0.5, 'pain@power': 0.7 }, source: 'BOAST 2016 [checked, via secondary]' }),
  state({ id: 'ischaemia.hand', kind: 'vessel', structure: 'blood supply of the hand', level: 'brachial artery or both wrist arteries', prior: 0.3, place: 'arm', losses: { D1u: 0.4, D2r: 0.4, D2u: 0.4, D3r: 0.4, D3u: 0.4, D4r: 0.4, D4u: 0.4, D5r: 0.4, D5u: 0.4, DR: 0.4, DU: 0.4, DI1: 0.3, APB: 0.3, ADM: 0.3, FDP2: 0.2, FDP5: 0.2 }, signs: { ...each(['pulse'], ['radial.artery', 'ulnar.artery'], 0.9), 'pulse@brachial.artery': 0.5, ...each(['refill', 'perfusion', 'pale', 'cold'], ['hand', ...DIGITS], 0.85), 'cold@fingers': 0.8 }, source: 'BOAST arterial injuries [memory]' }),
  state({ id: 'artery.radial', kind: 'vessel', structure: 'radial artery', level: 'at the wrist', prior: 0.5, place: 'wrist.volar', pairs: true, signs: { 'pulse@radial.artery': 0.92, 'allen@hand': 0.76, 'wound@wrist': 0.6, 'refill@D1': 0.2 }, source: 'Allen 0.758 at 5 s, Jarvis 2000 [checked]' }),
  state({ id: 'artery.ulnar', kind: 'vessel', structure: 'ulnar artery', level: 'at the wrist or hypothenar palm', prior: 0.5, place: 'wrist.volar', pairs: true, signs: { 'pulse@ulnar.artery': 0.92, 'allen@hand': 0.76, 'wound@wrist': 0.45, 'refill@D5': 0.3, 'refill@D4': 0.3, 'tenderness@hypothenar': 0.3 }, source: 'Allen 0.758 at 5 s, Jarvis 2000 [checked]' }),
];
