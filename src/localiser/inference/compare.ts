import type { Finding, ItemKey, Side } from '../../vocabulary';
import { SIGNS, SITES, itemKey, resultInWords } from '../../vocabulary';
import type { Comparison } from '../localisation';
import { read } from '../observation/reading';
import { comparisonInWords } from '../words';
import { NORMAL, POLYNEUROPATHY } from './network';
import type { Weighted } from './posterior';

/** How much worse than intact a finding says its structure is: the mean of the four states (0 intact to 3 lost) if all were as likely before. */
function badness(finding: Finding, onsetDays: number | undefined): number | undefined {
  const reading = read(finding, onsetDays);
  if (!reading) return undefined;
  const total = reading.likelihood.reduce((sum, p) => sum + p, 0);
  return reading.likelihood.reduce((sum, p, state) => sum + state * p, 0) / total;
}

/** Half a step of the four is a difference; from half a step on a finding is abnormal. Design choices. */
const DIFFERS = 0.5, ABNORMAL = 0.75;

const inWords = (left: Finding, right: Finding): string => {
  const { name, test } = SIGNS[left.sign];
  return `${name}, ${SITES[left.site].name}: left ${resultInWords(left.result, test)}, right ${resultInWords(right.result, test)}`;
};

/** Sets one hand against the other. @param ranked each side's explanations; @returns undefined unless both hands have findings. */
export function compare(findings: readonly Finding[], ranked: Readonly<Record<Side, readonly Weighted[]>>, onsetDays: number | undefined): Comparison | undefined {
  const bySide = (side: Side) => new Map(findings.filter(finding => finding.side === side && finding.result.kind !== 'not testable').map(finding => [itemKey(finding), finding]));
  const lefts = bySide('left'), rights = bySide('right');
  if (lefts.size === 0 || rights.size === 0) return undefined;
  const differing: { item: ItemKey; worse: Side; words: string; by: number }[] = [];
  const alike: { item: ItemKey; words: string }[] = [];
  let compared = 0;
  for (const [item, left] of lefts) {
    const right = rights.get(item);
    const one = badness(left, onsetDays), other = right && badness(right, onsetDays);
    if (!right || one === undefined || other === undefined) continue;
    compared += 1;
    if (Math.abs(one - other) >= DIFFERS) differing.push({ item, worse: one > other ? 'left' : 'right', words: inWords(left, right), by: Math.abs(one - other) });
    else if (Math.min(one, other) >= ABNORMAL) alike.push({ item, words: inWords(left, right) });
  }
  const chance = (side: Side, lesion: number): number => ranked[side].find(({ first, second }) => first === lesion && second < 0)?.probability ?? 0;
  // Polyneuropathy is one condition of both hands; apart from it they are independent.
  const shared = chance('left', POLYNEUROPATHY), apart = 1 - shared;
  const wellLeft = apart > 0 ? Math.min(1, chance('left', NORMAL) / apart) : 0, wellRight = apart > 0 ? Math.min(1, chance('right', NORMAL) / apart) : 0;
  const chances = { leftOnly: apart * (1 - wellLeft) * wellRight, rightOnly: apart * wellLeft * (1 - wellRight), both: shared + apart * (1 - wellLeft) * (1 - wellRight), neither: apart * wellLeft * wellRight };
  const sorted = differing.sort((a, b) => b.by - a.by || (a.item < b.item ? -1 : 1)).map(({ item, worse, words }) => ({ item, worse, words }));
  alike.sort((a, b) => (a.item < b.item ? -1 : 1));
  return { ...chances, differing: sorted, alike, words: comparisonInWords(chances, sorted.map(({ words }) => words), alike.length, compared) };
}
