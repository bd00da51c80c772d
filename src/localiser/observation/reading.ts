import type { Finding, ItemKey, Quantity, SensoryGrade, SiteCode, SignCode } from '../../vocabulary';
import { SITES } from '../../vocabulary';
import type { Band } from '../anatomy/nerves';
import type { Instrument, PerState } from './instruments';
import * as tool from './instruments';
import type { Unit, UnitId } from './units';
import { digitOf, motorUnit, skinUnit, tinelUnit, unitId } from './units';

/** What one item of the examination looks at and how. A unit is structural, or a sign named by its own id. */
export interface Probe { readonly unit: UnitId; readonly members?: Unit; readonly instrument: Instrument }

export interface Reading extends Probe { /** Probability of what was found in each hidden state. */ readonly likelihood: PerState }

/** Days since onset, or undefined when it was not said or is not a time. */
export function daysOf(onset: Quantity | undefined): number | undefined {
  if (!onset || !Number.isFinite(onset.value) || onset.value < 0) return undefined;
  switch (onset.unit) {
    case 'd': return onset.value;
    case 'h': return onset.value / 24;
    case 'min': return onset.value / 1440;
    case 's': return onset.value / 86400;
    default: return undefined;
  }
}

const structural = (members: Unit | undefined, instrument: Instrument): Probe | undefined => members && { unit: unitId(members), members, instrument };
const sign = (unit: UnitId): Probe => ({ unit, instrument: tool.SIGN });

/** The muscles behind a sign of posture or substitution. Coroneos teaching note; Goldman 2009; Earle & Vlastou 1980 [checked]; Mannerfelt 1966 [memory]. */
const POSTURE: Partial<Record<SignCode, { members: Unit; instrument: Instrument }>> = {
  froment: { members: { ADP: 1 }, instrument: tool.SUBSTITUTION },
  jeanne: { members: { ADP: 0.6, FPB: 0.4 }, instrument: tool.SUBSTITUTION },
  wartenberg: { members: { PI3: 1 }, instrument: tool.SUBSTITUTION },
  egawa: { members: { DI2: 0.5, DI3: 0.5 }, instrument: tool.SUBSTITUTION },
  'crossed.fingers': { members: { DI2: 0.5, PI1: 0.5 }, instrument: tool.SUBSTITUTION },
  'finger.flexion.sign': { members: { PI2: 0.5, DI3: 0.5 }, instrument: tool.SUBSTITUTION },
  'ok.sign': { members: { FPL: 0.5, FDP2: 0.5 }, instrument: tool.DROP },
  benediction: { members: { FDP2: 0.4, FDP3: 0.2, FDS2: 0.4 }, instrument: tool.DROP },
  'ape.thumb': { members: { APB: 0.6, OP: 0.4 }, instrument: tool.DROP },
  'wrist.drop': { members: { ECRL: 0.4, ECRB: 0.35, ECU: 0.25 }, instrument: tool.DROP },
  'finger.drop': { members: { ED2: 0.25, ED3: 0.25, ED4: 0.25, ED5: 0.25 }, instrument: tool.DROP },
  'thumb.drop': { members: { EPL: 0.5, EPB: 0.25, APL: 0.25 }, instrument: tool.DROP },
};

/** Ring and little claw by loss of their lumbricals and interossei, more so while the deep flexors pull (handbook rule [checked]). */
const CLAW: Partial<Record<string, Unit>> = {
  D2: { LUM1: 0.5, PI1: 0.5 }, D3: { LUM2: 0.5, DI3: 0.5 }, D4: { LUM3: 0.6, PI2: 0.6, FDP4: -0.2 }, D5: { LUM4: 0.6, PI3: 0.6, FDP5: -0.2 },
};
const CLAW_ALL: Unit = { LUM3: 0.3, PI2: 0.3, FDP4: -0.1, LUM4: 0.3, PI3: 0.3, FDP5: -0.1 };

const WOUNDS: ReadonlySet<SignCode> = new Set<SignCode>(['wound', 'laceration', 'puncture', 'bite', 'fight.bite', 'foreign.body', 'exposed.tendon', 'bleeding', 'avulsion', 'crush', 'amputation', 'skin.loss']);
/** A wound needs about this long to become a scar: one seen sooner tells of something older. Common practice, no source. */
const SCAR_DAYS = 10;

