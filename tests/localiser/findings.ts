import fc from 'fast-check';
import { PROPOSABLE } from '../../src/localiser';
import { partsOf } from '../../src/localiser/observation/reading';
import type { Finding, ItemKey, Level, Side } from '../../src/vocabulary';
import { MRC_GRADES, SIGNS } from '../../src/vocabulary';

/** Short notation for tests: "power@APB = 4", "light.touch@D2r = reduced", "two.point@D2r = 12 mm". */
export function findingOf(text: string, side: Side = 'right'): Finding {
  const [item = '', said = ''] = text.split('=').map(part => part.trim());
  const { sign, site } = partsOf(item as ItemKey);
  const quantity = /^(\d+) (mm|s)$/.exec(said);
  if (quantity) return { side, sign, site, result: { kind: 'quantity', quantity: { value: Number(quantity[1]), unit: quantity[2] as 'mm' | 's' } } };
  if (/^\d/.test(said)) return { side, sign, site, result: { kind: 'grade', grade: said as (typeof MRC_GRADES)[number] } };
  return { side, sign, site, result: { kind: 'level', level: said as Level } };
}
export const findingsOf = (side: Side, ...texts: readonly string[]): Finding[] => texts.map(text => findingOf(text, side));

/** Any finding about an item that the localiser reads. */
export const anyFinding = (side: Side): fc.Arbitrary<Finding> => fc.constantFrom(...PROPOSABLE).chain(item => {
  const { sign, site } = partsOf(item);
  const { levels, grade } = SIGNS[sign];
  const level = fc.constantFrom(...levels).map((name): Finding => ({ side, sign, site, result: { kind: 'level', level: name } }));
  return grade ? fc.oneof({ weight: 4, arbitrary: fc.constantFrom(...MRC_GRADES).map((mrc): Finding => ({ side, sign, site, result: { kind: 'grade', grade: mrc } })) }, { weight: 1, arbitrary: level }) : level;
});
/** A record of one side without repeats of an item. */
export const anyRecord = (side: Side, max = 20): fc.Arbitrary<Finding[]> => fc.uniqueArray(anyFinding(side), { minLength: 1, maxLength: max, selector: ({ sign, site }) => `${sign}@${site}` });
