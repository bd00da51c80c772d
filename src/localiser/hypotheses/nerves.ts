import { VARIANT_IDS, deficitOf } from '../anatomy/deficit';
import type { Band, NerveSite, Root, SegmentId } from '../anatomy/nerves';
import { ROOTS, SEGMENTS, SEGMENT_IDS, lineOf } from '../anatomy/nerves';
import type { Atom, UnitId } from '../observation/units';
import { TINEL_STAGES, tinelUnit } from '../observation/units';
import type { BySeverity, Hypothesis } from './hypothesis';
import { always, woundAt } from './hypothesis';

/** Compression: mild or partial as a rule. Injury: complete as a rule. Design choices. */
const COMPRESSED: BySeverity = [0.4, 0.38, 0.04, 0.18];
const INJURED: BySeverity = [0.12, 0.25, 0.08, 0.55];
const FASCICLE: BySeverity = [0.08, 0.27, 0, 0.65];
const ROOT_LESION: BySeverity = [0.3, 0.46, 0.06, 0.18];

interface Tunnel { readonly prior: number; readonly severity?: BySeverity; /** Cut about as often as compressed. */ readonly exposed?: true; readonly signs: Readonly<Record<UnitId, BySeverity>>; readonly source: string }

/**
 * Places where nerves are compressed, with the sensitivity of their provocative tests. Where studies disagree the figure lies
 * between them and both are named. False-positive rates: SIGN_BASE.
 */
const TUNNELS: Partial<Record<SegmentId, Tunnel>> = {
  'median.carpal-tunnel': {
    prior: 16,
    signs: {
      'phalen@wrist': always(0.57), // 0.57 (0.44-0.68), Dabbagh 2023 [checked]
      'phalen@carpal.tunnel': always(0.57), 'reverse.phalen@wrist': always(0.5),
      'tinel@carpal.tunnel': always(0.45), 'tinel@wrist': always(0.45), 'tinel@wrist.volar': always(0.45), // 0.45 (0.34-0.57), Dabbagh 2023 [checked]
      'carpal.compression@carpal.tunnel': always(0.64), // 0.87 Durkan 1991 [memory], 0.28 Kuhlman & Hennessey 1997 [checked]
      'flick@hand': always(0.75), // 0.93 Pryse-Phillips 1984 [memory], single study
      'night.symptoms@hand': [0.8, 0.85, 0.7, 0.6], // 0.96 Szabo 1999; LR+ 1.2, D'Arcy & McGee 2000 [checked]
      'tingling@hand': always(0.7), 'numbness@hand': always(0.7),
    },
    source: "Phalen, Tinel: Dabbagh 2023; compression: Durkan 1991, Kuhlman & Hennessey 1997, D'Arcy & McGee 2000",
  },
  'median.pronator': {
    prior: 2,
    signs: { 'pronator.provocation@pronator': always(0.7), 'tenderness@pronator': always(0.7), 'tinel@pronator': always(0.45), 'pain@forearm': always(0.7), 'phalen@wrist': always(0.2), 'night.symptoms@hand': always(0.15) },
    source: 'Stewart 2010 [memory]; sensitivities not found: a design choice',
  },
  'median.anterior-interosseous': { prior: 1.4, severity: [0.18, 0.35, 0.17, 0.3], signs: { 'pain@forearm': always(0.6), 'tenderness@pronator': always(0.3) }, source: 'Kiloh & Nevin 1952 [memory]' },
  'median.fascicle-FPL': { prior: 0.5, severity: FASCICLE, signs: { 'pain@forearm': always(0.5) }, source: 'how often is a design choice' },
  'median.fascicle-FDP2': { prior: 0.35, severity: FASCICLE, signs: { 'pain@forearm': always(0.5) }, source: 'how often is a design choice' },
  'ulnar.elbow': {
    prior: 8,
    signs: {
      'tinel@cubital.tunnel': always(0.66), // 0.70 Novak 1994, 0.62 Beekman 2009 [checked]
      'tinel@elbow': always(0.66), 'tinel@medial.epicondyle': always(0.66),
      'elbow.flexion.test@cubital.tunnel': always(0.6), // 0.75 at 60 s, 0.32 at 30 s, Novak 1994 [checked]
      'ulnar.pressure@cubital.tunnel': always(0.75), // 0.89 at 60 s, 0.55 at 30 s, Novak 1994 [checked]
      'scratch.collapse@cubital.tunnel': always(0.45), // 0.69 Cheng 2008 [checked, via secondary]; later studies much lower [memory]
      'nerve.thickening@cubital.tunnel': always(0.4), 'tenderness@cubital.tunnel': always(0.5), 'night.symptoms@hand': always(0.4),
    },
    source: 'Novak 1994; Beekman 2009; Cheng 2008',
  },
  'ulnar.guyon': { prior: 1.6, signs: { 'tinel@guyon.canal': always(0.45), 'tenderness@guyon.canal': always(0.4), 'tenderness@pisiform': always(0.2), 'tenderness@hamate': always(0.25) }, source: 'Gross & Gelberman 1985 [checked, via secondary]; sensitivities a design choice' },
  'ulnar.deep': { prior: 1.6, signs: { 'palmaris.brevis.sign@hypothenar': always(0.55), 'tenderness@hamate': always(0.35), 'tinel@guyon.canal': always(0.25) }, source: 'palmaris brevis sign Stewart 2010 [memory]' },
  'ulnar.deep-distal': { prior: 1.4, signs: { 'palmaris.brevis.sign@hypothenar': always(0.25), 'tenderness@hamate': always(0.3) }, source: 'Preston & Shapiro 2013 [memory]' },
  'ulnar.superficial': { prior: 1.2, signs: { 'allen@hand': always(0.35), 'tenderness@hypothenar': always(0.4), 'tinel@guyon.canal': always(0.35) }, source: 'hypothenar hammer, Gross & Gelberman 1985 [checked, via secondary]' },
  'radial.posterior-interosseous': { prior: 2.2, signs: { 'tenderness@radial.tunnel': always(0.6), 'middle.finger.extension@radial.tunnel': always(0.5), 'tinel@radial.tunnel': always(0.3) }, source: 'Stewart 2010 [memory]; sensitivities a design choice' },
  'radial.groove': { prior: 2.5, signs: { 'tinel@arm': always(0.4) }, source: 'Stewart 2010 [memory]' },
  'radial.superficial': {
    prior: 1.8, exposed: true, severity: [0.28, 0.3, 0.06, 0.36],
    signs: { 'tinel@distal.radius': always(0.75), 'tinel@wrist.radial': always(0.75), 'tinel@radial.styloid': always(0.7), 'finkelstein@extensor.compartment1': always(0.3), 'eichhoff@extensor.compartment1': always(0.4), 'tenderness@distal.radius': always(0.4) },
    source: 'Stewart 2010 [memory]; sensitivities a design choice',
  },
};

