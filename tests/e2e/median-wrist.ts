// Pattern: median nerve cut at the wrist at or above its palmar cutaneous branch. Green's Operative Hand Surgery, 8th ed. 2022 [from memory];
// palmar cutaneous branch 5 to 6 cm above the wrist crease: Wheeless' Textbook [checked].
/** The findings spoken in median-wrist.flac, as the desk shows them. */
export const MEDIAN_WRIST: readonly string[] = [
  'Right · wound, volar wrist: present',
  'Right · pulse, ulnar artery: present',
  'Right · capillary refill, hand: 2 s',
  'Right · light touch, thumb tip: absent',
  'Right · light touch, index fingertip: absent',
  'Right · light touch, thenar base (palmar branch of the median nerve): absent',
  'Right · light touch, little fingertip: normal',
  'Right · power, abductor pollicis brevis: grade 0',
  'Right · power, opposition: grade 0',
  'Right · power, flexor pollicis longus: grade 5',
  'Right · power, flexor digitorum profundus of the index finger: grade 5',
  'Right · power, pronator teres: grade 5',
  'Right · power, first dorsal interosseous: grade 5',
];
