/**
 * Pairs, anastomoses, both hands, normal hands, one wrong finding, few findings, and records that nothing fits.
 * The pattern and the answer come from the source; grades and times are illustrative inputs made up to fit it,
 * and the patients are invented.
 */
import { bothSides, days, hours, negative, on, painful, positive, power, refill, sign, strength, touch, twoPoint, vibration, type WorkedCase } from './case';
import { AIDS, BOTTE, GREEN, GUYON, MCGEE, PRESTON, ROOTS, ROY, STEWART, WHEELESS } from './sources';

const BRAND = 'Brand PW, Hollister A. Clinical Mechanics of the Hand, 1999';
const KAPPA = 'pattern as in the source; one finding falsified on purpose (two examiners agree on power at kappa 0.54, on touch at 0.69: Jepsen JR et al. BMC Neurol 2006;6:8)';

export const PAIR_CASES: readonly WorkedCase[] = [
  {
    id: 'PAIR-01', title: 'Both nerves cut above the wrist, thenar base numb', onset: hours(3),
    findings: on('right', sign('laceration', 'present', 'forearm.volar'), power('0', 'APB', 'OP', 'ADM', 'DI1', 'ADP'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D5.pulp', 'PTH'), touch('normal', 'DU', 'DR', 'FM'), power('5', 'FPL', 'FDP2', 'FDP5', 'EIP')),
    expect: { structure: ['ML4', 'UL3'], also: [['ML4', 'UL4'], ['ML5', 'UL3', 'ML8'], ['ML5', 'UL4', 'ML8']], level: 'distal forearm', side: 'right' },
    decides: 'All intrinsics and palmar digits lost, long flexors strong, dorsum spared, thenar base lost. The ulnar cut just above or within the canal reads the same.', rival: 'Lower trunk: FPL and FDP5 weak, medial forearm lost.',
    source: `${GREEN}; ${BRAND}`, tag: 'from memory',
  },
  {
    id: 'PAIR-02', title: 'Intrinsic-minus hand, two months after a wrist cut', onset: days(60),
    findings: on('left', positive('scar', 'wrist.volar'), sign('claw', 'present', 'D2', 'D3', 'D4', 'D5'), positive('ape.thumb'), power('0', 'APB', 'ADM', 'DI1'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D5.pulp'), touch('normal', 'PTH', 'DU', 'DR'), power('5', 'FPL', 'FDP2', 'FDP5', 'ED')),
    expect: { structure: ['ML5', 'UL4'], also: [['ML5', 'UL3']], level: 'wrist', side: 'left' },
    decides: 'All fingers claw, thumb flat, long flexors and extensors strong, thenar base and dorsum spared.', rival: 'T1 root: palmar digits would be normal.',
    source: `${GREEN}; ${BRAND}`, tag: 'from memory',
  },
  {
    id: 'PAIR-03', title: 'Carpal tunnel and cubital tunnel in one arm', onset: days(200),
    findings: on('right', touch('reduced', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D5.pulp', 'D4u', 'DU'), touch('normal', 'PTH', 'FM', 'DR'), power('4', 'APB', 'OP', 'DI1', 'ADM', 'FDP5'), power('5', 'FPL', 'FDP2', 'EIP', 'TRI', 'PT'), positive('phalen', 'wrist', 30), positive('elbow.flexion.test', 'cubital.tunnel', 40), positive('tinel', 'cubital.tunnel')),
    expect: { structure: ['ML5', 'UL1'], level: 'carpal tunnel and elbow', side: 'right' },
    decides: 'Median digits with a spared thenar base, and ulnar loss with the dorsum; FPL, EIP and medial forearm spared.', rival: 'C8 or lower trunk: EIP and FPL weak, index spared, medial forearm lost.',
    source: `${PRESTON}; ${WHEELESS}`, tag: 'from memory',
  },
  {
    id: 'PAIR-04', title: 'C6 root and carpal tunnel together', onset: days(150),
    findings: on('left', power('4', 'BIC', 'BR', 'PT'), sign('reflex', 'reduced', 'BR', 'BIC'), touch('reduced', 'FL', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4r'), touch('normal', 'PTH', 'D5.pulp', 'D4u'), power('3', 'APB', 'OP'), positive('wasting', 'thenar'), power('5', 'FPL', 'FDP2', 'TRI', 'DI1'), positive('phalen', 'wrist', 20), positive('spurling')),
    expect: { structure: ['RT6', 'ML5'], level: 'C6 root and carpal tunnel', side: 'left' },
    decides: 'Elbow flexors, pronator and lateral forearm need the root; the wasted thumb abductor and split ring finger need the tunnel.', rival: 'Either alone leaves one group unexplained.',
    source: `Upton AR, McComas AJ. Lancet 1973 (two lesions on one path); ${PRESTON}`, tag: 'from memory',
  },
  {
    id: 'PAIR-05', title: 'Wasted thenar and first web, spared hypothenar, all feeling normal', onset: days(300),
    findings: on('right', positive('wasting', 'thenar'), positive('wasting', 'DI1.belly'), negative('wasting', 'hypothenar'), power('2', 'APB', 'DI1'), power('3', 'OP', 'ADP'), power('5', 'ADM', 'FDM', 'FPL', 'FDP5'), touch('normal', 'D2.pulp', 'D5.pulp', 'FM', 'DR'), positive('fasciculation', 'DI1.belly')),
    expect: { structure: 'none of these', also: [['ML6', 'UL6'], 'RT1'], level: 'split hand: motor neurons', side: 'right' },
    decides: 'No single nerve or root explains thenar and first web without the hypothenar muscles. A tool that knows only lesions may answer with two motor branches at once or the T1 root; all are accepted, a single branch is not.', rival: 'ML6 or UL6 alone leaves the other muscle unexplained.',
    source: 'Ann Indian Acad Neurol 2012;15:175 (the split hand sign); Wilbourn AJ. Muscle Nerve 2000;23:138', tag: 'checked',
  },
];

export const VARIANT_CASES: readonly WorkedCase[] = [
  {
    id: 'VAR-01', title: 'Median nerve cut at the elbow that also weakens the first interosseous', onset: hours(6),
    findings: on('right', sign('laceration', 'present', 'elbow'), power('0', 'PT', 'FPL', 'FDP2', 'APB'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'PTH'), power('3', 'DI1'), power('4', 'ADP'), power('5', 'ADM', 'FDP5', 'FCU'), touch('normal', 'D5.pulp', 'DU')),
    expect: { structure: 'ML1', level: 'elbow, with a forearm link from median to ulnar', side: 'right' },
    decides: 'A forearm link carries first interosseous fibres in the median nerve (19.5 % of limbs); all ulnar skin and proximal ulnar muscles normal.', rival: 'Median and deep ulnar branch together: one wound at the elbow cannot reach the palm.',
    source: `${ROY}; Ehler E et al. Czech and Slovak Neurology 2017 (fibres for abductor digiti minimi, first interosseous or adductor run in the median nerve at the elbow; 19.7 % of 457 hands)`, tag: 'checked',
  },
  {
    id: 'VAR-02', title: 'Ulnar nerve cut at the elbow with spared interossei', onset: days(20),
    findings: on('left', positive('scar', 'medial.epicondyle'), power('1', 'FDP5', 'FCU'), power('0', 'FDP4'), touch('absent', 'D5.pulp', 'D4u', 'DU', 'PHY'), power('4', 'DI1', 'ADP'), power('2', 'ADM'), touch('normal', 'FM', 'D2.pulp'), power('5', 'APB', 'FPL', 'EIP')),
    expect: { structure: 'UL1', level: 'elbow, with a forearm link from median to ulnar', side: 'left' },
    decides: 'FCU, ulnar profundus and every ulnar skin area lost; a forearm link keeps the interossei.',
    rival: 'UL7 or UL8: profundus would be normal.', source: `${ROY}; effect ${STEWART}`, tag: 'checked',
  },
  {
    id: 'VAR-03', title: 'Median nerve cut at the wrist with a working thumb abductor', onset: hours(5),
    findings: on('right', sign('laceration', 'present', 'wrist.volar'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4r'), touch('normal', 'PTH', 'D5.pulp', 'D4u'), power('4', 'APB', 'OP'), power('5', 'FPL', 'FDP2', 'FDS2', 'ADM', 'DI1')),
    expect: { structure: 'ML5', level: 'wrist, with a palmar link from ulnar to median', side: 'right' },
    decides: 'All median digits lost under a wrist wound; a palmar link from the deep ulnar branch (found in 55.5 %) can keep the thenar muscles.', rival: 'Digital nerves one by one: the wound is at the wrist.',
    source: `${ROY}; effect from memory`, tag: 'from memory',
  },
  {
    id: 'VAR-04', title: 'Ulnar lesion at the wrist that blurs into the middle finger', onset: days(30),
    findings: on('left', touch('reduced', 'D5.pulp', 'D5r', 'D4u', 'D4r'), touch('normal', 'D3r', 'D2.pulp', 'DU', 'PHY'), power('3', 'ADM', 'DI1'), power('5', 'APB', 'FDP5', 'FPL')),
    expect: { structure: 'UL4', also: ['UL3'], level: 'Guyon zone I, with a palmar sensory link', side: 'left' },
    decides: 'Sensory links in the palm (60.9 %) blur the border at the ring finger; thumb abductor and index normal. Above and within the canal read the same.',
    source: `${ROY}; ${GUYON}`, tag: 'from memory',
  },
  {
    id: 'VAR-05', title: 'Anterior interosseous palsy with a strong middle profundus', onset: days(25),
    findings: on('right', power('0', 'FPL'), power('1', 'FDP2'), power('5', 'FDP3', 'FDP4', 'FDS2', 'APB'), power('3', 'PQ'), touch('normal', 'D1.pulp', 'D2.pulp'), sign('tenodesis', 'present', 'D1', 'D2')),
    expect: { structure: 'ML3', level: 'anterior interosseous nerve', side: 'right' },
    decides: 'The middle profundus is often shared with the ulnar nerve: use FDP2.',
    source: `${PRESTON}; ${AIDS}`, tag: 'from memory',
  },
];

export const BOTH_HANDS_CASES: readonly WorkedCase[] = [
  {
    id: 'BOTH-01', title: 'Carpal tunnel syndrome in both hands', onset: days(250),
    findings: bothSides(touch('reduced', 'D1.pulp', 'D2.pulp', 'D3.pulp'), touch('normal', 'D5.pulp', 'DR', 'DU', 'PTH'), power('4', 'APB'), power('5', 'ADM', 'DI1', 'FPL'), positive('phalen', 'wrist', 30), positive('night.symptoms')),
    expect: { structure: 'ML5', level: 'carpal tunnel', side: 'both' },
    decides: 'On both sides the little finger, both dorsal areas and the thenar base are spared.', rival: 'Polyneuropathy: borders would be crossed.',
    source: `${PRESTON}; both hands LR+ 1.4 ${MCGEE}`, tag: 'from memory',
  },
  {
    id: 'BOTH-02', title: 'Glove pattern with mild distal weakness', onset: days(800),
    findings: bothSides(touch('reduced', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D5.pulp', 'DR', 'DU', 'PTH'), vibration('reduced', 'D2.pulp', 'D5.pulp'), touch('normal', 'FL', 'FM'), power('4', 'APB', 'ADM', 'DI1'), power('5', 'TRI', 'BR', 'FCR')),
    expect: { structure: 'C24', level: 'glove pattern', side: 'both' },
    decides: 'Equal on both sides and across every nerve border, proximal muscles normal.', rival: 'Two carpal tunnels: little finger and dorsum would be normal.',
    source: PRESTON, tag: 'from memory',
  },
  {
    id: 'BOTH-03', title: 'Glove pattern, feeling only, carpal tunnel tests negative', onset: days(400),
    findings: bothSides(touch('reduced', 'D2.pulp', 'D5.pulp', 'DR', 'DU'), vibration('absent', 'D2.pulp', 'D5.pulp'), power('5', 'APB', 'ADM', 'FPL'), negative('phalen'), negative('tinel')),
    expect: { structure: 'C24', level: 'glove pattern, sensory', side: 'both' },
    decides: 'Both hands equal, median, ulnar and radial skin alike; muscles normal.',
    source: PRESTON, tag: 'from memory',
  },
  {
    id: 'BOTH-04', title: 'Cubital tunnel syndrome in both arms', onset: days(300),
    findings: bothSides(touch('reduced', 'D5.pulp', 'D4u', 'DU'), touch('normal', 'D2.pulp', 'D4r', 'FM', 'DR'), power('4', 'ADM', 'DI1', 'FDP5'), power('5', 'APB', 'EIP', 'FPL'), positive('tinel', 'cubital.tunnel')),
    expect: { structure: 'UL1', level: 'elbow', side: 'both' },
    decides: 'Ulnar skin with the dorsum on both sides; index, radial dorsum and medial forearm spared.', rival: 'Polyneuropathy: index and dorsal web would be reduced.',
    source: `${PRESTON}; ${BOTTE}`, tag: 'from memory',
  },
  {
    id: 'BOTH-05', title: 'One hand abnormal, the other examined and normal', onset: days(90),
    findings: [
      ...on('right', touch('reduced', 'D2.pulp', 'D3.pulp'), touch('normal', 'D5.pulp', 'PTH'), power('4', 'APB'), power('5', 'FPL'), positive('phalen', 'wrist', 25)),
      ...on('left', touch('normal', 'D2.pulp', 'D3.pulp', 'D5.pulp'), power('5', 'APB', 'FPL'), negative('phalen')),
    ],
    expect: { structure: 'ML5', level: 'carpal tunnel', side: 'right' },
    decides: 'Only the right median digits and thumb abductor.', rival: 'Polyneuropathy: the left hand is normal.',
    source: `${PRESTON}; ${WHEELESS}`, tag: 'checked',
  },
];

export const NORMAL_CASES: readonly WorkedCase[] = [
  {
    id: 'NORM-01', title: 'Quick screen of three nerves, normal',
    findings: on('right', touch('normal', 'D2.pulp', 'D5.pulp', 'DR'), power('5', 'APB', 'DI1', 'EPL', 'FPL')),
    expect: { structure: 'normal', side: 'right' },
    decides: 'One skin point and one muscle of each nerve normal.', source: `${AIDS}; ${GREEN} (test points)`, tag: 'from memory',
  },
  {
    id: 'NORM-02', title: 'Long examination, normal',
    findings: on('left', touch('normal', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D5.pulp', 'DR', 'DU', 'FM'), twoPoint(4, 'D2r', 'D5u'), power('5', 'TRI', 'BR', 'ED', 'EPL', 'FPL', 'FDP2', 'FDP5', 'APB', 'ADM', 'DI1'), sign('reflex', 'normal', 'TRI', 'BR'), sign('tenodesis', 'present'), negative('phalen'), negative('tinel')),
    expect: { structure: 'normal', side: 'left' },
    decides: 'Nothing abnormal; static two-point under 6 mm is normal.', source: 'American Society for Surgery of the Hand, The Hand: Examination and Diagnosis (two-point limits)', tag: 'from memory',
  },
  {
    id: 'NORM-03', title: 'Tinel at the elbow in a healthy arm',
    findings: on('right', positive('tinel', 'cubital.tunnel'), negative('elbow.flexion.test'), touch('normal', 'D5.pulp', 'D4u', 'DU', 'D2.pulp'), power('5', 'DI1', 'ADM', 'FDP5', 'APB'), negative('froment'), negative('tingling', 'D5')),
    expect: { structure: 'normal', side: 'right' },
    decides: 'Tinel at the elbow is positive in 24 to 36 % of healthy arms; feeling and power normal.', rival: 'UL1: nothing else supports it.',
    source: 'Rayan GM 1992 (24 %) and Kuschner SH et al. 2006 (36 %), as quoted in reviews', tag: 'checked',
  },
  {
    id: 'NORM-04', title: 'Little superficialis without independent action, no wound',
    findings: on('left', sign('fds.isolation', 'absent', 'D5'), power('5', 'FDP5', 'FDS4', 'FDS2', 'ADM'), touch('normal', 'D5r', 'D5u', 'D2.pulp'), negative('laceration', 'hand'), sign('active.range', 'full', 'D5.PIP.flexion')),
    expect: { structure: 'normal', side: 'left' },
    decides: 'No independent little superficialis in about 20 % of people; no wound, movement full.', rival: 'FDS5 cut: needs a wound.',
    source: 'Royal College of Emergency Medicine, teaching module on hand soft-tissue injury', tag: 'checked',
  },
  {
    id: 'NORM-05', title: 'Shallow cut, nothing deeper hurt', onset: hours(2),
    findings: on('right', sign('laceration', 'present', 'D3.volar'), sign('fds.isolation', 'normal', 'D3'), sign('fdp.isolation', 'normal', 'D3'), power('5', 'FDP3', 'FDS3'), touch('normal', 'D3r', 'D3u'), twoPoint(4, 'D3r', 'D3u'), refill(1.5, 'D3')),
    expect: { structure: 'normal', side: 'right' },
    decides: 'Both tendons, both digital nerves and perfusion normal under the wound.', rival: 'A partial tendon cut would hurt or be weak.',
    source: GREEN, tag: 'from memory',
  },
  {
    id: 'NORM-06', title: 'Carpal tunnel syndrome feared, everything negative in both hands',
    findings: bothSides(touch('normal', 'D2.pulp', 'D5.pulp', 'DR'), power('5', 'APB', 'ADM', 'EPL'), negative('phalen'), negative('tinel'), negative('carpal.compression'), negative('night.symptoms')),
    expect: { structure: 'normal', side: 'both' },
    decides: 'Nothing abnormal on either side; with all four of diagram, filament, compression and night pain normal the probability of carpal tunnel syndrome is 0.0068.',
    source: 'Szabo RM et al. J Hand Surg Am 1999', tag: 'checked',
  },
];

export const ONE_WRONG_CASES: readonly WorkedCase[] = [
  {
    id: 'ERR-01', title: 'Carpal tunnel syndrome; FPL wrongly graded 4', onset: days(120),
    findings: on('right', touch('reduced', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4r'), touch('normal', 'PTH', 'D5.pulp', 'D4u'), power('3', 'APB', 'OP'), power('5', 'FDP2', 'PQ', 'PT', 'FDS2'), power('4', 'FPL'), positive('phalen', 'wrist', 20), positive('night.symptoms')),
    expect: { structure: 'ML5', level: 'carpal tunnel', side: 'right' },
    decides: 'FDP2, PQ and thenar base outvote one soft FPL.', rival: 'ML2: FDP2 and PQ weak, thenar base lost.',
    source: `${PRESTON}; ${KAPPA}`, tag: 'from memory',
  },
  {
    id: 'ERR-02', title: 'Cubital tunnel syndrome; thumb abductor wrongly graded 4', onset: days(100),
    findings: on('left', power('3', 'DI1', 'ADM', 'ADP'), power('4', 'FDP5', 'FDP4'), touch('reduced', 'D5.pulp', 'D4u', 'DU'), touch('normal', 'FM', 'D2.pulp', 'D4r'), power('5', 'EIP', 'FPL', 'FDP2', 'OP'), power('4', 'APB'), positive('tinel', 'cubital.tunnel'), positive('froment')),
    expect: { structure: 'UL1', level: 'elbow', side: 'left' },
    decides: 'EIP, FPL, opponens and medial forearm outvote one soft thumb abductor.', rival: 'C8 or lower trunk: EIP and FPL weak, medial forearm lost.',
    source: `${PRESTON}; ${KAPPA}`, tag: 'from memory',
  },
  {
    id: 'ERR-03', title: 'Spiral groove palsy; triceps limited by pain', onset: days(3),
    findings: on('right', painful('4', 'TRI'), touch('normal', 'AP'), sign('reflex', 'normal', 'TRI'), power('1', 'BR', 'ECRL'), power('0', 'ED', 'EPL', 'EIP'), touch('reduced', 'DR'), power('5', 'FCR', 'APB', 'DI1'), positive('bruising', 'arm')),
    expect: { structure: 'RL2', level: 'spiral groove', side: 'right' },
    decides: 'Posterior arm and triceps reflex normal: the soft triceps is pain.', rival: 'RL1: posterior arm lost and reflex down.',
    source: `${AIDS}; ${KAPPA}`, tag: 'from memory',
  },
  {
    id: 'ERR-04', title: 'Anterior interosseous palsy; one pulp wrongly called reduced', onset: days(30),
    findings: on('left', power('0', 'FPL'), power('1', 'FDP2'), power('3', 'PQ'), power('5', 'APB', 'OP', 'FDS2', 'FCR', 'FDP5'), touch('normal', 'D1.pulp', 'D2.pulp', 'PTH'), touch('reduced', 'D3.pulp'), positive('ok.sign'), sign('tenodesis', 'present', 'D1')),
    expect: { structure: 'ML3', level: 'anterior interosseous nerve', side: 'left' },
    decides: 'Thenar muscles and three of four skin areas normal.', rival: 'ML2: thenar muscles and thenar base affected.',
    source: `${AIDS}; ${KAPPA}`, tag: 'from memory',
  },
  {
    id: 'ERR-05', title: 'Posterior interosseous palsy; little pulp wrongly called reduced', onset: days(40),
    findings: on('right', power('5', 'BR', 'ECRL', 'TRI', 'DI1', 'ADM', 'FDP5'), power('0', 'ED', 'EPL', 'EIP'), power('1', 'ECU', 'APL'), touch('normal', 'DR', 'FP', 'D2.pulp', 'DU'), touch('reduced', 'D5.pulp'), sign('tenodesis', 'present')),
    expect: { structure: 'RL4', level: 'supinator', side: 'right' },
    decides: 'Every posterior interosseous muscle lost, ulnar muscles and dorsum normal.', rival: 'C8 root: FDP5 and interossei weak.',
    source: `${AIDS}; ${KAPPA}`, tag: 'from memory',
  },
  {
    id: 'ERR-06', title: 'C7 root; thumb abductor wrongly graded 4', onset: days(15),
    findings: on('left', power('3', 'TRI', 'FCR'), power('4', 'ED', 'PT', 'APB'), power('5', 'BR', 'BIC', 'FPL', 'DI1', 'OP'), touch('reduced', 'D3.pulp'), touch('normal', 'PTH', 'D1.pulp', 'D5.pulp', 'DR'), sign('reflex', 'absent', 'TRI')),
    expect: { structure: 'RT7', level: 'C7 root', side: 'left' },
    decides: 'Triceps, its reflex and FCR; FPL and opponens normal.', rival: 'ML1: FPL lost; triceps not explained.',
    source: `${PRESTON}; ${KAPPA}`, tag: 'from memory',
  },
];

export const FEW_FINDINGS_CASES: readonly WorkedCase[] = [
  {
    id: 'FEW-01', title: 'Finger drop on five findings',
    findings: on('left', power('5', 'BR'), power('0', 'ED'), power('1', 'EPL'), touch('normal', 'DR'), sign('tenodesis', 'present')),
    expect: { structure: 'RL4', level: 'supinator', side: 'left' },
    decides: 'Brachioradialis and dorsal web normal, tenodesis kept, both extensor groups lost.', rival: 'Extensor rupture: tenodesis lost.',
    source: `${AIDS}; ${GREEN}`, tag: 'from memory',
  },
  {
    id: 'FEW-02', title: 'Weak pinch on five findings',
    findings: on('right', power('1', 'FPL', 'FDP2'), power('3', 'PQ'), power('5', 'APB'), touch('normal', 'D2.pulp')),
    expect: { structure: 'ML3', level: 'anterior interosseous nerve', side: 'right' },
    decides: 'Thumb abductor and index pulp normal.', rival: 'ML2: both affected.',
    source: 'Kiloh LG, Nevin S. BMJ 1952', tag: 'from memory',
  },
  {
    id: 'FEW-03', title: 'Weak first interosseous on five findings',
    findings: on('left', power('2', 'DI1'), power('5', 'ADM'), touch('normal', 'D5.pulp', 'DU'), positive('froment')),
    expect: { structure: 'UL6', level: 'deep branch beyond the hypothenar branches', side: 'left' },
    decides: 'ADM and ulnar skin normal.', rival: 'UL5: ADM weak.',
    source: 'Preston DC, Shapiro BE, chapter on ulnar neuropathy at the wrist, as reproduced on musculoskeletalkey.com', tag: 'checked',
  },
  {
    id: 'FEW-04', title: 'Ulnar pattern on six findings',
    findings: on('right', touch('reduced', 'D5.pulp', 'DU'), touch('normal', 'FM'), power('4', 'ADM', 'FDP5'), power('5', 'EIP')),
    expect: { structure: 'UL1', level: 'elbow', side: 'right' },
    decides: 'Dorsum lost and FDP5 weak; medial forearm and EIP spared.', rival: 'C8 root: EIP weak.',
    source: `${PRESTON}; ${BOTTE}`, tag: 'from memory',
  },
  {
    id: 'FEW-05', title: 'Wrist drop on five findings',
    findings: on('right', power('5', 'TRI'), power('1', 'BR', 'ED'), touch('absent', 'DR'), touch('normal', 'AP')),
    expect: { structure: 'RL2', level: 'spiral groove', side: 'right' },
    decides: 'Triceps and posterior arm spared, brachioradialis and dorsal web lost.',
    source: AIDS, tag: 'from memory',
  },
  {
    id: 'FEW-06', title: 'Thumb and finger numbness with a weak elbow, six findings',
    findings: on('left', power('4', 'BIC', 'BR', 'PT'), power('5', 'APB'), touch('reduced', 'D1.pulp'), sign('reflex', 'reduced', 'BR')),
    expect: { structure: 'RT6', level: 'C6 root', side: 'left' },
    decides: 'Elbow flexors and pronator teres with a normal thumb abductor.', rival: 'ML5: the elbow flexors would be normal.',
    source: ROOTS, tag: 'checked',
  },
  {
    id: 'FEW-07', title: 'Deep branch at the canal on seven findings',
    findings: on('right', power('3', 'ADM', 'DI1', 'ADP'), touch('normal', 'D5.pulp', 'DU'), power('5', 'FDP5', 'APB')),
    expect: { structure: 'UL5', level: 'Guyon zone II', side: 'right' },
    decides: 'Motor only with ADM weak, thumb abductor normal.', rival: 'UL6: ADM normal. T1 root: thumb abductor weak.',
    source: GUYON, tag: 'checked',
  },
  {
    id: 'FEW-08', title: 'Carpal tunnel syndrome in words, without grades',
    findings: on('right', strength('weak', 'thumb.palmar-abduction'), strength('normal', 'D1.IP.flexion', 'D2.DIP.flexion'), sign('pinprick', 'reduced', 'D2.pulp', 'D3.pulp'), sign('pinprick', 'normal', 'D5.pulp', 'PTH')),
    expect: { structure: 'ML5', level: 'carpal tunnel', side: 'right' },
    decides: 'Index duller than little finger (LR+ 3.1) and weak palmar abduction (LR+ 1.8); thenar base and thumb and index tip flexion normal.', rival: 'ML2: tip flexion weak.',
    source: `${MCGEE}; ${WHEELESS}`, tag: 'checked',
  },
  {
    id: 'FEW-09', title: 'Spiral groove palsy by movements', onset: days(1),
    findings: on('left', strength('normal', 'elbow.extension'), strength('absent', 'wrist.extension', 'fingers.extension', 'thumb.extension'), power('1', 'BR'), touch('reduced', 'territory.radial'), touch('normal', 'territory.median', 'territory.ulnar', 'AP')),
    expect: { structure: 'RL2', level: 'spiral groove', side: 'left' },
    decides: 'Elbow extension normal; wrist, fingers, thumb and brachioradialis lost; radial skin alone.', rival: 'RL4: brachioradialis and radial skin normal.',
    source: AIDS, tag: 'from memory',
  },
  {
    id: 'FEW-10', title: 'Carpal tunnel syndrome by territories', onset: days(150),
    findings: on('left', touch('reduced', 'territory.median'), touch('normal', 'territory.ulnar', 'territory.radial', 'PTH'), strength('weak', 'thumb.opposition', 'thumb.palmar-abduction'), positive('flick'), positive('night.symptoms')),
    expect: { structure: 'ML5', level: 'carpal tunnel', side: 'left' },
    decides: 'Median territory without the thenar base, weak thenar muscles, flick sign (LR+ 21.4 in one study).',
    source: `${MCGEE}; ${WHEELESS}`, tag: 'checked',
  },
  {
    id: 'FEW-11', title: 'C7 root by movements and dermatome', onset: days(12),
    findings: on('right', power('4', 'elbow.extension', 'wrist.flexion'), power('5', 'BR'), sign('pinprick', 'reduced', 'dermatome.C7'), sign('pinprick', 'normal', 'dermatome.C6', 'dermatome.C8'), sign('reflex', 'reduced', 'TRI')),
    expect: { structure: 'RT7', level: 'C7 root', side: 'right' },
    decides: 'Elbow extension and wrist flexion (two nerves, one root), C7 skin, triceps reflex.', rival: 'RL1: wrist flexion normal, brachioradialis weak.',
    source: ROOTS, tag: 'checked',
  },
];

export const UNFITTING_CASES: readonly WorkedCase[] = [
  {
    id: 'NONE-01', title: 'One arm numb to the shoulder, every muscle and reflex normal', onset: days(2),
    findings: on('left', touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D5.pulp', 'DR', 'DU', 'PTH', 'FL', 'FM', 'FP', 'AP'), power('5', 'TRI', 'BIC', 'BR', 'ED', 'EPL', 'FPL', 'FDP5', 'APB', 'ADM', 'DI1'), sign('reflex', 'normal', 'TRI', 'BR', 'BIC')),
    expect: { structure: 'none of these', side: 'left' },
    decides: 'Total loss of feeling across every nerve and root on one side with normal power and reflexes fits no lesion in the arm.',
    rival: 'Polyneuropathy: would be on both sides and distal.', source: 'Common teaching on loss of feeling that follows no nerve or root', tag: 'common practice, no source',
  },
  {
    id: 'NONE-02', title: 'Weak muscles of three nerves picked at random, feeling normal', onset: days(200),
    findings: on('right', power('1', 'BR', 'ADM', 'FPL'), power('5', 'ECRL', 'ED', 'EPL', 'TRI', 'DI1', 'ADP', 'FDP5', 'FDP2', 'PQ', 'APB', 'PT', 'BIC'), touch('normal', 'D2.pulp', 'D5.pulp', 'DR', 'DU', 'FL', 'FM'), sign('tenodesis', 'present', 'D1')),
    expect: { structure: 'none of these', level: 'multifocal motor', side: 'right' },
    decides: 'Single muscles of three nerves, their neighbours on the same branch normal, tenodesis kept: no one or two lesions explain it.',
    rival: 'ML3: leaves brachioradialis and ADM unexplained.', source: `${PRESTON} (multifocal motor neuropathy: weakness by single motor nerves, feeling spared)`, tag: 'from memory',
  },
];
