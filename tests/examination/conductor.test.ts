import fc from 'fast-check';
import { beforeEach, describe, expect, test } from 'vitest';
import { advance, answerable, protocolById, respond } from '../../src/examination';
import type { Feedback, Tools } from '../../src/examination';
import type { Gap, Order, Statement } from '../../src/parser/statement';
import type { Verdict } from '../../src/recogniser/recogniser';
import { Journal, StoreFault, apply, memoryStore, project } from '../../src/record';
import type { Store } from '../../src/record';
import { SIGNS, checkFinding } from '../../src/vocabulary';
import type { Finding, SignCode, SiteCode } from '../../src/vocabulary';
import { commonFinding, finding, grade, level, log, order, quantity, said, setUp, utterance } from '../record/samples';

/** An examination to speak to: each call says one utterance and gives back the feedback. */
class Bedside {
  private count = 0;
  private ids = 0;
  private constructor(readonly journal: Journal, readonly store: Store, private readonly tools: Tools) {}
  static async begin(protocol = 'complete', store: Store = memoryStore()): Promise<Bedside> {
    const bedside: Bedside = new Bedside(await Journal.begin(store, { ...setUp, protocol }), store, { protocol: protocolById(protocol)!, newId: () => `f${(bedside.ids += 1)}` });
    return bedside;
  }
  async hear(text: string, statements: readonly Statement[], verdict: Verdict = 'accepted', otherReadings: { text: string; statements: Statement[] }[] = []): Promise<Feedback> {
    return (await advance(this.journal, { utterance: { ...utterance(`u${(this.count += 1)}`, text, verdict), audio: new Float32Array(4) }, statements, otherReadings }, this.tools)).feedback;
  }
  file(...findings: Finding[]): Promise<Feedback> { return this.hear('finding', [said(...findings)]); }
  order(of: Order): Promise<Feedback> { return this.hear(of.order, [order(of)]); }
  yes(): Promise<Feedback> { return this.order({ order: 'confirm', yes: true }); }
  no(): Promise<Feedback> { return this.order({ order: 'confirm', yes: false }); }
  get record() { return this.journal.record; }
  get standing(): Finding[] { return this.record.findings.map((entry) => entry.finding); }
}

const thumb = (of: '3' | '4' | '5', side: 'left' | 'right' = 'left'): Finding => finding(side, 'power', 'APB', grade(of));
const index = (side: 'left' | 'right', of: 'normal' | 'reduced' | 'absent' = 'reduced'): Finding => finding(side, 'light.touch', 'D2.pulp', level(of));
const gap = (of: Gap, question: string, ...options: Finding[][]): Statement => ({ type: 'gap', gap: of, question, options, text: 'index reduced' });
const whichSide = gap('side', 'Left or right?', [index('left')], [index('right')]);

let bed: Bedside;
beforeEach(async () => { bed = await Bedside.begin(); });

describe('what was heard', () => {
  test('a sure finding is filed, with its utterance and confidence', async () => {
    expect(await bed.file(thumb('4'))).toEqual({ sound: 'accepted', show: 'Left · power, abductor pollicis brevis: grade 4' });
    expect(bed.record.findings[0]).toMatchObject({ finding: thumb('4'), utteranceId: 'u1', confidence: 0.95, by: 'examiner' });
  });

  test('speech for someone else files nothing, is kept as heard, and its sound is not kept', async () => {
    expect(await bed.hear('how does this feel', [said(index('left'))], 'ignored')).toMatchObject({ sound: 'ignored' });
    expect(bed.standing).toEqual([]);
    expect(bed.record.utterances).toMatchObject([{ status: 'ignored', utterance: { text: 'how does this feel' } }]);
    expect(await bed.store.audio(bed.journal.examinationId, 'u1')).toBeUndefined();
  });

  test('what was not understood is kept and said to be', async () => {
    expect(await bed.hear('mumble', [{ type: 'unparsed', text: 'mumble' }])).toEqual({ sound: 'queried', show: 'Not understood, kept for review: "mumble"', say: 'Not understood.' });
    expect(bed.record.utterances[0]?.status).toBe('unparsed');
    expect(await bed.store.audio(bed.journal.examinationId, 'u1')).toHaveLength(4);
  });

  test('half an utterance can be filed while the rest is kept', async () => {
    expect(await bed.hear('thumb four and mumble', [said(thumb('4')), { type: 'unparsed', text: 'mumble' }])).toMatchObject({ sound: 'queried' });
    expect(bed.standing).toEqual([thumb('4')]);
    expect(bed.record.utterances[0]?.status).toBe('queried');
  });

  test('several findings of one breath are filed in one happening', async () => {
    await bed.file(thumb('4'), index('left'));
    expect(bed.journal.events.map(({ happening }) => happening.type)).toEqual(['begun', 'heard', 'filed']);
  });

  test('a finding that makes no sense is not filed', async () => {
    expect(await bed.file(finding('left', 'pulse', 'radial.artery', grade('4')))).toMatchObject({ sound: 'queried', show: 'Not filed: pulse takes no power grade.' });
    expect(bed.standing).toEqual([]);
  });

  test('the side in force is set and said', async () => {
    expect(await bed.hear('left hand', [{ type: 'side', side: 'left', text: 'left hand' }])).toEqual({ sound: 'order', show: 'Left hand from now on', say: 'Left hand.' });
    expect(bed.record.currentSide).toBe('left');
  });
});

