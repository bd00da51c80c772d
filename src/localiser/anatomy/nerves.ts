/**
 * The nerves of the upper limb as a directed graph: roots, trunks, cords, and each nerve as an ordered line
 * of segments from the plexus to the finger. Each segment is an edge of the graph: what hangs beyond it is lost when it is cut.
 * Order of branches: see `source` of each edge. [checked] / [memory] says whether the figure was compared with the
 * source or written from memory of it.
 */
export type Root = 'C5' | 'C6' | 'C7' | 'C8' | 'T1';
export const ROOTS: readonly Root[] = ['C5', 'C6', 'C7', 'C8', 'T1'];

export type Nerve = 'median' | 'ulnar' | 'radial' | 'musculocutaneous' | 'medial cutaneous';

/** Where on the limb a segment runs: what a wound must be near to explain it. */
export type Band = 'neck' | 'axilla' | 'arm' | 'elbow' | 'forearm' | 'wrist' | 'palm' | 'hand.dorsum' | 'D1' | 'D2' | 'D3' | 'D4' | 'D5';

export interface Segment {
  /** Next segment towards the plexus; null where the nerve leaves its cord. */
  readonly parent: SegmentId | null;
  readonly nerve: Nerve;
  readonly band: Band;
  /** Where it is, in plain words; absent for connecting pieces at which no lesion is proposed. */
  readonly level?: string;
  /** The nerve or branch as a clinician names it. */
  readonly name: string;
  readonly source: string;
}

const BOOKS = "O'Brien 2010; Preston & Shapiro 2013 [memory]";
const GRAYS = "Gray's Anatomy 2020 [memory]";

const segment = (parent: string | null, nerve: Nerve, band: Band, name: string, level: string | undefined, source: string) =>
  ({ parent, nerve, band, name, source, ...(level ? { level } : {}) });