/** Part of the limb that a site belongs to, as far as a wound there can explain a lesion. */
export function bandOf(site: SiteCode): Band | 'fingers' | 'hand' | undefined {
  const digit = digitOf(site);
  if (digit) return digit;
  if (/^(flexor.zoneT[12]|extensor.zoneT[123])$/.test(site)) return 'D1';
  if (/^(wrist|carpal|guyon|pisiform|hamate|radial.styloid|ulnar.styloid|distal.radius|scaphoid|snuffbox|lister|DRUJ|TFCC|flexor.zone4|extensor.zone(7|T5))/.test(site)) return 'wrist';
  if (/^(hand.dorsum|knuckles|metacarpals|MCPs|extensor.zone([56]|T4)|DR$|DU$)/.test(site)) return 'hand.dorsum';
  if (/^(palm|thenar|hypothenar|web|flexor.zone(3|T3)|PTH|PHY)/.test(site)) return 'palm';
  if (/^(forearm|flexor.forearm|extensor.forearm|pronator|flexor.zone5|extensor.zone8|FL|FM|FP)/.test(site)) return 'forearm';
  if (/^(elbow|cubital|radial.tunnel|lateral.epicondyle|medial.epicondyle)/.test(site)) return 'elbow';
  if (/^(arm|AP|ALL|AM)$/.test(site)) return 'arm';
  if (/^(fingers|PIPs|DIPs|flexor.zone[12]|extensor.zone[1-4])$/.test(site)) return 'fingers';
  return site === 'neck' || site === 'hand' ? site : undefined;
}

/**
 * What an item examines, or undefined when the localiser can draw nothing from it.
 * @param onsetDays days since onset: wasting and clawing need time.
 */
export function probeOf(signCode: SignCode, site: SiteCode, onsetDays?: number): Probe | undefined {
  const posture = POSTURE[signCode];
  if (posture) return structural(posture.members, posture.instrument);
  if (signCode === 'exposed.tendon' && SITES[site].kind === 'muscle') return sign(`exposed.tendon@${site}`);
  if (WOUNDS.has(signCode)) { const band = bandOf(site); return band && sign(`wound@${band}`); }
  switch (signCode) {
    case 'open.fracture': case 'exposed.bone': { const band = bandOf(site); return band && sign(`open.fracture@${band}`); }
    case 'scar': { const band = bandOf(site); return band && !(onsetDays !== undefined && onsetDays < SCAR_DAYS) ? sign(`scar@${band}`) : undefined; }
    case 'power': return structural(motorUnit(site), tool.POWER);
    case 'active.range': case 'range':
      return SITES[site].kind === 'movement' ? structural(motorUnit(site), tool.RANGE) : sign(`range@${site}`);
    case 'fds.isolation': { const digit = digitOf(site); return structural(digit && digit !== 'D1' ? { [`FDS${digit[1]}`]: 1 } : motorUnit(site), tool.ISOLATION); }
    case 'fdp.isolation': { const digit = digitOf(site); return structural(digit ? { [digit === 'D1' ? 'FPL' : `FDP${digit[1]}`]: 1 } : motorUnit(site), tool.ISOLATION); }
    case 'light.touch': case 'pinprick': case 'temperature.sense': case 'sensory.grade': return structural(skinUnit(site), tool.TOUCH);
    case 'monofilament': return structural(skinUnit(site), tool.FILAMENT);
    case 'joint.position': return structural(skinUnit(digitOf(site) ?? site), tool.VIBRATION);
    case 'vibration': return structural(skinUnit(site), tool.VIBRATION);
    case 'two.point': return digitOf(site) && !site.endsWith('dorsum') ? structural(skinUnit(site), tool.TWO_POINT) : undefined;
    case 'numbness': case 'tingling': return structural(skinUnit(site), tool.COMPLAINT);
    case 'sweating': return structural(skinUnit(site), tool.DRYNESS);
    case 'wrinkles': return structural(skinUnit(site), tool.DRYNESS);
    case 'reflex': return structural(motorUnit(site), tool.REFLEX);
    case 'wasting': return structural(motorUnit(site), tool.wasting(onsetDays));
    case 'claw': return structural(CLAW[digitOf(site) ?? ''] ?? CLAW_ALL, tool.clawing(onsetDays));
    case 'tenodesis': case 'cascade': case 'flexed.posture': case 'triggering': case 'mallet': case 'boutonniere': case 'swan-neck': case 'elson': case 'allen.digital': {
      const digit = digitOf(site) ?? tendonDigit(site);
      return sign(`${signCode}@${digit ?? 'fingers'}`);
    }
    case 'laxity': case 'tendon.slip': case 'dislocation': case 'fixed.flexion': case 'paronychia': case 'felon': return sign(`${signCode}@${digitOf(site) ?? site}`);
    case 'tinel': return sign(tinelUnit(digitOf(site) ?? site, onsetDays));
    case 'temperature': return sign(`cold@${site}`);
    case 'colour': return sign(`pale@${site}`);
    default: return sign(`${signCode}@${site}`);
  }
}

