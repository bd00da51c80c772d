import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DEFER, RED_FLAGS, cautionsFor, newCautions } from '../../src/cautions';
import { project } from '../../src/record';
import type { SetUp } from '../../src/record';
import type { Finding } from '../../src/vocabulary';
import { anyFinding, filed, finding, grade, level, log, quantity, setUp } from '../record/samples';

const base: SetUp = { label: 'Invented', injuredSide: 'left', protocol: 'complete' };
const recordOf = (findings: readonly Finding[], of: Partial<SetUp> = {}) =>
  project(log([{ type: 'begun', setUp: { ...base, ...of } }, { type: 'filed', findings: findings.map((each, index) => filed(`f${index}`, each)) }]));
const flags = (findings: readonly Finding[], of: Partial<SetUp> = {}): string[] => cautionsFor(recordOf(findings, of)).map(({ id }) => id);

const present = (sign: Finding['sign'], site: Finding['site'], qualifiers?: Finding['qualifiers']): Finding => finding('left', sign, site, level('present'), qualifiers ? { qualifiers } : {});
/** Good grades and normal findings all over the hand: none of them may take a caution back. */
const reassuring: Finding[] = [
  finding('left', 'power', 'APB', grade('5')), finding('left', 'power', 'DI1', grade('5')), finding('left', 'power', 'fingers.flexion', grade('5')), finding('left', 'light.touch', 'D5.pulp', level('normal')),
  finding('left', 'pulse', 'radial.artery', level('present')), finding('left', 'active.range', 'fist', level('full')), finding('left', 'wasting', 'hand', level('absent')),
];

