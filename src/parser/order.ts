import { SIGNS, SITES, itemKey, type ItemKey, type Level, type Result, type Side, type SignCode, type SiteCode } from '../vocabulary';
import type { Atom } from './atoms';
import { readFrames, type Frame } from './frame';
import { gradeOf, impliedSign } from './meaning';
import { isMotor, sitesOf } from './place';
import { sidesOf } from './side';
import type { Context, Order, Statement } from './statement';

const SILENT: ReadonlySet<string> = new Set(['comma', 'prep', 'colon', 'dash']);
/** What may be said around an order. Anything else ("hold still") makes it talk to somebody else. */
const POLITE: ReadonlySet<string> = new Set(['please', 'okay', 'ok', 'so', 'um', 'uh', 'er', 'erm', 'well', 'right then', 'alright', 'all right', 'right so', 'just', 'now', 'thanks', 'thank you', 'actually', 'then', 'the', 'instead']);
/** Orders that have no side. */
const RECORDING: ReadonlySet<string> = new Set(['hold', 'carry on', 'next stage', 'conclude', 'read back']);
const namesHand = (atom: Atom): boolean => /\b(hands?|sides?|arm|limb|bilateral|bilaterally)\b/.test(atom.words);

/** The order or side call that a sentence is, or undefined when it is about the hand. `rest` gives the raw words from a token on. */
export function readOrder(atoms: readonly Atom[], rest: (fromToken: number) => string, text: string, context: Context): Statement | undefined {
  while (atoms.length > 1 && (atoms[0]!.key === 'correct' || atoms[0]!.key === 'comma' || (atoms[0]!.words === 'no' && atoms[1]!.key === 'order')) && atoms.some((atom) => atom.key === 'order')) atoms = atoms.slice(1);
  const polite = atoms.every((atom) => atom.key !== 'filler' || POLITE.has(atom.words));
  const said = atoms.filter((atom) => !SILENT.has(atom.key) && atom.key !== 'filler' && atom.key !== 'please');
  const [first] = said;
  if (!first) return undefined;
  if (said.some((atom) => atom.value === 'not testable')) return readNotTestable(said, rest, text, context);
  if (!polite) return undefined;
  // "Left hand, please" is said to the patient.
  const side = atoms.some((atom) => atom.key === 'please') ? undefined : readSideCall(said, text, context);
  if (side) return side;
  if (said.every((atom) => atom.key === 'neg' && atom.words === 'no')) return { type: 'order', order: { order: 'confirm', yes: false }, text };
  if (said.some((atom) => atom.key === 'go')) return readStage(said, text);
  // "make that five", "sorry, five": with nothing before it a correction is about what was filed.
  const orders = said.filter((atom) => atom.key === 'order');
  // "right, carry on": not a side
  if (first.words === 'right' && orders.length > 0 && orders.length === said.length - 1 && orders.every(({ value }) => RECORDING.has(value))) return readPlain(orders[0]!.value, [], text, context);
  if (orders.length === 0 && first.key === 'correct' && context.findings.length > 0 && said.length > 1) return readAmend(said.slice(1), text, context);
  if (orders.length === 0 || new Set(orders.map((atom) => atom.value)).size > 1) return undefined;
  const others = said.filter((atom) => atom.key !== 'order' && !(atom.key === 'and' || atom.key === 'turn'));
  return readPlain(orders[0]!.value, others, text, context);
}

/** "left hand", "now the other side": which hand is examined next. A bare "left" is one only after words like "on to". */
function readSideCall(said: readonly Atom[], text: string, context: Context): Statement | undefined {
  const sides = said.filter((atom) => atom.key === 'side');
  const turning = said.some((atom) => atom.key === 'turn');
  const others = said.filter((atom) => atom.key !== 'side' && atom.key !== 'turn' && atom.key !== 'and' && !(turning && atom.value === 'hand'));
  if (sides.length !== 1 || others.length > 0 || (said[0]!.key === 'and' && !turning)) return undefined;
  if (!namesHand(sides[0]!) && !turning) return undefined;
  const known = sidesOf(sides[0]!.value as 'left', context);
  if (!known) return { type: 'gap', gap: 'side', question: 'Which side: left or right?', options: [], text };
  return { type: 'side', side: known.length === 2 ? 'both' : known[0]!, text };
}

function readPlain(order: string, others: readonly Atom[], text: string, context: Context): Statement | undefined {
  if (order === 'amend') return readAmend(others, text, context);
  if (order === 'what remains' && others.length > 0) {
    const sides = others.every((atom) => atom.key === 'side') ? sidesOf(others[0]!.value as 'left', context) : undefined;
    return sides && { type: 'order', order: { order, ...(sides.length === 1 ? { side: sides[0]! } : {}) }, text };
  }
  if (others.some((atom) => atom.key !== 'neg' || order !== 'no')) return undefined;
  const plain = plainOrder(order);
  return plain && { type: 'order', order: plain, text };
}

