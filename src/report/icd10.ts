/**
 * ICD-10 codes of the World Health Organization that a coder may consider, by the lesion's id in the localiser.
 * WHO four-character codes only; national modifications differ. [checked] = title read in a published list of WHO ICD-10 2019
 * or 2010; [from memory] = not compared with the list.
 */
export interface Code { readonly code: string; readonly title: string; readonly source: string }

const CHECKED = 'WHO ICD-10 2019 [checked]';
const MEMORY = 'WHO ICD-10 [from memory]';
const TITLES: Readonly<Record<string, readonly [title: string, source: string]>> = {
  'G54.0': ['Brachial plexus disorders', MEMORY], 'G54.2': ['Cervical root disorders, not elsewhere classified', MEMORY],
  'G56.0': ['Carpal tunnel syndrome', MEMORY], 'G56.1': ['Other lesions of median nerve', MEMORY], 'G56.2': ['Lesion of ulnar nerve', MEMORY], 'G56.3': ['Lesion of radial nerve', MEMORY],
  'G56.8': ['Other mononeuropathies of upper limb', MEMORY], 'G62.9': ['Polyneuropathy, unspecified', MEMORY], 'M54.1': ['Radiculopathy', 'ICD-10 2010, national list [checked]'],
  'S44.2': ['Injury of radial nerve at upper arm level', CHECKED], 'S44.4': ['Injury of musculocutaneous nerve', CHECKED],
  'S54.0': ['Injury of ulnar nerve at forearm level', CHECKED], 'S54.1': ['Injury of median nerve at forearm level', CHECKED], 'S54.2': ['Injury of radial nerve at forearm level', CHECKED], 'S54.3': ['Injury of cutaneous sensory nerve at forearm level', CHECKED],
  'S64.0': ['Injury of ulnar nerve at wrist and hand level', CHECKED], 'S64.1': ['Injury of median nerve at wrist and hand level', CHECKED], 'S64.2': ['Injury of radial nerve at wrist and hand level', CHECKED],
  'S64.3': ['Injury of digital nerve of thumb', CHECKED], 'S64.4': ['Injury of digital nerve of other finger', CHECKED],
  'S66.0': ['Injury of long flexor muscle and tendon of thumb at wrist and hand level', CHECKED], 'S66.1': ['Injury of flexor muscle and tendon of other finger at wrist and hand level', CHECKED],
  'S66.2': ['Injury of extensor muscle and tendon of thumb at wrist and hand level', CHECKED], 'S66.3': ['Injury of extensor muscle and tendon of other finger at wrist and hand level', CHECKED],
  'S66.6': ['Injury of multiple flexor muscles and tendons at wrist and hand level', CHECKED], 'S66.7': ['Injury of multiple extensor muscles and tendons at wrist and hand level', CHECKED],
  'M66.2': ['Spontaneous rupture of extensor tendons', CHECKED], 'M66.3': ['Spontaneous rupture of flexor tendons', CHECKED],
  'S65.0': ['Injury of ulnar artery at wrist and hand level', CHECKED], 'S65.1': ['Injury of radial artery at wrist and hand level', CHECKED], 'S65.4': ['Injury of blood vessel(s) of thumb', CHECKED], 'S65.5': ['Injury of blood vessel(s) of other finger', CHECKED],
  'S62.0': ['Fracture of navicular [scaphoid] bone of hand', CHECKED], 'S52.5': ['Fracture of lower end of radius', CHECKED],
  'S63.3': ['Traumatic rupture of ligament of wrist and carpus', CHECKED], 'S63.4': ['Traumatic rupture of ligament of finger at metacarpophalangeal and interphalangeal joint(s)', CHECKED],
  'M65.1': ['Other infective (teno)synovitis', CHECKED], 'M65.3': ['Trigger finger', CHECKED], 'M65.4': ['Radial styloid tenosynovitis [de Quervain]', CHECKED], 'M72.0': ['Palmar fascial fibromatosis [Dupuytren]', CHECKED], 'M72.6': ['Necrotizing fasciitis', CHECKED],
  'L03.1': ['Cellulitis of other parts of limb', MEMORY], 'M00.9': ['Pyogenic arthritis, unspecified', MEMORY], 'T79.6': ['Traumatic ischaemia of muscle', CHECKED], 'M62.2': ['Ischaemic infarction of muscle', CHECKED],
};