describe('an unsure hearing', () => {
  test('is asked about, not filed; yes files it', async () => {
    expect(await bed.hear('index tip reduced left', [said(index('left'))], 'queried')).toMatchObject({ sound: 'queried', say: 'Did you say: index tip reduced left?' });
    expect(bed.standing).toEqual([]);
    await bed.yes();
    expect(bed.standing).toEqual([index('left')]);
    expect(bed.record.findings[0]?.utteranceId).toBe('u1'); // what was said, not the "yes"
    expect(bed.record.questions).toMatchObject([{ state: 'answered', chosen: 0 }]);
  });

  test('no files nothing and keeps the question for the reviewer', async () => {
    await bed.hear('index tip reduced left', [said(index('left'))], 'queried');
    expect(await bed.no()).toMatchObject({ show: 'Not filed. Say it again if needed.' });
    expect(bed.standing).toEqual([]);
    expect(bed.record.questions).toMatchObject([{ state: 'dismissed', options: [[index('left')]] }]);
  });

  test('between two readings yes is no answer, the second is', async () => {
    await bed.hear('index tip reduced left', [said(index('left'))], 'queried', [{ text: 'index tip reduced right', statements: [said(index('right'))] }]);
    expect(await bed.yes()).toMatchObject({ sound: 'queried', say: 'Did you say: index tip reduced left, or: index tip reduced right?' });
    await bed.hear('second', [{ type: 'unparsed', text: 'second' }]);
    expect(bed.standing).toEqual([index('right')]);
  });

  test('between two readings a side picks the one on that side', async () => {
    await bed.hear('index tip reduced left', [said(index('left'))], 'queried', [{ text: 'index tip reduced right', statements: [said(index('right'))] }]);
    await bed.hear('right', [{ type: 'side', side: 'right', text: 'right' }]);
    expect(bed.standing).toEqual([index('right')]);
    expect(bed.record.currentSide).toBeNull();
  });

  test('never obeys an order', async () => {
    await bed.file(thumb('4'));
    expect(await bed.hear('withdraw that', [order({ order: 'withdraw', which: 'last' })], 'queried')).toMatchObject({ sound: 'queried', say: 'Say that again.' });
    expect(await bed.hear('conclude', [order({ order: 'conclude' })], 'queried')).toMatchObject({ sound: 'queried' });
    expect(bed.standing).toEqual([thumb('4')]);
    expect(bed.record.concludedAt).toBeNull();
  });

  test('an unsure yes answers nothing', async () => {
    await bed.hear('index tip reduced left', [said(index('left'))], 'queried');
    await bed.hear('yes', [order({ order: 'confirm', yes: true })], 'queried');
    expect(bed.standing).toEqual([]);
    await bed.yes();
    expect(bed.standing).toEqual([index('left')]);
  });
});

