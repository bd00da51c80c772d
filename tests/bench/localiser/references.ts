/** Two other ways of localising, for comparison: a rule table as textbooks print it, and a naive Bayes that knows no anatomy. */
import { meanLoss } from '../../../src/localiser/anatomy/deficit';
import { LESIONS } from '../../../src/localiser/inference/network';
import { USUAL } from '../../../src/localiser/inference/pairs';
import { isNormal } from '../../../src/localiser/inference/evidence';
import { probeOf, read } from '../../../src/localiser/observation/reading';
import type { Atom } from '../../../src/localiser/observation/units';
import type { Finding, ItemKey } from '../../../src/vocabulary';
import { itemKey } from '../../../src/vocabulary';
import type { Random } from './random';

export type Guess = readonly { readonly id: string; readonly probability: number }[];

/** Is the finding abnormal? The only thing that both references take from it. */
export function abnormal(finding: Finding): boolean {
  const reading = read(finding);
  return reading !== null && !isNormal({ finding, reading, trust: 1, likelihood: reading.likelihood });
}

type Cell = 'lost' | 'spared' | 'variable';
/** What a textbook's table says of an item: lost when most of its supply is, spared when none is, variable between. */
function cellOf(lesion: (typeof LESIONS)[number], item: ItemKey): Cell | undefined {
  const [sign, site] = item.split('@') as [Finding['sign'], Finding['site']];
  const probe = probeOf(sign, site);
  if (!probe) return undefined;
  if (!probe.members) { const sensitivity = lesion.signs[probe.unit]; return sensitivity ? (sensitivity[3] > 0.5 ? 'lost' : 'variable') : 'spared'; }
  const losses = lesion.losses('usual');
  const part = Object.entries(probe.members).reduce((sum, [atom, weight]) => { const loss = losses.get(atom as Atom); return loss ? sum + weight * meanLoss(loss) : sum; }, 0);
  return part >= 0.4 ? 'lost' : part < 0.1 ? 'spared' : 'variable';
}
const cells = new Map<string, readonly (Cell | undefined)[]>();
const row = (item: ItemKey) => { let found = cells.get(item); if (!found) { found = LESIONS.map(lesion => cellOf(lesion, item)); cells.set(item, found); } return found; };

/** A rule table that is filled in finding by finding: one point for each cell that agrees, one off for each that does not; ties by how common the lesion is. */
export class RuleTable {
  readonly #score = Float64Array.from(LESIONS, ({ kind }, index) => (kind === 'unexplained' ? -Infinity : USUAL.single[index]! * 0.5));

  add(finding: Finding): void {
    const seen = abnormal(finding) ? 'lost' : 'spared';
    row(itemKey(finding)).forEach((cell, index) => { if (cell && cell !== 'variable') this.#score[index]! += cell === seen ? 1 : -1; });
  }

  /** The `n` leading explanations, best first. */
  leading(n: number): readonly number[] {
    const best: number[] = [];
    for (let rank = 0; rank < n; rank++) {
      let top = -1;
      for (let i = 0; i < this.#score.length; i++) if (!best.includes(i) && (top < 0 || this.#score[i]! > this.#score[top]!)) top = i;
      best.push(top);
    }
    return best;
  }

  /** The item, among those left, on which the leader differs from most of the next explanations; ties by chance. */
  separating(left: readonly ItemKey[], random: Random): ItemKey | undefined {
    const [leader, ...rivals] = this.leading(8);
    let most = 0, best: ItemKey[] = [];
    for (const item of left) {
      const found = row(item), mine = found[leader!];
      if (mine === 'variable') continue;
      const differing = rivals.filter(rival => found[rival] !== 'variable' && found[rival] !== mine).length;
      if (differing > most) { most = differing; best = []; }
      if (differing === most && most > 0) best.push(item);
    }
    return best.length > 0 ? random.pick(best) : undefined;
  }
}

export function ruleTable(findings: readonly Finding[]): Guess {
  const table = new RuleTable();
  for (const finding of findings) table.add(finding);
  return table.leading(3).map((index, rank) => ({ id: LESIONS[index]!.id, probability: rank === 0 ? 1 : 0 }));
}

/** Naive Bayes over abnormal / normal, learnt from examples, one class for each answer seen in training. */
export class NaiveBayes {
  readonly #classes = new Map<string, { seen: number; items: Map<ItemKey, [normal: number, abnormal: number]> }>();
  #total = 0;

  learn(truth: string, findings: readonly Finding[]): void {
    const entry = this.#classes.get(truth) ?? { seen: 0, items: new Map() };
    entry.seen += 1;
    this.#total += 1;
    for (const finding of findings) {
      const counts = entry.items.get(itemKey(finding)) ?? [0, 0];
      counts[abnormal(finding) ? 1 : 0] += 1;
      entry.items.set(itemKey(finding), counts);
    }
    this.#classes.set(truth, entry);
  }

  guess(findings: readonly Finding[]): Guess {
    const seen = findings.map(finding => [itemKey(finding), abnormal(finding) ? 1 : 0] as const);
    const scored = [...this.#classes].map(([id, { seen: n, items }]) => ({ id, log: seen.reduce((sum, [item, outcome]) => {
      const counts = items.get(item) ?? [0, 0];
      return sum + Math.log((counts[outcome] + (outcome ? 0.3 : 1.7)) / (counts[0] + counts[1] + 2)); // prior: 15 % abnormal
    }, Math.log(n / this.#total)) }));
    const top = Math.max(...scored.map(({ log }) => log));
    const sum = scored.reduce((total, { log }) => total + Math.exp(log - top), 0);
    return scored.map(({ id, log }) => ({ id, probability: Math.exp(log - top) / sum })).sort((a, b) => b.probability - a.probability);
  }
}
