import { MRC_GRADES, SITES, checkFinding, otherSide, type Finding, type MrcGrade, type Result, type SiteCode } from '../vocabulary';
import type { Atom } from './atoms';
import { hasResult, readFrames, type Frame } from './frame';
import { meaningOf } from './meaning';
import { isPlaceKey, sitesOf } from './place';
import { sidesOf } from './side';
import type { Context } from './statement';

/** The findings that an echo ("same on the right", "and the middle") repeats: the last one and those said in one breath with it. */
export function lastGroup(filed: readonly Finding[]): readonly Finding[] {
  const last = filed.at(-1);
  if (!last) return [];
  const alike = (finding: Finding): boolean => finding.sign === last.sign && JSON.stringify(finding.result) === JSON.stringify(last.result);
  let from = filed.length - 1;
  while (from > 0 && filed[from - 1]!.side === last.side && alike(filed[from - 1]!)) from -= 1;
  return filed.slice(from);
}

/**
 * Reads what only means something with the finding before it: the same elsewhere or on the other side, a further
 * place, a grade more or less. Undefined when the sentence is none; empty when there is nothing it can refer to.
 */
export function readEcho(atoms: readonly Atom[], context: Context): readonly Finding[] | undefined {
  const said = atoms.filter((atom) => !['comma', 'prep', 'turn', 'colon'].includes(atom.key));
  const marked = said.some((atom) => atom.key === 'same' || atom.key === 'too') || said[0]?.key === 'and' || (said[0]?.key === 'plus' && said.length > 1) || (said[0]?.key === 'but' && said.length > 1);
  const shift = said.find((atom) => atom.key === 'shift');
  const content = said.filter((atom) => !['same', 'too', 'and', 'shift', 'it'].includes(atom.key) && !(atom === said[0] && atom.key === 'plus') && !(marked && atom.key === 'but'));
  if (!marked && !shift) return undefined;
  if (!content.every((atom) => atom.key === 'side' || atom.key === 'n' || atom.key === 'plus' || atom.key === 'minus' || atom.key === 'grade' || atom.key === 'lvl' || isPlaceKey(atom.key))) return undefined;
  const [frame, more] = content.length > 0 ? readFrames(content) : [];
  if (more || frame?.strange || frame?.signs.length) return undefined;
  // "and thumb abduction four" is a whole finding; "but the little is five" takes the sign of the finding before.
  if (frame && hasResult(frame)) return isDigitAlone(frame) ? goOn(frame, context) : undefined;
  return repeat(frame, shift?.value, context);
}

const isDigitAlone = ({ places, signs, range }: Frame): boolean => signs.length === 0 && range === undefined && places.length === 1 && places[0]!.digits.length > 0
  && places[0]!.parts.length + places[0]!.joints.length + places[0]!.moves.length + places[0]!.families.length + places[0]!.sites.length + places[0]!.ordinals.length === 0;

/** A digit and a result behind a finding: the same sign at the like place of that digit. Undefined when that makes no sense; it may still be read alone. */
function goOn(frame: Frame, context: Context): readonly Finding[] | undefined {
  const last = context.findings.at(-1);
  const sides = sidesOf(frame.side, context);
  if (!last || !sides || (frame.side === undefined && context.currentSide !== last.side)) return undefined;
  const sites = alikeSites(sitesOf(frame.places[0]!, last.sign), last.site);
  if (sites.some((site) => SITES[site].kind !== SITES[last.site].kind)) return undefined;
  const sign = { code: last.sign, negated: false, adjective: false };
  const place = { digits: [], parts: [], joints: [], moves: [], families: [], ordinals: [], sites };
  const meaning = meaningOf({ ...frame, signs: [sign], places: [place] });
  return meaning.kind === 'complete' ? sides.flatMap((side) => meaning.items.map((item): Finding => ({ side, ...item }))) : undefined;
}

function repeat(frame: Frame | undefined, shift: string | undefined, context: Context): readonly Finding[] {
  const group = lastGroup(context.findings);
  const last = group.at(-1);
  if (!last || (!frame && !shift)) return [];
  const sides = frame?.side === undefined ? [last.side] : frame.side === 'other' && (context.currentSide === undefined || context.currentSide === last.side) ? [otherSide(last.side)] : sidesOf(frame.side, context);
  if (!sides) return [];
  // A further place without a side must be where the screen says we are.
  if (frame?.side === undefined && context.currentSide !== undefined && context.currentSide !== 'both' && context.currentSide !== last.side) return [];
  const result = shift === undefined ? last.result : shifted(last.result, shift);
  if (!result) return [];
  const named = frame && frame.places.length > 0;
  const sites = named ? frame.places.flatMap((place) => alikeSites(sitesOf(place, last.sign), last.site)) : undefined;
  if (named && sites?.length === 0) return [];
  const { side: _side, site: _site, ...rest } = last;
  const repeated = sides.flatMap((side) => (sites ? sites.map((site): Finding => ({ ...rest, side, site, result })) : group.map((finding): Finding => ({ ...finding, side, result: shift === undefined ? finding.result : result }))));
  return repeated.every((finding) => checkFinding(finding).length === 0) ? repeated : [];
}

/** "and the middle" after the index fingertip means the middle fingertip; after its flexor, the flexor of the middle finger. */
function alikeSites(sites: readonly SiteCode[], last: SiteCode): SiteCode[] {
  return sites.map((site) => {
    const tail = /^D[1-5](\W\w.*|[ru])$/.exec(last)?.[1] ?? '';
    const family = /^(FDS|FDP)[2-5]$/.exec(last)?.[1];
    if (SITES[site].kind !== 'digit') return site;
    const code = family ? `${family}${site[1]}` : `${site}${tail}`;
    return code in SITES ? (code as SiteCode) : site;
  });
}

/** Half a grade is one step of plus and minus, a grade a whole number. */
function shifted(result: Result, shift: string): Result | undefined {
  if (result.kind !== 'grade' || result.to !== undefined) return undefined;
  const step = shift[0] === '+' ? 1 : -1;
  const grade = shift.length === 1
    ? MRC_GRADES[MRC_GRADES.indexOf(result.grade) + step]
    : MRC_GRADES.find((candidate) => candidate === `${Number(result.grade[0]) + step}${result.grade.slice(1)}`) as MrcGrade | undefined;
  return grade && { kind: 'grade', grade };
}

/** "left five" after "right grip four": a bare result takes sign and place of the last finding, never its side. */
export function withLastItem(frame: Frame, context: Context): Frame {
  const last = context.findings.at(-1);
  if (!last || frame.side === undefined || !hasResult(frame) || frame.signs.length > 0 || frame.places.length > 0 || frame.strange) return frame;
  const place = { digits: [], parts: [], joints: [], moves: [], families: [], ordinals: [], sites: [last.site] };
  return { ...frame, signs: [{ code: last.sign, negated: false, adjective: false }], places: [place] };
}
