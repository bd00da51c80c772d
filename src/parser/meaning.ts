import { MRC_GRADES, SIGNS, checkFinding, otherSide, type Finding, type Level, type MrcGrade, type Result, type Side, type SignCode, type SiteCode, type Unit } from '../vocabulary';
import { hasResult, type Frame, type SpokenSign, type SpokenSide } from './frame';
import { isMotor, sitesOf } from './place';
import type { Context, Gap, Statement } from './statement';

/** A finding that still lacks its side. */
type Sideless = Omit<Finding, 'side'>;
type Meaning = { readonly kind: 'complete'; readonly items: readonly Sideless[] } | { readonly kind: 'gap'; readonly gap: Gap; readonly question: string; readonly items: readonly Sideless[] } | { readonly kind: 'none' };

/** Spoken result words to the level that a sign knows. First match wins. */
const LEVELS: Readonly<Record<string, readonly Level[]>> = {
  normal: ['normal', 'full'], reduced: ['reduced', 'limited', 'weak'], absent: ['absent'], altered: ['altered'], increased: ['increased'],
  present: ['present', 'normal'], positive: ['present'], negative: ['absent'], weak: ['weak', 'reduced'], painful: ['present'],
  warm: ['warm'], cool: ['cool'], cold: ['cold'], hot: ['hot'], pale: ['pale'], blue: ['blue'], red: ['red'], mottled: ['mottled'], black: ['black'],
  dry: ['dry'], moist: ['moist'], brisk: ['brisk'], slow: ['slow'], full: ['full', 'normal'], limited: ['limited', 'reduced'], stiff: ['stiff'], hyperextended: ['hyperextended'],
};
/** What "not …" makes of a level; other levels cannot be turned round without guessing. */
const OPPOSITES: Readonly<Record<string, string>> = { present: 'absent', absent: 'present', positive: 'negative', negative: 'positive', painful: 'absent' };
/** "normal" said of a sign that is only there or not there. */
const NORMAL_IS_ABSENT = (sign: SignCode): boolean => { const { levels, category } = SIGNS[sign]; return !levels.includes('normal') && !levels.includes('full') && (category === 'special test' || category === 'feel' || category === 'look'); };

function levelResult(sign: SignCode, said: string, negated: boolean): Result | undefined {
  const word = negated ? OPPOSITES[said] : said;
  if (word === undefined) return undefined;
  const levels = SIGNS[sign].levels;
  if (word === 'normal' && NORMAL_IS_ABSENT(sign)) return { kind: 'level', level: 'absent' };
  const level = LEVELS[word]?.find((candidate) => levels.includes(candidate));
  return level ? { kind: 'level', level } : undefined;
}

const DEFAULT_UNIT: Partial<Record<SignCode, Unit>> = { 'two.point': 'mm', refill: 's', 'active.range': 'deg', 'passive.range': 'deg' };

function gradeResult(frame: Frame): Result | undefined {
  const grade = `${frame.number}${frame.mark ?? ''}` as MrcGrade;
  if (!MRC_GRADES.includes(grade)) return undefined;
  if (frame.numberTo === undefined) return { kind: 'grade', grade };
  const to = `${frame.numberTo}${frame.markTo ?? ''}` as MrcGrade;
  return MRC_GRADES.includes(to) ? { kind: 'grade', grade, to } : undefined;
}

function resultOf(frame: Frame, sign: SpokenSign): Result | undefined {
  if (frame.quantity) return { kind: 'quantity', quantity: frame.quantity };
  if (frame.number !== undefined) {
    const unit = DEFAULT_UNIT[sign.code];
    if (sign.code === 'power') return gradeResult(frame);
    return unit && !frame.graded && frame.numberTo === undefined ? { kind: 'quantity', quantity: { value: frame.number, unit } } : undefined;
  }
  if (frame.level !== undefined) {
    // "no tenderness present" stays absent; "no sensation reduced" is not a sentence to guess at.
    if (sign.negated) return levelResult(sign.code, frame.level, false)?.kind === 'level' && frame.level === 'present' ? { kind: 'level', level: 'absent' } : undefined;
    return levelResult(sign.code, frame.level, frame.levelNegated ?? false);
  }
  const { levels } = SIGNS[sign.code];
  if (sign.negated) return levels.includes('absent') ? { kind: 'level', level: 'absent' } : undefined;
  // A sign that is only there or not is present when named; one that is measured needs its result.
  return levels.includes('present') && !levels.includes('normal') && !SIGNS[sign.code].test ? { kind: 'level', level: 'present' } : undefined;
}

/** The sign that a frame without one must be about: a graded movement is power. */
function impliedSign(frame: Frame): SpokenSign | undefined {
  const motor = frame.places.some(isMotor);
  const make = (code: SignCode): SpokenSign => ({ code, negated: false, adjective: false });
  if (frame.range) return make(frame.range === 'active' ? 'active.range' : 'passive.range');
  if (frame.quantity?.unit === 'deg' && motor) return make('range');
  if (frame.quantity?.unit === 'kg' && motor) return make('power');
  if (motor && frame.number !== undefined) return make('power');
  if (motor && frame.level && ['normal', 'weak', 'absent', 'reduced'].includes(frame.level)) return make('power');
  if (motor && frame.level && ['full', 'limited', 'stiff', 'hyperextended'].includes(frame.level)) return make('range');
  return undefined;
}