describe('a missing side', () => {
  test('is asked for; the answer files and does not become the side in force', async () => {
    expect(await bed.hear('index reduced', [whichSide])).toMatchObject({ sound: 'queried', say: 'Left or right?' });
    await bed.hear('right', [{ type: 'side', side: 'right', text: 'right' }]);
    expect(bed.standing).toEqual([index('right')]);
    expect(bed.record.currentSide).toBeNull();
  });

  test('can be both', async () => {
    await bed.hear('index reduced', [whichSide]);
    await bed.hear('both', [{ type: 'side', side: 'both', text: 'both' }]);
    expect(bed.standing).toEqual([index('left'), index('right')]);
  });

  test.each([['left', 'left'], ['the right', 'right'], ['right hand', 'right']] as const)('"%s" alone answers it', async (words, side) => {
    await bed.hear('index reduced', [whichSide]);
    await bed.hear(words, [{ type: 'unparsed', text: words }]);
    expect(bed.standing).toEqual([index(side)]);
    expect(bed.record.currentSide).toBeNull();
  });

  test('"left" alone is nothing when nothing was asked', async () => {
    expect(await bed.hear('left', [{ type: 'unparsed', text: 'left' }])).toMatchObject({ say: 'Not understood.' });
    expect(bed.record.currentSide).toBeNull();
  });

  test('"option two" picks the second answer', async () => {
    await bed.hear('index reduced', [whichSide]);
    await bed.order({ order: 'choose', option: 2 });
    expect(bed.standing).toEqual([index('right')]);
    expect(await bed.order({ order: 'choose', option: 1 })).toMatchObject({ say: 'No question to answer.' });
  });

  test('with no answers to pick from, a side does not become the side in force', async () => {
    await bed.hear('cannot test power because of pain', [gap('side', 'Which side cannot be tested?')]);
    expect(await bed.hear('left', [{ type: 'side', side: 'left', text: 'left' }])).toMatchObject({ sound: 'queried', say: 'Say all of it again.' });
    expect(bed.record.currentSide).toBeNull();
  });

  test('is not answered by yes', async () => {
    await bed.hear('index reduced', [whichSide]);
    expect(await bed.yes()).toMatchObject({ sound: 'queried', say: 'Left or right?' });
    expect(bed.standing).toEqual([]);
  });

  test('is asked once for all that was said in one breath', async () => {
    await bed.hear('index reduced, thumb four', [whichSide, gap('side', 'Left or right?', [thumb('4', 'left')], [thumb('4', 'right')])]);
    await bed.hear('left', [{ type: 'side', side: 'left', text: 'left' }]);
    expect(bed.standing).toEqual([index('left'), thumb('4')]);
  });

  test('said in full it is settled', async () => {
    await bed.hear('index reduced', [whichSide]);
    await bed.file(index('left'));
    expect(bed.standing).toEqual([index('left')]);
    expect(answerable(bed.record)).toBeUndefined();
    expect(bed.record.questions.filter(({ state }) => state === 'open')).toEqual([]);
  });

  test('once something else was said, a side sets the side and the question waits for the reviewer', async () => {
    await bed.hear('index reduced', [whichSide]);
    await bed.file(thumb('4'));
    await bed.hear('right hand', [{ type: 'side', side: 'right', text: 'right hand' }]);
    expect(bed.standing).toEqual([thumb('4')]);
    expect(bed.record).toMatchObject({ currentSide: 'right', questions: [{ state: 'open' }] });
    expect(await bed.yes()).toMatchObject({ say: 'No question to answer.' });
  });

  test('stays answerable after asking what remains', async () => {
    await bed.hear('index reduced', [whichSide]);
    await bed.order({ order: 'what remains' });
    await bed.hear('left', [{ type: 'side', side: 'left', text: 'left' }]);
    expect(bed.standing).toEqual([index('left')]);
  });
});

