import { MRC_GRADES, itemKey, type ItemKey, type Level, type MrcGrade, type Result, type Side } from '../vocabulary';
import type { Atom } from './atoms';
import { readFrames, type Frame } from './frame';
import { sitesOf } from './place';
import { sidesOf } from './meaning';
import type { Context, Order, Statement } from './statement';

const oneSide = (frame: Frame | undefined): Side | undefined => (frame?.side === 'left' || frame?.side === 'right' ? frame.side : undefined);

/** The order or side call that a sentence is, or undefined when it is about the hand. `rest` gives the raw words from a token on. */
export function readOrder(atoms: readonly Atom[], rest: (fromToken: number) => string, text: string, context: Context): Statement | undefined {
  const said = atoms.filter((atom) => !['comma', 'prep', 'colon', 'stop'].includes(atom.key));
  const first = said[0];
  if (!first) return undefined;
  if (said.length === 1 && first.key === 'neg' && first.value === 'no') return { type: 'order', order: { order: 'confirm', yes: false }, text };
  const named = said.filter((atom) => /\b(hands?|sides?)\b/.test(atom.words));
  if (said.length === 1 && first.key === 'side' && named.length === 1) {
    const sides = sidesOf(first.value as 'left', context);
    return sides && { type: 'side', side: sides.length === 2 ? 'both' : sides[0]!, text };
  }
  const order = said.find((atom) => atom.key === 'order');
  if (!order) return undefined;
  const others = said.filter((atom) => atom !== order);
  if (order.value === 'not testable') return notTestable(others, rest, text, context);
  if (order.value === 'amend') return amend(others, text);
  const [frame, more] = readFrames(others);
  if (more || frame?.unknown) return undefined;
  const side = oneSide(frame);
  if (order.value === 'what remains' && others.every((atom) => atom.key === 'side')) return { type: 'order', order: { order: 'what remains', ...(side ? { side } : {}) }, text };
  if (others.length > 0) return undefined;
  const plain = plainOrder(order.value);
  return plain && { type: 'order', order: plain, text };
}

function plainOrder(value: string): Order | undefined {
  switch (value) {
    case 'withdraw': return { order: 'withdraw', which: 'last' };
    case 'yes': return { order: 'confirm', yes: true };
    case 'read back': case 'hold': case 'carry on': case 'next stage': case 'conclude': return { order: value };
    default: return undefined;
  }
}

const AMENDABLE: readonly string[] = ['normal', 'reduced', 'absent', 'altered', 'increased', 'present', 'weak'];

function amend(atoms: readonly Atom[], text: string): Statement | undefined {
  const [frame, more] = readFrames(atoms.filter((atom) => atom.key !== 'to' || atom !== atoms.find((first) => first.key === 'to')));
  if (!frame) return { type: 'order', order: { order: 'amend' }, text };
  if (more || frame.unknown || frame.places.length > 0 || frame.signs.length > 0) return undefined;
  const side = oneSide(frame);
  const grade = `${frame.number}${frame.mark ?? ''}` as MrcGrade;
  if (frame.number !== undefined && !MRC_GRADES.includes(grade)) return undefined;
  const level = frame.level === 'positive' ? 'present' : frame.level === 'negative' ? 'absent' : frame.level;
  if (level !== undefined && !AMENDABLE.includes(level)) return undefined;
  const result: Result | undefined = frame.quantity ? { kind: 'quantity', quantity: frame.quantity } : level ? { kind: 'level', level: level as Level } : undefined;
  return { type: 'order', order: { order: 'amend', ...(side ? { side } : {}), ...(result ? { result } : {}), ...(frame.number !== undefined ? { grade } : {}) }, text };
}

function notTestable(atoms: readonly Atom[], rest: (fromToken: number) => string, text: string, context: Context): Statement {
  const because = atoms.find((atom) => atom.key === 'because');
  const about = because ? atoms.slice(0, atoms.indexOf(because)) : atoms;
  const reason = because ? rest(because.to).replace(/^(of )?(the |a |an |his |her |their )?/i, '').replace(/[.\s]+$/, '') : '';
  const frames = readFrames(about);
  const side = frames.find((frame) => frame.side)?.side;
  const sides = sidesOf(side, context);
  const items = frames.flatMap(itemsOf);
  if (frames.some((frame) => frame.unknown)) return { type: 'unparsed', text };
  if (reason === '') return { type: 'gap', gap: 'result', question: 'Why can it not be tested?', options: [], text };
  if (!sides) return { type: 'gap', gap: 'side', question: 'Which side cannot be tested?', options: [], text };
  return { type: 'not testable', side: sides.length === 2 ? 'both' : sides[0]!, items, reason, text };
}

/** What cannot be tested: a sign at a place; a place alone stands for its movement and power items. */
function itemsOf(frame: Frame): ItemKey[] {
  const sign = frame.signs[0]?.code ?? 'power';
  return frame.places.flatMap((place) => sitesOf(place, sign)).map((site) => itemKey({ sign, site }));
}