/** Codes by lesion: with an open wound of that hand, and without. The first pattern that fits counts. */
const BY_LESION: readonly (readonly [lesion: RegExp, wounded: readonly string[], unwounded: readonly string[]])[] = [
  [/^median\.carpal-tunnel$/, ['S64.1'], ['G56.0']], [/^median\.(recurrent|palmar-cutaneous)$/, ['S64.1'], ['G56.1']], [/^median\./, ['S54.1'], ['G56.1']],
  [/^ulnar\.(elbow|forearm)$/, ['S54.0'], ['G56.2']], [/^ulnar\./, ['S64.0'], ['G56.2']],
  [/^radial\.(axilla|groove)$/, ['S44.2'], ['G56.3']], [/^radial\.superficial$/, ['S64.2'], ['G56.3']], [/^radial\./, ['S54.2'], ['G56.3']],
  [/^digital\.D1/, ['S64.3'], ['G56.8']], [/^(common-)?digital\./, ['S64.4'], ['G56.8']], [/^musculocutaneous\./, ['S44.4'], ['G56.8']], [/^(lateral|medial)-cutaneous\./, ['S54.3'], ['G56.8']],
  [/^(trunk|cord)\./, ['G54.0'], ['G54.0']], [/^root\./, ['G54.2', 'M54.1'], ['G54.2', 'M54.1']], [/^polyneuropathy$/, ['G62.9'], ['G62.9']],
  [/^tendon\.FPL$/, ['S66.0'], ['M66.3']], [/^tendon\.wrist-flexors$/, ['S66.6'], ['M66.3']], [/^tendon\.(FD[PS][2-5]|both-flexors\.)/, ['S66.1'], ['M66.3']], [/^tendon\.(EPL|EPB|APL|first-compartment)$/, ['S66.2'], ['M66.2']],
  [/^tendon\.(finger|ulnar)-extensors$/, ['S66.7'], ['M66.2']], [/^tendon\.(ED[2-5]|EIP|EDM|central-slip|terminal)/, ['S66.3'], ['M66.2']],
  [/^trigger\./, ['M65.3'], ['M65.3']], [/^de-quervain$/, ['M65.4'], ['M65.4']], [/^palmar-fascia$/, ['M72.0'], ['M72.0']], [/^sheath-infection\./, ['M65.1'], ['M65.1']], [/^(joint-infection\.|septic-wrist)/, ['M00.9'], ['M00.9']],
  [/^cellulitis$/, ['L03.1'], ['L03.1']], [/^necrotising$/, ['M72.6'], ['M72.6']], [/^compartment\./, ['T79.6'], ['T79.6', 'M62.2']],
  [/^scaphoid$/, ['S62.0'], ['S62.0']], [/^distal-radius$/, ['S52.5'], ['S52.5']], [/^(scapholunate|lunotriquetral)$/, ['S63.3'], ['S63.3']], [/^thumb-ucl$/, ['S63.4'], ['S63.4']],
  [/^artery\.ulnar$/, ['S65.0'], []], [/^artery\.radial$/, ['S65.1'], []], [/^ischaemia\.D1$/, ['S65.4'], []], [/^ischaemia\.D[2-5]$/, ['S65.5'], []],
];

/** Codes for a lesion ("median.carpal-tunnel", or several joined by "+"); none where the table has none. */
export function codesFor(lesion: string, wounded: boolean): readonly Code[] {
  const codes = lesion.split('+').flatMap((part) => BY_LESION.find(([pattern]) => pattern.test(part))?.[wounded ? 1 : 2] ?? []);
  return [...new Set(codes)].map((code) => ({ code, title: TITLES[code]?.[0] ?? '', source: TITLES[code]?.[1] ?? '' }));
}