describe('an earlier finding', () => {
  test('is not replaced without asking; yes corrects it and keeps what it was', async () => {
    await bed.file(thumb('4'));
    expect(await bed.file(thumb('3'))).toMatchObject({ sound: 'queried', say: 'Left power, abductor pollicis brevis was grade 4, now grade 3. Replace?' });
    expect(bed.standing).toEqual([thumb('4')]);
    await bed.yes();
    expect(bed.standing).toEqual([thumb('3')]);
    expect(bed.record.findings[0]?.corrections).toMatchObject([{ from: { finding: thumb('4') } }]);
  });

  test('stands when the answer is no', async () => {
    await bed.file(thumb('4'));
    await bed.file(thumb('3'));
    expect(await bed.no()).toMatchObject({ show: 'The earlier finding stands.' });
    expect(bed.standing).toEqual([thumb('4')]);
  });

  test('is not contradicted by the other hand, another mode or another site', async () => {
    await bed.file(thumb('4'), thumb('5', 'right'), finding('left', 'two.point', 'D2r', quantity(4, 'mm'), { qualifiers: ['static'] }), finding('left', 'two.point', 'D2r', quantity(3, 'mm'), { qualifiers: ['moving'] }), finding('left', 'two.point', 'D2u', quantity(12, 'mm')));
    expect(bed.standing).toHaveLength(5);
  });

  test('said again is known already', async () => {
    await bed.file(thumb('4'));
    expect(await bed.file(thumb('4'))).toMatchObject({ sound: 'accepted', show: 'Known already: Left · power, abductor pollicis brevis: grade 4' });
    expect(bed.standing).toHaveLength(1);
  });

  test('said more exactly is replaced without asking, and kept as history', async () => {
    await bed.file(finding('left', 'power', 'APB', level('weak')));
    await bed.file(thumb('4'));
    expect(bed.standing).toEqual([thumb('4')]);
    expect(bed.record.findings[0]?.corrections).toHaveLength(1);
  });

  test('a healthy word against a measured loss is asked about', async () => {
    await bed.file(finding('left', 'two.point', 'D2r', level('normal')));
    expect(await bed.file(finding('left', 'two.point', 'D2r', quantity(12, 'mm')))).toMatchObject({ sound: 'queried' });
  });

  test('a second wound at the same place stands beside the first', async () => {
    await bed.file(finding('left', 'laceration', 'palm', quantity(2, 'cm')));
    await bed.file(finding('left', 'laceration', 'palm', quantity(4, 'mm')));
    expect(bed.standing).toHaveLength(2);
  });
});

describe('questions of the parser', () => {
  test('a single reading is put so that yes means something', async () => {
    expect(await bed.hear('no reduced', [gap('unsure', 'How far does the "no" reach?', [index('left', 'normal')])])).toMatchObject({ say: 'How far does the "no" reach? Is it: Left, light touch, index fingertip: normal?' });
    await bed.yes();
    expect(bed.standing).toEqual([index('left', 'normal')]);
  });

  test('several contradictions of one breath are asked about once', async () => {
    await bed.file(thumb('4'), index('left'));
    expect((await bed.hear('x', [gap('contradiction', 'Recorded before. Replace it?', [thumb('3')]), gap('contradiction', 'Recorded before. Replace it?', [index('left', 'absent')])])).say).toBe('Left power, abductor pollicis brevis was grade 4, now grade 3; Left light touch, index fingertip was reduced, now absent. Replace?');
    await bed.yes();
    expect(bed.standing).toEqual([thumb('3'), index('left', 'absent')]);
  });

  test('what only the parser takes for a contradiction is filed: a second wound', async () => {
    await bed.file(finding('left', 'laceration', 'palm', quantity(2, 'cm')));
    await bed.hear('x', [gap('contradiction', 'Recorded before. Replace it?', [finding('left', 'laceration', 'palm', quantity(4, 'mm'))])]);
    expect(bed.standing).toHaveLength(2);
  });

  test('two questions of one utterance are asked one after the other', async () => {
    await bed.hear('x', [gap('result', 'Reduced or absent?', [index('left')], [index('left', 'absent')]), gap('result', 'Three or four?', [thumb('3')], [thumb('4')])]);
    expect(await bed.order({ order: 'choose', option: 2 })).toMatchObject({ sound: 'queried', say: 'Reduced or absent?' });
    await bed.order({ order: 'choose', option: 1 });
    expect(bed.standing).toEqual([thumb('4'), index('left')]);
  });
});

