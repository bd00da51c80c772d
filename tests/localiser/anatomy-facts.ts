/**
 * Outside facts about the nerves of the arm and hand, one claim each, for checking the anatomy that the localiser
 * computes with. They were written from published tables without sight of it. Each carries its source and whether it
 * was compared with that source ("checked") or written from memory of it.
 *
 * How to check a graph against each kind:
 * - innervation: the muscle hangs on that nerve or on a branch of it. `shared`: it also has another supply.
 * - root: every root listed by the graph is in `roots` or `alsoListed`; `main` (where given) has the largest share.
 * - branch order: along `nerve`, everything in `first` leaves it (or the branch that leads there leaves it) nearer the
 *   spine than everything in `then`.
 * - skin: the area belongs to that nerve or to a branch of it. `shared`: neighbours overlap there.
 * - dermatome: the root reaches the area.
 * - level: a complete lesion at that row of the level tables (row names as in worked-cases/case.ts) takes every site in
 *   `lost` and none in `spared`. Sites in `variable` decide nothing.
 */
import { SITES, type Muscle, type SiteCode, type SkinArea } from '../../src/vocabulary';
import type { Structure } from './worked-cases/case';

export type FactTag = 'checked' | 'from memory';

/** Nerves named here, by plain abbreviations of their standard names. */
export const NERVE_NAMES = {
  MN: 'median nerve', AIN: 'anterior interosseous nerve', RMB: 'recurrent motor branch of the median nerve', PCBM: 'palmar cutaneous branch of the median nerve',
  UN: 'ulnar nerve', DBU: 'deep branch of the ulnar nerve', SBU: 'superficial branch of the ulnar nerve', DCU: 'dorsal cutaneous branch of the ulnar nerve', PCU: 'palmar cutaneous branch of the ulnar nerve',
  RN: 'radial nerve', PIN: 'posterior interosseous nerve', SRN: 'superficial radial nerve', PCNF: 'posterior cutaneous nerve of the forearm', PCNA: 'posterior cutaneous nerve of the arm', LLCA: 'lower lateral cutaneous nerve of the arm',
  MCN: 'musculocutaneous nerve', LABC: 'lateral cutaneous nerve of the forearm', MABC: 'medial cutaneous nerve of the forearm', MCA: 'medial cutaneous nerve of the arm',
} as const;
export type NerveCode = keyof typeof NERVE_NAMES;
export type RootCode = 'C5' | 'C6' | 'C7' | 'C8' | 'T1' | 'T2';

interface Base { readonly id: string; readonly statement: string; readonly source: string; readonly tag: FactTag }
export interface InnervationFact extends Base { readonly kind: 'innervation'; readonly muscle: Muscle; readonly nerve: NerveCode; readonly shared?: true }
export interface RootFact extends Base { readonly kind: 'root'; readonly muscle: Muscle; readonly roots: readonly RootCode[]; readonly alsoListed: readonly RootCode[]; readonly main?: RootCode }
export interface OrderFact extends Base { readonly kind: 'branch order'; readonly nerve: NerveCode; readonly first: readonly (SiteCode | NerveCode)[]; readonly then: readonly (SiteCode | NerveCode)[] }
export interface SkinFact extends Base { readonly kind: 'skin'; readonly area: SkinArea; readonly nerve: NerveCode; readonly shared?: true }
export interface DermatomeFact extends Base { readonly kind: 'dermatome'; readonly area: SkinArea; readonly root: RootCode }
export interface LevelFact extends Base { readonly kind: 'level'; readonly level: Structure; readonly lost: readonly SiteCode[]; readonly spared: readonly SiteCode[]; readonly variable: readonly SiteCode[] }
export type AnatomyFact = InnervationFact | RootFact | OrderFact | SkinFact | DermatomeFact | LevelFact;

const AIDS = "O'Brien M. Aids to the Examination of the Peripheral Nervous System, 5th ed. 2010";
const GRAY = "Gray's Anatomy, 2020";
const GRAY_DEEP = "Gray's Anatomy, 2005 ed., as quoted on a secondary page (supply of the deep ulnar branch)";
const KENDALL = 'Kendall FP et al. Muscles: Testing and Function, 5th ed. 2005';
const TABLES = `Preston DC, Shapiro BE 2013; Stewart JD 2010; ${AIDS}`;
const PLEXUS = 'Preston DC, Shapiro BE 2013, radiculopathy and plexus chapters; Kendall FP et al. 2005';