function plainOrder(value: string): Order | undefined {
  switch (value) {
    case 'withdraw': return { order: 'withdraw', which: 'last' };
    case 'yes': return { order: 'confirm', yes: true };
    case 'no': return { order: 'confirm', yes: false };
    case 'what remains': case 'read back': case 'hold': case 'carry on': case 'next stage': case 'conclude': return { order: value };
    case 'acknowledge': return { order: 'acknowledge' };
    case 'option 1': return { order: 'choose', option: 1 };
    case 'option 2': return { order: 'choose', option: 2 };
    case 'option 3': return { order: 'choose', option: 3 };
    default: return undefined;
  }
}

const stageOf = (said: readonly Atom[]): string | undefined => said.find((atom) => atom.key === 'stage')?.value;

function readStage(said: readonly Atom[], text: string): Statement | undefined {
  const stage = stageOf(said);
  return said.every((atom) => ['go', 'stage', 'turn', 'and'].includes(atom.key)) && stage ? { type: 'order', order: { order: 'go to stage', stage }, text } : undefined;
}

const AMENDABLE: Readonly<Record<string, Level>> = {
  normal: 'normal', reduced: 'reduced', absent: 'absent', altered: 'altered', increased: 'increased', present: 'present', weak: 'weak', positive: 'present', negative: 'absent',
  full: 'full', limited: 'limited', stiff: 'stiff', warm: 'warm', cool: 'cool', cold: 'cold', hot: 'hot', dry: 'dry', moist: 'moist', pale: 'pale', blue: 'blue', red: 'red', brisk: 'brisk', slow: 'slow',
};

function readAmend(atoms: readonly Atom[], text: string, context: Context): Statement | undefined {
  const [frame, more] = readFrames(atoms.filter((atom, index) => atom.key !== 'to' || index > 0));
  if (!frame) return { type: 'order', order: { order: 'amend' }, text };
  const { last = undefined } = { last: context.findings.at(-1) };
  if (more || frame.strange || frame.places.length > 0 || frame.signs.some((sign) => sign.code !== last?.sign && sign.code !== 'power')) return undefined;
  const sides = frame.side === undefined ? undefined : sidesOf(frame.side, context);
  if (frame.side !== undefined && sides?.length !== 1) return undefined;
  const grade = gradeOf(frame.number, frame.mark);
  if (frame.number !== undefined && (!grade || frame.numberTo !== undefined)) return undefined;
  const level = frame.level === undefined ? undefined : AMENDABLE[frame.level];
  if (frame.level !== undefined && (level === undefined || frame.levelNegated)) return undefined;
  const result: Result | undefined = frame.quantity ? { kind: 'quantity', quantity: frame.quantity } : level ? { kind: 'level', level } : undefined;
  return { type: 'order', order: { order: 'amend', ...(sides ? { side: sides[0] as Side } : {}), ...(result ? { result } : {}), ...(grade ? { grade } : {}) }, text };
}

function readNotTestable(said: readonly Atom[], rest: (fromToken: number) => string, text: string, context: Context): Statement {
  const because = said.find((atom) => atom.key === 'because');
  const about = (because ? said.slice(0, said.indexOf(because)) : said).filter((atom) => atom.key !== 'order' && atom.key !== 'to');
  const limit = because === undefined ? said.find((atom) => atom.value === 'pain-limited') : undefined;
  const reason = because ? rest(because.to).replace(/^(of\s+)?(the\s+|a\s+|an\s+)?/i, '').replace(/[.\s]+$/, '') : limit ? 'pain' : '';
  const frames = readFrames(about.filter((atom) => atom !== limit));
  const sides = sidesOf(frames.find((frame) => frame.side)?.side, context);
  // "haven't done the two point yet" is a plan.
  if (frames.some((frame) => frame.strange) || said.some((atom) => atom.words === 'yet')) return { type: 'unparsed', text };
  if (!sides) return { type: 'gap', gap: 'side', question: 'Which side cannot be tested?', options: [], text };
  if (reason === '') return { type: 'gap', gap: 'result', question: 'Why can it not be tested?', options: [], text };
  return { type: 'not testable', side: sides.length === 2 ? 'both' : sides[0]!, items: frames.flatMap(itemsOf), reason, text };
}

/** What cannot be tested: each sign at its places; a joint or digit alone stands for its movements. */
function itemsOf(frame: Frame): ItemKey[] {
  const implied = impliedSign(frame) ?? (frame.places.some(isMotor) ? 'power' : undefined);
  const signs: SignCode[] = frame.signs.length > 0 ? frame.signs.map((sign) => sign.code) : implied ? [implied] : [];
  if (signs.length === 0) return frame.places.flatMap((place) => sitesOf(place, 'swelling')).flatMap(movementsAt);
  return signs.flatMap((sign) => (frame.places.length > 0 ? frame.places.flatMap((place) => sitesOf(place, sign)) : defaultSite(sign)).map((site) => itemKey({ sign, site })));
}

const defaultSite = (sign: SignCode): SiteCode[] => { const { site } = SIGNS[sign]; return site ? [site] : ['hand']; };

const movementsAt = (site: SiteCode): ItemKey[] => (Object.keys(SITES) as SiteCode[])
  .filter((code) => SITES[code].kind === 'movement' && (code.startsWith(`${site}.`) || (site === 'D1' && code.startsWith('thumb.'))))
  .flatMap((code) => [itemKey({ sign: 'power', site: code }), itemKey({ sign: 'range', site: code })]);
