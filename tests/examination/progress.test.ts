import { describe, expect, test } from 'vitest';
import { PROTOCOLS, currentStage, marksDone, meaning, agreement, nextStage, progress, protocolOf, remaining, share, sidesInOrder, stageSides } from '../../src/examination';
import type { Agreement, Item, Meaning } from '../../src/examination';
import { project } from '../../src/record';
import type { Happening } from '../../src/record';
import { SIGNS, SITES, checkFinding, isSignCode, isSiteCode } from '../../src/vocabulary';
import type { Finding, ItemKey, SignCode, SiteCode } from '../../src/vocabulary';
import { filed, finding, grade, level, log, quantity, setUp } from '../record/samples';

const recordOf = (findings: readonly Finding[], ...more: Happening[]) =>
  project(log([{ type: 'begun', setUp }, { type: 'filed', findings: findings.map((each, index) => filed(`f${index}`, each)) }, ...more]));
const items: Item[] = Object.values(PROTOCOLS).flatMap(({ stages }) => stages.flatMap((stage) => stage.items));
const split = (key: ItemKey): [SignCode, SiteCode] => key.split('@') as [SignCode, SiteCode];

describe('protocols', () => {
  test.each(Object.values(PROTOCOLS).map((protocol) => [protocol.id, protocol] as const))('%s: ids are unique and every stage holds something', (id, protocol) => {
    expect(PROTOCOLS[id]).toBe(protocol);
    expect(new Set(protocol.stages.map((stage) => stage.id)).size).toBe(protocol.stages.length);
    for (const stage of protocol.stages) {
      expect(stage.items.length).toBeGreaterThan(0);
      expect(new Set(stage.items.map((item) => item.id)).size).toBe(stage.items.length);
    }
  });

  test('every key of every item is a finding that can be made', () => {
    for (const { keys } of items) for (const key of keys) {
      const [sign, site] = split(key);
      expect([key, isSignCode(sign), isSiteCode(site)]).toEqual([key, true, true]);
      expect([key, checkFinding(finding('left', sign, site, level(SIGNS[sign].levels[0]!)))]).toEqual([key, []]);
    }
  });

  // The order of a hand examination: look, feel, move, then function (Apley's rule, orthopaedic teaching) [common practice, no source]
  test('the complete examination goes from look to pinch, nerve by nerve', () => {
    expect(PROTOCOLS.complete!.stages.map(({ id }) => id)).toEqual(['look', 'feel', 'perfusion', 'move', 'sensation', 'power.median', 'power.ulnar', 'power.radial', 'special', 'pinch']);
  });

  // One muscle of each nerve that no other nerve supplies: O'Brien, Aids to the Examination of the Peripheral Nervous System, 2010 [from memory]
  test.each([['power.median', ['APB', 'FPL', 'FDP2', 'PT', 'FCR']], ['power.ulnar', ['DI1', 'ADM', 'ADP', 'FDP5', 'FCU']], ['power.radial', ['TRI', 'BR', 'ED', 'EIP', 'EPL']]])('%s tests that nerve and no other', (stageId, muscles) => {
    const stage = PROTOCOLS.complete!.stages.find(({ id }) => id === stageId)!;
    const tested = stage.items.flatMap(({ keys }) => keys.map((key) => split(key)[1])).filter((site) => SITES[site].kind === 'muscle');
    expect(tested).toEqual(expect.arrayContaining(muscles));
    const nerveOf: Record<string, string[]> = {
      'power.median': ['PT', 'FCR', 'PL', 'FDS2', 'FDS3', 'FDS4', 'FDS5', 'FPL', 'FDP2', 'APB', 'OP'],
      'power.ulnar': ['FCU', 'FDP4', 'FDP5', 'ADM', 'DI1', 'DI4', 'PI1', 'PI2', 'PI3', 'ADP'],
      'power.radial': ['TRI', 'BR', 'ECRL', 'ECRB', 'ECU', 'ED', 'EDM', 'EIP', 'EPL', 'EPB', 'APL', 'SUP'],
    };
    expect(tested.filter((muscle) => !nerveOf[stageId]!.includes(muscle))).toEqual([]);
  });

  // Autonomous points: index pulp (median), little pulp (ulnar), dorsal first web (radial): O'Brien 2010; Green's 2022 [from memory]
  test('sensation holds the autonomous point of each nerve', () => {
    expect(PROTOCOLS.complete!.stages.find(({ id }) => id === 'sensation')!.items.map(({ keys }) => split(keys[0])[1])).toEqual(['D2.pulp', 'D5.pulp', 'DR', 'PTH', 'DU']);
  });

  // Each digital nerve, FDS and FDP by itself: RCEM hand module; Green's 2022 [from memory]
  test('an acute wound asks for ten digital nerves and eight finger flexors', () => {
    const keys = PROTOCOLS.wound!.stages.flatMap((stage) => stage.items).map((item) => item.keys[0]);
    expect(keys.filter((key) => /^light\.touch@D[1-5][ru]$/.test(key))).toHaveLength(10);
    expect(keys.filter((key) => /^fd[sp]\.isolation@D[2-5]$/.test(key))).toHaveLength(8);
  });

  test('an unknown protocol falls back to the complete examination', () => {
    expect(protocolOf({ setUp: { protocol: 'toString' } }).id).toBe('complete');
  });
});