const CASES: [string, string, Finding[], Partial<SetUp>][] = [
  // Kennedy 2017 [checked]: Kanavel signs, tenderness and pain on extension under 5 days
  ['swollen finger held bent, tender sheath, pain on passive extension, 3 days', 'flexor-sheath.left.D3',
    [present('swelling', 'D3', ['fusiform']), present('flexed.posture', 'D3'), present('tenderness', 'D3.sheath'), present('passive.stretch.pain', 'D3')], { onset: { value: 3, unit: 'd' } }],
  // BOAST compartment syndrome 2016 [checked] (via secondary): pulses may be normal
  ['tense forearm, pain on passive finger extension, tingling, pulses present', 'compartment.left',
    [present('tense', 'forearm'), present('passive.stretch.pain', 'fingers'), present('tingling', 'hand')], {}],
  // BSSH draft standards, open hand fractures, item 5 [checked]
  ['white digit with a refill of 5 s after a ring injury', 'pale-digit.left.D4', [finding('left', 'colour', 'D4', level('pale')), finding('left', 'refill', 'D4', quantity(5, 's'))], { mechanism: 'ring caught on a fence' }],
  ['the same, as a ring avulsion (Urbaniak 1981 [from memory])', 'ring-avulsion.left', [finding('left', 'colour', 'D4', level('pale'))], { mechanism: 'ring caught on a fence' }],
  // Patzakis 1987 [checked] (via secondary)
  ['4 mm cut over the ring knuckle after a punch, movement full', 'fight-bite.left', [finding('left', 'laceration', 'D4.MCP', quantity(4, 'mm')), finding('left', 'active.range', 'D4', level('full'))], { mechanism: 'punched a mouth' }],
  ['the same cut with no history: it may be hidden', 'fight-bite.left', [finding('left', 'laceration', 'D4.MCP', quantity(4, 'mm'))], {}],
  // Hogan & Ruland 2006 [checked]
  ['2 mm puncture from a paint gun, a little sore', 'injection.left', [finding('left', 'puncture', 'D2.volar', quantity(2, 'mm')), present('pain', 'D2', ['mild'])], { mechanism: 'paint gun' }],
  ['the mechanism alone, nothing found yet', 'injection.left', [], { mechanism: 'grease gun' }],
  // BOAST arterial injuries [from memory]
  ['no radial pulse', 'ischaemic-hand.left', [finding('left', 'pulse', 'radial.artery', level('absent'))], {}],
  ['pale and cold hand', 'ischaemic-hand.left', [finding('left', 'colour', 'hand', level('pale')), finding('left', 'temperature', 'hand', level('cold'))], {}],
  ['pulsatile bleeding', 'arterial-bleeding.left', [present('bleeding', 'wrist.volar', ['pulsatile'])], {}],
  // Schriger & Baraff 1988 [checked]: 2 s
  ['refill over the limit', 'slow-refill.left', [finding('left', 'refill', 'hand', quantity(3, 's'))], {}],
  // Green's 2022 [from memory]
  ['lost palm hollow', 'deep-space.left', [present('palm.hollow.lost', 'palm')], {}],
  ['numb pulp beyond a palmar cut', 'nerve-with-wound.left', [present('laceration', 'D2.volar'), finding('left', 'two.point', 'D2r', quantity(15, 'mm'))], {}],
  ['two-point of 6 mm beyond a cut (ASSH limit [from memory])', 'nerve-with-wound.left', [present('laceration', 'D2.volar'), finding('left', 'two.point', 'D2r', quantity(6, 'mm'))], {}],
  ['grade 4+ beyond a wound is still a deficit', 'nerve-with-wound.left', [present('laceration', 'wrist.volar'), finding('left', 'power', 'APB', grade('4+'))], {}],
  ['no FDP beyond a cut', 'tendon-with-wound.left', [present('laceration', 'D3.volar'), finding('left', 'fdp.isolation', 'D3', level('absent'))], {}],
  ['broken cascade', 'tendon-with-wound.left', [present('cascade', 'fingers')], {}],
  ['cut over flexor zone 2', 'deep-to-wound.left', [present('laceration', 'flexor.zone2')], {}],
  ['cut over flexor zone 2 of one finger', 'deep-to-wound.left', [present('laceration', 'D4.flexor.zone2')], {}],
  ['cut that reaches from the palm to the front of the wrist', 'deep-to-wound.left', [{ ...present('laceration', 'palm'), upTo: 'wrist.volar' }], {}],
  // BSR/BOA 2006 [from memory]
  ['hot swollen joint', 'septic-joint.left.D2.MCP', [finding('left', 'temperature', 'D2.MCP', level('hot')), present('swelling', 'D2.MCP')], {}],
  // Schnetzler 2008 [checked]
  ['numbness getting worse', 'acute-carpal-tunnel.left', [present('worsening.numbness', 'hand')], { mechanism: 'fall on the wrist' }],
  // Fernando 2019 [checked]
  ['pain out of proportion with spreading redness', 'necrotising.left', [present('pain.disproportionate', 'hand'), present('erythema', 'hand.dorsum', ['spreading'])], {}],
  ['blisters and crepitus', 'necrotising.left', [present('blister', 'hand'), present('crepitus', 'forearm')], {}],
  ['amputation', 'amputation.left', [present('amputation', 'D2')], {}],
  ['amputation by its history alone', 'amputation.left', [], { mechanism: 'saw, finger cut off' }],
  ['bone in the wound (BSSH [checked])', 'open-fracture.left', [present('exposed.bone', 'D2')], {}],
  ['soil in a wound', 'contaminated.left', [present('laceration', 'palm', ['contaminated'])], {}],
  // national poisons monograph [checked]: even without pain
  ['hydrofluoric acid, nothing to see', 'hydrofluoric.left', [], { mechanism: 'splash of rust remover, hydrofluoric acid' }],
  ['cement', 'chemical-burn.left', [], { mechanism: 'wet cement in the glove' }],
  ['chemical burn found', 'chemical-burn.left', [present('chemical.burn', 'hand')], {}],
  ['circumferential burn', 'deep-burn.left', [present('burn', 'hand', ['circumferential'])], {}],
  ['electric shock', 'electrical.left', [], { mechanism: 'electric shock from a cable' }],
  ['dog bite', 'bite.left', [present('bite', 'hand')], {}],
  ['swollen tingling wrist after a fall from height', 'perilunate.left', [present('swelling', 'wrist'), present('tingling', 'hand')], { mechanism: 'fall from a ladder' }],
  ['snuffbox tenderness', 'scaphoid.left', [present('tenderness', 'snuffbox')], {}],
];

describe('findings that must raise a caution', () => {
  test.each(CASES)('%s → %s, also beside good grades', (_, flag, findings, of) => {
    expect(flags(findings, of)).toContain(flag);
    expect(flags([...reassuring, ...findings, ...reassuring], of)).toContain(flag);
  });

  test('every red flag has a case above', () => {
    const raised = new Set(CASES.map(([, id]) => id.split('.')[0]));
    expect(RED_FLAGS.map(({ id }) => id).filter((id) => !raised.has(id))).toEqual([]);
  });
});

