/**
 * Radial nerve, cutaneous nerves of the forearm, roots and plexus. The pattern and the answer come from the source;
 * grades and times are illustrative inputs made up to fit it, and the patients are invented.
 */
import { days, hours, negative, on, positive, power, sign, touch, type WorkedCase } from './case';
import { AIDS, GRAY, PRESTON, ROOTS, STEWART } from './sources';

const ABRAMS_SRN = 'Abrams RA et al. J Hand Surg Am 1992;17:1037 (superficial radial nerve)';
const BRANCHES = 'Branovacki G et al. J Hand Surg Br 1998;23:167 (short branches ED ECU EDM, long branches APL EPL EPB EIP)';

export const RADIAL_CASES: readonly WorkedCase[] = [
  {
    id: 'RAD-01', title: 'Woke with a dropped wrist', onset: days(2),
    findings: on('left', positive('wrist.drop'), power('5', 'TRI', 'DI1', 'APB'), power('2', 'BR'), power('1', 'ECRL', 'ED', 'EPL'), touch('reduced', 'DR'), touch('normal', 'AP', 'D2.pulp', 'D5.pulp'), sign('reflex', 'normal', 'TRI'), sign('reflex', 'absent', 'BR')),
    expect: { structure: 'RL2', level: 'spiral groove', side: 'left' },
    decides: 'Triceps spared, brachioradialis weak, dorsal first web lost.', rival: 'RL1: triceps weak and posterior arm lost. RL4: brachioradialis 5.',
    source: `${AIDS}; ${STEWART}`, tag: 'from memory',
  },
  {
    id: 'RAD-02', title: 'Fracture of the humeral shaft, complete radial palsy', onset: days(1),
    findings: on('right', power('5', 'TRI'), power('0', 'BR', 'ECRL', 'SUP', 'ED', 'EPL', 'APL', 'EIP'), touch('absent', 'DR'), touch('normal', 'AP', 'D3.pulp'), power('5', 'FCR', 'FDP2', 'APB', 'FDP5'), sign('tenodesis', 'present')),
    expect: { structure: 'RL2', level: 'spiral groove', side: 'right' },
    decides: 'Everything radial below triceps; median and ulnar muscles normal; tenodesis kept.', rival: 'C7 root: triceps and FCR would be weak, brachioradialis kept.',
    source: AIDS, tag: 'from memory',
  },
  {
    id: 'RAD-03', title: 'Crutch pressure in the axilla, partial', onset: days(7),
    findings: on('right', power('3', 'TRI', 'BR', 'ECRL'), power('2', 'ED', 'EPL'), touch('reduced', 'AP', 'FP', 'DR'), sign('reflex', 'reduced', 'TRI'), power('5', 'FCR', 'PT', 'DI1', 'APB', 'FDP5'), touch('normal', 'D3.pulp')),
    expect: { structure: 'RL1', level: 'axilla', side: 'right' },
    decides: 'Triceps weak and posterior arm lost, with brachioradialis.', rival: 'C7 root: FCR and PT weak, brachioradialis kept.',
    source: `${AIDS}; ${STEWART}`, tag: 'from memory',
  },
  {
    id: 'RAD-04', title: 'Cut above the elbow, below the branches to brachioradialis and ECRL', onset: hours(8),
    findings: on('right', sign('laceration', 'present', 'elbow'), power('5', 'TRI', 'BR', 'ECRL'), power('0', 'ED', 'ECU', 'EPL', 'EIP'), power('1', 'SUP'), touch('absent', 'DR'), touch('normal', 'FP', 'D2.pulp'), sign('tenodesis', 'present')),
    expect: { structure: 'RL3', level: 'just above the elbow', side: 'right' },
    decides: 'Brachioradialis normal, dorsal first web lost, finger extensors lost.', rival: 'RL4: dorsal first web normal. RL2: brachioradialis lost.',
    source: 'Branch orders of Abrams 1997, Branovacki 1998 and Sawyer 2020 agree: brachioradialis and ECRL leave above the division', tag: 'checked',
  },
  {
    id: 'RAD-05', title: 'Finger drop, ring and little first', onset: days(60),
    findings: on('left', power('5', 'BR', 'ECRL', 'TRI'), power('1', 'D4.MCP.extension', 'D5.MCP.extension'), power('2', 'ED', 'ECU', 'EPL'), power('3', 'APL', 'EIP'), touch('normal', 'DR', 'D5.pulp'), sign('tenodesis', 'present'), power('5', 'DI1', 'ADM', 'FDP5')),
    expect: { structure: 'RL4', level: 'supinator', side: 'left' },
    decides: 'Short and long branches both weak, wrist extends to the radial side, dorsal first web normal; ulnar muscles normal.', rival: 'Ulnar claw: the interossei would be weak. Extensor rupture: tenodesis lost.',
    source: 'Quignon R et al. 2011, 18 posterior interosseous palsies (finger extension lost, wrist extends in radial deviation)', tag: 'checked',
  },
  {
    id: 'RAD-06', title: 'Lipoma at the supinator', onset: days(120),
    findings: on('right', positive('lump', 'forearm.dorsal'), power('2', 'MCPs.extension', 'ED', 'ECU'), power('3', 'EPL', 'EIP'), power('5', 'BR', 'ECRL', 'TRI', 'FCR'), touch('normal', 'DR', 'D3.pulp'), positive('tenderness', 'radial.tunnel')),
    expect: { structure: 'RL4', level: 'supinator', side: 'right' },
    decides: 'MCP extension weak, wrist extends to the radial side, feeling normal.', rival: 'C7 root: triceps and FCR would be weak.',
    source: 'Chapter 17 of the case book cited in MED-09, posterior interosseous syndrome (right forearm lipoma; MCP joints not extended, wrist extends in radial deviation, finger extensors denervated), read in a reprint', tag: 'checked',
  },
  {
    id: 'RAD-07', title: 'Posterior interosseous nerve cut', onset: hours(3),
    findings: on('left', sign('laceration', 'present', 'forearm.dorsal'), power('0', 'ED', 'ECU', 'EPL', 'EIP'), power('1', 'APL'), power('5', 'BR', 'ECRL'), touch('normal', 'DR'), sign('tenodesis', 'present', 'D2', 'D3', 'D1')),
    expect: { structure: 'RL4', level: 'supinator', side: 'left' },
    decides: 'Brachioradialis and dorsal first web normal; all posterior interosseous muscles lost; tenodesis kept, so not the tendons.', rival: 'Extensor tendon cuts: tenodesis lost.',
    source: 'Cravens G, Kline DG. Neurosurgery 1990;27:397 (32 palsies: weak wrist extension with radial drift, no finger or thumb extension; 6 cuts)', tag: 'checked',
  },
  {
    id: 'RAD-08', title: 'Short branches beyond the supinator', onset: days(30),
    findings: on('right', power('1', 'ED', 'EDM', 'ECU'), power('5', 'EPL', 'APL', 'EPB', 'EIP', 'SUP', 'BR', 'ECRL'), touch('normal', 'DR'), sign('tenodesis', 'present')),
    expect: { structure: 'RL5a', level: 'posterior interosseous nerve, short branches', side: 'right' },
    decides: 'ED, EDM and ECU weak, thumb and index branches spared.', rival: 'RL4: thumb and index would be weak.',
    source: BRANCHES, tag: 'from memory',
  },
  {
    id: 'RAD-09', title: 'Long branches beyond the supinator', onset: days(30),
    findings: on('left', power('5', 'ED', 'ECU', 'EDM', 'SUP', 'BR'), power('1', 'EPL', 'EPB', 'EIP'), power('2', 'APL'), touch('normal', 'DR', 'D1.pulp'), sign('tenodesis', 'present', 'D1')),
    expect: { structure: 'RL5b', level: 'posterior interosseous nerve, long branches', side: 'left' },
    decides: 'Thumb extensors, APL and EIP weak, ED and ECU spared, tenodesis kept.', rival: 'EPL rupture: APL, EPB and EIP would be 5.',
    source: BRANCHES, tag: 'from memory',
  },
  {
    id: 'RAD-10', title: 'Handcuff neuropathy', onset: days(4),
    findings: on('right', touch('reduced', 'DR', 'D1.dorsum'), touch('normal', 'FL', 'D1.pulp', 'DU'), power('5', 'EPL', 'APL', 'BR', 'APB'), positive('tinel', 'distal.radius')),
    expect: { structure: 'RL6', level: 'superficial radial nerve', side: 'right' },
    decides: 'Dorsal radial skin alone.', rival: 'C6 root: muscles weak, lateral forearm reduced.',
    source: `${ABRAMS_SRN}; pattern ${STEWART}`, tag: 'from memory',
  },
  {
    id: 'RAD-11', title: 'Numb lateral forearm after a needle at the elbow', onset: days(14),
    findings: on('left', touch('reduced', 'FL'), touch('normal', 'DR', 'D1.pulp', 'FM'), power('5', 'BIC', 'BR', 'PT', 'ECRL'), sign('reflex', 'normal', 'BIC', 'BR')),
    expect: { structure: 'LABC', level: 'lateral cutaneous nerve of the forearm', side: 'left' },
    decides: 'Lateral forearm alone; muscles and reflexes of C6 normal, thumb normal.', rival: 'C6 root: muscle evidence lacking.',
    source: AIDS, tag: 'from memory',
  },
  {
    id: 'RAD-12', title: 'Numb medial forearm after elbow surgery', onset: days(60),
    findings: on('right', positive('scar', 'medial.epicondyle'), touch('reduced', 'FM'), touch('normal', 'AM', 'D5.pulp', 'DU'), power('5', 'APB', 'DI1', 'ADM', 'FDP5', 'FPL')),
    expect: { structure: 'MABC', level: 'medial cutaneous nerve of the forearm', side: 'right' },
    decides: 'Medial forearm alone: medial arm, ulnar skin and the T1 muscles are normal.', rival: 'T1 root: the thumb abductor weak, medial arm reduced. Ulnar nerve: its skin does not reach the forearm.',
    source: `${GRAY}; ${PRESTON}`, tag: 'from memory',
  },
];