describe('orders', () => {
  test('a caution is noted by voice', async () => {
    const tools: Tools = { protocol: protocolById('complete')!, newId: () => 'f1' };
    const noted = { utterance: utterance('u1', 'caution noted'), statements: [order({ order: 'acknowledge' })] };
    expect(respond(bed.record, noted, { ...tools, caution: 'amputation.left' }).happenings).toContainEqual({ type: 'caution acknowledged', caution: 'amputation.left' });
    expect(respond(bed.record, noted, tools).happenings.map(({ type }) => type)).toEqual(['heard', 'ordered']);
  });

  test('withdraw takes back all of the last utterance and nothing before it', async () => {
    await bed.file(thumb('4'));
    await bed.file(index('left'), index('right'));
    expect(await bed.order({ order: 'withdraw', which: 'last' })).toMatchObject({ sound: 'order', say: 'Withdrawn: Left, light touch, index fingertip: reduced; Right, light touch, index fingertip: reduced.' });
    expect(bed.standing).toEqual([thumb('4')]);
    await bed.order({ order: 'withdraw', which: 'last' });
    expect(bed.standing).toEqual([]);
    expect(await bed.order({ order: 'withdraw', which: 'last' })).toMatchObject({ say: 'Nothing to withdraw.' });
    expect(bed.record.withdrawn).toHaveLength(3);
  });

  test('withdraw drops the question when that came last', async () => {
    await bed.file(thumb('4'));
    await bed.hear('index reduced', [whichSide]);
    await bed.order({ order: 'withdraw', which: 'last' });
    expect(bed.record.questions).toMatchObject([{ state: 'dismissed' }]);
    expect(bed.standing).toEqual([thumb('4')]);
  });

  test('withdraw takes back "not testable" when that came last', async () => {
    await bed.file(thumb('4'));
    await bed.hear('cannot test index extension because of the splint', [{ type: 'not testable', side: 'both', items: ['power@EIP'], reason: 'the splint', text: 'x' }]);
    expect(bed.record.notTestable).toHaveLength(2);
    await bed.order({ order: 'withdraw', which: 'last' });
    expect(bed.record.notTestable).toEqual([]);
    expect(bed.standing).toEqual([thumb('4')]);
  });

  test.each<[string, Omit<Extract<Order, { order: 'amend' }>, 'order'>, Finding]>([
    ['the grade', { grade: '3' }, thumb('3')], ['the side', { side: 'right' }, thumb('4', 'right')], ['the result', { result: level('weak') }, finding('left', 'power', 'APB', level('weak'))], ['side and grade', { side: 'right', grade: '5' }, thumb('5', 'right')],
  ])('amend changes %s of the last finding and keeps what it was', async (_, change, expected) => {
    await bed.file(index('left'));
    await bed.file(thumb('4'));
    expect(await bed.order({ order: 'amend', ...change })).toMatchObject({ sound: 'order' });
    expect(bed.standing).toEqual([index('left'), expected]);
    expect(bed.record.findings[1]?.corrections).toMatchObject([{ from: { finding: thumb('4') }, why: 'amended by the examiner' }]);
  });

  test('amend that makes no sense changes nothing', async () => {
    await bed.file(index('left'));
    expect(await bed.order({ order: 'amend', grade: '4' })).toMatchObject({ sound: 'queried', show: 'Not amended: light touch takes no power grade.' });
    expect(bed.standing).toEqual([index('left')]);
  });

  test('amend of a finding on both sides asks which', async () => {
    await bed.file(thumb('5'), thumb('5', 'right'));
    expect(await bed.order({ order: 'amend', grade: '4' })).toMatchObject({ sound: 'queried', say: 'The last finding is on both sides. Amend left, right or both?' });
    expect(await bed.yes()).toMatchObject({ sound: 'queried' });
    await bed.hear('right', [{ type: 'side', side: 'right', text: 'right' }]);
    expect(bed.standing).toEqual([thumb('5'), thumb('4', 'right')]);
  });

  test('amend with side and grade changes just that side', async () => {
    await bed.file(thumb('5'), thumb('5', 'right'));
    await bed.order({ order: 'amend', side: 'left', grade: '3' });
    expect(bed.standing).toEqual([thumb('3'), thumb('5', 'right')]);
  });

  test('amend never slips in a contradiction', async () => {
    await bed.file(thumb('5', 'right'));
    await bed.file(thumb('4'));
    expect(await bed.order({ order: 'amend', side: 'right' })).toMatchObject({ sound: 'queried' });
    expect(bed.standing).toEqual([thumb('5', 'right'), thumb('4')]);
  });

  test('on hold only "carry on" is obeyed, and what was said meanwhile is kept', async () => {
    await bed.order({ order: 'hold' });
    expect(await bed.file(thumb('4'))).toMatchObject({ sound: 'ignored' });
    expect(await bed.order({ order: 'conclude' })).toMatchObject({ sound: 'ignored' });
    expect(await bed.hear('carry on', [order({ order: 'carry on' })], 'queried')).toMatchObject({ sound: 'ignored' });
    expect(bed.record).toMatchObject({ held: true, concludedAt: null, findings: [] });
    expect(bed.record.utterances.filter(({ status }) => status === 'held')).toHaveLength(2);
    expect(await bed.order({ order: 'carry on' })).toMatchObject({ sound: 'order', say: 'Listening.' });
    await bed.file(thumb('4'));
    expect(bed.standing).toEqual([thumb('4')]);
  });

  test('what remains is told for this stage, the affected side first', async () => {
    await bed.file(finding('left', 'wasting', 'hand', level('absent')));
    expect((await bed.order({ order: 'what remains' })).say).toBe('Look. Left: swelling, scars or wounds, deformity or posture, colour, sweating. Right: 8 items. Also in feel, perfusion, move, sensation, median nerve power, and 4 more.');
    expect((await bed.order({ order: 'what remains', side: 'right' })).say).not.toContain('Left');
  });

  test('read back tells the last findings, latest first, and an open question', async () => {
    expect((await bed.order({ order: 'read back' })).say).toBe('Nothing is filed yet.');
    await bed.file(thumb('4'));
    await bed.file(index('right'));
    await bed.hear('index reduced', [gap('result', 'Reduced or absent?', [index('left')], [index('left', 'absent')])]);
    expect((await bed.order({ order: 'read back' })).say).toBe('Right, light touch, index fingertip: reduced. Left, power, abductor pollicis brevis: grade 4. Reduced or absent?');
  });

  test('next stage says what is left behind; go to stage finds it by name', async () => {
    expect((await bed.order({ order: 'next stage' })).say).toBe('Look: 16 not examined. Feel.');
    await bed.order({ order: 'go to stage', stage: 'ulnar nerve power' });
    expect(bed.record.stage).toBe('power.ulnar');
    await bed.order({ order: 'go to stage', stage: 'sensation' });
    expect(bed.record.stage).toBe('sensation');
    expect(await bed.order({ order: 'go to stage', stage: 'gait' })).toMatchObject({ sound: 'queried' });
    expect(bed.record.stage).toBe('sensation');
    await bed.order({ order: 'go to stage', stage: 'pinch' });
    expect((await bed.order({ order: 'next stage' })).say).toMatch(/last stage/);
  });

  test('conclude never hides the share not done', async () => {
    await bed.file(thumb('4'));
    await bed.hear('index reduced', [whichSide]);
    expect((await bed.order({ order: 'conclude' })).say).toBe('Concluded. 115 of 116 items not examined. 1 question is left for review.');
    expect(bed.record.concludedAt).not.toBeNull();
  });

  test('a stage moves on by itself when its last item is done', async () => {
    const short = await Bedside.begin('entrapment');
    const look = (side: 'left' | 'right'): Finding[] => [finding(side, 'wasting', 'hand', level('absent')), finding(side, 'deformity', 'hand', level('absent'))];
    await short.order({ order: 'go to stage', stage: 'look' });
    await short.file(...look('left'));
    expect(short.record.stage).toBe('look');
    expect(await short.file(...look('right'))).toMatchObject({ sound: 'accepted', say: 'Look complete. Sensation.' });
    expect(short.record.stage).toBe('sensation');
  });

  test('a completed stage leads to the next that is not done, and to the end when all are', async () => {
    const short = await Bedside.begin('entrapment');
    const done = (side: 'left' | 'right', stage: string): Finding[] => protocolById('entrapment')!.stages.find(({ id }) => id === stage)!.items.map(({ keys }) => { const [sign, site] = keys[0].split('@') as [SignCode, SiteCode]; return finding(side, sign, site, level(SIGNS[sign].levels[0]!)); });
    const both = (stage: string): Finding[] => [...done('left', stage), ...done('right', stage)];
    await short.file(...both('look'));
    expect(short.record.stage).toBeNull();
    expect(await short.file(...both('symptoms'))).toMatchObject({ say: 'Symptoms complete. Sensation.' });
    await short.file(...both('power'));
    await short.file(...both('sensation'));
    expect(short.record.stage).toBe('provocation');
    expect(await short.file(...both('provocation'))).toMatchObject({ say: 'Every stage is complete.' });
    expect((await short.order({ order: 'what remains' })).say).toBe('Nothing remains.');
  });
});

