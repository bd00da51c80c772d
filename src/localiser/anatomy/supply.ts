import type { Muscle } from '../../vocabulary';
import type { Root, SegmentId } from './nerves';

/** One way a structure may be supplied, with how often. */
export interface Branch { readonly from: SegmentId; readonly share: number }

/**
 * What a nerve ends in. `from`: the last segment its fibres run through; several entries are alternatives seen in
 * different people (shares add up to 1). `roots`: the part of the supply that each root carries (adds up to 1).
 */
export interface Supply {
  readonly from: readonly Branch[];
  /** True: the alternatives are joint supply in one person, not different people. */
  readonly joint?: true;
  readonly roots: Readonly<Partial<Record<Root, number>>>;
  /** Chance that a lesion at these places spares it although it leaves beyond (its fascicles lie apart). */
  readonly spared?: Readonly<Partial<Record<SegmentId, number>>>;
  readonly source: string;
}

/** Motor atoms are the muscles, with extensor digitorum split by the finger it moves. */
export type MotorAtom = Exclude<Muscle, 'ED'> | 'ED2' | 'ED3' | 'ED4' | 'ED5';
export type SkinAtom =
  | 'D1r' | 'D1u' | 'D2r' | 'D2u' | 'D3r' | 'D3u' | 'D4r' | 'D4u' | 'D5r' | 'D5u'
  | 'D1.dorsum' | 'D2.dorsum' | 'D3.dorsum' | 'D4.dorsum' | 'D5.dorsum'
  | 'PTH' | 'PHY' | 'DR' | 'DU' | 'FL' | 'FM' | 'FP' | 'AP' | 'ALL' | 'AM';
export type NeuralAtom = MotorAtom | SkinAtom;

const AIDS = "O'Brien 2010 [memory]";
const one = (from: SegmentId): readonly Branch[] => [{ from, share: 1 }];
const supply = (from: SegmentId | readonly Branch[], roots: Supply['roots'], source: string, more: Partial<Supply> = {}): Supply =>
  ({ from: typeof from === 'string' ? one(from) : from, roots, source, ...more });

/*
 * Root shares are a design choice made from published root lists: the root printed in capitals or as "main" gets the largest
 * part, an added root of the second text a small one. The lists themselves: O'Brien 2010; Preston & Shapiro 2013;
 * Kendall 2005 [memory]; Wheeless, C8 level page [checked].
 */
const extensor = (c7: number): Supply['roots'] => ({ C7: c7, C8: 1 - c7 });
const intrinsic: Supply['roots'] = { C8: 0.5, T1: 0.5 };
const deep = (source: string): Supply => supply('ulnar.deep-distal', intrinsic, source);
const VARY = "supply of the middle lumbricals varies, Gray's 2020 [memory]; percentages not found: the shares are a design choice";
const FDS = (index: boolean): Supply => supply(
  [{ from: 'median.pronator', share: index ? 0.7 : 0.85 }, { from: 'median.forearm', share: index ? 0.3 : 0.15 }],
  { C7: 0.25, C8: 0.5, T1: 0.25 }, `${AIDS}; index belly supplied most distally, Gray's 2020 [memory]; branch before AIN in 15 %, Riveros 2015 [checked]`);

