import fc from 'fast-check';
import type { Order, Statement } from '../../src/parser/statement';
import type { Utterance, Verdict } from '../../src/recogniser/recogniser';
import type { FiledFinding, Happening, RecordEvent, SetUp } from '../../src/record';
import { MRC_GRADES, SIGNS, SIGN_CODES, SITES, checkFinding } from '../../src/vocabulary';
import type { Finding, Level, MrcGrade, Qualifier, Quantity, Result, Side, SignCode, SiteCode, Unit } from '../../src/vocabulary';

/** Invented patients and findings for the tests of the record and all that follows it. */

export const setUp: SetUp = { label: 'Gardener, ring finger', injuredSide: 'left', handedness: 'right', protocol: 'complete' };
export const AT = '2026-03-02T10:00:00.000Z';

export const level = (name: Level): Result => ({ kind: 'level', level: name });
export const grade = (name: MrcGrade): Result => ({ kind: 'grade', grade: name });
export const quantity = (value: number, unit: Unit): Result => ({ kind: 'quantity', quantity: { value, unit } });
export const finding = (side: Side, sign: SignCode, site: SiteCode, result: Result, more: { at?: Quantity; qualifiers?: readonly Qualifier[] } = {}): Finding => ({ side, sign, site, result, ...more });

export const filed = (id: string, of: Finding, utteranceId = 'u1'): FiledFinding => ({ id, finding: of, utteranceId, by: 'examiner', confidence: 0.95 });

export const utterance = (id: string, text: string, verdict: Verdict = 'accepted'): Utterance =>
  ({ id, text, start: 0, end: 1, confidence: 0.95, verdict, words: [], alternatives: [], source: 'keyboard' });

export const said = (...findings: readonly Finding[]): Statement => ({ type: 'findings', findings, text: 'said' });
export const order = (of: Order): Statement => ({ type: 'order', order: of, text: of.order });

export const log = (happenings: readonly Happening[], examinationId = 'exam-1'): RecordEvent[] =>
  happenings.map((happening, seq) => ({ examinationId, seq, at: AT, happening }));

const siteCodes = Object.keys(SITES) as SiteCode[];
/** Any sound finding of the vocabulary. */
export const anyFinding: fc.Arbitrary<Finding> = fc.constantFrom(...SIGN_CODES).chain((sign) => {
  const entry = SIGNS[sign];
  const sites = siteCodes.filter((site) => entry.kinds.includes(SITES[site].kind) || entry.site === site);
  const results: fc.Arbitrary<Result>[] = [fc.constantFrom(...entry.levels).map(level)];
  if (entry.grade) results.push(fc.constantFrom(...MRC_GRADES).map(grade));
  if (entry.units) results.push(fc.tuple(fc.integer({ min: 0, max: 60 }), fc.constantFrom(...entry.units)).map(([value, unit]) => quantity(value, unit)));
  return fc.record({ side: fc.constantFrom<Side>('left', 'right'), sign: fc.constant(sign), site: fc.constantFrom(...sites), result: fc.oneof(...results) });
}).filter((value) => checkFinding(value).length === 0);

/** A small pool, so that random examinations meet contradictions, repeats and refinements. */
export const commonFinding: fc.Arbitrary<Finding> = fc.oneof(
  fc.tuple(fc.constantFrom<Side>('left', 'right'), fc.constantFrom<SiteCode>('APB', 'DI1'), fc.constantFrom(...MRC_GRADES)).map(([side, site, of]) => finding(side, 'power', site, grade(of))),
  fc.tuple(fc.constantFrom<Side>('left', 'right'), fc.constantFrom<SiteCode>('D2.pulp', 'DR'), fc.constantFrom<Level>('normal', 'reduced', 'absent')).map(([side, site, of]) => finding(side, 'light.touch', site, level(of))),
  anyFinding,
);

const ids = fc.constantFrom('f1', 'f2', 'f3', 'f4', 'f5');
const utteranceIds = fc.constantFrom('u1', 'u2', 'u3');
const anyFiled: fc.Arbitrary<FiledFinding> = fc.record({ id: ids, finding: commonFinding, utteranceId: utteranceIds, by: fc.constantFrom('examiner' as const, 'reviewer' as const), confidence: fc.double({ min: 0, max: 1, noNaN: true }) });

/** Anything that can happen, in any order, references right or wrong. */
export const anyHappening: fc.Arbitrary<Happening> = fc.oneof(
  fc.constant<Happening>({ type: 'begun', setUp }),
  fc.tuple(utteranceIds, fc.constantFrom<Verdict>('accepted', 'queried', 'ignored'), fc.array(commonFinding, { maxLength: 2 })).map(([id, verdict, findings]): Happening => ({ type: 'heard', utterance: utterance(id, 'x', verdict), statements: findings.length ? [said(...findings)] : [] })),
  fc.array(anyFiled, { maxLength: 3 }).map((findings): Happening => ({ type: 'filed', findings })),
  fc.tuple(utteranceIds, fc.array(fc.array(commonFinding, { maxLength: 2 }), { maxLength: 3 })).map(([utteranceId, options]): Happening => ({ type: 'queried', utteranceId, question: 'Which?', options })),
  fc.tuple(utteranceIds, fc.option(fc.nat(2))).map(([utteranceId, option]): Happening => ({ type: 'answered', utteranceId, option })),
  fc.tuple(utteranceIds, fc.boolean()).map(([utteranceId, agrees]): Happening => ({ type: 'heard again', utteranceId, engine: 'other', text: 'x', verdict: 'accepted', agrees, confidence: agrees ? 0.99 : 0.05 })),
  fc.array(ids, { maxLength: 2 }).map((findingIds): Happening => ({ type: 'withdrawn', findingIds, by: 'reviewer' })),
  fc.tuple(ids, anyFiled).map(([findingId, to]): Happening => ({ type: 'corrected', findingId, to })),
  fc.constantFrom<Happening>(
    { type: 'not testable', side: 'left', items: ['power@APB', 'light.touch@DR'], reason: 'dressing', utteranceId: 'u1' }, { type: 'testable again', side: 'left', items: ['power@APB'] },
    { type: 'side set', side: 'left' }, { type: 'side set', side: null }, { type: 'stage set', stage: 'power.ulnar' }, { type: 'stage set', stage: 'nowhere' }, { type: 'held' }, { type: 'resumed' },
    { type: 'ordered', order: { order: 'read back' } }, { type: 'caution shown', caution: 'compartment.left' }, { type: 'caution acknowledged', caution: 'compartment.left' }, { type: 'concluded' }, { type: 'signed', by: 'Dr Example' },
  ),
);