/** Prior weight of an injury at a place that is no tunnel: by how exposed it is. Design choices. */
const EXPOSED: Partial<Record<SegmentId, number>> = {
  'median.elbow': 1.1, 'median.forearm': 2, 'median.palmar-cutaneous': 0.7, 'median.recurrent': 1.2, 'ulnar.forearm': 1.2, 'ulnar.wrist': 1.6, 'ulnar.dorsal-cutaneous': 1, 'ulnar.palmar-cutaneous': 0.4,
  'radial.axilla': 1.1, 'radial.elbow': 0.9, 'radial.pin-short': 0.4, 'radial.pin-long': 0.4, 'musculocutaneous.arm': 0.5, 'lateral-cutaneous.forearm': 0.8, 'medial-cutaneous.forearm': 0.8,
  'common-digital.web2': 0.5, 'common-digital.web3': 0.5, 'common-digital.web4': 0.5,
};

/** A percussion sign over the injured nerve. Common practice, no source. */
const tinelAt: Partial<Record<Band, string>> = { wrist: 'wrist.volar', forearm: 'forearm', elbow: 'elbow', arm: 'arm', palm: 'palm', D1: 'D1', D2: 'D2', D3: 'D3', D4: 'D4', D5: 'D5' };

/** Distance of each band from the fingertip in an adult, mm. A design choice: about the proportions of an arm of 70 cm. */
const FROM_TIP: Readonly<Record<Band, number>> = { neck: 800, axilla: 640, arm: 520, elbow: 420, forearm: 300, wrist: 190, palm: 110, 'hand.dorsum': 110, D1: 50, D2: 50, D3: 50, D4: 50, D5: 50 };
/** Regrowing fibres answer to percussion: not while conduction alone is blocked. How often: a design choice. */
const GROWING: BySeverity = [0.05, 0.2, 0.3, 0.4];

/** Percussion signs that a lesion of some months' standing shows further down its nerve: fibres regrow about 1 mm a day (Seddon 1943 and later texts [memory]). */
function regrowth(id: SegmentId): Readonly<Record<UnitId, BySeverity>> {
  const from = FROM_TIP[SEGMENTS[id].band];
  const beyond = new Set(SEGMENT_IDS.filter(other => other !== id && lineOf(other).includes(id)).map(other => SEGMENTS[other].band));
  return Object.fromEntries(TINEL_STAGES.flatMap(days => [...beyond].filter(band => tinelAt[band] && FROM_TIP[band] < from && from - FROM_TIP[band] <= days)
    .flatMap(band => [tinelAt[band]!, ...(band === 'wrist' ? ['wrist'] : [])].map(site => [tinelUnit(site, days), GROWING]))));
}

/** Which blow would reach it: front and back of the wrist are different places. */
const PLACE: Readonly<Record<string, string>> = { wrist: 'wrist.volar', 'radial.superficial': 'wrist.dorsal', 'ulnar.dorsal-cutaneous': 'wrist.dorsal' };