const segments = {
  // median nerve
  'median.elbow': segment(null, 'median', 'elbow', 'median nerve', 'at or above the elbow, before the branch to pronator teres', `${BOOKS}; first branch PT, Riveros 2015 [checked]`),
  'median.pronator': segment('median.elbow', 'median', 'forearm', 'median nerve', 'in the proximal forearm, below the branch to pronator teres', 'Order PT, FCR/PL, AIN: Riveros 2015 [checked]'),
  'median.anterior-interosseous': segment('median.pronator', 'median', 'forearm', 'anterior interosseous nerve', 'in the forearm', 'Leaves 2-8 cm distal to the medial epicondyle, textbook chapter on the AIN [checked]'),
  // Fascicles run apart in the anterior interosseous nerve: FPL or FDP2 alone is a known form (33 incomplete palsies, Hill 1985 [checked]; Glauser 2016 [checked]).
  'median.fascicle-FPL': segment('median.anterior-interosseous', 'median', 'forearm', 'anterior interosseous nerve', 'fascicle or branch to flexor pollicis longus only', 'Hill 1985; Glauser 2016 [checked]'),
  'median.fascicle-FDP2': segment('median.anterior-interosseous', 'median', 'forearm', 'anterior interosseous nerve', 'fascicle or branch to the index profundus only', 'Hill 1985 [checked]'),
  'median.forearm': segment('median.pronator', 'median', 'wrist', 'median nerve', 'in the distal forearm, above its palmar cutaneous branch', 'Palmar cutaneous branch 5-6 cm above the distal wrist crease, Wheeless [checked]'),
  'median.palmar-cutaneous': segment('median.forearm', 'median', 'wrist', 'palmar cutaneous branch of the median nerve', 'at the wrist', 'Wheeless [checked]'),
  'median.carpal-tunnel': segment('median.forearm', 'median', 'wrist', 'median nerve', 'at the wrist or carpal tunnel, below its palmar cutaneous branch', `No branch in the tunnel as a rule: Lanz 1977 [memory]`),
  'median.recurrent': segment('median.carpal-tunnel', 'median', 'palm', 'recurrent motor branch of the median nerve', 'in the thenar base', 'Henry 2015 (31 studies) [checked]'),
  'median.palm': segment('median.carpal-tunnel', 'median', 'palm', 'median nerve', undefined, GRAYS),
  'digital.D1r': segment('median.palm', 'median', 'D1', 'digital nerve', 'radial side of the thumb', GRAYS),
  'digital.D1u': segment('median.palm', 'median', 'D1', 'digital nerve', 'ulnar side of the thumb', GRAYS),
  'digital.D2r': segment('median.palm', 'median', 'D2', 'digital nerve', 'radial side of the index finger', GRAYS),
  'common-digital.web2': segment('median.palm', 'median', 'palm', 'common digital nerve', 'to the second web', GRAYS),
  'digital.D2u': segment('common-digital.web2', 'median', 'D2', 'digital nerve', 'ulnar side of the index finger', GRAYS),
  'digital.D3r': segment('common-digital.web2', 'median', 'D3', 'digital nerve', 'radial side of the middle finger', GRAYS),
  'common-digital.web3': segment('median.palm', 'median', 'palm', 'common digital nerve', 'to the third web', GRAYS),
  'digital.D3u': segment('common-digital.web3', 'median', 'D3', 'digital nerve', 'ulnar side of the middle finger', GRAYS),
  'digital.D4r': segment('common-digital.web3', 'median', 'D4', 'digital nerve', 'radial side of the ring finger', GRAYS),
  // ulnar nerve
  'ulnar.elbow': segment(null, 'ulnar', 'elbow', 'ulnar nerve', 'at the elbow or above', 'FCU branches 88.5 % distal to the epicondyle, Dugan 2020 [checked]'),
  'ulnar.forearm': segment('ulnar.elbow', 'ulnar', 'forearm', 'ulnar nerve', 'in the forearm, below the branches to FCU and FDP, above its dorsal branch', 'FCU and FDP branches within 5 cm of the epicondyle, Tubbs 2006 [checked]'),
  'ulnar.palmar-cutaneous': segment('ulnar.forearm', 'ulnar', 'forearm', 'palmar cutaneous branch of the ulnar nerve', 'in the forearm', 'Leaves 11.9 (SD 1.4) cm above the pisiform, seen in 78 % of 60 forearms, Muscle Nerve 2018;57:569 [checked]'),
  'ulnar.dorsal-cutaneous': segment('ulnar.forearm', 'ulnar', 'wrist', 'dorsal cutaneous branch of the ulnar nerve', 'at the ulnar side of the wrist', 'Leaves 8.3 cm above the pisiform, Botte 1990 [checked]'),
  'ulnar.wrist': segment('ulnar.forearm', 'ulnar', 'wrist', 'ulnar nerve', 'in the distal forearm, below its dorsal branch', 'Botte 1990 [checked]'),
  'ulnar.guyon': segment('ulnar.wrist', 'ulnar', 'wrist', 'ulnar nerve', "in Guyon's canal before it divides (zone I)", 'Gross & Gelberman 1985 [checked, via secondary]'),
  'ulnar.deep': segment('ulnar.guyon', 'ulnar', 'palm', 'deep branch of the ulnar nerve', 'before the hypothenar branches (zone II)', 'Gross & Gelberman 1985 [checked, via secondary]; ADM branch first, Hand (N Y) 2024 [checked]'),
  'ulnar.deep-distal': segment('ulnar.deep', 'ulnar', 'palm', 'deep branch of the ulnar nerve', 'in the palm, beyond the hypothenar branches', 'Hand (N Y) 2024, doi 10.1177/15589447241306151 [checked]'),
  'ulnar.superficial': segment('ulnar.guyon', 'ulnar', 'palm', 'superficial branch of the ulnar nerve', 'in the palm (zone III)', 'Gross & Gelberman 1985 [checked, via secondary]'),
  'digital.D5u': segment('ulnar.superficial', 'ulnar', 'D5', 'digital nerve', 'ulnar side of the little finger', GRAYS),
  'common-digital.web4': segment('ulnar.superficial', 'ulnar', 'palm', 'common digital nerve', 'to the fourth web', GRAYS),
  'digital.D4u': segment('common-digital.web4', 'ulnar', 'D4', 'digital nerve', 'ulnar side of the ring finger', GRAYS),
  'digital.D5r': segment('common-digital.web4', 'ulnar', 'D5', 'digital nerve', 'radial side of the little finger', GRAYS),
  // radial nerve
  'radial.axilla': segment(null, 'radial', 'axilla', 'radial nerve', 'in the axilla', `${GRAYS}; Preston & Shapiro 2013 [memory]`),
  'radial.groove': segment('radial.axilla', 'radial', 'arm', 'radial nerve', 'in the spiral groove, below the branches to triceps', BOOKS),
  'radial.elbow': segment('radial.groove', 'radial', 'elbow', 'radial nerve', 'above the elbow, below the branches to brachioradialis and ECRL', 'Abrams 1997, Branovacki 1998, Sawyer 2020: BR and ECRL leave first in all three [checked]'),
  'radial.pin-origin': segment('radial.elbow', 'radial', 'elbow', 'posterior interosseous nerve', undefined, 'Divides within 2.1 cm of the lateral epicondyle, Abrams 1992 [checked]'),
  'radial.posterior-interosseous': segment('radial.pin-origin', 'radial', 'forearm', 'posterior interosseous nerve', 'at the supinator', 'Branovacki 1998 [checked]'),
  'radial.pin-short': segment('radial.posterior-interosseous', 'radial', 'forearm', 'posterior interosseous nerve', 'beyond the supinator, short branches (ED, EDM, ECU)', 'Branovacki 1998 [checked]'),
  'radial.pin-long': segment('radial.posterior-interosseous', 'radial', 'forearm', 'posterior interosseous nerve', 'beyond the supinator, long branches (thumb and index)', 'Branovacki 1998; EIP last, Abrams 1997 [checked]'),
  'radial.superficial-origin': segment('radial.elbow', 'radial', 'elbow', 'superficial radial nerve', undefined, 'Abrams 1992 [checked]'),
  'radial.superficial': segment('radial.superficial-origin', 'radial', 'wrist', 'superficial radial nerve', 'in the distal forearm', 'Subcutaneous 9.0 cm above the radial styloid, Abrams 1992 [checked]'),
  // others
  'musculocutaneous.arm': segment(null, 'musculocutaneous', 'arm', 'musculocutaneous nerve', 'in the upper arm', BOOKS),
  'lateral-cutaneous.forearm': segment('musculocutaneous.arm', 'musculocutaneous', 'elbow', 'lateral cutaneous nerve of the forearm', 'at the elbow', BOOKS),
  'medial-cutaneous.forearm': segment(null, 'medial cutaneous', 'elbow', 'medial cutaneous nerve of the forearm', 'in the upper arm or at the elbow', `${BOOKS}; its branches cross in front of and behind the medial epicondyle, ${GRAYS}`),
  'medial-cutaneous.arm': segment(null, 'medial cutaneous', 'axilla', 'medial cutaneous nerve of the arm', undefined, GRAYS),
} as const;
export type SegmentId = keyof typeof segments;
export const SEGMENTS: Readonly<Record<SegmentId, Segment>> = segments as Readonly<Record<SegmentId, Segment>>;
export const SEGMENT_IDS = Object.keys(segments) as readonly SegmentId[];