/** Heat and redness are other signs than cold and pallor although they answer the same question. */
function probeFor({ sign: code, site, result }: Finding, onsetDays?: number): Probe | undefined {
  if (result.kind === 'level' && code === 'temperature' && (result.level === 'hot' || result.level === 'warm')) return sign(`hot@${site}`);
  if (result.kind === 'level' && code === 'colour' && result.level === 'red') return sign(`erythema@${site}`);
  return probeOf(code, site, onsetDays);
}

const tendonDigit = (site: SiteCode): string | undefined => (site === 'FPL' || site === 'EPL' ? 'D1' : /^(FDP|FDS)([2-5])$/.test(site) ? `D${site[3]}` : site === 'EIP' ? 'D2' : site === 'EDM' ? 'D5' : undefined);

/** What the grades of feeling say of touch: from S2 on there is some, at S1 pain alone (Mackinnon & Dellon 1988 [from memory]). */
const SENSORY_GRADE_FELT: Readonly<Record<SensoryGrade, readonly string[]>> = {
  S0: ['absent'], S1: ['absent'], 'S1+': ['absent', 'reduced'], S2: ['reduced'], 'S2+': ['reduced'], S3: ['reduced'], 'S3+': ['reduced'], S4: ['normal'],
};

/** The outcomes of the instrument that a result stands for, each with the weight it counts; null when it says nothing. */
export function outcomesOf(finding: Finding, instrument: Instrument): Readonly<Record<string, number>> | null {
  const { result, sign: code } = finding;
  if (result.kind === 'not testable') return null;
  const only = (...names: string[]) => Object.fromEntries(names.map(name => [name, 1]));
  switch (instrument.name) {
    case 'power':
      if (result.kind === 'grade') return gradeOutcomes(result.grade, result.to);
      if (result.kind !== 'level') return null;
      return result.level === 'normal' ? only('5') : result.level === 'absent' ? only('0', '1') : result.level === 'weak' ? only('1', '2', '3', '4-', '4', '4+') : null;
    case 'range':
      if (result.kind === 'quantity') return result.quantity.value === 0 ? only('absent') : null; // how much is normal depends on the joint
      if (result.kind !== 'level') return null;
      return only(result.level === 'absent' ? 'absent' : result.level === 'full' || result.level === 'normal' || result.level === 'hyperextended' ? 'full' : 'limited');
    case 'isolated tendon':
      return result.kind === 'level' ? only(result.level === 'absent' ? 'absent' : result.level === 'weak' ? 'weak' : 'normal') : null;
    case 'feeling': case 'vibration': case 'reflex':
      if (result.kind !== 'level') return null;
      if (code === 'reflex' && result.level === 'increased') return only('normal');
      if (code === 'sensory.grade') return only(...SENSORY_GRADE_FELT[result.level as SensoryGrade]);
      return only(result.level === 'normal' ? 'normal' : result.level === 'absent' ? 'absent' : 'reduced');
    case 'two-point': return twoPoint(finding);
    case 'filament':
      if (result.kind === 'quantity') { const felt = result.quantity.value; return only(tool.FILAMENT_UP_TO.find(([limit]) => felt <= limit)![1]); }
      return result.kind === 'level' ? (result.level === 'normal' ? only('normal') : result.level === 'absent' ? only('not felt') : only('light touch reduced', 'protective reduced', 'protective lost')) : null;
    case 'complaint': return result.kind === 'level' ? only(result.level === 'present' ? 'present' : 'absent') : null;
    case 'dryness':
      if (result.kind !== 'level') return null;
      if (code === 'wrinkles') return only(result.level === 'absent' || result.level === 'reduced' ? 'present' : 'absent');
      return result.level === 'dry' || result.level === 'absent' || result.level === 'reduced' ? only('present') : result.level === 'normal' || result.level === 'moist' ? only('absent') : null;
    default: return signOutcome(finding);
  }
}