type Provenance = readonly [source: string, tag: FactTag];
const aids: Provenance = [AIDS, 'from memory'];
const gray: Provenance = [GRAY, 'from memory'];
const tables: Provenance = [TABLES, 'from memory'];
const plexus: Provenance = [PLEXUS, 'from memory'];

const label = (code: SiteCode | NerveCode): string => (code in NERVE_NAMES ? NERVE_NAMES[code as NerveCode] : SITES[code as SiteCode].name);
const list = (codes: readonly (SiteCode | NerveCode)[]): string => codes.map(label).join(', ');

const supply = (nerve: NerveCode, muscles: readonly Muscle[], [source, tag]: Provenance = aids, shared?: true): InnervationFact[] =>
  muscles.map((muscle) => ({ id: `INN-${muscle}-${nerve}`, kind: 'innervation', muscle, nerve, ...(shared ? { shared } : {}), source, tag,
    statement: `${label(muscle)} is supplied ${shared ? 'in part ' : ''}by the ${NERVE_NAMES[nerve]}` }));

/** `roots` as in the Aids; `alsoListed` = further roots in Preston & Shapiro, Kendall or Wheeless. */
const roots = (muscles: readonly Muscle[], listed: string, also = '', main?: RootCode, [source, tag]: Provenance = [`${AIDS}; others ${PLEXUS} and Wheeless`, 'from memory']): RootFact[] => {
  const split = (text: string): RootCode[] => (text ? text.split(' ') as RootCode[] : []);
  return muscles.map((muscle) => ({ id: `ROOT-${muscle}`, kind: 'root', muscle, roots: split(listed), alsoListed: split(also), ...(main ? { main } : {}), source, tag,
    statement: `${label(muscle)} has fibres from ${listed}${main ? `, mainly ${main}` : ''}${also ? ` (also listed: ${also})` : ''}` }));
};

const order = (id: string, nerve: NerveCode, first: OrderFact['first'], then: OrderFact['then'], source: string, tag: FactTag): OrderFact =>
  ({ id, kind: 'branch order', nerve, first, then, source, tag, statement: `Along the ${NERVE_NAMES[nerve]}: ${list(first)} leave before ${list(then)}` });

const skin = (nerve: NerveCode, areas: readonly SkinArea[], [source, tag]: Provenance = aids, shared?: true): SkinFact[] =>
  areas.map((area) => ({ id: `SKIN-${area}-${nerve}`, kind: 'skin', area, nerve, ...(shared ? { shared } : {}), source, tag, statement: `The ${label(area)} is skin of the ${NERVE_NAMES[nerve]}` }));

const dermatome = (root: RootCode, area: SkinArea, [source, tag]: Provenance): DermatomeFact =>
  ({ id: `DERM-${root}-${area}`, kind: 'dermatome', area, root, source, tag, statement: `${root} reaches the ${label(area)}` });

const level = (row: Structure, lost: readonly SiteCode[], spared: readonly SiteCode[], variable: readonly SiteCode[] = [], [source, tag]: Provenance = tables): LevelFact =>
  ({ id: `LEVEL-${row}`, kind: 'level', level: row, lost, spared, variable, source, tag, statement: `${row}: takes ${list(lost)}; spares ${list(spared)}` });

const INNERVATION: readonly AnatomyFact[] = [
  ...supply('RN', ['TRI', 'BR', 'ECRL']), ...supply('RN', ['ECRB'], ['Branovacki G et al. J Hand Surg Br 1998;23:167 (from the posterior interosseous nerve 45 %, the superficial radial 25 %, the division 30 %)', 'checked']),
  ...supply('PIN', ['SUP', 'ED', 'ECU', 'APL', 'EPB', 'EPL']), ...supply('PIN', ['EDM'], [`${AIDS}; ${KENDALL}`, 'from memory']), ...supply('PIN', ['EIP'], ['Abrams RA et al. J Hand Surg Am 1997;22:232 (last motor branch)', 'checked']),
  ...supply('MCN', ['BIC']),
  ...supply('MN', ['PT', 'FCR', 'FDS2', 'FDS3', 'FDS4', 'FDS5']), ...supply('MN', ['PL'], [KENDALL, 'from memory']), ...supply('MN', ['LUM1', 'LUM2']),
  ...supply('AIN', ['FPL', 'FDP2', 'PQ'], ['Hill NA et al. J Hand Surg Am 1985;10:4 (the nerve paralyses these muscles)', 'checked']),
  ...supply('AIN', ['FDP3'], [`${AIDS}; Preston DC, Shapiro BE 2013`, 'from memory'], true), ...supply('UN', ['FDP3'], [`${AIDS}; Preston DC, Shapiro BE 2013`, 'from memory'], true),
  ...supply('RMB', ['APB', 'OP']), ...supply('RMB', ['FPB'], aids, true), ...supply('DBU', ['FPB'], [GRAY_DEEP, 'checked'], true),
  ...supply('UN', ['FCU', 'FDP4', 'FDP5']),
  ...supply('DBU', ['ADM', 'FDM', 'ODM', 'DI1', 'DI2', 'DI3', 'DI4', 'PI1', 'PI2', 'PI3', 'ADP', 'LUM3', 'LUM4'], ['Preston DC, Shapiro BE, chapter on ulnar neuropathy at the wrist, as reproduced on musculoskeletalkey.com', 'checked']),
  ...supply('SBU', ['PB'], ['Preston DC, Shapiro BE, chapter on ulnar neuropathy at the wrist, as reproduced on musculoskeletalkey.com', 'checked']),
];