export const MOTOR_SUPPLY: Readonly<Record<MotorAtom, Supply>> = {
  TRI: supply('radial.axilla', { C6: 0.15, C7: 0.6, C8: 0.25 }, `main C7: ${AIDS}`),
  BIC: supply('musculocutaneous.arm', { C5: 0.45, C6: 0.55 }, AIDS),
  BR: supply('radial.groove', { C5: 0.3, C6: 0.7 }, `main C6: ${AIDS}; leaves above the PIN, Abrams 1997 [checked]`),
  ECRL: supply('radial.groove', { C5: 0.1, C6: 0.6, C7: 0.3 }, `${AIDS}; Abrams 1997 [checked]`),
  ECRB: supply([{ from: 'radial.pin-origin', share: 0.3 }, { from: 'radial.posterior-interosseous', share: 0.15 }, { from: 'radial.superficial-origin', share: 0.25 }, { from: 'radial.elbow', share: 0.3 }],
    { C6: 0.5, C7: 0.4, C8: 0.1 }, 'PIN 45 %, SRN 25 %, at the division 30 %, Branovacki 1998 [checked]; how much of the PIN share leaves above the arcade is a design choice'),
  SUP: supply([{ from: 'radial.pin-origin', share: 0.4 }, { from: 'radial.posterior-interosseous', share: 0.6 }], { C5: 0.1, C6: 0.55, C7: 0.35 }, `branches before and within the muscle, Branovacki 1998 [checked]; roots ${AIDS}`),
  ED2: supply('radial.pin-short', extensor(0.7), `main C7: ${AIDS}`), ED3: supply('radial.pin-short', extensor(0.7), `main C7: ${AIDS}`),
  ED4: supply('radial.pin-short', extensor(0.7), `main C7: ${AIDS}`), ED5: supply('radial.pin-short', extensor(0.7), `main C7: ${AIDS}`),
  EDM: supply('radial.pin-short', extensor(0.6), AIDS), ECU: supply('radial.pin-short', extensor(0.6), AIDS),
  APL: supply('radial.pin-long', extensor(0.55), AIDS), EPB: supply('radial.pin-long', extensor(0.5), AIDS), EPL: supply('radial.pin-long', extensor(0.5), AIDS),
  EIP: supply('radial.pin-long', extensor(0.3), `main C8: ${AIDS}; last branch, Abrams 1997 [checked]`),
  PT: supply('median.elbow', { C6: 0.6, C7: 0.4 }, AIDS),
  FCR: supply([{ from: 'median.elbow', share: 0.35 }, { from: 'median.pronator', share: 0.65 }], { C6: 0.35, C7: 0.65 }, `${AIDS}; order Riveros 2015 [checked]`),
  PL: supply([{ from: 'median.elbow', share: 0.35 }, { from: 'median.pronator', share: 0.65 }], { C7: 0.5, C8: 0.5 }, 'Kendall 2005 [memory]'),
  FDS2: FDS(true), FDS3: FDS(false), FDS4: FDS(false), FDS5: FDS(false),
  FPL: supply('median.fascicle-FPL', { C7: 0.1, C8: 0.7, T1: 0.2 }, AIDS),
  FDP2: supply('median.fascicle-FDP2', { C7: 0.1, C8: 0.7, T1: 0.2 }, AIDS),
  FDP3: supply([{ from: 'median.anterior-interosseous', share: 0.7 }, { from: 'ulnar.elbow', share: 0.3 }], { C7: 0.1, C8: 0.7, T1: 0.2 }, 'often shared, Preston & Shapiro 2013 [memory]; percentages not found: shares are a design choice', { joint: true }),
  FDP4: supply('ulnar.elbow', { C8: 0.65, T1: 0.35 }, 'Preston & Shapiro 2013 [memory]; Tubbs 2006 [checked]'),
  FDP5: supply('ulnar.elbow', { C8: 0.65, T1: 0.35 }, 'Preston & Shapiro 2013 [memory]; Tubbs 2006 [checked]'),
  PQ: supply('median.anterior-interosseous', { C7: 0.1, C8: 0.7, T1: 0.2 }, 'end muscle of the AIN, textbook chapter [checked]'),
  APB: supply('median.recurrent', { C8: 0.35, T1: 0.65 }, `main T1: ${AIDS}`),
  OP: supply('median.recurrent', { C8: 0.4, T1: 0.6 }, AIDS),
  FPB: supply([{ from: 'median.recurrent', share: 0.5 }, { from: 'ulnar.deep-distal', share: 0.5 }], intrinsic, `median, ulnar or both, ${AIDS}; percentages not found: even shares are a design choice`),
  LUM1: supply('digital.D2r', intrinsic, "with the proper digital nerve, Gray's 2020 [memory]"),
  LUM2: supply([{ from: 'common-digital.web2', share: 0.9 }, { from: 'ulnar.deep-distal', share: 0.1 }], intrinsic, `as a rule median, ${VARY}`),
  LUM3: supply([{ from: 'ulnar.deep-distal', share: 0.8 }, { from: 'common-digital.web3', share: 0.2 }], intrinsic, `ulnar, Gray's 2005 [checked, via secondary]; at times median, ${VARY}`),
  LUM4: deep("Gray's 2005 [checked, via secondary]"),
  ADM: supply('ulnar.deep', intrinsic, 'first branch of the deep branch, Hand (N Y) 2024 [checked]'), FDM: supply('ulnar.deep', intrinsic, AIDS), ODM: supply('ulnar.deep', intrinsic, AIDS),
  DI1: deep('terminal, Hand (N Y) 2024 [checked]'), DI2: deep(AIDS), DI3: deep(AIDS), DI4: deep(AIDS), PI1: deep(AIDS), PI2: deep(AIDS), PI3: deep(AIDS), ADP: deep(AIDS),
  PB: supply('ulnar.superficial', intrinsic, "Gray's 2020 [memory]", { spared: { 'ulnar.superficial': 0.3 } }),
  FCU: supply('ulnar.elbow', { C7: 0.1, C8: 0.6, T1: 0.3 }, 'Preston & Shapiro 2013; often spared at the elbow, Stewart 2010 [memory]; how often was not found: the figure is a design choice', { spared: { 'ulnar.elbow': 0.5 } }),
};

const digital = (side: SegmentId, roots: Supply['roots'], source = "O'Brien 2010; Gray's 2020 [memory]"): Supply => supply(side, roots, source);
const C6: Supply['roots'] = { C6: 1 };
const C8: Supply['roots'] = { C8: 1 };
const blur = 'sensory branch across the palm in 60.9 % (36.9-82.6), Roy 2016 [checked]: borders blur; the shares are a design choice';

