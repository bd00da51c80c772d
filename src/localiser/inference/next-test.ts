import type { ItemKey, SignCode } from '../../vocabulary';
import { SIGNS, SITES } from '../../vocabulary';
import { SEVERITIES } from '../hypotheses';
import type { Probe } from '../observation/reading';
import { partsOf, probeOf } from '../observation/reading';
import type { PerState } from '../observation/instruments';
import { LESIONS, NORMAL, configurationAt, tableOf, variantsOf } from './network';
import type { SideWeights, Weighted } from './posterior';
import { LOG_SEVERITY, LOG_VARIANT, logSum, worseOf } from './posterior';

/** What one item of the examination would cost: 1 = a quick painless test of some seconds. Time from the tests' own descriptions; pain common practice, no source. */
const BURDEN: Partial<Record<SignCode, number>> = {
  'two.point': 2, pinprick: 1.3, phalen: 3.5, 'reverse.phalen': 3.5, 'elbow.flexion.test': 3.5, 'ulnar.pressure': 3.5, 'carpal.compression': 2.5, tinel: 1.3, 'scratch.collapse': 2, allen: 2, 'allen.digital': 2,
  finkelstein: 1.8, eichhoff: 1.8, what: 1.8, 'scaphoid.shift': 2, 'scaphoid.compression': 1.6, 'pronator.provocation': 2, 'middle.finger.extension': 1.5, 'cmc.grind': 1.6, 'ucl.stress': 1.8, roos: 4, spurling: 2, elson: 1.5,
  'passive.stretch.pain': 1.6, tenderness: 1.2, wasting: 0.6, claw: 0.5, 'wrist.drop': 0.5, cascade: 0.5, mallet: 0.5, boutonniere: 0.5, tenodesis: 1, pulse: 0.8, refill: 0.8, reflex: 1.5, horner: 0.8, triggering: 1,
};
export const burdenOf = (item: ItemKey): number => BURDEN[partsOf(item).sign] ?? 1;

const power = ['APB', 'OP', 'FPL', 'FDP2', 'FDP3', 'FDP4', 'FDP5', 'FDS2', 'FDS3', 'FDS4', 'FDS5', 'PT', 'PQ', 'FCR', 'FCU', 'ADM', 'DI1', 'DI4', 'ADP', 'PB', 'LUM1', 'TRI', 'BIC', 'BR', 'ECRL', 'ECU', 'ED', 'EDM', 'EIP', 'EPL', 'EPB', 'APL', 'SUP', 'D2.DIP.extension', 'D3.DIP.extension', 'D4.DIP.extension', 'D5.DIP.extension', 'D2.MCP.extension', 'D3.MCP.extension', 'D4.MCP.extension', 'D5.MCP.extension'] as const;
const skin = ['D1r', 'D1u', 'D2r', 'D2u', 'D3r', 'D3u', 'D4r', 'D4u', 'D5r', 'D5u', 'PTH', 'PHY', 'DR', 'DU', 'FL', 'FM', 'FP', 'AP', 'ALL', 'AM'] as const;
/** A second, different look at the same structure: two points at the fingertips, pinprick, one tendon tested alone. */
const halves = ['D1r', 'D1u', 'D2r', 'D2u', 'D3r', 'D3u', 'D4r', 'D4u', 'D5r', 'D5u'] as const;
const digits = ['D1', 'D2', 'D3', 'D4', 'D5'] as const;
const fingers = ['D2', 'D3', 'D4', 'D5'] as const;