const ROOT_SHARES: readonly AnatomyFact[] = [
  ...roots(['TRI'], 'C6 C7 C8', 'T1', 'C7'), ...roots(['BIC'], 'C5 C6'), ...roots(['BR'], 'C5 C6', '', 'C6'),
  ...roots(['ECRL'], 'C5 C6', 'C7'), ...roots(['ECRB'], 'C5 C6', 'C7 C8'), ...roots(['SUP'], 'C6 C7', 'C5'),
  ...roots(['ED'], 'C7 C8', 'C6', 'C7'), ...roots(['EDM', 'ECU', 'EPL'], 'C7 C8', 'C6'), ...roots(['APL', 'EPB'], 'C7 C8'), ...roots(['EIP'], 'C7 C8', 'C6', 'C8'),
  ...roots(['PT', 'FCR'], 'C6 C7'), ...roots(['PL'], 'C7 C8', 'C6 T1', undefined, [`Preston DC, Shapiro BE 2013; ${KENDALL}`, 'from memory']),
  ...roots(['FDS2', 'FDS3', 'FDS4', 'FDS5'], 'C7 C8 T1'), ...roots(['FPL'], 'C7 C8', 'C6 T1'), ...roots(['FDP2', 'FDP3', 'FDP4', 'FDP5', 'PQ'], 'C7 C8', 'T1'),
  ...roots(['APB'], 'C8 T1', '', 'T1'), ...roots(['OP'], 'C8 T1'), ...roots(['FPB'], 'C8 T1', 'C6 C7'), ...roots(['LUM1', 'LUM2'], 'C8 T1', 'C6 C7'), ...roots(['LUM3', 'LUM4'], 'C8 T1'),
  ...roots(['ADM', 'FDM', 'PB', 'DI1', 'DI2', 'DI3', 'DI4', 'PI1', 'PI2', 'PI3', 'ADP'], 'C8 T1'), ...roots(['ODM'], 'C8 T1', 'C7'), ...roots(['FCU'], 'C7 C8 T1'),
];