/** What one frame asserts, without the side. */
export function meaningOf(frame: Frame): Meaning {
  const implied = frame.signs.length === 0 || (frame.range && frame.signs[0]?.code === 'range') ? impliedSign(frame) : undefined;
  const signs = implied ? [implied] : frame.signs;
  if (frame.unknown || signs.length === 0) return { kind: 'none' };
  const items: Sideless[] = [];
  for (const sign of signs) {
    const sites = placesFor(frame, sign);
    const { name } = SIGNS[sign.code];
    if (sites === undefined) return { kind: 'none' };
    if (sites.length === 0) return { kind: 'gap', gap: 'site', question: `Where: ${name}?`, items: [] };
    const result = resultOf(frame, sign);
    if (!result) {
      if (hasResult(frame)) return { kind: 'none' };
      return { kind: 'gap', gap: 'result', question: `What was found: ${name}?`, items: [] };
    }
    for (const site of sites) items.push({ sign: sign.code, site, result, ...(frame.at ? { at: frame.at } : {}), ...(frame.qualifiers.length > 0 ? { qualifiers: [...new Set(frame.qualifiers)] } : {}) });
  }
  if (items.some((item) => checkFinding({ ...item, side: 'left' }).length > 0)) return { kind: 'none' };
  return frame.unsure ? { kind: 'gap', gap: 'unsure', question: 'How far does the "no" reach?', items } : { kind: 'complete', items };
}

/** Coded sites; empty when a place is needed and missing; undefined when what was said makes no place. */
function placesFor(frame: Frame, sign: SpokenSign): SiteCode[] | undefined {
  const entry = SIGNS[sign.code];
  if (frame.places.length > 0) {
    const sites = frame.places.map((place) => sitesOf(place, sign.code));
    return sites.some((found) => found.length === 0) ? undefined : [...new Set(sites.flat())];
  }
  if (entry.site) return [entry.site];
  const wholeHand = entry.kinds.includes('hand') && (frame.sideNamesHand || sign.negated);
  return wholeHand ? ['hand'] : [];
}

/** One side, both as two, or undefined when it cannot be known. */
export function sidesOf(said: SpokenSide | undefined, context: Context): readonly Side[] | undefined {
  switch (said) {
    case 'left': case 'right': return [said];
    case 'both': return ['left', 'right'];
    case 'affected': return context.injuredSide && [context.injuredSide];
    case 'unaffected': return context.injuredSide && [otherSide(context.injuredSide)];
    case 'other': return context.currentSide && context.currentSide !== 'both' ? [otherSide(context.currentSide)] : undefined;
    case undefined: return context.currentSide === undefined ? undefined : context.currentSide === 'both' ? ['left', 'right'] : [context.currentSide];
  }
}

const onSides = (items: readonly Sideless[], sides: readonly Side[]): Finding[] => sides.flatMap((side) => items.map((item) => ({ side, ...item })));

/** Turns the frames of one sentence into statements. A missing piece is taken from the neighbouring frame where the language does so. */
export function statementsOf(frames: readonly Frame[], text: string, context: Context): Statement[] {
  const shared = share(frames);
  const statements: Statement[] = [];
  const filed: Finding[] = [];
  for (const frame of shared) {
    const meaning = meaningOf(frame);
    if (meaning.kind === 'none') { statements.push({ type: 'unparsed', text }); continue; }
    const sides = sidesOf(frame.side, context);
    if (meaning.kind === 'gap') {
      const options = meaning.items.length > 0 && sides ? [onSides(meaning.items, sides)] : [];
      statements.push({ type: 'gap', gap: meaning.gap, question: meaning.question, options, text });
    } else if (sides) filed.push(...onSides(meaning.items, sides));
    else statements.push({ type: 'gap', gap: 'side', question: 'Which side: left or right?', options: [onSides(meaning.items, ['left']), onSides(meaning.items, ['right'])], text });
  }
  return filed.length > 0 ? [{ type: 'findings', findings: filed, text }, ...statements] : statements;
}

function share(frames: readonly Frame[]): Frame[] {
  const sides = new Set(frames.flatMap((frame) => (frame.side ? [frame.side] : [])));
  const onlySide = sides.size === 1 ? [...sides][0] : undefined;
  const complete: Frame[] = [];
  frames.forEach((said, index) => {
    const before = complete.at(-1);
    const frame: Frame = { ...said, places: [...said.places], signs: [...said.signs] };
    frame.side ??= onlySide ?? (before?.side);
    if (frame.signs.length === 0 && before && before.signs.length > 0 && !impliedSign(frame)) frame.signs = before.signs;
    if (frame.places.length === 0 && before && before.places.length > 0) {
      const topic = before.first === 'place' && frame.signs.every((sign) => sign.adjective);
      if (topic || frame.signs.length === 0 || (frame.signs === before.signs)) frame.places = before.places;
      if (frame.signs.length === 0) frame.signs = before.signs;
    }
    if (frame.places.length === 0 && frame.signs.some((sign) => SIGNS[sign.code].site === undefined)) {
      const after = frames.slice(index + 1).find((next) => next.places.length > 0);
      const own = after?.places ?? before?.places;
      if (own) frame.places = own;
    }
    if (hasNothing(frame)) return;
    complete.push(frame);
  });
  return complete;
}

const hasNothing = (frame: Frame): boolean => frame.signs.length === 0 && frame.places.length === 0 && !hasResult(frame) && !frame.unknown;