/** The bands at which a wound would explain a lesion of a segment, nearest first. */
const nearby: Partial<Record<Band, readonly Band[]>> = { wrist: ['wrist', 'forearm'], forearm: ['forearm'], palm: ['palm', 'wrist'], elbow: ['elbow', 'arm'], arm: ['arm', 'elbow'], axilla: ['axilla', 'arm'] };

function woundSigns(band: Band, tunnel: Tunnel | undefined): Readonly<Record<UnitId, BySeverity>> {
  const bands = nearby[band] ?? [band];
  const near: BySeverity = !tunnel ? [0.25, 0.5, 0.6, 0.65] : tunnel.exposed ? [0.06, 0.2, 0.35, 0.5] : [0.02, 0.06, 0.1, 0.25];
  return woundAt(bands.map((at, rank) => [at, rank === 0 ? near : near.map(p => p * 0.45) as unknown as BySeverity] as const));
}

const PLEXUS_LEVEL: Readonly<Record<string, readonly [structure: string, level: string, prior: number]>> = {
  'trunk.upper': ['upper trunk of the brachial plexus', 'above the clavicle', 0.6], 'trunk.middle': ['middle trunk of the brachial plexus', 'above the clavicle', 0.2],
  'trunk.lower': ['lower trunk of the brachial plexus', 'at the thoracic outlet', 0.9],
  'cord.lateral': ['lateral cord of the brachial plexus', 'below the clavicle', 0.3], 'cord.posterior': ['posterior cord of the brachial plexus', 'below the clavicle', 0.35], 'cord.medial': ['medial cord of the brachial plexus', 'below the clavicle', 0.6],
};
const ROOT_PRIOR: Readonly<Record<Root, number>> = { C5: 0.8, C6: 2.5, C7: 3.5, C8: 1.6, T1: 0.7 };

function lesion(site: NerveSite, rest: Pick<Hypothesis, 'kind' | 'structure' | 'level' | 'prior' | 'severity' | 'motorShare' | 'signs' | 'places' | 'source'>): Hypothesis {
  const deficits = Object.fromEntries(VARIANT_IDS.map(variant => [variant, deficitOf(site, variant)]));
  const usual = JSON.stringify([...deficits.usual!]);
  return {
    id: site.replace(/^([CT]\d)$/, 'root.$1'), pairs: true, ...rest,
    losses: variant => deficits[variant] as ReadonlyMap<Atom, never[]>,
    variable: VARIANT_IDS.some(variant => JSON.stringify([...deficits[variant]!]) !== usual),
  };
}

function segmentLesion(id: SegmentId): Hypothesis {
  const { name, level, band, source } = SEGMENTS[id];
  const tunnel = TUNNELS[id];
  const percussion = tinelAt[band];
  return lesion(id, {
    kind: 'nerve', structure: name, level: level ?? '', prior: tunnel?.prior ?? EXPOSED[id] ?? 0.8, severity: tunnel?.severity ?? (tunnel ? COMPRESSED : INJURED), motorShare: tunnel ? 0.6 : 0.9, places: [PLACE[id] ?? PLACE[band] ?? band],
    signs: { ...(percussion ? { [`tinel@${percussion}`]: always(0.35) } : {}), ...regrowth(id), ...tunnel?.signs, ...woundSigns(band, tunnel) },
    source: tunnel ? `${source}; ${tunnel.source}` : source,
  });
}

/** Reduced reflexes follow from the muscle; neck pain and Spurling belong to roots. */
const neck = (root: Root): Readonly<Record<UnitId, BySeverity>> => ({
  'spurling@neck': always(0.5), 'neck.pain@neck': always(0.7), 'tenderness@neck': always(0.4), 'wound@neck': always(0.03), // Spurling: sensitivity not looked up, a design choice
  ...(root === 'T1' ? { 'horner@neck': always(0.3) } : root === 'C8' ? { 'horner@neck': always(0.08) } : {}), // T1 (C8) fibres, Wheeless [checked]; how often: a design choice
});

/** Every lesion of a nerve, cord, trunk or root that the graph has a level for. */
export const NERVE_LESIONS: readonly Hypothesis[] = [
  ...SEGMENT_IDS.filter(id => SEGMENTS[id].level).map(segmentLesion),
  ...Object.entries(PLEXUS_LEVEL).map(([site, [structure, level, prior]]) => lesion(site as NerveSite, {
    kind: 'plexus', structure, level, prior, severity: [0.25, 0.4, 0.08, 0.27], motorShare: 0.9, places: ['plexus'],
    signs: { ...(site === 'trunk.lower' ? { 'roos@arm': always(0.6), 'horner@neck': always(0.15) } : {}), 'wound@axilla': always(0.15) },
    source: site === 'trunk.lower' ? 'Gilliatt 1970 [memory]' : "Gray's 2020 [memory]",
  })),
  ...ROOTS.map(root => lesion(root, {
    kind: 'root', structure: `${root} root`, level: 'at the neck', prior: ROOT_PRIOR[root], severity: ROOT_LESION, motorShare: 0.95, places: ['neck'], signs: neck(root), source: 'Preston & Shapiro 2013 [memory]',
  })),
];