const RADIAL_ORDERS = 'Abrams RA 1997 (n = 20), Branovacki G 1998 (n = 60) and Sawyer FK 2020 (n = 35) agree';
const RIVEROS = 'Riveros A et al. Int J Morphol 2015 (30 limbs; the two commonest orders, 41 % and 29 %)';
const HAMATE = 'Hand (N Y) 2024, doi 10.1177/15589447241306151 (54 limbs, distances from the hook of the hamate)';
const ORDERS: readonly AnatomyFact[] = [
  order('ORD-M1', 'MN', ['PT'], ['FCR', 'PL', 'AIN'], RIVEROS, 'checked'),
  order('ORD-M2', 'MN', ['FCR', 'PL'], ['AIN'], RIVEROS, 'checked'),
  order('ORD-M3', 'MN', ['AIN'], ['PCBM'], "Taylor & Francis textbook chapter (leaves 2-8 cm below the medial epicondyle); Wheeless (PCBM 5-6 cm above the distal wrist crease)", 'checked'),
  order('ORD-M4', 'AIN', ['FDP2', 'FPL'], ['PQ'], 'Taylor & Francis textbook chapter on the anterior interosseous nerve (PQ is the end muscle)', 'checked'),
  order('ORD-M5', 'MN', ['PCBM'], ['RMB'], 'Wheeless; Henry BM et al. PLoS One 2015 (recurrent branch at the retinaculum, 3918 hands)', 'checked'),
  order('ORD-M6', 'MN', ['PCBM'], ['D1r', 'D1u', 'D2r', 'D2u', 'D3r', 'D3u', 'D4r', 'LUM1', 'LUM2'], "Wheeless; Gray's Anatomy 2020", 'from memory'),
  order('ORD-U1', 'UN', ['FCU', 'FDP4', 'FDP5'], ['PCU', 'DCU'], 'Tubbs RS et al. J Neurosurg 2006 (FCU and FDP branches within about 5 cm of the medial epicondyle, 20 limbs); Botte MJ 1990', 'checked'),
  order('ORD-U2', 'UN', ['PCU'], ['DCU'], 'Muscle Nerve 2018;57:569 (11.9 cm and 7.0 cm above the pisiform, 60 forearms)', 'checked'),
  order('ORD-U3', 'UN', ['DCU'], ['SBU', 'DBU'], 'Botte MJ et al. J Hand Surg Am 1990;15:603 (8.3 cm above the pisiform); Muscle Nerve 2018;57:569 (division 0.9 cm below it)', 'checked'),
  order('ORD-U4', 'DBU', ['ADM'], ['FPB', 'DI1'], HAMATE, 'checked'),
  order('ORD-U5', 'DBU', ['FPB'], ['DI1'], HAMATE, 'checked'),
  order('ORD-U6', 'DBU', ['ADM', 'FDM', 'ODM'], ['LUM3', 'LUM4', 'PI1', 'PI2', 'PI3', 'DI2', 'DI3', 'DI4', 'ADP', 'DI1'], 'Preston DC, Shapiro BE, chapter on ulnar neuropathy at the wrist, as reproduced on musculoskeletalkey.com (hypothenar branches before the pisohamate hiatus)', 'checked'),
  order('ORD-U7', 'DBU', ['LUM4', 'PI3', 'DI4'], ['ADP', 'DI1'], `${GRAY_DEEP}; order from memory`, 'from memory'),
  order('ORD-U8', 'SBU', ['PB'], ['D5u', 'D5r', 'D4u'], GRAY, 'from memory'),
  order('ORD-R1', 'RN', ['TRI', 'PCNA'], ['BR'], `${GRAY}; Preston DC, Shapiro BE 2013`, 'from memory'),
  order('ORD-R2', 'RN', ['PCNF', 'LLCA'], ['BR', 'PIN'], `${GRAY}; Stewart JD 2010`, 'from memory'),
  order('ORD-R3', 'RN', ['BR', 'ECRL'], ['PIN', 'SRN'], RADIAL_ORDERS, 'checked'),
  order('ORD-R4', 'RN', ['BR'], ['ECRL'], RADIAL_ORDERS, 'checked'),
  order('ORD-R5', 'PIN', ['SUP'], ['ED', 'ECU', 'EDM', 'APL', 'EPL', 'EPB', 'EIP'], RADIAL_ORDERS, 'checked'),
  order('ORD-R6', 'PIN', ['ED', 'ECU'], ['EPL', 'EPB', 'EIP'], RADIAL_ORDERS, 'checked'),
  order('ORD-R7', 'PIN', ['APL', 'EPL', 'EPB'], ['EIP'], RADIAL_ORDERS, 'checked'),
];

const SKIN: readonly AnatomyFact[] = [
  ...skin('MN', ['D1r', 'D1u', 'D2r', 'D2u', 'D3r', 'D3u', 'D4r', 'D1.pulp', 'D2.pulp', 'D3.pulp']),
  ...skin('SBU', ['D4u', 'D5r', 'D5u', 'D5.pulp']),
  ...skin('PCBM', ['PTH'], ["Wheeless' Textbook; Washington University peripheral nerve teaching page", 'checked']),
  ...skin('SRN', ['DR'], ['Abrams RA et al. J Hand Surg Am 1992;17:1037', 'checked']), ...skin('SRN', ['D1.dorsum'], aids), ...skin('SRN', ['D2.dorsum', 'D3.dorsum'], aids, true),
  ...skin('DCU', ['DU', 'D5.dorsum'], ['Botte MJ et al. J Hand Surg Am 1990;15:603', 'checked']),
  ...skin('PCU', ['PHY'], ['Muscle Nerve 2018;57:569 (seen in 78 % of 60 forearms)', 'checked']),
  ...skin('PCNF', ['FP'], ['Stewart JD 2010', 'from memory']), ...skin('PCNA', ['AP'], ['Stewart JD 2010', 'from memory']), ...skin('LLCA', ['ALL'], gray),
  ...skin('LABC', ['FL']), ...skin('MABC', ['FM'], ['Preston DC, Shapiro BE 2013', 'from memory']), ...skin('MCA', ['AM'], gray),
];

