import type { RecordedFinding } from '../record';
import { DIGITS, DIGIT_NAMES, SITES } from '../vocabulary';
import type { Digit, SignCode, SiteCode } from '../vocabulary';
import { atLeast, digitOf, hoursSinceOnset, mechanismIs, onDigit, seen } from './evidence';
import type { Evidence, Pattern } from './evidence';

/** How soon it matters, by what published guidance asks for. */
export type Urgency = 'now' | 'same day' | 'before leaving';

/** Why a flag is raised: the findings, and what the set-up adds in words. Null = not raised. */
export interface Grounds { readonly findings: readonly RecordedFinding[]; readonly setUp?: readonly string[]; /** Where exactly, when it is one digit or joint. */ readonly at?: SiteCode }

export interface RedFlag {
  readonly id: string;
  readonly title: string;
  /** What published guidance asks for, told, not ordered. */
  readonly text: string;
  readonly urgency: Urgency;
  /** [checked] = compared with the named source; [from memory] = not compared: have a clinician confirm it. */
  readonly source: string;
  readonly grounds: (evidence: Evidence) => readonly Grounds[];
}

const none: readonly Grounds[] = [];
const when = (findings: readonly RecordedFinding[]): readonly Grounds[] => (findings.length ? [{ findings }] : none);
/** Raised by findings, by the mechanism of injury, or by both. */
const whenOrMechanism = (evidence: Evidence, findings: readonly RecordedFinding[], pattern: RegExp): readonly Grounds[] => {
  const said = mechanismIs(evidence, pattern);
  return findings.length || said ? [{ findings, ...(said ? { setUp: [`Mechanism: ${evidence.setUp?.mechanism}`] } : {}) }] : none;
};
const perDigit = (grounds: (digit: Digit) => Grounds | null): readonly Grounds[] => DIGITS.flatMap((digit) => grounds(digit) ?? []);

const OPEN_WOUNDS: readonly SignCode[] = ['wound', 'laceration', 'puncture', 'bite', 'fight.bite', 'amputation', 'avulsion', 'open.fracture', 'exposed.bone', 'exposed.tendon'];
const NOT_RED = ['pale', 'blue', 'mottled', 'black'] as const;
const isDigit = (site: SiteCode): boolean => digitOf(site) !== undefined;
const isWholeHand = (site: SiteCode): boolean => !isDigit(site);
const isJoint = (site: SiteCode): boolean => SITES[site].kind === 'joint';
const SENSATION: readonly SignCode[] = ['light.touch', 'pinprick', 'two.point', 'vibration', 'temperature.sense', 'sensory.grade', 'numbness', 'tingling'];
const WRISTS: readonly SiteCode[] = ['wrist', 'wrist.volar', 'wrist.dorsal', 'wrist.radial', 'wrist.ulnar', 'wrist.joint', 'distal.radius'];
const MCP_ROW: readonly SiteCode[] = ['D3.MCP', 'D4.MCP', 'D5.MCP', 'MCPs', 'knuckles', 'extensor.zone5', 'D3.extensor.zone5', 'D4.extensor.zone5', 'D5.extensor.zone5'];

const handIschaemic: readonly Pattern[] = [
  { sign: 'pulse', at: ['ulnar.artery'], level: ['absent'] },
  { sign: 'colour', at: isWholeHand, level: NOT_RED },
  { sign: 'temperature', at: isWholeHand, level: ['cold', 'cool'] },
  { sign: 'refill', at: isWholeHand },
  { sign: 'perfusion', at: isWholeHand },
];

/** Kanavel 1912, by digit; a sign said of "the fingers" counts for a digit that has one of its own. */
function sheath(evidence: Evidence, digit: Digit): Grounds | null {
  const here = onDigit(digit);
  const signs: readonly Pattern[] = [
    { sign: 'tenderness', at: [`${digit}.sheath`, `${digit}.volar`] },
    { sign: 'passive.stretch.pain', at: (site) => here(site) || site === 'fingers' },
    { sign: 'flexed.posture', at: (site) => here(site) || site === 'fingers' },
    { sign: 'swelling', at: here },
  ];
  const findings = atLeast(2, evidence, signs);
  if (!findings.some(({ finding }) => here(finding.site))) return null;
  const hours = hoursSinceOnset(evidence);
  return { findings, at: digit, ...(hours !== undefined && hours < 120 ? { setUp: ['Onset under 5 days'] } : {}) };
}

