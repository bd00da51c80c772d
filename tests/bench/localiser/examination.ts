import { PROPOSABLE } from '../../../src/localiser';
import type { Finding, ItemKey } from '../../../src/vocabulary';
import { itemKey } from '../../../src/vocabulary';
import type { Priors } from '../../../src/localiser/inference/pairs';
import type { Patient } from './patient';
import { EXAMINER, draw, examine, relevantItems } from './patient';
import type { Random } from './random';
import { RuleTable, abnormal } from './references';

/** The few points that every examiner looks at: one muscle and one skin area of each nerve (O'Brien 2010), and the pulses. */
const SCREEN: readonly ItemKey[] = ['light.touch@D2r', 'light.touch@D5u', 'light.touch@DR', 'power@APB', 'power@DI1', 'power@ED', 'power@FPL', 'power@FDP5', 'refill@hand'];

/** Wounds are seen at once and said at once; without one, that is said. */
const WOUNDS: readonly ItemKey[] = ['laceration@D1.volar', 'laceration@D2.volar', 'laceration@D3.volar', 'laceration@D4.volar', 'laceration@D5.volar', 'laceration@palm', 'laceration@hand.dorsum', 'laceration@wrist.volar', 'laceration@forearm.volar', 'laceration@elbow', 'laceration@arm'];
function wounds(patient: Patient, random: Random): readonly Finding[] {
  const seen = WOUNDS.flatMap(item => examine(patient, item, random) ?? []).filter(abnormal).slice(0, 1);
  return seen.length > 0 ? seen : [{ side: 'right', sign: 'wound', site: 'hand', result: { kind: 'level', level: 'absent' } }];
}

/** Abnormal findings that the patient can point to at the start. */
const COMPLAINT = 3;

/**
 * A hand with something to show: one whose lesion shows nothing at all does not come to be examined. Healthy hands do, but those with
 * nothing false to point to come less often.
 */
const HEALTHY_COME = 0.65;
export function attending(random: Random, priors: Priors): { patient: Patient; start: readonly Finding[] } {
  for (;;) {
    const patient = draw(random, priors);
    const pointed = complaint(patient, random);
    if (patient.truth === 'normal' ? random.next() < HEALTHY_COME : pointed.length > 0) return { patient, start: [...wounds(patient, random), ...pointed] };
  }
}

/** What the patient points to: up to three of the abnormal things, in an order of chance; nothing in a hand without a lesion. */
function complaint(patient: Patient, random: Random): readonly Finding[] {
  const shuffled = (patient.truth === 'unexplained' ? PROPOSABLE : relevantItems(patient, PROPOSABLE)).map(item => ({ item, at: random.next() })).sort((a, b) => a.at - b.at).map(({ item }) => item);
  const found: Finding[] = [];
  for (const item of shuffled) {
    const finding = found.length < COMPLAINT ? examine(patient, item, random) : undefined;
    if (finding && abnormal(finding)) found.push(finding);
  }
  return found;
}

/**
 * An examination of `n` items: first the wound and what the patient points to, then in turn a screening point or an item on which the
 * leading entries of a rule table differ. What is examined next depends on what was found, as a careful examiner would do it,
 * and not on the localiser.
 */
export function examination(patient: Patient, start: readonly Finding[], random: Random, n: number): Finding[] {
  const left = new Set<ItemKey>(PROPOSABLE);
  const table = new RuleTable();
  const bias = random.normal(0, EXAMINER.bias);
  const findings = [...start];
  for (const finding of findings) { left.delete(itemKey(finding)); table.add(finding); }
  const screen = [...SCREEN];
  while (findings.length < n && left.size > 0) {
    const item = (random.next() < 0.3 ? screen.shift() : undefined) ?? table.separating([...left], random) ?? random.pick([...left]);
    if (!left.delete(item)) continue;
    const finding = examine(patient, item, random, bias);
    if (!finding) continue;
    findings.push(finding);
    table.add(finding);
  }
  return findings;
}
