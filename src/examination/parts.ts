import { DIGITS, SITES } from '../vocabulary';
import type { Digit, SiteCode } from '../vocabulary';

/** Which sites a larger one takes in, so that "no wasting of the hand" answers for the thenar eminence. */
const codes = Object.keys(SITES) as SiteCode[];
const ofDigit = (digit: Digit): SiteCode[] => codes.filter((code) => code !== digit && (code.startsWith(`${digit}.`) || code === `${digit}r` || code === `${digit}u`));
const fingers = DIGITS.slice(1);
const row = (joint: 'MCP' | 'PIP' | 'DIP'): SiteCode[] => fingers.map((digit) => `${digit}.${joint}` as SiteCode);
const inFingers: SiteCode[] = [...fingers, ...fingers.flatMap(ofDigit), ...codes.filter((code) => code.startsWith('fingers.')), 'MCPs', 'PIPs', 'DIPs', 'fist'];
const inPalm: SiteCode[] = ['thenar', 'hypothenar', 'palmar.fascia', 'PTH', 'PHY'];
const inDorsum: SiteCode[] = ['web1', 'web2', 'web3', 'web4', 'interossei', 'DI1.belly', 'knuckles', 'metacarpals', 'DR', 'DU'];

const parts: Partial<Record<SiteCode, readonly SiteCode[]>> = {
  hand: ['palm', 'hand.dorsum', ...inPalm, ...inDorsum, 'D1', ...ofDigit('D1'), ...codes.filter((code) => code.startsWith('thumb.')), 'fingers', ...inFingers],
  palm: inPalm, 'hand.dorsum': inDorsum, fingers: inFingers,
  interossei: ['DI1.belly', 'web1'],
  MCPs: row('MCP'), PIPs: row('PIP'), DIPs: row('DIP'),
  // Key points of a nerve's area without its named branches (PTH, DU): these decide the level and must be tested themselves.
  'territory.median': ['D1.pulp', 'D2.pulp', 'D3.pulp', 'D1r', 'D1u', 'D2r', 'D2u', 'D3r', 'D3u', 'D4r'],
  'territory.ulnar': ['D5.pulp', 'D4u', 'D5r', 'D5u'],
  'territory.radial': ['DR'],
  ...Object.fromEntries(DIGITS.map((digit) => [digit, ofDigit(digit)])),
  // A fingertip does not answer for its two sides: one digital nerve can be cut alone, and is tested away from the midline.
};

/** True when `whole` takes in `part`. */
export const contains = (whole: SiteCode, part: SiteCode): boolean => parts[whole]?.includes(part) ?? false;
