import { DIGITS } from '../../../src/vocabulary';
import type { ExpectedStructure, Structure } from './case';

const FINGERS = ['2', '3', '4', '5'] as const;

/** The localiser's own ids in the plain names of the published level tables. */
const NAMES: Readonly<Record<string, readonly Structure[]>> = {
  'median.elbow': ['ML1'], 'median.pronator': ['ML2'], 'median.anterior-interosseous': ['ML3'], 'median.fascicle-FPL': ['ML3'], 'median.fascicle-FDP2': ['ML3'], 'median.forearm': ['ML4'], 'median.carpal-tunnel': ['ML5'], 'median.recurrent': ['ML6'], 'median.palmar-cutaneous': ['ML8'],
  'ulnar.elbow': ['UL1'], 'ulnar.forearm': ['UL2'], 'ulnar.wrist': ['UL3'], 'ulnar.guyon': ['UL4'], 'ulnar.deep': ['UL5'], 'ulnar.deep-distal': ['UL6'], 'ulnar.superficial': ['UL7'], 'ulnar.dorsal-cutaneous': ['UL8'],
  'radial.axilla': ['RL1'], 'radial.groove': ['RL2'], 'radial.elbow': ['RL3'], 'radial.posterior-interosseous': ['RL4'], 'radial.pin-short': ['RL5a'], 'radial.pin-long': ['RL5b'], 'radial.superficial': ['RL6'],
  'root.C5': ['RT5'], 'root.C6': ['RT6'], 'root.C7': ['RT7'], 'root.C8': ['RT8'], 'root.T1': ['RT1'], 'trunk.lower': ['LT'], 'cord.medial': ['MCd'], 'lateral-cutaneous.forearm': ['LABC'], 'medial-cutaneous.forearm': ['MABC'],
  'common-digital.web2': ['CDN:web2'], 'common-digital.web3': ['CDN:web3'], 'common-digital.web4': ['CDN:web4'],
  polyneuropathy: ['C24'],
  'tendon.FPL': ['TENDON:FPL'], 'tendon.EPL': ['TENDON:EPL'], 'tendon.EIP': ['TENDON:EIP'], 'tendon.EDM': ['TENDON:EDM'], 'tendon.ECU': ['TENDON:ECU'], 'tendon.FCR': ['TENDON:FCR'], 'tendon.FCU': ['TENDON:FCU'], 'tendon.PL': ['TENDON:PL'],
  'tendon.APL': ['TENDON:APL'], 'tendon.EPB': ['TENDON:EPB'], 'tendon.first-compartment': ['TENDON:APL', 'TENDON:EPB'], 'tendon.ECRL': ['TENDON:ECRL'], 'tendon.ECRB': ['TENDON:ECRB'], 'tendon.radial-wrist-extensors': ['TENDON:ECRL', 'TENDON:ECRB'],
  'tendon.ulnar-extensors': ['TENDON:ED4', 'TENDON:ED5', 'TENDON:EDM'], 'tendon.ring-little-extensors': ['TENDON:ED4', 'TENDON:ED5'], 'tendon.finger-extensors': ['TENDON:ED2', 'TENDON:ED3', 'TENDON:ED4', 'TENDON:ED5', 'TENDON:EIP', 'TENDON:EDM'],
  'tendon.little-extensors': ['TENDON:ED5', 'TENDON:EDM'], 'tendon.index-extensors': ['TENDON:ED2', 'TENDON:EIP'],
  'thumb-ucl': ['LIGAMENT:thumb.UCL'], scapholunate: ['LIGAMENT:scapholunate'], scaphoid: ['FRACTURE:scaphoid'], 'thumb-base': ['JOINT:D1.CMC'], 'de-quervain': ['DE-QUERVAIN'], 'palmar-fascia': ['DUPUYTREN'],
  'artery.radial': ['ARTERY:radial'], 'artery.ulnar': ['ARTERY:ulnar'], 'ischaemia.hand': ['ISCHAEMIA:hand'], 'compartment.forearm': ['COMPARTMENT:forearm'], 'compartment.hand': ['COMPARTMENT:hand'], necrotising: ['NECROTISING-INFECTION'],
  normal: ['normal'], unexplained: ['none of these'],
  'motor-neurone': ['none of these'], // a disease of the motor neurones is no row of the level tables
  ...Object.fromEntries(DIGITS.flatMap(digit => [
    [`digital.${digit}r`, [`DN:${digit}r`]], [`digital.${digit}u`, [`DN:${digit}u`]],
    [`trigger.${digit}`, [`TRIGGER:${digit}`]], [`sheath-infection.${digit}`, [`SHEATH-INFECTION:${digit}`]], [`ischaemia.${digit}`, [`ISCHAEMIA:${digit}`]],
  ])),
  ...Object.fromEntries(FINGERS.flatMap(n => [
    [`tendon.FDP${n}`, [`TENDON:FDP${n}`]], [`tendon.FDS${n}`, [`TENDON:FDS${n}`]], [`tendon.both-flexors.D${n}`, [`TENDON:FDS${n}`, `TENDON:FDP${n}`]], [`tendon.ED${n}`, [`TENDON:ED${n}`]],
    [`tendon.central-slip.D${n}`, [`CENTRAL-SLIP:D${n}`]], [`tendon.terminal.D${n}`, [`TERMINAL-TENDON:D${n}`]], [`joint-infection.D${n}`, [`JOINT-INFECTION:D${n}.MCP`]],
  ])),
};

/** Names that mean the same answer: a finger is short of blood because of its arteries; a hand because of the brachial artery or both wrist arteries. */
const SAME: Readonly<Record<string, string>> = { 'ARTERY:D1': 'ISCHAEMIA:D1', 'ARTERY:D2': 'ISCHAEMIA:D2', 'ARTERY:D3': 'ISCHAEMIA:D3', 'ARTERY:D4': 'ISCHAEMIA:D4', 'ARTERY:D5': 'ISCHAEMIA:D5', 'ARTERY:brachial': 'ISCHAEMIA:hand' };

const key = (structures: readonly string[]): string => [...new Set(structures.map(name => SAME[name] ?? name))].sort().join(' + ');

/** An explanation's id in the names of the tables; ids without a row keep their own name. */
export const answerName = (id: string): string => key(id.split('+').flatMap((part): readonly string[] => NAMES[part] ?? [part]));
export const expectedName = (expected: ExpectedStructure): string => key(Array.isArray(expected) ? expected as readonly string[] : [expected as string]);