describe('what marks an item done', () => {
  const item = (id: string): Item => items.find((each) => each.id === id)!;
  test.each<[string, Finding, string, boolean]>([
    ['power of palmar abduction does the APB', finding('left', 'power', 'thumb.palmar-abduction', grade('4')), 'power.APB', true],
    ['thumb abduction alone does not: APL does it too', finding('left', 'power', 'thumb.abduction', grade('4')), 'power.APB', false],
    ['no wasting of the hand does the thenar eminence', finding('left', 'wasting', 'hand', level('absent')), 'look.thenar', true],
    ['wasting of the hand does not say where', finding('left', 'wasting', 'hand', level('present')), 'look.thenar', false],
    ['swelling anywhere answers for swelling', finding('left', 'swelling', 'knuckles', level('present')), 'look.swelling', true],
    ['feeling normal in the hand does the first web', finding('left', 'light.touch', 'hand', level('normal')), 'sensation.DR', true],
    ['feeling reduced in the hand does not', finding('left', 'light.touch', 'hand', level('reduced')), 'sensation.DR', false],
    ['feeling of the index does its tip', finding('left', 'pinprick', 'D2', level('reduced')), 'sensation.D2.pulp', true],
    ['normal median skin does not do the thenar base: its branch decides the level', finding('left', 'light.touch', 'territory.median', level('normal')), 'sensation.PTH', false],
    ['a fingertip does not do its two digital nerves', finding('left', 'light.touch', 'D2.pulp', level('normal')), 'sensation.D2r', false],
    ['full movement of the hand does the fist', finding('left', 'range', 'hand', level('full')), 'move.fist', true],
    ['full movement of the hand does not do the wrist', finding('left', 'range', 'hand', level('full')), 'move.wrist.flexion', false],
    ['a pulse does not do the other artery', finding('left', 'pulse', 'radial.artery', level('present')), 'perfusion.ulnar', false],
    ['not testable does not do it', finding('left', 'power', 'APB', { kind: 'not testable', reason: 'pain' }), 'power.APB', false],
  ])('%s', (_, of, id, expected) => { expect(marksDone(of, item(id))).toBe(expected); });
});

