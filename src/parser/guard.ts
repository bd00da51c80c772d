import { SIGNS, isSignCode, type Category, type SignCode } from '../vocabulary';
import type { Atom } from './atoms';

/**
 * Everyday words that mean a sign only in the right company. "Hard" is a tense forearm but also how a lump feels;
 * "sharp" is how a pin feels but also a pain. In other company such a word is left out where it only describes what is
 * named beside it, and makes the sentence no finding where it may mean something else.
 */
export function guard(atoms: readonly Atom[]): readonly Atom[] {
  const guarded = atoms.map((atom, index): Atom | undefined => {
    for (const rule of RULES) if (rule.of(atom) && rule.when(atoms, index)) return rule.then === 'leave out' ? undefined : { ...atom, key: 'unfit' };
    return atom;
  });
  // A phrase is left out with all its tags.
  const gone = new Set(guarded.flatMap((atom, index) => (atom === undefined ? [atoms[index]!.from] : [])));
  return guarded.filter((atom): atom is Atom => atom !== undefined && !gone.has(atom.from));
}

interface Rule {
  readonly of: (atom: Atom) => boolean;
  readonly when: (atoms: readonly Atom[], at: number) => boolean;
  /** Leave out what only describes; 'unfit' keeps the sentence from becoming a finding. */
  readonly then: 'leave out' | 'unfit';
}

const signs = (...codes: SignCode[]): ReadonlySet<string> => new Set(codes);
const isSign = (atom: Atom | undefined, among?: ReadonlySet<string>): boolean => atom?.key === 'sign' && (among === undefined || among.has(atom.value));
const has = (atoms: readonly Atom[], among: ReadonlySet<string>): boolean => atoms.some((atom) => isSign(atom, among));
/** The next phrase, past the other tags of this one. */
const next = (atoms: readonly Atom[], at: number): Atom | undefined => atoms.slice(at + 1).find((atom) => atom.from !== atoms[at]!.from);

const THINGS = signs('lump', 'nodule', 'ganglion', 'cord', 'scar', 'palmar.thickening', 'blister', 'bruising', 'crepitus', 'clunk', 'nodes.heberden', 'nodes.bouchard');
const WOUNDS = signs('wound', 'laceration', 'puncture', 'bite', 'burn', 'skin.loss', 'ulcer', 'pus');
const NAILED = /^(ridged|pitted|brittle|split|dystrophic|pitting|ridging|lifted off|lifting off|discolou?red|yellow|yellowed|crumbly|crumbling|onycholytic|(black|blue|loose) and lifted)$/;
const isThereOrNot = (code: string): boolean => isSignCode(code) && SIGNS[code].levels.includes('present') && !SIGNS[code].levels.includes('normal') && !SIGNS[code].test;

export const isLigament = ({ key, value }: Atom): boolean => (key === 'part' && /^([RU]CL|plate)$/.test(value)) || (key === 'site' && /^thumb\.[RU]CL$/.test(value));

/** What a patient can tell. */
const TOLD: ReadonlySet<Category> = new Set<Category>(['symptom', 'sensation']);

