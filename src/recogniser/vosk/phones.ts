import table from './phone-features.json';

/**
 * How far two ARPAbet phones, or two sequences of them, lie apart: PanPhon's weighted feature edit distance.
 * A substitution costs the weighted feature difference, a phone too many or too few costs 1; both are divided
 * by the sum of the weights. Weights and features with their source: phone-features.json.
 */
const PHONES = Object.keys(table.phones);
const INDEX = new Map(PHONES.map((phone, index) => [phone, index]));
const TOTAL = table.weights.reduce((sum, weight) => sum + weight, 0);
const VECTORS = Object.values(table.phones);

const SIZE = PHONES.length;
const COST = Float64Array.from({ length: SIZE * SIZE }, (_, place) => {
  const [a, b] = [VECTORS[Math.floor(place / SIZE)] ?? [], VECTORS[place % SIZE] ?? []];
  return table.weights.reduce((sum, weight, n) => sum + weight * Math.abs((a[n] ?? 0) - (b[n] ?? 0)), 0) / TOTAL;
});

/** Cost of a phone too many or too few. */
export const GAP = 1;

/** A pronunciation as phone numbers. Stress digits are dropped. */
export type Phones = readonly number[];

/**
 * @param pronunciation ARPAbet phones with or without stress, "TH IY1 N ER0"
 * @throws RangeError naming the phone that is none
 */
export function toPhones(pronunciation: string): Phones {
  return pronunciation.trim().split(/\s+/).map((symbol) => {
    const index = INDEX.get(symbol.replace(/\d$/, ''));
    if (index === undefined) throw new RangeError(`"${symbol}" in "${pronunciation}" is not an ARPAbet phone.`);
    return index;
  });
}

export const fromPhones = (phones: Phones): string => phones.map((phone) => PHONES[phone]).join(' ');

/** Cost of hearing one phone as another, 0 for the same. */
export const substitution = (a: number, b: number): number => COST[a * SIZE + b] ?? GAP;

/**
 * Least cost of turning one sequence into the other, in phones (1 = one phone added or lost).
 * @param limit give up above this cost and return Infinity
 */
export function editDistance(a: Phones, b: Phones, limit = Infinity): number {
  if (Math.abs(a.length - b.length) * GAP > limit) return Infinity;
  const row = Float64Array.from({ length: b.length + 1 }, (_, n) => n * GAP);
  for (let i = 0; i < a.length; i += 1) {
    let diagonal = row[0]!;
    let least = (row[0] = diagonal + GAP);
    for (let j = 1; j <= b.length; j += 1) {
      const above = row[j]!;
      const cost = Math.min(diagonal + substitution(a[i]!, b[j - 1]!), above + GAP, row[j - 1]! + GAP);
      row[j] = cost;
      diagonal = above;
      if (cost < least) least = cost;
    }
    if (least > limit) return Infinity;
  }
  const cost = row[b.length]!;
  return cost <= limit ? cost : Infinity;
}