describe('what remains', () => {
  test('is told by side, the affected side first', () => {
    const rest = remaining(recordOf([finding('left', 'pulse', 'radial.artery', level('present'))]), PROTOCOLS.complete!).filter(({ stage }) => stage.id === 'perfusion');
    expect(rest.map(({ side, items: left }) => [side, left.map(({ name }) => name)])).toEqual([['left', ['ulnar pulse', 'capillary refill']], ['right', ['radial pulse', 'ulnar pulse', 'capillary refill']]]);
    expect(remaining(recordOf([]), PROTOCOLS.complete!, 'right').every(({ side }) => side === 'right')).toBe(true);
  });

  test('is nothing for what cannot be tested, with the reason kept', () => {
    const record = recordOf([], { type: 'not testable', side: 'left', items: ['light.touch@hand'], reason: 'anaesthetic block', utteranceId: 'u1' });
    const sensation = progress(record, PROTOCOLS.complete!).find(({ stage }) => stage.id === 'sensation')!;
    expect(sensation.items.filter(({ side }) => side === 'left').map(({ state, reason }) => [state, reason])).toEqual(Array.from({ length: 5 }, () => ['not testable', 'anaesthetic block']));
    expect(sensation.items.filter(({ side }) => side === 'right').every(({ state }) => state === 'remains')).toBe(true);
    expect(share(record, PROTOCOLS.complete!)).toEqual({ total: 116, done: 0, notTestable: 5, remaining: 111, notDone: 1 });
  });

  test('in an acute wound is asked of the injured hand alone, of both when it is not known', () => {
    expect(sidesInOrder(setUp)).toEqual(['left', 'right']);
    expect(sidesInOrder({ ...setUp, injuredSide: 'right' })).toEqual(['right', 'left']);
    const stage = PROTOCOLS.wound!.stages[0]!;
    expect(stageSides(stage, setUp)).toEqual(['left']);
    expect(stageSides(stage, { label: 'x', protocol: 'wound' })).toEqual(['left', 'right']);
    expect(stageSides(stage, { ...setUp, injuredSide: 'both' })).toEqual(['left', 'right']);
  });

  test('comes back when the finding is withdrawn', () => {
    const record = recordOf([finding('left', 'power', 'APB', grade('5'))], { type: 'withdrawn', findingIds: ['f0'], by: 'examiner' });
    expect(share(record, PROTOCOLS.complete!).done).toBe(0);
  });

  test('the stage under way is the one set, or the first', () => {
    expect(currentStage(recordOf([]), PROTOCOLS.complete!).id).toBe('look');
    expect(currentStage(recordOf([], { type: 'stage set', stage: 'gone' }), PROTOCOLS.complete!).id).toBe('look');
    const last = recordOf([], { type: 'stage set', stage: 'pinch' });
    expect([currentStage(last, PROTOCOLS.complete!).id, nextStage(last, PROTOCOLS.complete!)]).toEqual(['pinch', undefined]);
  });
});

