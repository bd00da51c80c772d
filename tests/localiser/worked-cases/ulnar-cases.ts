/**
 * Ulnar nerve. The pattern and the answer come from the source; grades and times are illustrative inputs
 * made up to fit it, and the patients are invented.
 */
import { days, hours, negative, on, positive, power, sign, touch, twoPoint, type WorkedCase } from './case';
import { AIDS, BOTTE, GRAY, GREEN, GUYON, NOVAK, PRESTON, STEWART } from './sources';

export const ULNAR_CASES: readonly WorkedCase[] = [
  {
    id: 'ULN-01', title: 'Ulnar nerve cut at the elbow, complete', onset: hours(4),
    findings: on('right', sign('laceration', 'present', 'elbow'), power('1', 'FCU'), power('0', 'FDP4', 'FDP5', 'ADM', 'DI1', 'ADP'), touch('absent', 'D5u', 'D5r', 'D4u', 'DU', 'PHY'), touch('normal', 'FM', 'D4r', 'D2.pulp'), power('5', 'APB', 'FPL', 'EIP', 'FDP2')),
    expect: { structure: 'UL1', level: 'elbow or above', side: 'right' },
    decides: 'FCU and ulnar profundus lost with the dorsal branch; medial forearm, thumb and index muscles spared.', rival: 'Medial cord: FPL, the thumb abductor and medial forearm would be affected.',
    source: `${AIDS}; ${BOTTE}`, tag: 'from memory',
  },
  {
    id: 'ULN-02', title: 'Early cubital tunnel syndrome, feeling only', onset: days(45),
    findings: on('left', touch('reduced', 'D5.pulp', 'D4u', 'DU'), touch('normal', 'D4r', 'FM', 'D2.pulp'), power('5', 'DI1', 'ADM', 'FDP5', 'APB'), positive('elbow.flexion.test', 'cubital.tunnel', 45), positive('tinel', 'cubital.tunnel'), negative('tinel', 'guyon.canal')),
    expect: { structure: 'UL1', level: 'cubital tunnel', side: 'left' },
    decides: 'Dorsal ulnar hand lost, ring finger split, medial forearm spared; elbow tests positive.', rival: 'UL4: the dorsal ulnar hand would be normal.',
    source: `${NOVAK}; ${BOTTE}`, tag: 'checked',
  },
  {
    id: 'ULN-03', title: 'Severe cubital tunnel syndrome with wasting', onset: days(500),
    findings: on('right', power('1', 'DI1', 'ADP'), power('2', 'ADM'), power('3', 'FDP5', 'FDP4'), power('4', 'FCU'), touch('absent', 'D5.pulp'), touch('reduced', 'DU', 'PHY'), touch('normal', 'FM', 'D2.pulp'), power('5', 'APB', 'FPL', 'EIP'), positive('wasting', 'DI1.belly'), positive('wasting', 'hypothenar'), positive('froment'), positive('wartenberg')),
    expect: { structure: 'UL1', level: 'elbow', side: 'right' },
    decides: 'Ulnar profundus weak and dorsal branch lost; medial forearm and the thumb abductor spared.', rival: 'C8 root: EIP, FPL and the thumb abductor would be weak.',
    source: `McGowan AJ 1950 (grade III); ${PRESTON}`, tag: 'from memory',
  },
  {
    id: 'ULN-04', title: 'Ulnar neuropathy at the elbow with a normal FCU', onset: days(120),
    findings: on('left', power('5', 'FCU'), power('4', 'FDP5'), power('3', 'ADM', 'DI1'), touch('reduced', 'D5.pulp', 'D4u', 'DU'), touch('normal', 'FM'), power('5', 'EIP', 'APB'), positive('tinel', 'cubital.tunnel')),
    expect: { structure: 'UL1', level: 'elbow', side: 'left' },
    decides: 'A normal FCU does not exclude the elbow: FDP5 is weak and the dorsal branch lost.', rival: 'UL2: FDP5 would be 5.',
    source: `${PRESTON}; ${STEWART}`, tag: 'from memory',
  },
  {
    id: 'ULN-05', title: 'Mid-forearm cut below the profundus branch', onset: days(60),
    findings: on('right', positive('scar', 'forearm.volar'), power('5', 'FCU', 'FDP4', 'FDP5', 'FPL', 'APB', 'EIP'), power('0', 'ADM', 'DI1', 'ADP'), touch('absent', 'D5u', 'D5r', 'D4u', 'DU'), touch('normal', 'FM', 'D4r'), positive('claw', 'D4'), positive('claw', 'D5')),
    expect: { structure: 'UL2', level: 'forearm, above the dorsal cutaneous branch', side: 'right' },
    decides: 'Dorsal branch lost but FDP5 and FCU strong.', rival: 'UL1: FDP5 would be lost in a complete lesion. UL3: the dorsum would be normal.',
    source: `${BOTTE}; branch to profundus within about 5 cm of the epicondyle, Tubbs RS et al. J Neurosurg 2006; ${STEWART}`, tag: 'from memory',
  },
  {
    id: 'ULN-06', title: 'Pressure on the ulnar nerve at the entry of Guyon\'s canal', onset: days(40),
    findings: on('left', power('3', 'ADM', 'DI1', 'ADP'), touch('reduced', 'D5.pulp', 'D5r', 'D4u'), touch('normal', 'DU', 'PHY', 'D4r', 'FM'), power('5', 'FDP5', 'FCU', 'APB', 'EIP'), positive('tinel', 'guyon.canal'), negative('tinel', 'cubital.tunnel')),
    expect: { structure: 'UL4', also: ['UL3'], level: 'Guyon zone I', side: 'left' },
    decides: 'Dorsum and profundus spared. The short stretch above the canal gives the same findings, so UL3 is accepted.', rival: 'UL1: dorsum lost, FDP5 weaker.',
    source: GUYON, tag: 'checked',
  },
  {
    id: 'ULN-07', title: 'Low ulnar cut with a marked claw', onset: days(120),
    findings: on('right', positive('claw', 'D4'), positive('claw', 'D5'), positive('bouvier'), power('1', 'ADM', 'DI1', 'ADP'), touch('absent', 'D5u', 'D5r', 'D4u'), touch('normal', 'DU', 'D3.pulp'), power('5', 'FDP5', 'FDP4', 'FCU', 'APB'), positive('scar', 'wrist.volar'), positive('froment')),
    expect: { structure: 'UL4', also: ['UL3'], level: 'wrist', side: 'right' },
    decides: 'Working profundus makes the claw worse (the ulnar paradox) and the dorsum is spared. Above and within the canal read the same.', rival: 'UL1: a milder claw, weak FDP5, numb dorsum.',
    source: 'Handbook of Clinical Examination in Orthopedics (a low lesion claws more than a high one)', tag: 'checked',
  },
  {
    id: 'ULN-08', title: 'Cyclist with a wasted first web: deep branch at the canal', onset: days(35),
    findings: on('left', positive('wasting', 'DI1.belly'), power('3', 'DI1', 'ADP', 'ADM', 'FDM'), touch('normal', 'D5.pulp', 'D4u', 'DU'), power('5', 'FDP5', 'APB'), positive('palmaris.brevis.sign')),
    expect: { structure: 'UL5', level: 'Guyon zone II', side: 'left' },
    decides: 'Motor only, hypothenar muscles included, palmaris brevis working.', rival: 'UL6: ADM would be 5.',
    source: 'Korean J Sports Med 2020;38:234 (left hand, amateur cyclist, type II Guyon syndrome, first dorsal interosseous wasted)', tag: 'checked',
  },
  {
    id: 'ULN-09', title: 'Learner cyclist: weak adduction, no numbness', onset: days(20),
    findings: on('left', power('3', 'ADP', 'DI1', 'fingers.adduction'), power('4', 'D4.MCP.flexion', 'D5.MCP.flexion'), power('5', 'ADM', 'FDP5', 'APB'), touch('normal', 'D5.pulp', 'DU', 'D2.pulp'), positive('froment')),
    expect: { structure: 'UL6', level: 'deep branch beyond the hypothenar branches', side: 'left' },
    decides: 'Abductor digiti minimi spared (its conduction was normal), first dorsal interosseous and adductor weak, feeling normal.', rival: 'UL5: ADM would be weak.',
    source: "Case report Cyclist's neuropathy (left; thumb adduction, finger abduction and adduction 3/5, ring and little MCP flexion 4/5, Froment positive, no sensory symptoms, ADM conduction normal)", tag: 'checked',
  },
  {
    id: 'ULN-10', title: 'Ganglion on the deep branch: wasted interossei and every named sign negative', onset: days(210),
    findings: on('right', positive('wasting', 'interossei'), power('2', 'DI1', 'DI2'), power('3', 'PI1'), power('5', 'ADM', 'APB', 'FDP5'), touch('normal', 'D5.pulp', 'D2.pulp', 'DU'), negative('tinel', 'carpal.tunnel'), negative('tinel', 'guyon.canal'), negative('froment'), negative('wartenberg'), negative('crossed.fingers'), negative('spurling')),
    expect: { structure: 'UL6', level: 'deep branch in the palm', side: 'right' },
    decides: 'Interossei alone with ADM and all feeling spared; negative named signs do not outweigh measured weakness.', rival: 'T1 root: the thumb abductor and medial forearm would be affected.',
    source: 'Freedman MK et al. 2025, case of an 18-year-old weight lifter (interossei wasted, ADM mostly spared, feeling intact, Tinel, Froment, Wartenberg, crossed-finger and Spurling negative; ganglion on the deep branch)', tag: 'checked',
  },
  {
    id: 'ULN-11', title: 'Hypothenar hammering: little finger numb, no weakness', onset: days(30),
    findings: on('right', touch('reduced', 'D5u', 'D5r', 'D4u'), touch('normal', 'DU', 'D4r', 'D2.pulp'), power('5', 'ADM', 'DI1', 'ADP', 'FDP5'), positive('tenderness', 'hypothenar')),
    expect: { structure: 'UL7', level: 'Guyon zone III', side: 'right' },
    decides: 'Palmar skin only; dorsum and every ulnar muscle spared.', rival: 'UL1: dorsum lost. UL8: dorsum alone.',
    source: GUYON, tag: 'checked',
  },
  {
    id: 'ULN-12', title: 'Tight bracelet: ulnar back of the hand numb', onset: days(10),
    findings: on('right', touch('reduced', 'DU', 'D5.dorsum'), touch('normal', 'D5.pulp', 'D4u', 'PHY', 'FM', 'DR'), power('5', 'DI1', 'ADM', 'FDP5')),
    expect: { structure: 'UL8', level: 'dorsal cutaneous branch', side: 'right' },
    decides: 'Dorsum only.', rival: 'C8 root: the little pulp and muscles would be affected.',
    source: `${BOTTE}; pattern ${STEWART}`, tag: 'from memory',
  },
  {
    id: 'ULN-13', title: 'Cut on the ulnar edge of the little finger', onset: hours(2),
    findings: on('left', sign('laceration', 'present', 'D5'), twoPoint(18, 'D5u'), twoPoint(4, 'D5r', 'D4u'), touch('absent', 'D5u'), touch('normal', 'D5r', 'D4u', 'DU'), power('5', 'FDP5', 'FDS5', 'ADM')),
    expect: { structure: 'DN:D5u', level: 'ulnar digital nerve of the little finger', side: 'left' },
    decides: 'One side of one digit.', rival: 'UL7: the radial side and the ring finger would be lost too.',
    source: `${GRAY}; ${GREEN}`, tag: 'from memory',
  },
  {
    id: 'ULN-14', title: 'Palm cut across the fourth web', onset: hours(6),
    findings: on('right', sign('wound', 'present', 'palm'), touch('absent', 'D4u', 'D5r'), touch('normal', 'D4r', 'D5u', 'DU', 'D3u'), power('5', 'ADM', 'DI1', 'FDP4', 'FDP5')),
    expect: { structure: 'CDN:web4', also: [['DN:D4u', 'DN:D5r']], level: 'fourth common digital nerve', side: 'right' },
    decides: 'Facing sides of the fourth web only. Its two proper branches cut together read the same.', rival: 'UL7: the ulnar side of the little finger would be lost.',
    source: `${GRAY}; ${GREEN}`, tag: 'from memory',
  },
  {
    id: 'ULN-15', title: 'Elbow lesion that spares the dorsal branch fascicles', onset: days(90),
    findings: on('left', power('3', 'FDP5', 'FDP4', 'ADM', 'DI1'), power('4', 'FCU'), touch('reduced', 'D5.pulp', 'D4u', 'PHY'), touch('normal', 'DU', 'FM', 'D2.pulp'), power('5', 'APB', 'FPL', 'EIP'), positive('tinel', 'cubital.tunnel'), positive('elbow.flexion.test')),
    expect: { structure: 'UL1', level: 'elbow, fascicular', side: 'left' },
    decides: 'Ulnar profundus and FCU weak put it at the elbow although the dorsum is spared.', rival: 'UL4: FDP5 and FCU would be 5.',
    source: STEWART, tag: 'from memory',
  },
  {
    id: 'ULN-16', title: 'Ulnar nerve cut at the wrist an hour ago: no claw and no wasting yet', onset: hours(1),
    findings: on('left', sign('laceration', 'present', 'wrist.ulnar'), negative('claw', 'D4'), negative('claw', 'D5'), negative('wasting', 'hypothenar'), power('0', 'ADM', 'DI1', 'ADP'), touch('absent', 'D5u', 'D5r', 'D4u'), touch('normal', 'DU', 'D4r'), power('5', 'FDP5', 'FCU', 'APB')),
    expect: { structure: 'UL4', also: ['UL3'], level: 'wrist', side: 'left' },
    decides: 'Paralysed intrinsics and numb ulnar digits with dorsum and profundus spared; claw and wasting take weeks, so their absence says nothing. Above and within the canal read the same.', rival: 'UL1: FDP5 lost and dorsum numb.',
    source: `${GUYON}; ${BOTTE}`, tag: 'checked',
  },
];
