/**
 * Median nerve. The pattern and the answer come from the source; grades and times are illustrative inputs
 * made up to fit it, and the patients are invented.
 */
import { days, hours, negative, on, positive, power, sign, touch, twoPoint, type WorkedCase } from './case';
import { AIDS, GRAY, GREEN, MCGEE, PRESTON, STEWART, WHEELESS } from './sources';

export const MEDIAN_CASES: readonly WorkedCase[] = [
  {
    id: 'MED-01', title: 'Early carpal tunnel syndrome, feeling only', onset: days(60),
    findings: on('right', touch('reduced', 'D2.pulp', 'D3.pulp'), touch('normal', 'D5.pulp', 'PTH'), power('5', 'APB', 'FPL', 'FDP2'), positive('phalen', 'wrist', 35), positive('night.symptoms')),
    expect: { structure: 'ML5', level: 'carpal tunnel', side: 'right' },
    decides: 'Thenar base and little finger spared; anterior interosseous muscles normal.', rival: 'C6 or C7 root: no muscle evidence; the pulps are median skin.',
    source: `${WHEELESS}; ${PRESTON}`, tag: 'checked',
  },
  {
    id: 'MED-02', title: 'Late carpal tunnel syndrome with thenar wasting', onset: days(700),
    findings: on('left', power('2', 'APB'), power('3', 'OP'), power('5', 'FPL', 'FDP2', 'PT', 'DI1', 'ADM'), touch('absent', 'D2.pulp', 'D3.pulp'), touch('reduced', 'D1.pulp'), touch('normal', 'PTH', 'D5.pulp', 'FM'), positive('wasting', 'thenar'), positive('night.symptoms')),
    expect: { structure: 'ML5', level: 'carpal tunnel', side: 'left' },
    decides: 'Thenar base spared, FPL and FDP2 normal; medial forearm and first dorsal interosseous normal.', rival: 'Lower trunk: medial forearm and ulnar intrinsics would be affected and the index pulp spared.',
    source: `${WHEELESS}; ${PRESTON}`, tag: 'checked',
  },
  {
    id: 'MED-03', title: 'Carpal tunnel syndrome with every provocative test negative', onset: days(200),
    findings: on('right', touch('reduced', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4r'), touch('normal', 'D4u', 'D5.pulp', 'PTH'), power('4', 'APB'), power('5', 'FPL', 'PT'), negative('tinel'), negative('phalen'), negative('carpal.compression')),
    expect: { structure: 'ML5', level: 'carpal tunnel', side: 'right' },
    decides: 'The ring finger is split and the thenar base spared; negative Tinel, Phalen and compression have likelihood ratios of 0.7 to 1.0 and hardly count.', rival: 'Normal: four areas and the thumb abductor agree.',
    source: `${MCGEE} (LR- of Tinel 0.8, Phalen 0.7, compression 1.0)`, tag: 'checked',
  },
  {
    id: 'MED-04', title: 'Split ring finger, five findings only',
    findings: on('left', touch('reduced', 'D4r'), touch('normal', 'D4u', 'PTH'), power('4', 'APB'), power('5', 'FDP2')),
    expect: { structure: 'ML5', level: 'carpal tunnel', side: 'left' },
    decides: 'Ring finger splitting speaks for the median nerve; the thenar base is spared and FDP2 normal.', rival: 'C8 root: the whole ring finger would be affected.',
    source: PRESTON, tag: 'from memory',
  },
  {
    id: 'MED-05', title: 'Median nerve cut just below the branch to pronator teres', onset: hours(3),
    findings: on('left', sign('laceration', 'present', 'forearm.volar'), power('5', 'PT', 'FCR'), power('0', 'FPL', 'FDP2', 'PQ', 'APB', 'OP'), power('1', 'FDS2'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'PTH'), touch('normal', 'D5.pulp', 'DU'), power('5', 'FDP5', 'ADM'), sign('tenodesis', 'present', 'D1', 'D2')),
    expect: { structure: 'ML2', level: 'below the branch to pronator teres, above the anterior interosseous nerve', side: 'left' },
    decides: 'Pronator teres spared; anterior interosseous, thenar and thenar-base skin lost; tenodesis kept.', rival: 'ML1: pronator teres would be lost.',
    source: STEWART, tag: 'from memory',
  },
  {
    id: 'MED-06', title: 'Median nerve stretched at the elbow, partial', onset: days(14),
    findings: on('right', power('3', 'PT', 'FCR', 'FPL', 'APB'), power('2', 'FDP2'), power('3', 'FDS3'), touch('reduced', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'PTH'), touch('normal', 'D5.pulp', 'DR', 'FL'), power('5', 'FDP5', 'FCU', 'BR', 'TRI', 'DI1')),
    expect: { structure: 'ML1', level: 'arm or elbow', side: 'right' },
    decides: 'Pronator teres weak together with every median muscle below it; ulnar and radial muscles normal.', rival: 'C6 or C7 root: brachioradialis or triceps would be weak, the thumb abductor kept.',
    source: `${AIDS}; ${STEWART}`, tag: 'from memory',
  },
  {
    id: 'MED-07', title: 'Thumb flexor alone after removal of forearm plates: fascicle of the anterior interosseous nerve', onset: days(40),
    findings: on('right', power('0', 'FPL'), power('5', 'FDP2', 'APB', 'PQ', 'EIP', 'DI1'), sign('tenodesis', 'present', 'D1'), touch('normal', 'D1.pulp', 'D2.pulp', 'PTH', 'D5.pulp'), positive('scar', 'forearm.volar')),
    expect: { structure: 'ML3', level: 'anterior interosseous nerve, fascicle to FPL', side: 'right' },
    decides: 'Tenodesis kept, so the tendon is whole; feeling and index flexion normal.', rival: 'FPL tendon rupture: tenodesis would be lost. C8 root: EIP and the interossei would be weak.',
    source: 'Glauser E et al. GMS Ger Plast Reconstr Aesthet Surg 2016;6:Doc09 (right thumb flexion lost, index flexion and feeling unimpaired, rupture excluded by tenodesis)', tag: 'checked',
  },
  {
    id: 'MED-08', title: 'Incomplete anterior interosseous palsy: index profundus most', onset: days(90),
    findings: on('left', power('1', 'FDP2'), power('4', 'FPL', 'PQ'), power('5', 'FDS2', 'APB', 'FDP3', 'PT'), sign('tenodesis', 'present', 'D2'), touch('normal', 'D1.pulp', 'D2.pulp', 'PTH'), positive('ok.sign')),
    expect: { structure: 'ML3', level: 'anterior interosseous nerve, incomplete', side: 'left' },
    decides: 'Motor loss within anterior interosseous muscles only; tenodesis kept.', rival: 'FDP2 rupture: FPL and PQ would be 5, tenodesis lost.',
    source: 'Hill NA, Howard FM, Huffer BR. J Hand Surg Am 1985;10:4 (33 incomplete cases, FPL or index FDP alone)', tag: 'checked',
  },
  {
    id: 'MED-09', title: 'Anterior interosseous palsy with a Tinel sign in the forearm', onset: days(180),
    findings: on('right', power('0', 'FPL', 'FDP2'), power('3', 'PQ'), power('5', 'FDS2', 'APB', 'FCR', 'FDP5'), touch('normal', 'D1.pulp', 'D2.pulp', 'D3.pulp'), positive('tinel', 'forearm.volar'), negative('wasting', 'thenar'), positive('ok.sign')),
    expect: { structure: 'ML3', level: 'anterior interosseous nerve', side: 'right' },
    decides: 'FPL, FDP2 and PQ weak with all skin normal and the thumb abductor normal.', rival: 'ML2: pulps and thenar base would be numb.',
    source: 'Bothwell MF, Plancher KD. Anterior interosseous nerve syndrome, chapter 14 (28-year-old weight lifter; pinch weak, PQ weak, Tinel over the proximal forearm, no wasting or sensory change), plasticsurgerykey.com', tag: 'checked',
  },
  {
    id: 'MED-10', title: 'Recurrent motor branch cut, seen late', onset: days(150),
    findings: on('left', positive('scar', 'carpal.tunnel'), power('0', 'APB'), power('1', 'OP'), power('5', 'FPL', 'FDP2', 'DI1', 'ADM', 'EIP'), touch('normal', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'PTH', 'FM'), twoPoint(4, 'D2r'), positive('wasting', 'thenar')),
    expect: { structure: 'ML6', level: 'recurrent motor branch', side: 'left' },
    decides: 'Thenar muscles alone; digital skin spared.', rival: 'T1 root: first dorsal interosseous and medial forearm would be affected.',
    source: STEWART, tag: 'from memory',
  },
  {
    id: 'MED-11', title: 'Glass cut of the distal forearm with a numb thenar base', onset: hours(2),
    findings: on('right', sign('laceration', 'present', 'forearm.volar'), power('1', 'APB', 'OP'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4r', 'PTH'), touch('normal', 'D5.pulp', 'D4u', 'DU'), power('5', 'FPL', 'FDP2', 'PQ', 'FDS2', 'ADM')),
    expect: { structure: 'ML4', also: [['ML5', 'ML8']], level: 'distal forearm', side: 'right' },
    decides: 'Anterior interosseous muscles spared, thenar base lost. The nerve cut below the origin together with its palmar branch gives the same findings, so both are accepted.', rival: 'ML5 alone: the thenar base would be normal.',
    source: `${WHEELESS}; ${GREEN}`, tag: 'checked',
  },
  {
    id: 'MED-12', title: 'Median nerve cut at the wrist crease, thenar base spared', onset: hours(5),
    findings: on('left', sign('laceration', 'present', 'wrist.volar'), power('0', 'APB', 'OP'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp'), touch('normal', 'PTH', 'D5.pulp', 'DR'), power('5', 'FPL', 'FDP2', 'FDS2', 'FDS3', 'ADM', 'DI1'), sign('pulse', 'normal', 'radial.artery', 'ulnar.artery')),
    expect: { structure: 'ML5', level: 'wrist', side: 'left' },
    decides: 'Digital skin and thenar muscles lost, thenar base and all long flexors spared.', rival: 'ML4: the thenar base would be numb.',
    source: `${WHEELESS}; ${GREEN}`, tag: 'checked',
  },
  {
    id: 'MED-13', title: 'Palmar cutaneous branch caught in a wrist scar', onset: days(60),
    findings: on('right', positive('scar', 'wrist.volar'), touch('reduced', 'PTH'), touch('normal', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D5.pulp', 'FL'), power('5', 'APB', 'FPL')),
    expect: { structure: 'ML8', level: 'palmar cutaneous branch', side: 'right' },
    decides: 'Thenar base alone; digits and thenar muscles normal.', rival: 'ML4: digits would be numb and the thumb abductor weak.',
    source: WHEELESS, tag: 'checked',
  },
  {
    id: 'MED-14', title: 'Palm cut across the second web', onset: hours(1),
    findings: on('left', sign('wound', 'present', 'palm'), touch('absent', 'D2u', 'D3r'), touch('normal', 'D2r', 'D3u', 'D4r', 'D1.pulp'), power('5', 'APB', 'FDP2', 'FDP3', 'FDS2', 'FDS3')),
    expect: { structure: 'CDN:web2', also: [['DN:D2u', 'DN:D3r']], level: 'second common digital nerve, palm', side: 'left' },
    decides: 'Both facing sides of one web lost, neighbours normal. Its two proper branches cut together read the same.', rival: 'One proper digital nerve: only one side would be lost.',
    source: `${GRAY}; ${GREEN}`, tag: 'from memory',
  },
  {
    id: 'MED-15', title: 'Deep palm cut across the third web', onset: hours(4),
    findings: on('right', sign('laceration', 'present', 'palm'), twoPoint(15, 'D3u', 'D4r'), twoPoint(4, 'D3r', 'D4u', 'D2u'), power('5', 'FDP3', 'FDP4', 'APB', 'ADM')),
    expect: { structure: 'CDN:web3', also: [['DN:D3u', 'DN:D4r']], level: 'third common digital nerve, palm', side: 'right' },
    decides: 'Facing sides of the third web over 10 mm, neighbours 4 mm.',
    source: `${GRAY}; ${GREEN}`, tag: 'from memory',
  },
  {
    id: 'MED-16', title: 'Ulnar digital nerve of the thumb pressed by repeated grip', onset: days(120),
    findings: on('right', touch('reduced', 'D1u'), touch('normal', 'D1r', 'D2r', 'PTH', 'DR'), positive('tinel', 'D1.volar'), power('5', 'FPL', 'APB', 'ADP')),
    expect: { structure: 'DN:D1u', level: 'ulnar digital nerve of the thumb', side: 'right' },
    decides: 'One side of one digit, all else normal.', rival: 'ML5: other digits and the radial side of the thumb would be affected.',
    source: GREEN, tag: 'from memory',
  },
  {
    id: 'MED-17', title: 'Median numbness growing over hours after a wrist fracture', onset: hours(6),
    findings: on('left', positive('swelling', 'wrist'), positive('worsening.numbness'), touch('reduced', 'D1.pulp', 'D2.pulp', 'D3.pulp'), touch('normal', 'D5.pulp', 'PTH', 'DR'), power('4', 'APB'), power('5', 'FPL', 'FDP2'), sign('pulse', 'normal', 'radial.artery')),
    expect: { structure: 'ML5', level: 'carpal tunnel, acute', side: 'left' },
    decides: 'Median digits lost and getting worse, thenar base and long flexors spared.', rival: 'Nerve contusion: numb at once, not worse.',
    source: 'Schnetzler KA. J Am Acad Orthop Surg 2008;16:276', tag: 'checked',
  },
];