describe('what a finding says about health', () => {
  test.each<[Finding, Meaning]>([
    [finding('left', 'power', 'APB', grade('5')), 'normal'], [finding('left', 'power', 'APB', grade('5-')), 'abnormal'],
    // ASSH, The Hand: Examination and Diagnosis: under 6 mm normal [from memory]; Dellon 1978: moving 2-3 mm normal [from memory]
    [finding('left', 'two.point', 'D2r', quantity(5, 'mm')), 'normal'], [finding('left', 'two.point', 'D2r', quantity(6, 'mm')), 'abnormal'],
    [finding('left', 'two.point', 'D2r', quantity(3, 'mm'), { qualifiers: ['moving'] }), 'normal'], [finding('left', 'two.point', 'D2r', quantity(5, 'mm'), { qualifiers: ['moving'] }), 'abnormal'],
    // Schriger & Baraff 1988: upper limit 2 s [checked]
    [finding('left', 'refill', 'hand', quantity(2, 's')), 'normal'], [finding('left', 'refill', 'hand', quantity(3, 's')), 'abnormal'],
    [finding('left', 'refill', 'hand', { kind: 'quantity', quantity: { value: 2, unit: 's', comparator: '<' } }), 'normal'], [finding('left', 'refill', 'hand', { kind: 'quantity', quantity: { value: 2, unit: 's', comparator: '>' } }), 'abnormal'],
    [finding('left', 'refill', 'hand', { kind: 'quantity', quantity: { value: 3, unit: 's', comparator: '<' } }), 'unclear'], [finding('left', 'two.point', 'D2r', { kind: 'quantity', quantity: { value: 15, unit: 'mm', comparator: '>' } }), 'abnormal'],
    [finding('left', 'tenodesis', 'fingers', level('present')), 'normal'], [finding('left', 'tenodesis', 'fingers', level('absent')), 'abnormal'],
    [finding('left', 'phalen', 'wrist', level('present')), 'abnormal'], [finding('left', 'phalen', 'wrist', level('absent')), 'normal'],
    [finding('left', 'light.touch', 'DR', level('absent')), 'abnormal'], [finding('left', 'reflex', 'BR', level('absent')), 'abnormal'], [finding('left', 'power', 'APB', level('absent')), 'abnormal'],
    [finding('left', 'pulse', 'radial.artery', level('present')), 'normal'], [finding('left', 'pulse', 'radial.artery', level('absent')), 'abnormal'],
    [finding('left', 'temperature', 'hand', level('warm')), 'normal'], [finding('left', 'temperature', 'D2.MCP', level('warm')), 'abnormal'],
    [finding('left', 'active.range', 'wrist.flexion', quantity(60, 'deg')), 'unclear'], [finding('left', 'tinel', 'carpal.tunnel', level('present'), { qualifiers: ['equivocal'] }), 'unclear'],
    [finding('left', 'power', 'APB', { kind: 'not testable', reason: 'pain' }), 'not testable'],
  ])('%j → %s', (of, expected) => { expect(meaning(of)).toBe(expected); });

  test.each<[Finding, Finding, Agreement]>([
    [finding('left', 'power', 'APB', grade('4')), finding('left', 'power', 'APB', grade('4')), 'same'],
    [finding('left', 'power', 'APB', grade('4')), finding('left', 'power', 'APB', grade('4+')), 'contradiction'],
    [finding('left', 'power', 'APB', grade('4')), finding('left', 'power', 'APB', { kind: 'grade', grade: '4', to: '4+' }), 'refinement'],
    [finding('left', 'power', 'APB', level('absent')), finding('left', 'power', 'APB', grade('3')), 'contradiction'],
    [finding('left', 'power', 'APB', grade('4')), finding('left', 'power', 'APB', level('weak')), 'same'],
    [finding('left', 'power', 'APB', grade('5')), finding('left', 'power', 'APB', level('weak')), 'contradiction'],
    [finding('left', 'phalen', 'wrist', level('present')), finding('left', 'phalen', 'wrist', level('present'), { at: { value: 30, unit: 's' } }), 'refinement'],
    [finding('left', 'refill', 'hand', level('slow')), finding('left', 'refill', 'hand', quantity(4, 's')), 'refinement'],
    [finding('left', 'laceration', 'palm', quantity(2, 'cm')), finding('left', 'laceration', 'palm', quantity(20, 'mm')), 'same'],
    [finding('left', 'refill', 'hand', { kind: 'quantity', quantity: { value: 2, unit: 's', comparator: '<' } }), finding('left', 'refill', 'hand', quantity(2, 's')), 'contradiction'],
    [finding('left', 'refill', 'hand', { kind: 'quantity', quantity: { value: 2, unit: 's', comparator: '<' } }), finding('left', 'refill', 'hand', quantity(1, 's')), 'refinement'],
    [finding('left', 'two.point', 'D2r', { kind: 'quantity', quantity: { value: 10, unit: 'mm', comparator: '>' } }), finding('left', 'two.point', 'D2r', quantity(4, 'mm')), 'contradiction'],
    [finding('left', 'pulse', 'radial.artery', level('present')), finding('left', 'pulse', 'radial.artery', level('normal')), 'same'],
    [finding('left', 'laceration', 'palm', level('present'), { qualifiers: ['deep'] }), finding('left', 'laceration', 'palm', level('present'), { qualifiers: ['superficial'] }), 'another'],
  ])('%j then %j: %s', (earlier, later, expected) => { expect(agreement(earlier, later)).toBe(expected); });
});
