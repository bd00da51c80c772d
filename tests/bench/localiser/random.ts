/** Seeded random numbers (mulberry32, public domain), so that a run can be repeated. */
export interface Random { next(): number; normal(mean?: number, deviation?: number): number; pick<T>(from: readonly T[]): T; weighted(weights: readonly number[]): number }

export function seeded(seed: number): Random {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    next,
    normal: (mean = 0, deviation = 1) => mean + deviation * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    pick: from => from[Math.floor(next() * from.length)]!,
    weighted: weights => {
      let left = next() * weights.reduce((sum, weight) => sum + weight, 0);
      for (let i = 0; i < weights.length; i++) { left -= weights[i]!; if (left < 0) return i; }
      return weights.length - 1;
    },
  };
}