const KEY_POINTS: Provenance = ['ISNSCSI key sensory points, American Spinal Injury Association, June 2008', 'checked'];
const DERMATOMES: readonly AnatomyFact[] = [
  dermatome('C6', 'D1.dorsum', KEY_POINTS), dermatome('C7', 'D3.dorsum', KEY_POINTS), dermatome('C8', 'D5.dorsum', KEY_POINTS),
  dermatome('C6', 'FL', plexus), dermatome('C6', 'D1.pulp', plexus), dermatome('C7', 'D3.pulp', plexus), dermatome('C8', 'D5.pulp', plexus), dermatome('C8', 'DU', plexus), dermatome('T1', 'FM', plexus), dermatome('T1', 'AM', plexus),
];

const FDS: readonly Muscle[] = ['FDS2', 'FDS3', 'FDS4', 'FDS5'];
const MEDIAN_DIGITS: readonly SkinArea[] = ['D1r', 'D1u', 'D2r', 'D2u', 'D3r', 'D3u', 'D4r'];
const ULNAR_DIGITS: readonly SkinArea[] = ['D5u', 'D5r', 'D4u'];
const SHORT: readonly Muscle[] = ['ED', 'ECU', 'EDM'];
const LONG: readonly Muscle[] = ['APL', 'EPL', 'EPB', 'EIP'];
const ROOT_MARKERS: readonly Muscle[] = ['BIC', 'TRI', 'BR', 'PT', 'FCR', 'ED', 'EIP', 'FPL', 'FDP5', 'APB', 'DI1'];
const markersBut = (...others: readonly Muscle[]): Muscle[] => ROOT_MARKERS.filter((muscle) => !others.includes(muscle));