describe('findings that must not', () => {
  test.each<[string, Finding[], Partial<SetUp>]>([
    ['a healthy hand', reassuring, {}],
    ['carpal tunnel syndrome', [finding('left', 'light.touch', 'D2.pulp', level('reduced')), finding('left', 'power', 'APB', grade('4')), present('phalen', 'wrist'), present('night.symptoms', 'hand')], { mechanism: 'none' }],
    ['arthritis: crepitus and a swollen thumb base', [present('crepitus', 'D1.CMC'), present('squaring', 'D1.CMC'), present('swelling', 'D1.CMC')], {}],
    ['refill of 2 s: at the limit, not over it', [finding('left', 'refill', 'D2', quantity(2, 's'))], {}],
    ['an old amputation and a healed cut with numbness beyond it', [present('amputation', 'D2', ['old']), present('laceration', 'palm', ['old']), finding('left', 'light.touch', 'D2.pulp', level('reduced'))], {}],
    ['an electric saw that did nothing', [], { mechanism: 'electric saw' }], ['a steroid injection', [present('puncture', 'palm')], { mechanism: 'steroid injection last week' }], ['a farmer with a clean cut', [present('laceration', 'hand.dorsum', ['clean'])], { mechanism: 'farmer, kitchen knife' }],
    ['a ring that was cut off', [], { mechanism: 'ring cut off with pliers' }], ['an electric shock three years ago', [], { mechanism: 'electric shock', onset: { value: 1095, unit: 'd' } }],
    ['signs sought and not there', [finding('left', 'tense', 'forearm', level('absent')), finding('left', 'passive.stretch.pain', 'fingers', level('absent')), finding('left', 'tenderness', 'snuffbox', level('absent')), finding('left', 'injection', 'hand', level('absent'))], {}],
  ])('%s', (_, findings, of) => { expect(flags(findings, of)).toEqual([]); });

  test('the other hand: a wound on the left and numbness on the right', () => {
    expect(flags([present('laceration', 'palm'), finding('right', 'light.touch', 'D2.pulp', level('reduced'))])).toEqual([]);
  });
});

describe('a caution', () => {
  test('names its findings, its source and the side, and ends by deferring', () => {
    const cautions = cautionsFor(recordOf([finding('left', 'pulse', 'radial.artery', level('absent')), present('laceration', 'wrist.volar'), finding('left', 'power', 'APB', grade('0'))]));
    expect(cautions[0]).toMatchObject({ flag: 'ischaemic-hand', side: 'left', urgency: 'now', because: ['f0'] });
    expect(cautions.find(({ flag }) => flag === 'nerve-with-wound')?.because).toEqual(['f1', 'f2']);
    for (const caution of cautions) {
      expect(caution.text.endsWith(DEFER)).toBe(true);
      expect(caution.source).toMatch(/\[(checked|from memory)\]/);
    }
  });

  test('is new until it was shown', () => {
    const events = log([{ type: 'begun', setUp }, { type: 'filed', findings: [filed('f1', present('amputation', 'D2'))] }, { type: 'caution shown', caution: 'amputation.left' }]);
    expect(newCautions(project(events.slice(0, 2))).map(({ id }) => id)).toEqual(['amputation.left']);
    expect(newCautions(project(events))).toEqual([]);
  });

  test('interrupts again when its finding was withdrawn and another raises it, and not for one more finding', () => {
    const start = log([{ type: 'begun', setUp }, { type: 'filed', findings: [filed('f1', present('amputation', 'D2'))] }, { type: 'caution shown', caution: 'amputation.left' }, { type: 'caution acknowledged', caution: 'amputation.left' }]).map(({ happening }) => happening);
    const another = { type: 'filed', findings: [filed('f2', present('amputation', 'D3'))] } as const;
    expect(newCautions(project(log([...start, another])))).toEqual([]);
    const byMechanism = log([{ type: 'begun', setUp: { ...setUp, mechanism: 'paint gun' } }, { type: 'caution shown', caution: 'injection.left' }, { type: 'filed', findings: [filed('f1', present('puncture', 'D2'))] }]);
    expect(newCautions(project(byMechanism))).toEqual([]);
    const again = [...start, { type: 'withdrawn', findingIds: ['f1'], by: 'examiner' } as const, another];
    expect(newCautions(project(log(again))).map(({ id }) => id)).toEqual(['amputation.left']);
    expect(project(log([...again, { type: 'caution shown', caution: 'amputation.left' }])).cautionsAcknowledged).toEqual([]);
  });

  test('goes when its finding is withdrawn', () => {
    const events = log([{ type: 'begun', setUp }, { type: 'filed', findings: [filed('f1', present('amputation', 'D2'))] }, { type: 'withdrawn', findingIds: ['f1'], by: 'examiner' }]);
    expect(cautionsFor(project(events))).toEqual([]);
  });

  test('every text tells what guidance asks for, with a source and its standing', () => {
    for (const { text, source, title } of RED_FLAGS) {
      expect(source, title).toMatch(/\[checked\]|\[from memory\]/);
      expect(text, title).not.toMatch(/\b(you must|give the patient|start (antibiotics|treatment)|administer|prescribe)\b/i);
    }
  });

  test('is never taken back by another finding', () => {
    fc.assert(fc.property(fc.array(anyFinding, { maxLength: 12 }), fc.array(anyFinding, { maxLength: 6 }), (some, more) => {
      const before = flags(some);
      const after = new Set(flags([...some, ...more]));
      // burns blister by themselves, so a burn found later explains blisters and takes the infection caution with it
      for (const id of before) if (!id.startsWith('necrotising')) expect([...after]).toContain(id);
    }), { numRuns: 300 });
  });
});
