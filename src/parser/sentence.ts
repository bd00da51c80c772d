import { findingInWords, type Finding, type Side } from '../vocabulary';
import type { Atom } from './atoms';
import { contradicted } from './contradiction';
import { readEcho, withLastItem } from './echo';
import { readFrames, type Frame } from './frame';
import { meaningOf, type Sideless } from './meaning';
import { mend } from './mend';
import { isPlaceKey } from './place';
import { splitDecimals } from './number';
import { isBetweenPlaces, withoutReferences } from './reference';
import { saidOnce } from './restate';
import { reword } from './reword';
import { share } from './share';
import { sidesOfFrame } from './side';
import type { Context, Statement } from './statement';

const onSides = (items: readonly Sideless[], sides: readonly Side[]): Finding[] => sides.flatMap((side) => items.map((item): Finding => ({ side, ...item })));

/** Reads one sentence about the hand: findings first, then what is open or not understood. */
export function readFindings(atoms: readonly Atom[], text: string, context: Context): Statement[] {
  const mended = splitDecimals(mend(atoms));
  if (mended.some((atom) => atom.key === 'rest')) return readRest(mended, text, context);
  const echoed = readEcho(mended, context);
  if (echoed) return echoed.length > 0 ? settle(echoed, text, context) : [{ type: 'unparsed', text }];
  if (isBetweenPlaces(mended)) return [{ type: 'unparsed', text }];
  const frames = share(readFrames(reword(withoutReferences(mended))), context.currentSide).map((frame) => withLastItem(frame, context));
  // "It's numb": what "it" is was not said.
  const it = mended.findIndex((atom) => atom.key === 'it');
  // "tender, and it opens up"; but not "was it numb"
  const goesOn = mended[it]?.words !== 'it' || (['and', 'comma', 'but'].includes(mended[it - 1]?.key ?? '') && ['sign', 'lvl'].includes(mended[it + 1]?.key ?? ''));
  const named = it > 0 && goesOn && mended.slice(0, it).some((atom) => isPlaceKey(atom.key));
  if (it >= 0 && !named && !(it === 0 && frames.every((frame) => frame.places.length > 0))) return [{ type: 'unparsed', text }];
  if (frames.length === 1 && isMereWord(frames[0]!)) return [{ type: 'unparsed', text }];
  const found: Finding[] = [];
  const open: Statement[] = [];
  const sideless: Sideless[] = [];
  const meanings = saidOnce(frames.map((frame) => ({ frame, meaning: meaningOf(frame) })));
  for (const { frame, meaning } of meanings) {
    if (meaning.kind === 'none') return [{ type: 'unparsed', text }];
    const sides = sidesOfFrame(frame, context);
    if (meaning.kind === 'gap') {
      const options = sides ? meaning.options.map((items) => onSides(items, sides)) : [];
      open.push({ type: 'gap', gap: meaning.gap, question: meaning.question, options, text });
    } else if (sides) found.push(...onSides(meaning.items, sides));
    else sideless.push(...meaning.items);
  }
  // One question for all that was said in one breath.
  if (sideless.length > 0) open.unshift({ type: 'gap', gap: 'side', question: 'Which side: left or right?', options: [onSides(sideless, ['left']), onSides(sideless, ['right'])], text });
  return [...settle(found, text, context), ...open];
}

/** "Cold", "too cold" without place or side may be about anything. */
const isMereWord = (frame: Frame): boolean => frame.side === undefined && frame.places.length === 0 && frame.signs.length === 1 && frame.signs[0]!.adjective && ['temperature', 'colour', 'sweating'].includes(frame.signs[0]!.code) && frame.level !== 'normal';

/** Files what agrees with the record; asks about what contradicts it, and about an item said to be two things in one breath. */
function settle(found: readonly Finding[], text: string, context: Context): Statement[] {
  const torn = found.filter((finding) => contradicted(finding, found.filter((other) => other !== finding)));
  const clashes = found.filter((finding) => !torn.includes(finding) && contradicted(finding, context.findings));
  const sound = found.filter((finding) => !torn.includes(finding) && !clashes.includes(finding));
  return [
    ...(sound.length > 0 ? [{ type: 'findings', findings: sound, text } as const] : []),
    ...(torn.length > 0 ? [{ type: 'gap', gap: 'unsure', question: `Two results were heard for one item: ${torn.map(findingInWords).join(', or ')}?`, options: torn.map((finding) => [finding]), text } as const] : []),
    ...clashes.map((finding): Statement => ({ type: 'gap', gap: 'contradiction', question: `Recorded before: ${findingInWords(contradicted(finding, context.findings)!)}. Replace it?`, options: [[finding]], text })),
  ];
}

/** "Rest normal" says nothing that can be filed item by item: it is asked about. What stands before it is read. */
function readRest(atoms: readonly Atom[], text: string, context: Context): Statement[] {
  const before = atoms.slice(0, atoms.findIndex((atom) => atom.key === 'rest'));
  const said = before.some((atom) => atom.key === 'sign' || atom.key === 'n' || atom.key === 'lvl') ? readFindings(before, text, context) : [];
  return [...said, { type: 'gap', gap: 'site', question: 'Which items are normal? Name them.', options: [], text }];
}