const woundWith = (evidence: Evidence, patterns: readonly Pattern[]): readonly Grounds[] => {
  const wounds = seen(evidence, { sign: OPEN_WOUNDS });
  const losses = atLeast(1, evidence, patterns);
  return wounds.length && losses.length ? [{ findings: [...wounds, ...losses] }] : none;
};

/** Red flags of the hand. Each is raised by what was found; nothing that was found normal takes one back. */
export const RED_FLAGS: readonly RedFlag[] = [
  {
    id: 'ischaemic-hand', title: 'Hand may be without blood', urgency: 'now',
    text: 'Guidance treats an ischaemic hand as limb-threatening: vascular or hand surgeon at once, dressings and splints released, limb realigned, perfusion checked again. Warm ischaemia beyond about 3 to 4 hours raises muscle loss.',
    source: 'BOAST, arterial injuries associated with fractures and dislocations [from memory]',
    grounds: (evidence) => {
      const strong = [...seen(evidence, { sign: 'pulse', at: ['radial.artery', 'brachial.artery'], level: ['absent'] }), ...seen(evidence, { sign: 'perfusion', at: isWholeHand, level: ['absent'] }), ...seen(evidence, { sign: 'colour', at: isWholeHand, level: ['black'] })];
      const group = atLeast(2, evidence, handIschaemic);
      return when([...new Set([...strong, ...group, ...(strong.length ? atLeast(1, evidence, handIschaemic) : [])])]);
    },
  },
  {
    id: 'slow-refill', title: 'Capillary refill slow', urgency: 'same day',
    text: 'Refill over the limit (2 s by default; published limits go up to 2.9 s in women and 4.5 s in the elderly, after pressing for 5 s). Guidance asks for perfusion to be compared with the other hand and checked again.',
    source: 'Schriger & Baraff 1988 (limits), Fleming 2015 (pressing time) [checked]',
    grounds: (evidence) => when(seen(evidence, { sign: 'refill', at: isWholeHand })),
  },
  {
    id: 'pale-digit', title: 'Digit may be without blood', urgency: 'now',
    text: 'A white or blue digit, or slow refill, in an injured hand: guidance asks for immediate referral for vascular compromise and a same-day microsurgical opinion.',
    source: 'BSSH draft standards of care, open hand fractures, item 5 [checked]',
    grounds: (evidence) => perDigit((digit) => {
      const findings = atLeast(1, evidence, [{ sign: 'colour', at: onDigit(digit), level: NOT_RED }, { sign: 'refill', at: onDigit(digit) }, { sign: 'perfusion', at: onDigit(digit) }]);
      return findings.length ? { findings, at: digit } : null;
    }),
  },
  {
    id: 'arterial-bleeding', title: 'Pulsatile bleeding', urgency: 'now',
    text: 'Guidance treats pulsatile bleeding as an arterial injury: direct pressure, no blind clamping (nerves lie beside the arteries), vascular or hand surgeon at once.',
    source: 'BOAST, arterial injuries [from memory]; no blind clamping: common practice, no source',
    grounds: (evidence) => when(seen(evidence, { sign: 'bleeding', qualifier: 'pulsatile' })),
  },
  {
    id: 'compartment', title: 'Compartment syndrome possible', urgency: 'now',
    text: 'Pulses may be normal, and numbness, paralysis or a lost pulse come late. Guidance asks for every circumferential dressing to be opened to the skin, the limb at heart level and a surgeon at once; a pressure gap (diastolic minus compartment) under 30 mmHg, or over 40 mmHg in the compartment with symptoms, supports decompression within 1 hour. Missing signs do not reassure.',
    source: 'BOAST compartment syndrome 2016 [checked] (via secondary); low sensitivity of single signs, Ulmer 2002 [checked]',
    grounds: (evidence) => {
      const stretch: Pattern = { sign: 'passive.stretch.pain', at: isWholeHand };
      const core = atLeast(1, evidence, [{ sign: 'tense' }, stretch, { sign: 'pain.disproportionate' }]);
      if (core.some(({ finding }) => finding.sign === 'tense')) return when([...new Set([...core, ...atLeast(1, evidence, [{ sign: 'passive.stretch.pain' }, { sign: ['tingling', 'numbness'] }])])]);
      return core.length ? when(atLeast(2, evidence, [stretch, { sign: 'pain.disproportionate' }, { sign: ['tingling', 'numbness', 'worsening.numbness'] }, { sign: 'swelling', qualifier: 'severe' }])) : none;
    },
  },
  {
    id: 'injection', title: 'High-pressure injection', urgency: 'now',
    text: 'A small puncture with little pain can hide deep damage. Guidance treats it as a surgical emergency even if it looks trivial: amputation overall 30 %; for organic solvents the risk is lower with wide debridement within 6 hours.',
    source: 'Hogan & Ruland 2006, 435 cases [checked]',
    grounds: (evidence) => whenOrMechanism(evidence, seen(evidence, { sign: 'injection' }), /high[- ]?pressure|injection injury|(grease|paint|spray|fuel|oil|water|wax)[- ]?(gun|jet|lance|injector)|pressure washer|hydraulic|airless/i)
      .map((grounds) => ({ ...grounds, findings: [...new Set([...grounds.findings, ...seen(evidence, { sign: ['puncture', 'wound'] })])] })),
  },
  {
    id: 'flexor-sheath', title: 'Flexor sheath infection possible', urgency: 'now',
    text: 'Kanavel signs. Sheath tenderness with pain on passive extension and onset under 5 days is the strongest group; the signs are sensitive, not specific. Guidance asks for a surgeon the same day; elevation, intravenous antibiotics and washout are what surgeons usually consider.',
    source: 'Kennedy 2017 [checked]; what follows, Green’s 2022 [from memory]',
    grounds: (evidence) => perDigit((digit) => sheath(evidence, digit)),
  },
  {
    id: 'deep-space', title: 'Deep palmar or web space infection possible', urgency: 'now',
    text: 'A lost palm hollow, or a swollen palm or web with redness, heat or pus, suggests pus in a deep space; the back of the hand often swells more. Texts ask for urgent surgical review.',
    source: 'Green’s 2022 [from memory]',
    grounds: (evidence) => {
      const hollow = seen(evidence, { sign: 'palm.hollow.lost' });
      const swollen = seen(evidence, { sign: 'swelling', at: ['palm', 'thenar', 'hypothenar', 'web1', 'web2', 'web3', 'web4'] });
      const inflamed = atLeast(1, evidence, [{ sign: 'pus' }, { sign: 'erythema' }, { sign: 'temperature', level: ['hot', 'warm'] }]);
      return when(hollow.length || (swollen.length && inflamed.length) ? [...hollow, ...swollen, ...inflamed] : []);
    },
  },
  {
    id: 'septic-joint', title: 'Septic joint possible', urgency: 'now',
    text: 'A hot, swollen joint with pain on any movement, or with a wound over it, counts as septic until shown otherwise. Guidance asks for aspiration before antibiotics unless there is septic shock, and for urgent washout.',
    source: 'BSR/BOA hot swollen joint guideline 2006 [from memory]',
    grounds: (evidence) => {
      const joints = [...new Set(evidence.findings.map(({ finding }) => finding.site).filter(isJoint))];
      return joints.flatMap((joint): Grounds[] => {
        const at = [joint];
        const findings = atLeast(2, evidence, [{ sign: ['temperature', 'erythema'], at }, { sign: ['swelling', 'effusion'], at }, { sign: 'movement.pain', at }, { sign: ['pus', ...OPEN_WOUNDS], at }]);
        return findings.some(({ finding }) => finding.sign === 'temperature' || finding.sign === 'erythema' || finding.sign === 'pus') ? [{ findings, at: joint }] : [];
      });
    },
  },
  {
    id: 'fight-bite', title: 'Fight bite possible', urgency: 'now',
    text: 'A small cut over a knuckle may be a tooth in the joint, whatever the history. Guidance assumes joint entry: the wound looked at with the fist closed, x-ray, left open, washed out, antibiotic cover for human bites (Eikenella: a first-generation cephalosporin or clindamycin alone is not enough). Signs of infection often come after 18 hours; deeper structures are hurt in 75 to 100 %.',
    source: 'Patzakis 1987 [checked] (via secondary); Atlas of Emergency Medicine 2021 [checked]',
    grounds: (evidence) => {
      const bites = seen(evidence, { sign: 'fight.bite' });
      const overKnuckle = seen(evidence, { sign: ['wound', 'laceration', 'puncture', 'bite', 'pus'], at: MCP_ROW });
      const punched = mechanismIs(evidence, /punch|fight|tooth|teeth|mouth|human bite/i);
      const wounds = punched ? seen(evidence, { sign: OPEN_WOUNDS }) : [];
      const findings = [...new Set([...bites, ...overKnuckle, ...wounds])];
      return findings.length ? [{ findings, ...(punched ? { setUp: [`Mechanism: ${evidence.setUp?.mechanism}`] } : {}) }] : none;
    },
  },
  {
    id: 'bite', title: 'Bite', urgency: 'same day',
    text: 'Guidance asks for thorough washing, deep punctures left open, tetanus and rabies risk checked, and tendon and joint beneath looked at.',
    source: 'WHO rabies guidance; NICE NG184 [from memory]',
    grounds: (evidence) => whenOrMechanism(evidence, seen(evidence, { sign: 'bite' }), /\b(dog|cat|animal|rat|horse|monkey|bat|snake)\b.*\b(bit|bite|bitten|scratch)|\b(bit|bite|bitten|scratched)\b.*\b(dog|cat|animal|rat|horse|monkey|bat|snake)\b/i),
  },
  {
    id: 'open-fracture', title: 'Open fracture', urgency: 'now',
    text: 'Guidance for the hand: antibiotics to local protocol, tetanus, x-ray, hand team and washout within 24 hours. For the forearm: intravenous antibiotics within 1 hour if possible, nerves and vessels recorded before and after every reduction.',
    source: 'BSSH draft standards, open hand fractures [checked]; BOAST open fractures 2017 [checked]',
    grounds: (evidence) => when(seen(evidence, { sign: ['open.fracture', 'exposed.bone'] })),
  },
  {
    id: 'contaminated', title: 'Contaminated wound', urgency: 'same day',
    text: 'Soil, farm or sea in a wound: guidance asks for immediate referral when it is gross, no closure under tension, and tetanus checked.',
    source: 'BSSH draft standards, item 5 [checked]; WHO wound infection guidance [from memory]',
    grounds: (evidence) => {
      const marked = seen(evidence, { sign: [...OPEN_WOUNDS, 'crush', 'burn'], qualifier: 'contaminated' });
      const wounds = seen(evidence, { sign: OPEN_WOUNDS });
      return wounds.length && mechanismIs(evidence, /\b(soil|earth|mud|farm|farmyard|manure|garden|gardening|compost|sewage|sea|marine|fish|river|pond)\b/i) ? [{ findings: wounds, setUp: [`Mechanism: ${evidence.setUp?.mechanism}`] }] : when(marked);
    },
  },
  {
    id: 'amputation', title: 'Amputation', urgency: 'now',
    text: 'Texts ask for the part in moist saline gauze in a sealed bag on ice, never in direct contact with ice, x-rays of hand and part, and a call to a replantation centre. Quoted limits for a digit differ (12 h warm and 24 h cold, or 6 h and 12 h); with muscle about 6 h warm and 12 h cold: a call decides, not a clock.',
    source: 'Two replantation texts [checked]; ASSH meeting abstract 2024, Harbour 2021 [checked]; part with muscle, Green’s 2022 [from memory]',
    grounds: (evidence) => whenOrMechanism(evidence, seen(evidence, { sign: 'amputation' }), /amputat|severed (finger|thumb|hand|digit)|(finger|thumb|hand|tip|digit)s? (\w+ )?(cut|torn|bitten|ripped|sawn) off|(cut|tore|bit|ripped|sawed) off (\w+ )?(finger|thumb|hand|tip|digit)/i),
  },
  {
    id: 'ring-avulsion', title: 'Ring avulsion', urgency: 'now',
    text: 'A circumferential wound of a digit puts its blood supply at risk even while it is pink: guidance asks for a same-day microsurgical opinion.',
    source: 'Urbaniak 1981 [from memory]',
    grounds: (evidence) => whenOrMechanism(evidence, [...seen(evidence, { sign: 'avulsion' }), ...seen(evidence, { sign: OPEN_WOUNDS, at: isDigit, qualifier: 'circumferential' })], /ring (avulsion|injury|caught|stuck)|caught .*\bring\b|deglov/i),
  },
  {
    id: 'acute-carpal-tunnel', title: 'Acute carpal tunnel syndrome possible', urgency: 'now',
    text: 'Median numbness that gets worse over hours, as after a wrist injury: guidance asks for bandages released, the fracture reduced and a surgeon at once; recovery is likelier with release within 12 hours. Numbness from the moment of injury that does not get worse points to a bruised nerve and repeat tests.',
    source: 'Schnetzler 2008 [checked]; 12 h and contrast [checked] (via secondary)',
    grounds: (evidence) => when(seen(evidence, { sign: 'worsening.numbness' })),
  },
  {
    id: 'necrotising', title: 'Necrotising infection possible', urgency: 'now',
    text: 'Pain beyond the look, fast spread, blisters, crepitus, numb or dark skin. Guidance asks for surgeon and critical care at once; imaging or a low LRINEC score must not delay, and no fever does not exclude it.',
    source: 'Fernando 2019 [checked]',
    grounds: (evidence) => {
      const burnt = seen(evidence, { sign: ['burn', 'chemical.burn'] }).length > 0; // burns blister and darken by themselves
      const gas: Pattern = { sign: 'crepitus', at: (site) => !isJoint(site) };
      const patterns: readonly Pattern[] = [
        { sign: 'pain.disproportionate' }, { sign: ['erythema', 'swelling', 'colour'], qualifier: 'spreading' }, gas,
        ...(burnt ? [] : [{ sign: 'blister' as const }, { sign: 'colour' as const, level: ['black', 'mottled'] as const }]),
      ];
      const red = seen(evidence, { sign: 'erythema' });
      const withRedness = (findings: readonly RecordedFinding[]): readonly RecordedFinding[] => (findings.length && red.length ? [...findings, ...red] : []);
      return when([...new Set([...atLeast(2, evidence, patterns), ...withRedness(seen(evidence, gas)), ...withRedness(seen(evidence, { sign: 'pain.disproportionate' }))])]);
    },
  },
  {
    id: 'nerve-with-wound', title: 'Nerve deficit with an open wound', urgency: 'same day',
    text: 'Numbness or weakness beyond a wound counts as a cut nerve until explored. Guidance asks for it to be noted before any anaesthetic, not to be called a bruise, and for exploration by a trained surgeon.',
    source: 'BOAST 5, peripheral nerve injury 2012 (existence [checked]; wording [from memory]); Green’s 2022 [from memory]',
    grounds: (evidence) => woundWith(evidence, [{ sign: SENSATION }, { sign: 'power' }, { sign: ['ok.sign', 'froment', 'crossed.fingers', 'wrist.drop', 'finger.drop', 'claw', 'wartenberg'] }]),
  },
  {
    id: 'tendon-with-wound', title: 'Tendon injury possible', urgency: 'same day',
    text: 'A broken cascade, or lost, weak or painful active movement, with a wound. Guidance asks for every tendon and both digital nerves to be tested, a splint and the hand team; a strong but painful movement does not exclude a partial cut.',
    source: 'BSSH hand trauma guidance [from memory]; Green’s 2022 [from memory]',
    grounds: (evidence) => {
      const withWound = woundWith(evidence, [{ sign: ['cascade', 'fds.isolation', 'fdp.isolation', 'elson', 'extension.lag', 'mallet'] }, { sign: ['active.range', 'range'] }, { sign: 'tenodesis' }]);
      return withWound.length ? withWound : when(seen(evidence, { sign: 'cascade' }));
    },
  },
  {
    id: 'deep-to-wound', title: 'Wound over tendons, nerves and arteries', urgency: 'before leaving',
    text: 'A small cut over flexor zone 2 or the front of the wrist can divide anything beneath it. Texts ask for FDS, FDP, FPL, median and ulnar nerves and both arteries to be examined one by one.',
    source: 'Green’s 2022 [from memory]',
    grounds: (evidence) => when(seen(evidence, { sign: OPEN_WOUNDS, at: ['flexor.zone2', 'D2.flexor.zone2', 'D3.flexor.zone2', 'D4.flexor.zone2', 'D5.flexor.zone2', 'flexor.zone4', 'flexor.zone5', 'wrist', 'wrist.volar', 'forearm.volar'] })),
  },
  {
    id: 'hydrofluoric', title: 'Hydrofluoric acid', urgency: 'now',
    text: 'Pain may come late and out of proportion. Guidance asks for water at once, calcium gluconate gel 2.5 %, ECG, calcium, potassium and magnesium, without waiting for pain; sources differ on rinsing (at most 5 minutes then gel, or at least 15 minutes). Above 6 % solution, or without gel, emergency care and 12 hours of watching.',
    source: 'Bajraktarova-Valjakova 2018 (PMC6290397) [checked]; national poisons monograph [checked]; two calcium gel leaflets [checked]',
    grounds: (evidence) => (mechanismIs(evidence, /hydrofluoric|\bHF\b|fluoride|rust remover|glass etch|wheel cleaner/i) ? whenOrMechanism(evidence, seen(evidence, { sign: ['chemical.burn', 'burn', 'pain.disproportionate'] }), /./) : none),
  },
  {
    id: 'chemical-burn', title: 'Chemical burn', urgency: 'now',
    text: 'Which chemical matters: hydrofluoric acid needs calcium gel and monitoring even when the skin looks well; alkali and cement go on burning. Guidance asks for long irrigation and skin pH, and poisons advice.',
    source: 'ABA / EBA burn guidance [from memory]; hydrofluoric acid, national poisons monograph [checked]',
    grounds: (evidence) => whenOrMechanism(evidence, seen(evidence, { sign: 'chemical.burn' }), /\bacid\b|alkali|cement|caustic|\blye\b|bleach|oven cleaner|chemical/i),
  },
  {
    id: 'deep-burn', title: 'Deep or circumferential burn', urgency: 'now',
    text: 'A tight or deep burn of the hand may shut off its blood. Guidance asks for a burn centre and an opinion on escharotomy.',
    source: 'ABA referral criteria [from memory]',
    grounds: (evidence) => when([...new Set([...seen(evidence, { sign: ['burn', 'chemical.burn'], qualifier: 'circumferential' }), ...seen(evidence, { sign: ['burn', 'chemical.burn'], qualifier: 'deep' })])]),
  },
  {
    id: 'electrical', title: 'Electrical injury', urgency: 'now',
    text: 'The skin shows little of the damage beneath. Guidance asks for an ECG and a watch for compartment syndrome.',
    source: 'ABA referral criteria [from memory]',
    grounds: (evidence) => whenOrMechanism(evidence, [], /electric(al)? (shock|injury|burn|current)|electrocut|voltage|lightning|live wire/i),
  },
  {
    id: 'perilunate', title: 'Perilunate injury possible', urgency: 'same day',
    text: 'A swollen wrist with median tingling after a high-energy fall: texts ask for a lateral x-ray, urgent reduction and a watch for acute carpal tunnel syndrome.',
    source: 'Green’s 2022 [from memory]',
    grounds: (evidence) => {
      const swollen = seen(evidence, { sign: ['swelling', 'deformity'], at: WRISTS });
      const median = [...seen(evidence, { sign: ['tingling', 'numbness'] }), ...seen(evidence, { sign: SENSATION, at: ['D1.pulp', 'D2.pulp', 'D3.pulp', 'territory.median', 'D1', 'D2', 'D3'] })];
      return swollen.length && median.length && mechanismIs(evidence, /fall|fell|motor|bike|cycl|crash|collision|height|ladder|high[- ]energy/i)
        ? [{ findings: [...new Set([...swollen, ...median])], setUp: [`Mechanism: ${evidence.setUp?.mechanism}`] }] : none;
    },
  },
  {
    id: 'scaphoid', title: 'Scaphoid fracture possible', urgency: 'before leaving',
    text: 'Snuffbox or tubercle tenderness, or pain on axial thumb compression. With a clear x-ray guidance asks for immobilisation and repeat imaging or MRI.',
    source: 'Parvizi 1998, combined signs [checked]; what follows, NICE NG38 [from memory]',
    grounds: (evidence) => {
      const signs: readonly Pattern[] = [{ sign: 'tenderness', at: ['snuffbox'] }, { sign: 'tenderness', at: ['scaphoid.tubercle'] }, { sign: 'scaphoid.compression' }];
      return when(seen(evidence, signs[0] as Pattern).length ? atLeast(1, evidence, signs) : atLeast(2, evidence, signs));
    },
  },
];

export const placeName = (at: SiteCode): string => (digitOf(at) === at ? DIGIT_NAMES[at as Digit] : SITES[at].name);