/** Tests that the localiser may propose when the caller names none. */
export const PROPOSABLE: readonly ItemKey[] = ([
  ...power.map(site => `power@${site}`), ...skin.map(site => `light.touch@${site}`), 'light.touch@D1.dorsum', 'light.touch@D5.dorsum',
  ...halves.map(site => `two.point@${site}`), ...skin.map(site => `pinprick@${site}`),
  ...fingers.flatMap(digit => [`fdp.isolation@${digit}`, `fds.isolation@${digit}`]), 'fdp.isolation@D1',
  ...digits.flatMap(digit => [`rotation@${digit}`, `deformity@${digit}`, `tenderness@${digit}`, `erythema@${digit}`, `tenodesis@${digit}`, `triggering@${digit}`, `refill@${digit}`, `tenderness@${digit}.sheath`, `passive.stretch.pain@${digit}`]),
  ...fingers.flatMap(digit => [`cascade@${digit}`, `mallet@${digit}`, `elson@${digit}`, `boutonniere@${digit}`, `tenderness@${digit}.PIP`, `tenderness@${digit}.A1`, `passive.range@${digit}`, `swelling@${digit}`, `laxity@${digit}.PIP`, `tendon.slip@${digit}`, `tenderness@${digit}.A2`]),
  'passive.range@D1', 'swelling@D1', 'tenderness@D1.A1',
  'wasting@thenar', 'wasting@DI1.belly', 'wasting@hypothenar', 'claw@fingers', 'froment@D1', 'wartenberg@D5', 'crossed.fingers@fingers', 'ok.sign@D1', 'wrist.drop@wrist',
  'tinel@carpal.tunnel', 'phalen@wrist', 'carpal.compression@carpal.tunnel', 'tinel@cubital.tunnel', 'elbow.flexion.test@cubital.tunnel', 'ulnar.pressure@cubital.tunnel', 'tinel@guyon.canal', 'tinel@distal.radius', 'palmaris.brevis.sign@hypothenar', 'tenderness@hamate', 'tenderness@lunate', 'pronator.provocation@pronator', 'tenderness@radial.tunnel', 'middle.finger.extension@radial.tunnel',
  'finkelstein@extensor.compartment1', 'cmc.grind@D1.CMC', 'tenderness@D1.CMC', 'tenderness@snuffbox', 'tenderness@scaphoid.tubercle', 'scaphoid.compression@D1', 'scaphoid.shift@scapholunate', 'ulnar.grind@TFCC', 'ucl.stress@thumb.UCL', 'mcp.squeeze@MCPs', 'palmar.thickening@palmar.fascia', 'tenderness@distal.radius', 'deformity@wrist', 'tense@extensor.forearm',
  'tenderness@radial.styloid', 'tenderness@scapholunate', 'tenderness@TFCC', 'piano.key@DRUJ', 'lunotriquetral@wrist.ulnar', 'swelling@wrist', 'swelling@MCPs', 'nodes.heberden@DIPs', 'nodes.bouchard@PIPs', 'cord@palmar.fascia', 'erythema@hand', 'swelling@hand', 'tenderness@palm', 'tense@hand', 'tinel@wrist.volar',
  'pulse@radial.artery', 'pulse@ulnar.artery', 'refill@hand', 'allen@hand', 'tense@forearm', 'passive.stretch.pain@fingers', 'horner@neck', 'spurling@neck', 'reflex@TRI', 'reflex@BIC', 'reflex@BR', 'fasciculation@hand', 'passive.range@wrist.joint',
]) as readonly ItemKey[];

/** One explanation broken into what decides its predictions. */
interface Part { readonly entry: number; readonly weight: number; readonly a: number; readonly b: number }

const NEGLIGIBLE = 1e-3;

/** Explanations with their configurations and weights (posterior); small ones are left out and the rest made to add up to 1. */
function partsFor(side: SideWeights, ranked: readonly Weighted[]): { parts: readonly Part[]; weights: readonly number[]; entries: readonly Weighted[] } {
  const entries = ranked.filter(({ first, probability }) => probability > 2 * NEGLIGIBLE && LESIONS[first]!.kind !== 'unexplained'); // anything at all would tell that one apart
  const sum = entries.reduce((total, { probability }) => total + probability, 0);
  const parts: Part[] = [];
  entries.forEach((entry, index) => {
    const found: { a: number; b: number; log: number }[] = [];
    const variants = Math.max(variantsOf(entry.first), entry.second < 0 ? 1 : variantsOf(entry.second));
    for (let v = 0; v < variants; v++) for (let s = 0; s < SEVERITIES.length; s++) {
      const a = configurationAt(v, entry.first, s);
      const log = (variants === 1 ? 0 : LOG_VARIANT[v]!) + LOG_SEVERITY[entry.first]![s]! + side.likelihood.log[a]!;
      if (entry.second < 0) found.push({ a, b: -1, log });
      else for (let t = 0; t < SEVERITIES.length; t++) {
        const b = configurationAt(v, entry.second, t);
        found.push({ a, b, log: log + LOG_SEVERITY[entry.second]![t]! + side.likelihood.log[b]! - side.likelihood.log[configurationAt(0, NORMAL, 0)]! });
      }
    }
    const total = logSum(found.map(({ log }) => log));
    for (const { a, b, log } of found) {
      const weight = Math.exp(log - total) * (entry.probability / sum);
      if (weight > NEGLIGIBLE / 4) parts.push({ entry: index, weight, a, b });
    }
  });
  const weights = entries.map((_, index) => parts.reduce((total, part) => (part.entry === index ? total + part.weight : total), 0));
  return { parts, weights, entries };
}