export const SKIN_SUPPLY: Readonly<Record<SkinAtom, Supply>> = {
  D1r: digital('digital.D1r', C6), D1u: digital('digital.D1u', C6),
  D2r: digital('digital.D2r', { C6: 0.4, C7: 0.6 }), D2u: digital('digital.D2u', { C6: 0.2, C7: 0.8 }),
  D3r: digital('digital.D3r', { C7: 1 }), D3u: supply([{ from: 'digital.D3u', share: 0.95 }, { from: 'ulnar.superficial', share: 0.05 }], { C7: 1 }, blur),
  D4r: supply([{ from: 'digital.D4r', share: 0.85 }, { from: 'ulnar.superficial', share: 0.15 }], { C7: 0.4, C8: 0.6 }, blur),
  D4u: supply([{ from: 'digital.D4u', share: 0.95 }, { from: 'median.palm', share: 0.05 }], C8, blur), D5r: digital('digital.D5r', C8), D5u: digital('digital.D5u', C8),
  // backs of the fingers: base from the dorsal nerves, tip from the digital nerves (O'Brien 2010 maps [memory])
  'D1.dorsum': supply('radial.superficial', C6, "O'Brien 2010 [memory]; C6 key point, ISNSCSI 2008 [checked]"),
  'D2.dorsum': supply([{ from: 'radial.superficial', share: 0.6 }, { from: 'digital.D2r', share: 0.2 }, { from: 'digital.D2u', share: 0.2 }], { C6: 0.3, C7: 0.7 }, "O'Brien 2010 [memory]", { joint: true }),
  'D3.dorsum': supply([{ from: 'radial.superficial', share: 0.5 }, { from: 'digital.D3r', share: 0.25 }, { from: 'digital.D3u', share: 0.25 }], { C7: 1 }, 'C7 key point, ISNSCSI 2008 [checked]', { joint: true }),
  'D4.dorsum': supply([{ from: 'ulnar.dorsal-cutaneous', share: 0.6 }, { from: 'digital.D4r', share: 0.2 }, { from: 'radial.superficial', share: 0.2 }], { C7: 0.3, C8: 0.7 }, "O'Brien 2010 [memory]", { joint: true }),
  'D5.dorsum': supply('ulnar.dorsal-cutaneous', C8, 'Botte 1990 [checked]; C8 key point, ISNSCSI 2008 [checked]'),
  PTH: supply([{ from: 'median.palmar-cutaneous', share: 0.95 }, { from: 'lateral-cutaneous.forearm', share: 0.05 }], { C6: 0.7, C7: 0.3 }, 'Wheeless [checked]; lateral cutaneous nerve can reach it, O\'Brien 2010 [memory]'),
  PHY: supply([{ from: 'ulnar.palmar-cutaneous', share: 0.78 }, { from: 'ulnar.wrist', share: 0.15 }, { from: 'ulnar.superficial', share: 0.07 }], C8, 'palmar cutaneous branch seen in 78 %, Muscle Nerve 2018;57:569 [checked]; what serves in the others is a design choice'),
  DR: supply('radial.superficial', { C6: 0.8, C7: 0.2 }, 'Abrams 1992 [checked]'),
  DU: supply('ulnar.dorsal-cutaneous', C8, 'Botte 1990 [checked]; elbow lesions can spare its fascicles, Stewart 2010 [memory]: how often is a design choice', { spared: { 'ulnar.elbow': 0.12 } }),
  FL: supply('lateral-cutaneous.forearm', { C5: 0.2, C6: 0.8 }, "O'Brien 2010 [memory]"),
  FM: supply('medial-cutaneous.forearm', { C8: 0.2, T1: 0.8 }, 'Preston & Shapiro 2013 [memory]; T1 key point, ISNSCSI 2008 [checked]'),
  FP: supply([{ from: 'radial.axilla', share: 0.5 }, { from: 'radial.groove', share: 0.5 }], { C6: 0.25, C7: 0.5, C8: 0.25 }, 'above or in the groove: sources differ, Stewart 2010 [memory]'),
  AP: supply('radial.axilla', { C5: 0.2, C6: 0.2, C7: 0.3, C8: 0.3 }, 'Stewart 2010 [memory]'),
  ALL: supply('radial.axilla', { C5: 0.6, C6: 0.4 }, "Gray's 2020 [memory]"),
  AM: supply('medial-cutaneous.arm', { T1: 1 }, "Gray's 2020 [memory]"),
};

export const SUPPLY: Readonly<Record<NeuralAtom, Supply>> = { ...MOTOR_SUPPLY, ...SKIN_SUPPLY };
export const MOTOR_ATOMS = Object.keys(MOTOR_SUPPLY) as readonly MotorAtom[];
export const SKIN_ATOMS = Object.keys(SKIN_SUPPLY) as readonly SkinAtom[];
export const NEURAL_ATOMS = Object.keys(SUPPLY) as readonly NeuralAtom[];
export const isMotor = (atom: string): atom is MotorAtom => Object.hasOwn(MOTOR_SUPPLY, atom);