const LEVELS: readonly LevelFact[] = [
  level('ML1', ['PT', 'FCR', ...FDS, 'FPL', 'FDP2', 'PQ', 'APB', 'OP', 'PTH', ...MEDIAN_DIGITS], ['FCU', 'FDP5', 'ADM', 'DI1', 'D5u', 'DU', 'DR']),
  level('ML2', ['FPL', 'FDP2', 'PQ', 'APB', 'OP', 'PTH', ...MEDIAN_DIGITS], ['PT', 'FCU', 'FDP5', 'DI1', 'D5u'], ['FCR', 'PL', ...FDS]),
  level('ML3', ['FPL', 'FDP2', 'PQ'], ['PT', 'FCR', ...FDS, 'APB', 'OP', 'PTH', ...MEDIAN_DIGITS], ['FDP3']),
  level('ML4', ['APB', 'OP', 'PTH', ...MEDIAN_DIGITS], ['PT', 'FCR', 'FPL', 'FDP2', 'PQ', 'D5u', 'DU'], FDS),
  level('ML5', ['APB', 'OP', ...MEDIAN_DIGITS], ['PT', 'FCR', ...FDS, 'FPL', 'FDP2', 'PQ', 'PTH', 'D5u', 'DU'], ['FPB'], ["Wheeless' Textbook and Washington University page for the spared thenar base; rest from memory of the works above", 'checked']),
  level('ML6', ['APB', 'OP'], ['PT', 'FCR', ...FDS, 'FPL', 'FDP2', 'PQ', 'PTH', ...MEDIAN_DIGITS, 'LUM1', 'LUM2'], ['FPB']),
  level('ML8', ['PTH'], ['PT', 'FCR', ...FDS, 'FPL', 'FDP2', 'PQ', 'APB', 'OP', ...MEDIAN_DIGITS]),
  level('UL1', ['FDP4', 'FDP5', 'ADM', 'DI1', 'ADP', 'PB', 'DU', 'PHY', ...ULNAR_DIGITS], ['FM', 'APB', 'FPL', 'FDP2', 'EIP', 'D2r', 'D4r'], ['FCU', 'FDP3']),
  level('UL2', ['ADM', 'DI1', 'ADP', 'PB', 'DU', ...ULNAR_DIGITS], ['FCU', 'FDP4', 'FDP5', 'FM', 'APB'], ['PHY']),
  level('UL3', ['ADM', 'DI1', 'ADP', 'PB', ...ULNAR_DIGITS], ['FCU', 'FDP4', 'FDP5', 'DU', 'FM', 'APB'], ['PHY']),
  level('UL4', ['ADM', 'DI1', 'ADP', 'PB', ...ULNAR_DIGITS], ['FCU', 'FDP4', 'FDP5', 'DU', 'PHY', 'FM', 'APB'], [], ['Gross MS, Gelberman RH. Clin Orthop 1985;196:238, as quoted', 'checked']),
  level('UL5', ['ADM', 'DI1', 'ADP'], ['FCU', 'FDP4', 'FDP5', 'PB', 'DU', 'PHY', ...ULNAR_DIGITS, 'FM'], [], ['Gross MS, Gelberman RH. Clin Orthop 1985;196:238, as quoted', 'checked']),
  level('UL6', ['DI1', 'ADP'], ['FCU', 'FDP4', 'FDP5', 'ADM', 'FDM', 'ODM', 'PB', 'DU', 'PHY', ...ULNAR_DIGITS, 'FM'], [], ['Preston DC, Shapiro BE, chapter on ulnar neuropathy at the wrist, as reproduced on musculoskeletalkey.com', 'checked']),
  level('UL7', [...ULNAR_DIGITS], ['FCU', 'FDP4', 'FDP5', 'ADM', 'DI1', 'ADP', 'DU', 'FM'], ['PB', 'PHY'], ['Gross MS, Gelberman RH. Clin Orthop 1985;196:238, as quoted', 'checked']),
  level('UL8', ['DU', 'D5.dorsum'], ['FCU', 'FDP4', 'FDP5', 'ADM', 'DI1', 'ADP', 'PB', 'PHY', ...ULNAR_DIGITS, 'FM']),
  level('RL1', ['TRI', 'BR', 'ECRL', 'ECRB', 'SUP', ...SHORT, ...LONG, 'AP', 'FP', 'DR'], ['APB', 'DI1', 'FDP2', 'FCR', 'PT', 'D2r', 'D5u']),
  level('RL2', ['BR', 'ECRL', 'ECRB', 'SUP', ...SHORT, ...LONG, 'DR'], ['TRI', 'AP', 'APB', 'FCR'], ['FP']),
  level('RL3', ['SUP', ...SHORT, ...LONG, 'DR'], ['TRI', 'BR', 'ECRL', 'AP', 'FP'], ['ECRB']),
  level('RL4', [...SHORT, ...LONG], ['TRI', 'BR', 'ECRL', 'AP', 'FP', 'DR'], ['ECRB', 'SUP']),
  level('RL5a', [...SHORT], ['TRI', 'BR', 'ECRL', 'ECRB', 'SUP', ...LONG, 'DR']),
  level('RL5b', [...LONG], ['TRI', 'BR', 'ECRL', 'ECRB', 'SUP', ...SHORT, 'DR']),
  level('RL6', ['DR'], ['TRI', 'BR', 'ECRL', 'ECRB', 'SUP', ...SHORT, ...LONG, 'AP', 'FP']),
  level('RT6', ['BIC', 'BR', 'PT', 'D1.pulp'], markersBut('BIC', 'BR', 'PT', 'TRI', 'FCR'), ['TRI', 'FCR'], plexus),
  level('RT7', ['TRI', 'FCR', 'ED', 'D3.pulp'], markersBut('TRI', 'FCR', 'ED', 'PT', 'EIP'), ['PT', 'EIP'], plexus),
  level('RT8', ['EIP', 'FPL', 'FDP5', 'DI1', 'D5.pulp', 'DU'], markersBut('EIP', 'FPL', 'FDP5', 'DI1', 'TRI', 'ED', 'APB'), ['TRI', 'ED', 'APB'], plexus),
  level('RT1', ['APB', 'DI1', 'FM', 'AM'], markersBut('APB', 'DI1', 'FPL', 'FDP5'), ['FPL', 'FDP5'], plexus),
  level('LT', ['FPL', 'FDP5', 'APB', 'DI1', 'D5.pulp', 'DU', 'FM'], ['BIC', 'BR', 'PT', 'FCR', 'D2r'], ['TRI', 'ED', 'EIP'], plexus),
  level('MCd', ['FPL', 'FDP5', 'APB', 'DI1', 'D5.pulp', 'DU', 'FM'], ['BIC', 'TRI', 'BR', 'PT', 'FCR', 'ED', 'EIP', 'D2r'], [], plexus),
];

export const ANATOMY_FACTS: readonly AnatomyFact[] = [...INNERVATION, ...ROOT_SHARES, ...ORDERS, ...SKIN, ...DERMATOMES, ...LEVELS];