export type Trunk = 'trunk.upper' | 'trunk.middle' | 'trunk.lower';
export type Cord = 'cord.lateral' | 'cord.posterior' | 'cord.medial';

/** Root to trunk. Gray's Anatomy 2020 [memory]. */
export const TRUNK_OF: Readonly<Record<Root, Trunk>> = { C5: 'trunk.upper', C6: 'trunk.upper', C7: 'trunk.middle', C8: 'trunk.lower', T1: 'trunk.lower' };

/** The cord by which a root's fibres reach a nerve (the median has two heads). Gray's Anatomy 2020 [memory]. */
export const cordOf = (nerve: Nerve, root: Root): Cord => {
  switch (nerve) {
    case 'median': return root === 'C8' || root === 'T1' ? 'cord.medial' : 'cord.lateral';
    case 'ulnar': case 'medial cutaneous': return 'cord.medial';
    case 'radial': return 'cord.posterior';
    case 'musculocutaneous': return 'cord.lateral';
  }
};

/** Any place at which a nerve lesion is proposed. */
export type NerveSite = Root | Trunk | Cord | SegmentId;

/** The segments from the plexus down to and including `id`, proximal first. */
export function lineOf(id: SegmentId): readonly SegmentId[] {
  const line: SegmentId[] = [];
  for (let at: SegmentId | null = id; at; at = SEGMENTS[at].parent) line.unshift(at);
  return line;
}