describe('storing first', () => {
  test('feedback is given only for what is stored', async () => {
    const store = memoryStore();
    const broken: Store = { ...store, append: async (events, audio) => { if (events.some(({ happening }) => happening.type === 'filed')) throw new StoreFault('full'); await store.append(events, audio); } };
    const full = await Bedside.begin('complete', broken);
    expect(await full.file(thumb('4'))).toMatchObject({ sound: 'caution', say: 'Not stored.', show: expect.stringMatching(/grade 4 · Not stored: The device has no room/) });
    expect(full.standing).toEqual([thumb('4')]);
    expect(full.journal.unsaved).not.toEqual([]);
  });
});

describe('whatever is said', () => {
  const statement: fc.Arbitrary<Statement> = fc.oneof(
    fc.array(commonFinding, { minLength: 1, maxLength: 3 }).map((findings) => said(...findings)),
    fc.constantFrom<Statement>(
      ...(['withdraw', 'what remains', 'read back', 'hold', 'carry on', 'next stage', 'conclude'] as const).map((name) => order((name === 'withdraw' ? { order: name, which: 'last' } : { order: name }) as Order)),
      order({ order: 'confirm', yes: true }), order({ order: 'confirm', yes: false }), order({ order: 'amend', grade: '2' }), order({ order: 'amend', side: 'right' }), order({ order: 'go to stage', stage: 'feel' }),
      { type: 'side', side: 'left', text: 'left' }, { type: 'side', side: 'both', text: 'both' }, { type: 'unparsed', text: '?' }, whichSide, gap('contradiction', 'Which?', [index('left')], [index('left', 'absent')]),
      { type: 'not testable', side: 'both', items: ['power@APB'], reason: 'plaster', text: 'x' },
    ),
  );
  const speech = fc.array(fc.tuple(fc.constantFrom<Verdict>('accepted', 'accepted', 'accepted', 'queried', 'ignored'), fc.array(statement, { maxLength: 2 })), { maxLength: 15 });
  const converse = (list: readonly (readonly [Verdict, readonly Statement[]])[]) => {
    let ids = 0;
    const happenings = log([{ type: 'begun', setUp }]);
    let record = project(happenings);
    list.forEach(([verdict, statements], count) => {
      const before = record;
      const response = respond(record, { utterance: utterance(`u${count}`, 'x', verdict), statements }, { protocol: protocolById('complete')!, newId: () => `f${(ids += 1)}` });
      record = log([...happenings.map(({ happening }) => happening), ...response.happenings]).slice(happenings.length).reduce(apply, record);
      happenings.push(...log([...happenings.map(({ happening }) => happening), ...response.happenings]).slice(happenings.length));
      check(before, record, verdict, statements, response.feedback);
    });
    return { record, happenings };
  };
  type Check = (before: ReturnType<typeof project>, after: ReturnType<typeof project>, verdict: Verdict, statements: readonly Statement[], feedback: Feedback) => void;
  let check: Check = () => undefined;

  test('the log stays sound, replays to the same record, and holds only sound findings', () => {
    check = () => undefined;
    fc.assert(fc.property(speech, (list) => {
      const { record, happenings } = converse(list);
      expect(record.faults).toEqual([]);
      expect(project(happenings)).toEqual(record);
      expect(record.utterances).toHaveLength(list.length);
      expect(record.findings.flatMap((entry) => checkFinding(entry.finding))).toEqual([]);
    }), { numRuns: 200 });
  });

  test('nothing unsure, ignored or on hold is ever filed, and every utterance gets feedback', () => {
    check = (before, after, verdict, statements, feedback) => {
      expect(feedback.show).not.toBe('');
      if (verdict !== 'accepted' || (before.held && !statements.some((each) => each.type === 'order' && each.order.order === 'carry on'))) expect(after.findings).toEqual(before.findings);
    };
    fc.assert(fc.property(speech, (list) => { converse(list); }), { numRuns: 200 });
  });

  test('no two standing findings contradict each other', () => {
    check = () => undefined;
    fc.assert(fc.property(speech, (list) => {
      const { record } = converse(list);
      const grades = record.findings.filter(({ finding: of }) => of.result.kind === 'grade').map(({ finding: of }) => `${of.side} ${of.sign} ${of.site}`);
      expect(new Set(grades).size).toBe(grades.length);
    }), { numRuns: 200 });
  });
});