export const ROOT_CASES: readonly WorkedCase[] = [
  {
    id: 'ROOT-01', title: 'C6 radiculopathy with both reflexes down', onset: days(20),
    findings: on('right', power('4', 'BIC', 'BR', 'PT', 'ECRL'), power('5', 'TRI', 'APB', 'FPL', 'DI1'), touch('reduced', 'D1.pulp', 'FL'), touch('normal', 'D5.pulp', 'D3.pulp'), sign('reflex', 'reduced', 'BIC', 'BR'), positive('spurling'), positive('neck.pain')),
    expect: { structure: 'RT6', level: 'C6 root', side: 'right' },
    decides: 'Three nerves, one root: biceps, brachioradialis and pronator teres.', rival: 'ML1: FPL and the thumb abductor would be weak.',
    source: `Rainville J et al. Spine J 2007 (pronation weak in 72 % of C6 cases); ${PRESTON}`, tag: 'from memory',
  },
  {
    id: 'ROOT-02', title: 'Numb thumb and index: C6, not the carpal tunnel', onset: days(40),
    findings: on('left', touch('reduced', 'D1.pulp', 'D2.pulp', 'FL'), power('4', 'BIC', 'BR', 'ECRL', 'PT'), power('5', 'APB', 'FPL'), sign('reflex', 'absent', 'BR'), negative('phalen'), negative('tinel'), negative('carpal.compression'), positive('neck.pain')),
    expect: { structure: 'RT6', level: 'C6 root', side: 'left' },
    decides: 'Biceps, brachioradialis and wrist extension weak, lateral forearm reduced, thumb abductor normal.', rival: 'ML5: forearm skin and elbow flexors would be normal.',
    source: ROOTS, tag: 'checked',
  },
  {
    id: 'ROOT-03', title: 'C7 radiculopathy', onset: days(14),
    findings: on('left', power('4-', 'TRI', 'FCR'), power('4', 'ED', 'PT'), power('5', 'BR', 'BIC', 'DI1', 'APB', 'ADM'), touch('reduced', 'D3.pulp'), touch('normal', 'D5.pulp', 'D1.pulp'), sign('reflex', 'absent', 'TRI'), sign('reflex', 'normal', 'BR'), positive('spurling')),
    expect: { structure: 'RT7', level: 'C7 root', side: 'left' },
    decides: 'Triceps (radial) and FCR (median) together; brachioradialis normal.', rival: 'RL1: brachioradialis weak, FCR 5.',
    source: PRESTON, tag: 'from memory',
  },
  {
    id: 'ROOT-04', title: 'Finger drop from C7, not the posterior interosseous nerve', onset: days(10),
    findings: on('right', power('3', 'ED'), power('4', 'TRI', 'FCR', 'PT'), power('5', 'ECRL', 'BR', 'APB'), touch('reduced', 'D3.pulp'), touch('normal', 'DR'), sign('tenodesis', 'present'), sign('reflex', 'reduced', 'TRI')),
    expect: { structure: 'RT7', level: 'C7 root', side: 'right' },
    decides: 'Triceps, wrist flexors and finger extensors weak together.', rival: 'RL4: triceps and wrist flexors normal, feeling intact.',
    source: ROOTS, tag: 'checked',
  },
  {
    id: 'ROOT-05', title: 'C8 radiculopathy', onset: days(30),
    findings: on('right', power('4', 'FDP2', 'FDP3', 'FDP5', 'FPL', 'ADM', 'DI1'), power('3', 'EIP'), power('5', 'BR', 'BIC', 'TRI'), touch('reduced', 'D5.pulp', 'DU'), touch('normal', 'FM', 'D2.pulp'), positive('neck.pain')),
    expect: { structure: 'RT8', level: 'C8 root', side: 'right' },
    decides: 'EIP, FPL and both halves of profundus weak besides the ulnar intrinsics; medial forearm spared.', rival: 'UL1: EIP, FPL and FDP2 would be 5.',
    source: PRESTON, tag: 'from memory',
  },
  {
    id: 'ROOT-06', title: 'T1 root with Horner syndrome', onset: days(60),
    findings: on('left', power('3', 'APB', 'DI1'), power('4', 'ADM'), power('5', 'FPL', 'EIP', 'FDP5', 'TRI'), touch('reduced', 'FM', 'AM'), touch('normal', 'D5.pulp', 'D2.pulp'), positive('horner')),
    expect: { structure: 'RT1', level: 'T1 root', side: 'left' },
    decides: 'Thumb abductor and first interosseous weak, medial arm and forearm lost, little pulp normal; Horner syndrome.', rival: 'Lower trunk: FDP5 and FPL weak, little finger lost.',
    source: PRESTON, tag: 'from memory',
  },
  {
    id: 'ROOT-07', title: 'True neurogenic thoracic outlet syndrome', onset: days(1000),
    findings: on('right', positive('wasting', 'thenar'), power('1', 'APB'), power('3', 'DI1', 'ADM'), power('4', 'FDP5', 'FPL', 'EIP'), touch('reduced', 'FM', 'D5.pulp'), touch('normal', 'D2.pulp', 'D3.pulp'), power('5', 'BR', 'TRI', 'PT')),
    expect: { structure: 'LT', level: 'lower trunk', side: 'right' },
    decides: 'Thenar wasting with medial forearm loss and a normal index pulp; FDP5 and FPL weak.', rival: 'ML5: the index pulp would be reduced. UL1: the medial forearm and thumb abductor normal.',
    source: 'Muscle Nerve 2014;49:724 (32 operated patients: medial forearm sensory and median motor studies abnormal together in 89 %); Gilliatt RW et al. 1970', tag: 'checked',
  },
  {
    id: 'ROOT-08', title: 'Severe thenar wasting with slight sensory loss: cervical rib', onset: days(700),
    findings: on('left', positive('wasting', 'thenar'), power('2', 'APB', 'OP'), power('4', 'DI1', 'ADM', 'FPL', 'FDP5'), touch('reduced', 'FM'), touch('normal', 'D2.pulp', 'D5.pulp', 'D1.pulp'), power('5', 'TRI', 'BR', 'ED')),
    expect: { structure: 'LT', also: ['RT1'], level: 'lower trunk', side: 'left' },
    decides: 'Median and ulnar C8-T1 muscles with the medial forearm. With a normal little pulp the findings fit T1 fibres alone nearly as well, so the T1 root is accepted.', rival: 'ML6: medial forearm and ulnar intrinsics normal.',
    source: 'True neurogenic thoracic outlet syndrome: electrophysiological diagnosis in six cases (unilateral severe thenar atrophy, sensory deficit slight or absent)', tag: 'checked',
  },
  {
    id: 'ROOT-09', title: 'Medial cord injury', onset: days(21),
    findings: on('right', power('2', 'DI1', 'ADM', 'APB'), power('3', 'FPL', 'FDP5'), power('5', 'EIP', 'ED', 'TRI', 'BR', 'ECU', 'EPL'), touch('reduced', 'D5.pulp', 'DU', 'FM'), touch('normal', 'D2.pulp', 'DR')),
    expect: { structure: 'MCd', level: 'medial cord', side: 'right' },
    decides: 'C8-T1 median and ulnar muscles with the medial forearm; the radial C8 muscles (EIP, ED) are spared.', rival: 'Lower trunk or C8: EIP and ED would be weak.',
    source: PRESTON, tag: 'from memory',
  },
  {
    id: 'ROOT-10', title: 'C7 on five findings',
    findings: on('right', power('3', 'TRI', 'FCR'), power('5', 'BR'), touch('reduced', 'D3.pulp'), sign('reflex', 'reduced', 'TRI')),
    expect: { structure: 'RT7', level: 'C7 root', side: 'right' },
    decides: 'A radial and a median muscle of one root, brachioradialis normal.',
    source: PRESTON, tag: 'from memory',
  },
];