export interface Gain { readonly item: ItemKey; readonly gain: number; readonly value: number; readonly separates: readonly number[] }

/**
 * Expected information (bits) that each item would bring about which explanation holds, given what is known.
 * Explanations below 0.2 % are left out of the sum.
 */
export function gains(side: SideWeights, ranked: readonly Weighted[], items: readonly ItemKey[], onsetDays: number | undefined): { gains: readonly Gain[]; entries: readonly Weighted[] } {
  const { parts, weights, entries } = partsFor(side, ranked);
  if (entries.length < 2) return { gains: [], entries };
  const known = new Map(side.likelihood.evidence.map(({ unit }, index) => [unit, side.likelihood.states[index]!]));
  const done = new Map<string, Omit<Gain, 'item' | 'value'>>();
  const found: Gain[] = [];
  for (const item of items) {
    const { sign, site } = partsOf(item);
    const probe = SIGNS[sign] && SITES[site] ? probeOf(sign, site, onsetDays) : undefined;
    if (!probe) continue;
    const key = `${probe.instrument.name} ${probe.unit}`;
    const result = done.get(key) ?? gainOf(probe, parts, weights, known.get(probe.unit));
    if (!result) continue;
    done.set(key, result);
    found.push({ item, ...result, value: result.gain / burdenOf(item) });
  }
  return { gains: found.filter(({ gain }) => gain > 1e-4).sort((a, b) => b.value - a.value || (a.item < b.item ? -1 : 1)), entries };
}

function gainOf(probe: Probe, parts: readonly Part[], weights: readonly number[], known: PerState | undefined): Omit<Gain, 'item' | 'value'> | undefined {
  const table = tableOf(probe.unit, probe.members);
  if (!table) return undefined;
  const outcomes = Object.values(probe.instrument.outcomes);
  const predicted = weights.map(() => new Float64Array(outcomes.length)); // P(outcome and explanation)
  for (const { entry, weight, a, b } of parts) {
    const prior = worseOf(table, a, b);
    const states = known ? normalised(prior, known) : prior;
    const into = predicted[entry]!;
    for (let o = 0; o < outcomes.length; o++) { const row = outcomes[o]!; into[o]! += weight * (row[0] * states[0] + row[1] * states[1] + row[2] * states[2] + row[3] * states[3]); }
  }
  let gain = 0;
  for (let o = 0; o < outcomes.length; o++) {
    let total = 0;
    for (const row of predicted) total += row[o]!;
    for (let entry = 0; entry < weights.length; entry++) { const joint = predicted[entry]![o]!; if (joint > 0) gain += joint * Math.log2(joint / (weights[entry]! * total)); }
  }
  return { gain: Math.max(0, gain), separates: mostApart(predicted, weights) };
}

const normalised = (prior: PerState, known: PerState): PerState => {
  const product = prior.map((p, state) => p * known[state]!);
  const sum = product.reduce((total, p) => total + p, 0);
  return sum > 0 ? product.map(p => p / sum) as unknown as PerState : prior;
};

/** The likeliest explanation and the one, weighed by its probability, whose predicted outcome differs most from it. */
function mostApart(predicted: readonly Float64Array[], weights: readonly number[]): readonly number[] {
  let other = -1, best = 0;
  for (let entry = 1; entry < Math.min(weights.length, 12); entry++) {
    let distance = 0;
    for (let o = 0; o < predicted[0]!.length; o++) distance += Math.abs(predicted[0]![o]! / weights[0]! - predicted[entry]![o]! / weights[entry]!);
    if (distance * weights[entry]! > best) { best = distance * weights[entry]!; other = entry; }
  }
  return other < 0 ? [0] : [0, other];
}

export const nameOf = ({ first, second }: Weighted): string => (second < 0 ? LESIONS[first]!.id : `${LESIONS[first]!.id}+${LESIONS[second]!.id}`);