function gradeOutcomes(from: string, to: string | undefined): Record<string, number> {
  const order = Object.keys(tool.POWER.outcomes);
  const bin = (grade: string) => (grade.startsWith('2') ? '2' : grade.startsWith('3') ? '3' : grade === '5-' ? '4+' : grade);
  const low = order.indexOf(bin(from)), high = order.indexOf(bin(to ?? from));
  return Object.fromEntries(order.slice(Math.min(low, high), Math.max(low, high) + 1).map(name => [name, 1]));
}

function twoPoint({ result, qualifiers }: Finding): Record<string, number> | null {
  if (result.kind === 'level') return result.level === 'normal' ? { 'under 6': 1 } : result.level === 'absent' ? { 'over 15': 1 } : { '6-10': 1, '11-15': 1, 'over 15': 1 };
  if (result.kind !== 'quantity') return null;
  const mm = result.quantity.unit === 'cm' ? result.quantity.value * 10 : result.quantity.value;
  const moving = qualifiers?.includes('moving') ? 2 : 1; // moving 4-7 mm corresponds to static 7-15 mm: Mackinnon & Dellon 1988 [memory]
  const fixed = mm * moving;
  return { [fixed < 6 ? 'under 6' : fixed <= 10 ? '6-10' : fixed <= 15 ? '11-15' : 'over 15']: 1 };
}

/** Capillary refill over 2 s is slow (adults and children; Schriger & Baraff 1988 [checked]); Allen over 6 s is positive (Jarvis 2000 [checked]). */
const LIMIT_S: Partial<Record<SignCode, number>> = { refill: 2, allen: 6, 'allen.digital': 6 };

/** Opening of a stressed joint that counts as lax: 30 to 35 degrees, or 15 more than the other side; Heyman 1993 [memory]. */
const LAX_DEG = 30;

function signOutcome({ sign: code, result }: Finding): Record<string, number> | null {
  const say = (abnormal: boolean): Record<string, number> => (abnormal ? { present: 1 } : { absent: 1 });
  if (result.kind === 'quantity') {
    const limit = LIMIT_S[code];
    if (limit !== undefined && result.quantity.unit === 's') return say(result.quantity.value > limit);
    if (code === 'laxity' && result.quantity.unit === 'deg') return say(result.quantity.value >= LAX_DEG);
    return WOUNDS.has(code) || code === 'scar' || code === 'exposed.bone' || code === 'extension.lag' || code === 'fixed.flexion' || code === 'tip.palm.distance' ? say(result.quantity.value > 0) : null; // a length of wound, a lag
  }
  if (result.kind !== 'level') return null;
  switch (result.level) {
    case 'present': return say(code !== 'tenodesis' && code !== 'pulse');
    case 'absent': return say(code === 'tenodesis' || code === 'pulse' || code === 'refill' || code === 'perfusion' || code === 'range' || code === 'active.range' || code === 'passive.range');
    case 'normal': case 'full': case 'brisk': return say(false);
    case 'warm': return code === 'temperature' ? say(true) : null;
    case 'moist': case 'increased': return null;
    default: return say(true);
  }
}

/** Reads a finding, or null when it carries no evidence (not testable, or nothing the localiser knows of). */
export function read(finding: Finding, onsetDays?: number): Reading | null {
  const probe = probeFor(finding, onsetDays);
  if (!probe) return null;
  const outcomes = outcomesOf(finding, probe.instrument);
  if (!outcomes) return null;
  const likelihood: [number, number, number, number] = [0, 0, 0, 0];
  for (const [name, weight] of Object.entries(outcomes)) {
    const row = probe.instrument.outcomes[name];
    if (!row) return null;
    for (let state = 0; state < 4; state++) likelihood[state] = likelihood[state]! + weight * row[state]!;
  }
  return { ...probe, likelihood };
}

/** Splits an item key into its sign and site. */
export function partsOf(item: ItemKey): { sign: SignCode; site: SiteCode } {
  const at = item.indexOf('@');
  return { sign: item.slice(0, at) as SignCode, site: item.slice(at + 1) as SiteCode };
}
