import type { Loss } from '../anatomy/deficit';
import { meanLoss } from '../anatomy/deficit';
import { DIGITS } from '../../vocabulary';
import type { Atom, UnitId } from '../observation/units';
import type { BySeverity, Hypothesis } from './hypothesis';
import { SEVERITIES } from './hypothesis';

const CUT: BySeverity = [0.02, 0.13, 0.1, 0.75];

/** Three or more lesions that one cut makes together. Two lesions are paired in inference/pairs.ts. */
function together(parts: readonly Hypothesis[], prior: number, place: string, source: string): Hypothesis {
  return {
    id: parts.map(({ id }) => id).join('+'), parts, kind: parts[0]!.kind, structure: parts.map(({ structure }) => structure).join(' and '), level: '', prior, severity: CUT, places: [place], source, pairs: false, motorShare: 1,
    variable: parts.some(({ variable }) => variable),
    losses: variant => {
      const all = new Map<Atom, readonly Loss[]>();
      for (const part of parts) for (const [atom, losses] of part.losses(variant)) { const before = all.get(atom); if (!before || meanLoss(losses) > meanLoss(before)) all.set(atom, losses); }
      return all;
    },
    signs: Object.fromEntries([...new Set(parts.flatMap(({ signs }) => Object.keys(signs)))].map((unit: UnitId) =>
      [unit, SEVERITIES.map((_, s) => Math.max(...parts.map(({ signs }) => signs[unit]?.[s] ?? 0))) as unknown as BySeverity])),
  };
}

/** Cuts that take several structures of one place. */
export function combinedLesions(singles: readonly Hypothesis[]): readonly Hypothesis[] {
  const of = (...ids: string[]) => ids.map(id => {
    const found = singles.find(single => single.id === id);
    if (!found) throw new Error(`No hypothesis "${id}" to combine: see src/localiser/hypotheses.`);
    return found;
  });
  const wrist = 'Review of 42 combined cuts at the wrist, 1997-2005, PubMed 17705282: ulnar triad 31 %, radial triad 43 %, both nerves 40.5 % [checked]; prior weights a design choice';
  return [
    together(of('ulnar.wrist', 'tendon.FCU', 'artery.ulnar'), 0.3, 'wrist', wrist),
    together(of('median.forearm', 'tendon.FCR', 'tendon.PL'), 0.3, 'wrist', wrist),
    together(of('median.forearm', 'tendon.FCR', 'artery.radial'), 0.15, 'wrist', wrist),
    together(of('median.forearm', 'ulnar.wrist', 'tendon.wrist-flexors'), 0.25, 'wrist', wrist),
    together(of('median.forearm', 'ulnar.wrist', 'tendon.wrist-flexors', 'artery.ulnar'), 0.15, 'wrist', wrist),
    ...DIGITS.flatMap(digit => {
      const nerves = [`digital.${digit}r`, `digital.${digit}u`];
      const flexors = digit === 'D1' ? 'tendon.FPL' : `tendon.both-flexors.${digit}`;
      const source = "Green's 2022 [memory]; prior weights a design choice";
      return [together(of(flexors, ...nerves), 0.15, digit, source), together(of(...nerves, `ischaemia.${digit}`), 0.1, digit, source)];
    }),
  ];
}
