/**
 * Twenty-five textbook patterns that any localiser of hand lesions must get right. Pattern and answer come from the source;
 * the grades are illustrative inputs made up to fit it, and the patients are invented.
 */
import { negative, on, bothSides, positive, power, sign, touch, twoPoint, type WorkedCase } from './case';
import { AIDS, BOTTE, GREEN, GUYON, PRESTON, STEWART, WHEELESS } from './sources';

const MEMORY = 'from memory';
const CHECKED = 'checked';

export const CORE_CASES: readonly WorkedCase[] = [
  { id: 'H01', title: 'Carpal tunnel', findings: on('right', touch('reduced', 'D1r', 'D1u', 'D2r', 'D2u', 'D3r'), power('4', 'APB'), touch('normal', 'PTH', 'D5.pulp'), power('5', 'FPL', 'FDP2'), positive('phalen', 'wrist', 40), positive('night.symptoms')),
    expect: { structure: 'ML5', side: 'right' }, decides: 'PTH spared; AIN muscles normal', rival: 'ML2: FPL and FDP2 would weaken', source: `${PRESTON}; ${WHEELESS}`, tag: MEMORY },
  { id: 'H02', title: 'Median nerve cut in the distal forearm', findings: on('left', sign('laceration', 'present', 'forearm.volar'), power('0', 'APB', 'OP'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4r', 'PTH'), power('5', 'FPL', 'FDP2', 'PT'), touch('normal', 'D5.pulp')),
    expect: { structure: 'ML4', side: 'left' }, decides: 'AIN muscles spared; PTH lost', rival: 'ML5: PTH would be normal', source: `${GREEN}; ${WHEELESS}`, tag: MEMORY },
  { id: 'H03', title: 'Anterior interosseous nerve', findings: on('right', power('0', 'FPL'), power('1', 'FDP2'), power('4', 'FDP3'), power('3', 'PQ'), power('5', 'APB', 'FDS2'), touch('normal', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D5.pulp', 'PTH', 'DR', 'DU'), positive('ok.sign')),
    expect: { structure: 'ML3', side: 'right' }, decides: 'No skin loss; APB normal', rival: 'Cuts of the FPL and FDP2 tendons: two wounds needed, PQ would be 5', source: AIDS, tag: MEMORY },
  { id: 'H04', title: 'Pronator level', findings: on('left', power('5', 'PT'), power('4', 'FCR'), power('3', 'FDS2', 'FPL', 'FDP2', 'APB'), touch('reduced', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'PTH'), negative('phalen'), positive('pronator.provocation')),
    expect: { structure: 'ML2', side: 'left' }, decides: 'PTH lost; AIN muscles weak; PT spared', rival: 'ML5: PTH normal and FPL 5', source: STEWART, tag: MEMORY },
  { id: 'H05', title: 'Median nerve at the elbow', findings: on('right', power('0', 'PT', 'FCR', 'FDS2', 'FPL', 'FDP2', 'APB'), power('5', 'FDP5'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4r', 'PTH'), positive('benediction')),
    expect: { structure: 'ML1', side: 'right' }, decides: 'PT weak; ulnar flexors normal', rival: 'ML2: PT would be 5', source: AIDS, tag: MEMORY },
  { id: 'H06', title: 'Recurrent motor branch', findings: on('right', sign('laceration', 'present', 'thenar'), power('0', 'APB', 'OP'), power('5', 'LUM1', 'FPL', 'DI1'), touch('normal', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4r', 'D5.pulp', 'PTH'), twoPoint(4, 'D2.pulp')),
    expect: { structure: 'ML6', side: 'right' }, decides: 'Motor only, digital skin spared', rival: 'T1 root: DI1 and FM would be affected', source: STEWART, tag: MEMORY },
  { id: 'H07', title: 'Cubital tunnel', findings: on('left', power('3', 'DI1', 'ADM', 'ADP'), power('4', 'FDP5'), power('5', 'FCU', 'APB', 'FPL', 'EIP'), touch('reduced', 'D5.pulp', 'D4u', 'DU'), touch('normal', 'FM'), positive('froment'), positive('tinel', 'cubital.tunnel')),
    expect: { structure: 'UL1', side: 'left' }, decides: 'DU lost; FM spared; APB, FPL, EIP spared', rival: 'UL4: DU normal. C8: APB, EIP, FPL weak', source: PRESTON, tag: MEMORY },
  { id: 'H08', title: 'Guyon zone I', findings: on('right', power('2', 'DI1', 'ADM'), power('5', 'FDP5', 'FCU'), touch('reduced', 'D5.pulp', 'D4u'), touch('normal', 'DU', 'PHY'), positive('claw')),
    expect: { structure: 'UL4', also: ['UL3'], side: 'right' }, decides: 'DU spared; FDP5 strong; claw worse', rival: 'UL1: DU lost, FDP5 weaker, milder claw', source: GUYON, tag: CHECKED },
  { id: 'H09', title: 'Guyon zone II', findings: on('left', power('3', 'ADM', 'FDM'), power('2', 'DI1', 'ADP'), positive('palmaris.brevis.sign'), touch('normal', 'D5.pulp', 'D4u', 'DU', 'PHY', 'D2.pulp'), power('5', 'FDP5')),
    expect: { structure: 'UL5', side: 'left' }, decides: 'Motor only; ADM weak; PB spared', rival: 'UL6: ADM would be 5', source: GUYON, tag: CHECKED },
  { id: 'H10', title: 'Deep branch beyond the hypothenar branches', findings: on('right', power('5', 'ADM'), power('1', 'DI1', 'ADP'), power('2', 'DI4'), positive('froment'), touch('normal', 'D5.pulp', 'D4u', 'DU', 'D2.pulp'), positive('wasting', 'web1')),
    expect: { structure: 'UL6', side: 'right' }, decides: 'ADM spared', rival: 'UL5: ADM weak', source: PRESTON, tag: MEMORY },
  { id: 'H11', title: 'Guyon zone III', findings: on('right', touch('reduced', 'D5r', 'D5u', 'D4u'), touch('normal', 'DU'), power('5', 'ADM', 'DI1')),
    expect: { structure: 'UL7', side: 'right' }, decides: 'No motor loss; DU spared', rival: 'UL1: weakness and DU loss', source: GUYON, tag: CHECKED },
  { id: 'H12', title: 'Dorsal cutaneous branch', findings: on('left', touch('absent', 'DU'), touch('normal', 'D5.pulp'), power('5', 'ADM', 'DI1', 'FDP5', 'FCU', 'APB'), sign('laceration', 'present', 'wrist.ulnar')),
    expect: { structure: 'UL8', side: 'left' }, decides: 'Dorsum only', rival: 'UL1: palmar loss and weakness', source: `${BOTTE}; ${STEWART}`, tag: MEMORY },
  { id: 'H13', title: 'Spiral groove', findings: on('right', power('5', 'TRI', 'APB'), power('0', 'BR', 'ECRL', 'ED', 'EPL', 'APL'), touch('absent', 'DR'), touch('normal', 'AP')),
    expect: { structure: 'RL2', side: 'right' }, decides: 'TRI spared; BR lost', rival: 'RL4: BR 5, DR normal. RL1: TRI weak', source: AIDS, tag: MEMORY },
  { id: 'H14', title: 'Radial nerve in the axilla', findings: on('left', power('2', 'TRI'), power('1', 'BR', 'ECRL', 'ED', 'EPL'), touch('absent', 'AP', 'FP', 'DR'), power('5', 'APB', 'FDP5')),
    expect: { structure: 'RL1', side: 'left' }, decides: 'TRI weak; AP lost', rival: 'RL2: TRI 5. C7: BR kept', source: AIDS, tag: MEMORY },
  { id: 'H15', title: 'Posterior interosseous nerve', findings: on('right', power('5', 'BR', 'ECRL'), power('0', 'ED', 'EPL', 'EIP'), power('1', 'ECU'), touch('normal', 'DR'), sign('tenodesis', 'present', 'fingers')),
    expect: { structure: 'RL4', side: 'right' }, decides: 'BR and ECRL spared; DR spared', rival: 'Extensor rupture: tenodesis lost. RL2: BR 0, DR absent', source: AIDS, tag: MEMORY },
  { id: 'H16', title: 'Superficial radial nerve', findings: on('left', touch('reduced', 'DR'), positive('tinel', 'distal.radius'), power('5', 'BR', 'ECRL', 'ED', 'EPL', 'APL', 'APB')),
    expect: { structure: 'RL6', side: 'left' }, decides: 'Motor normal', rival: 'de Quervain: pain without skin loss', source: `Abrams RA et al. J Hand Surg Am 1992;17:1037; ${STEWART}`, tag: MEMORY },
  { id: 'H17', title: 'One digital nerve', findings: on('right', twoPoint(16, 'D2r'), twoPoint(4, 'D2u'), power('5', 'FDP2', 'FDS2'), sign('laceration', 'present', 'D2')),
    expect: { structure: 'DN:D2r', side: 'right' }, decides: 'One side only; neighbours normal', rival: 'Common digital nerve: two facing sides', source: GREEN, tag: MEMORY },
  { id: 'H18', title: 'C6 root', findings: on('left', power('4', 'BIC', 'BR', 'ECRL'), power('3', 'PT'), power('5', 'APB', 'FDP2'), touch('reduced', 'D1.dorsum'), touch('normal', 'D3'), sign('reflex', 'reduced', 'BR'), positive('neck.pain')),
    expect: { structure: 'RT6', side: 'left' }, decides: 'BR and PT weak (radial and median), APB spared', rival: 'ML1: APB and FPL weak. RL2: PT 5', source: `Rainville J et al. Spine J 2007; ${PRESTON}`, tag: MEMORY },
  { id: 'H19', title: 'C7 root', findings: on('right', power('3', 'TRI'), power('4', 'FCR', 'PT', 'ED'), power('5', 'BR', 'DI1'), touch('reduced', 'D3'), touch('normal', 'DR'), sign('reflex', 'reduced', 'TRI')),
    expect: { structure: 'RT7', side: 'right' }, decides: 'Radial and median muscles together', rival: 'RL1: BR weak, DR absent, FCR 5', source: PRESTON, tag: MEMORY },
  { id: 'H20', title: 'C8 root', findings: on('left', power('4', 'FDP2', 'FDP5', 'FPL', 'EIP', 'APB'), power('3', 'DI1', 'ADM'), power('5', 'BR'), touch('reduced', 'D5', 'DU'), touch('normal', 'FM')),
    expect: { structure: 'RT8', side: 'left' }, decides: 'EIP, FPL and APB weak besides ulnar intrinsics; FM spared', rival: 'UL1: EIP, FPL, APB 5. LT: FM reduced', source: PRESTON, tag: MEMORY },
  { id: 'H21', title: 'Lower trunk', findings: on('right', power('2', 'APB'), power('3', 'DI1', 'ADM'), power('4', 'FDP5', 'EIP', 'ED'), touch('reduced', 'FM', 'D5'), touch('normal', 'D2')),
    expect: { structure: 'LT', side: 'right' }, decides: 'Thenar wasting with FM loss; D2 spared', rival: 'UL1: FM normal, APB 5. MCd: EIP and ED 5', source: 'Gilliatt RW et al. 1970', tag: MEMORY },
  { id: 'H22', title: 'Median and ulnar nerves cut at the wrist', findings: on('left', sign('laceration', 'present', 'wrist.volar'), power('0', 'APB', 'OP', 'DI1', 'ADM', 'ADP', 'LUM1', 'LUM3'), power('5', 'FDP2', 'FDP5', 'FPL'), touch('absent', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4.pulp', 'D5.pulp'), touch('normal', 'DR', 'DU'), positive('claw')),
    expect: { structure: ['ML5', 'UL4'], also: [['ML5', 'UL3'], ['ML4', 'UL3'], ['ML4', 'UL4']], side: 'left' }, decides: 'Long flexors strong; DU spared. PTH was not tested, so the median cut may be above or below its palmar branch.', rival: 'Lower trunk: FM loss, FDP5 and FPL weak', source: `${GREEN}; Brand PW, Hollister A 1999`, tag: MEMORY },
  { id: 'H23', title: 'Polyneuropathy', findings: bothSides(touch('reduced', 'D1.pulp', 'D2.pulp', 'D3.pulp', 'D4.pulp', 'D5.pulp', 'DR', 'DU'), power('4', 'ADM', 'DI1')),
    expect: { structure: 'C24', side: 'both' }, decides: 'Both hands equal, borders crossed', rival: 'Bilateral carpal tunnel: D5 and DR normal', source: PRESTON, tag: MEMORY },
  { id: 'H24', title: 'FPL tendon rupture', findings: on('right', power('0', 'FPL'), sign('tenodesis', 'absent', 'D1'), power('5', 'FDP2', 'PQ'), touch('normal', 'D1.pulp', 'D2.pulp', 'D5.pulp', 'PTH')),
    expect: { structure: 'TENDON:FPL', side: 'right' }, decides: 'FDP2 and PQ normal; tenodesis lost', rival: 'ML3: FDP2 and PQ weak, tenodesis kept', source: 'Mannerfelt L, Norman O. J Bone Joint Surg Br 1969', tag: MEMORY },
  { id: 'H25', title: 'Both flexors and a digital nerve in zone II', findings: on('left', sign('laceration', 'present', 'D3'), power('0', 'FDP3', 'FDS3'), sign('cascade', 'present', 'D3'), touch('absent', 'D3u'), touch('normal', 'D3r'), power('5', 'FDP2')),
    expect: { structure: ['TENDON:FDS3', 'TENDON:FDP3', 'DN:D3u'], side: 'left' }, decides: 'FDP2 normal; D3r spared', rival: 'AIN: FPL and FDP2 weak', source: GREEN, tag: MEMORY },
];