const RULES: readonly Rule[] = [
  // "firm nodule", "hard swelling": how it feels, not a tense compartment
  { of: (atom) => isSign(atom, signs('tense')) && !/tense/.test(atom.words), when: (atoms) => has(atoms, THINGS) || has(atoms, signs('swelling', 'effusion')), then: 'leave out' },
  // "R C L soft": not how a ligament is told (a tight one is read as stable, reword.ts)
  { of: (atom) => isSign(atom, signs('tense')), when: (atoms) => atoms.some(isLigament), then: 'unfit' },
  // "intact blister", "no end point" said behind "opens": they only describe
  { of: (atom) => atom.key === 'lvl' && atom.words === 'intact', when: (atoms, at) => isSign(next(atoms, at), signs('blister')), then: 'leave out' },
  // "moves with gravity eliminated": how it was graded
  { of: (atom) => isSign(atom, signs('range')) && atom.words === 'moves', when: (atoms, at) => next(atoms, at)?.key === 'grade', then: 'leave out' },
  // "Allen's refills in five seconds"
  { of: (atom) => isSign(atom, signs('refill')), when: (atoms, at) => isSign(atoms[at - 1], signs('allen', 'allen.digital')), then: 'leave out' },
  { of: (atom) => atom.key === 'slowly', when: (atoms) => has(atoms, signs('allen', 'allen.digital', 'refill')), then: 'leave out' },
  // "pale scar", "red blister": the colour of the thing, not of the hand
  { of: (atom) => isSign(atom, signs('colour', 'erythema', 'temperature')), when: (atoms, at) => isSign(next(atoms, at), THINGS) || isSign(next(atoms, at), WOUNDS), then: 'leave out' },
  // "wound clean and dry"
  { of: (atom) => isSign(atom, signs('sweating')) && /^(dry|moist|damp)$/.test(atom.words), when: (atoms) => has(atoms, WOUNDS), then: 'leave out' },
  // "sharp pain", "dull ache"; "sharp" without a pin
  { of: (atom) => atom.key === 'lvl' && /^(sharp|dull)$/.test(atom.words), when: (atoms, at) => isSign(next(atoms, at), signs('pain')), then: 'leave out' },
  { of: (atom) => atom.key === 'lvl' && atom.words === 'sharp', when: (atoms) => !has(atoms, signs('pinprick')), then: 'unfit' },
  // "fine tremor", "fine crepitus"; "good swelling" says nothing that can be filed
  { of: (atom) => atom.key === 'lvl' && atom.words === 'fine', when: (atoms, at) => isSign(next(atoms, at), signs('tremor', 'crepitus')), then: 'leave out' },
  { of: (atom) => atom.key === 'lvl' && atom.value === 'normal', when: (atoms, at) => { const behind = next(atoms, at); return behind?.key === 'sign' && isThereOrNot(behind.value) && atoms[at - 1]?.key !== 'sign' && !isPlaceBefore(atoms, at); }, then: 'unfit' },
  // "he feels cold", "cold to the patient": what the patient tells is no finding of the examiner's hand or eye
  { of: (atom) => atom.key === 'told', when: (atoms) => atoms.some((atom) => atom.key === 'sign' && isSignCode(atom.value) && !TOLD.has(SIGNS[atom.value].category)), then: 'unfit' },
  { of: (atom) => atom.key === 'told', when: () => true, then: 'leave out' },
  // "tender on squeezing" is the squeeze of the MCP joints only where they are named
  { of: (atom) => isSign(atom, signs('mcp.squeeze')) && /on squeezing/.test(atom.words), when: (atoms) => !atoms.some(({ value }) => ['MCP', 'knuckle', 'knuckles', 'metacarpals'].includes(value)) || atoms.some(({ key }) => key === 'digit'), then: 'unfit' },
  // "ulnar nerve palpable" says how it feels, not that it works
  { of: (atom) => atom.key === 'lvl' && /palpable|felt|visible|seen|there/.test(atom.words), when: (atoms) => atoms.some(({ key, value }) => key === 'site' && value.startsWith('nerve.')) && !atoms.some((atom) => isSign(atom)), then: 'unfit' },
  // "refill 2 s 3": the s behind a number is of seconds
  { of: (atom) => isSign(atom, signs('sensory.grade')) && /^s /.test(atom.words), when: (atoms, at) => atoms[at - 1]?.key === 'n', then: 'unfit' },
  // "split pulp" is no split nail
  { of: (atom) => isSign(atom, signs('nail.change')) && NAILED.test(atom.words), when: (atoms) => !atoms.some((atom) => /nail/.test(atom.words)), then: 'unfit' },
  // "the thumb burns" may be a pain, "the hand opens" is a movement
  { of: (atom) => isSign(atom, signs('burn')) && atom.words === 'burns', when: (atoms, at) => isPlaceBefore(atoms, at) && !['prep', 'q'].includes(atoms[at + 1]?.key ?? ''), then: 'unfit' },
  { of: (atom) => isSign(atom, signs('laxity')) && /^opens( (to|by))?$/.test(atom.words), when: (atoms, at) => next(atoms, at)?.key !== 'n' && !atoms.some(isLigament) && !atoms.some(({ key }) => key === 'joint'), then: 'unfit' },
  // "don't touch the thumb" is said to somebody
  { of: (atom) => atom.key === 'neg' && /^(do not|don't|does not|doesn't)$/.test(atom.words), when: (atoms, at) => /^(touch|feeling|pin)$/.test(next(atoms, at)?.words ?? ''), then: 'unfit' },
];

function isPlaceBefore(atoms: readonly Atom[], at: number): boolean {
  const before = atoms[at - 1];
  return before !== undefined && ['digit', 'part', 'joint', 'site', 'side'].includes(before.key);
}
