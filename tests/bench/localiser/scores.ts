import type { Guess } from './references';

/** Running scores of one method. */
export class Scores {
  n = 0; #first = 0; #three = 0; #brier = 0;
  readonly #bins = Array.from({ length: 10 }, () => ({ n: 0, p: 0, right: 0 }));
  readonly #pairs: [string, string][] = [];

  /** @param structure of an answer: for the agreement on structures. */
  add(truth: string, trueStructure: string, guess: Guess, structure: (id: string) => string): void {
    const [first] = guess;
    const right = first?.id === truth;
    const p = first?.probability ?? 0;
    this.n += 1;
    if (right) this.#first += 1;
    if (guess.slice(0, 3).some(({ id }) => id === truth)) this.#three += 1;
    this.#brier += guess.reduce((sum, { id, probability }) => sum + (id === truth ? (1 - probability) ** 2 : probability ** 2), guess.some(({ id }) => id === truth) ? 0 : 1);
    const bin = this.#bins[Math.min(9, Math.floor(p * 10))]!;
    bin.n += 1; bin.p += p; bin.right += right ? 1 : 0;
    this.#pairs.push([trueStructure, first ? structure(first.id) : 'none']);
  }

  /** Mean probability said of the first answer. */
  get said(): number { return this.#bins.reduce((sum, { p }) => sum + p, 0) / this.n; }
  get top1(): number { return this.#first / this.n; }
  get top3(): number { return this.#three / this.n; }
  /** Sum over answers of squared error, 0 to 2 (Brier 1950). */
  get brier(): number { return this.#brier / this.n; }
  /** Expected calibration error of the first answer's probability, ten bins. */
  get calibration(): number { return this.#bins.reduce((sum, { n, p, right }) => sum + Math.abs(p - right), 0) / this.n; }
  get bins(): readonly { n: number; p: number; right: number }[] { return this.#bins; }
  get kappa(): number { return cohen(this.#pairs); }
}

/** Cohen's kappa (1960) of two raters' labels. */
export function cohen(pairs: readonly (readonly [string, string])[]): number {
  const a = new Map<string, number>(), b = new Map<string, number>();
  let same = 0;
  for (const [x, y] of pairs) { a.set(x, (a.get(x) ?? 0) + 1); b.set(y, (b.get(y) ?? 0) + 1); if (x === y) same += 1; }
  const chance = [...a].reduce((sum, [label, n]) => sum + (n / pairs.length) * ((b.get(label) ?? 0) / pairs.length), 0);
  return (same / pairs.length - chance) / (1 - chance);
}
