/** Works that several cases cite, in full once. */
export const AIDS = "O'Brien M. Aids to the Examination of the Peripheral Nervous System, 5th ed. 2010";
export const PRESTON = 'Preston DC, Shapiro BE. Electromyography and Neuromuscular Disorders, 3rd ed. 2013';
export const STEWART = 'Stewart JD. Focal Peripheral Neuropathies, 4th ed. 2010';
export const GREEN = "Green's Operative Hand Surgery, 8th ed. 2022";
export const GRAY = "Gray's Anatomy, 2020";
export const WHEELESS = "Wheeless' Textbook of Orthopaedics (palmar cutaneous branch: radial side of the median nerve, 5-6 cm above the distal wrist crease, spared in carpal tunnel syndrome)";
export const MCGEE = "D'Arcy CA, McGee S. JAMA 2000;283:3110";
export const BOTTE = 'Botte MJ et al. J Hand Surg Am 1990;15:603 (dorsal cutaneous branch leaves 8.3 cm above the pisiform)';
export const GUYON = 'Gross MS, Gelberman RH. Clin Orthop 1985;196:238, zones as quoted in reviews';
export const NOVAK = 'Novak CB et al. J Hand Surg Am 1994;19:817';
export const ROY = 'Roy J et al. Muscle Nerve 2016;54:36 (frequencies of the anastomoses)';
export const ROOTS = 'Asian Spine J 2020, review of cervical radiculopathy, table 3 (PMC7788378): how each root differs from its look-alikes';
export const WRIST_CUTS = 'Review of 42 combined tendon, nerve and vessel cuts at the wrist, 1997-2005, PubMed 17705282 (ulnar triad 31 %, radial triad 43 %, both nerves 40.5 %)';
