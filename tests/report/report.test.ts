import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { protocolById } from '../../src/examination';
import { localise } from '../../src/localiser';
import { project } from '../../src/record';
import type { ExaminationRecord, Happening, SetUp } from '../../src/record';
import { SUPPORT_LINE, buildReport, codesFor, reportToHtml, reportToHtmlBody, reportToMarkdown } from '../../src/report';
import type { Finding } from '../../src/vocabulary';
import { anyHappening, filed, finding, grade, level, log, quantity, said, setUp, utterance } from '../record/samples';

const complete = protocolById('complete')!;
// Carpal tunnel syndrome on the left: Preston & Shapiro 2013 [from memory]; the thenar base is spared: Wheeless [checked]
const carpalTunnel: Finding[] = [
  ...(['D1.pulp', 'D2.pulp', 'D3.pulp'] as const).map((site) => finding('left', 'light.touch', site, level('reduced'))), finding('left', 'power', 'APB', grade('4')), finding('left', 'light.touch', 'PTH', level('normal')),
  finding('left', 'power', 'FPL', grade('5')), finding('left', 'power', 'FDP2', grade('5')), finding('left', 'light.touch', 'D5.pulp', level('normal')), finding('left', 'phalen', 'wrist', level('present'), { at: { value: 40, unit: 's' } }), finding('left', 'night.symptoms', 'hand', level('present')),
  finding('right', 'power', 'APB', grade('5')), finding('right', 'light.touch', 'D2.pulp', level('normal')),
];
const heardAndFiled = (findings: readonly Finding[]): Happening[] => [
  { type: 'heard', utterance: utterance('u1', 'what was said'), statements: [said(...findings)] }, { type: 'filed', findings: findings.map((each, index) => filed(`f${index}`, each)) },
];
const recordOf = (more: readonly Happening[] = [], of: Partial<SetUp> = {}): ExaminationRecord => project(log([{ type: 'begun', setUp: { ...setUp, ...of } }, ...more]));
const localised = (record: ExaminationRecord) => localise(record.findings.map((entry) => entry.finding), { injuredSide: 'left' });

describe('the report', () => {
  const record = recordOf(heardAndFiled(carpalTunnel));
  const report = buildReport(record, complete, localised(record));

  test('puts the affected side first and its deficits before the rest', () => {
    expect(report.sides.map(({ side, affected }) => [side, affected])).toEqual([['left', true], ['right', false]]);
    expect(report.sides[0]?.deficits.map(({ words }) => words)).toEqual(['night symptoms, hand: present', 'light touch, thumb tip: reduced', 'light touch, index fingertip: reduced', 'light touch, middle fingertip: reduced', 'power, abductor pollicis brevis: grade 4', 'Phalen, wrist: positive (at 40 s)']);
    expect(report.sides[1]?.deficits).toEqual([]);
    expect(report.sides[0]?.deficits[0]).toMatchObject({ heard: 'what was said', confidence: 0.95, by: 'examiner' });
  });

  test('sets left against right and never writes normal for what was not examined', () => {
    expect(report.comparison.find(({ what }) => what === 'power, abductor pollicis brevis')).toEqual({ what: 'power, abductor pollicis brevis', left: 'grade 4', right: 'grade 5', difference: 'left worse' });
    expect(report.comparison.find(({ what }) => what === 'light touch, thumb tip')).toMatchObject({ left: 'reduced', right: 'not examined', difference: null });
  });

  test('says how the sides differ: two weak grades too, never what could not be tested, and what differs first', () => {
    // Which side is worse is the order of the MRC grades.
    const both = recordOf(heardAndFiled([
      finding('left', 'power', 'FPL', grade('5')), finding('right', 'power', 'FPL', grade('5')),
      finding('left', 'power', 'APB', grade('4')), finding('right', 'power', 'APB', grade('1')),
      finding('left', 'power', 'ADM', grade('2')), finding('right', 'power', 'ADM', grade('2')),
      finding('left', 'power', 'DI1', grade('3')), finding('right', 'power', 'DI1', { kind: 'not testable', reason: 'in a cast' }),
      finding('left', 'light.touch', 'D2.pulp', level('normal'), { qualifiers: ['equivocal'] }), finding('right', 'light.touch', 'D2.pulp', level('normal')),
    ]));
    const rows = buildReport(both, complete, localised(both)).comparison;
    expect(Object.fromEntries(rows.map(({ what, difference }) => [what, difference]))).toEqual({
      'power, flexor pollicis longus': 'alike', 'power, abductor pollicis brevis': 'right worse', 'power, abductor digiti minimi': 'abnormal on both sides',
      'power, first dorsal interosseous': null, 'light touch, index fingertip': 'not judged',
    });
    expect(rows[0]?.what).toBe('power, abductor pollicis brevis');
    // Without a localisation only normal and abnormal are told apart.
    expect(buildReport(both, complete).comparison.find(({ what }) => what === 'power, abductor pollicis brevis')?.difference).toBe('abnormal on both sides');
  });

  test('says how likely each hand is affected, once there is enough to go by', () => {
    expect(reportToMarkdown(report)).toMatch(/A lesion in only the left hand: \d+ %/);
    const little = recordOf(heardAndFiled([finding('left', 'power', 'FPL', grade('5')), finding('right', 'power', 'FPL', grade('5'))]));
    expect(reportToMarkdown(buildReport(little, complete, localised(little)))).not.toContain('A lesion in');
  });

  test('gives the localisation with its evidence, and the WHO code of the first explanation', () => {
    expect(report.localisation?.lesions[0]).toMatchObject({ id: 'median.carpal-tunnel', side: 'left' });
    expect(report.codes).toEqual([{ code: 'G56.0', title: 'Carpal tunnel syndrome', source: expect.stringContaining('WHO ICD-10'), side: 'left' }]);
    expect(reportToMarkdown(report)).toMatch(/Codes a coder may consider/);
  });

  test('tells the share not done and what it was', () => {
    expect(report.share).toMatchObject({ total: 116, done: 9 });
    expect(report.notExamined.find(({ stage, side }) => stage === 'Perfusion' && side === 'right')?.items).toEqual(['radial pulse', 'ulnar pulse', 'capillary refill']);
    expect(reportToMarkdown(report)).toContain('9 of 116 items done; 92 % not done');
  });

  test('always carries the line that it does not diagnose', () => {
    for (const each of [report, buildReport(recordOf(), complete), buildReport(project([]), complete)]) {
      expect(reportToMarkdown(each)).toContain(SUPPORT_LINE);
      expect(reportToHtml(each)).toContain(SUPPORT_LINE);
    }
  });

  test('shows cautions with their source, before the findings', () => {
    const text = reportToMarkdown(buildReport(recordOf(heardAndFiled([finding('left', 'amputation', 'D2', level('present'))])), complete));
    expect(text).toMatch(/Amputation: left \(now\)\..*Follow your local protocol and senior advice\..*Source:/);
    expect(text.indexOf('## Cautions')).toBeLessThan(text.indexOf('## Left hand'));
  });

  test('keeps what was not settled, not understood, not testable and corrected', () => {
    const index = finding('left', 'light.touch', 'D2.pulp', level('reduced'));
    const told = buildReport(recordOf([
      { type: 'heard', utterance: utterance('u1', 'index reduced'), statements: [] }, { type: 'queried', utteranceId: 'u1', question: 'Left or right?', options: [[index]] },
      { type: 'heard', utterance: utterance('u2', 'mumble'), statements: [{ type: 'unparsed', text: 'mumble' }] },
      { type: 'heard', utterance: utterance('u3', 'how do you do', 'ignored'), statements: [] },
      { type: 'heard', utterance: utterance('u6', 'withdraw that', 'queried'), statements: [{ type: 'order', order: { order: 'withdraw', which: 'last' }, text: 'withdraw that' }] },
      { type: 'held' }, { type: 'heard', utterance: utterance('u4', 'thumb three'), statements: [said(index)] }, { type: 'resumed' },
      { type: 'not testable', side: 'left', items: ['power@EIP'], reason: 'splint', utteranceId: 'u5' },
      { type: 'filed', findings: [filed('f1', finding('left', 'power', 'APB', grade('3'))), filed('f2', index)] },
      { type: 'corrected', findingId: 'f1', to: filed('f3', finding('left', 'power', 'APB', grade('4'))), why: 'misheard' }, { type: 'withdrawn', findingIds: ['f2'], by: 'reviewer', why: 'wrong patient' },
    ]), complete);
    expect(told.questions).toMatchObject([{ heard: 'index reduced', state: 'open' }]);
    expect(told.unfiled).toEqual([{ heard: 'mumble', why: 'not understood' }, { heard: 'withdraw that', why: 'heard unsurely' }, { heard: 'thumb three', why: 'said on hold' }]);
    expect(told.ignored).toBe(1);
    expect(told.notTestable).toEqual([{ side: 'left', what: 'power, extensor indicis', reason: 'splint' }]);
    expect(told.corrections.map(({ words, why }) => [words, why])).toEqual([
      ['Left · power, abductor pollicis brevis: grade 3 → Left · power, abductor pollicis brevis: grade 4', 'misheard'], ['Left · light touch, index fingertip: reduced → withdrawn', 'by the reviewer: wrong patient'],
    ]);
  });

  test('says who signed, and when it was changed after', () => {
    const signed = [...heardAndFiled(carpalTunnel), { type: 'concluded' } as const, { type: 'signed', by: 'Dr Example', note: 'reviewed' } as const];
    expect(reportToMarkdown(buildReport(recordOf(signed), complete))).toMatch(/Signed by Dr Example, 2026-03-02T10:00:00\.000Z: reviewed/);
    expect(reportToMarkdown(buildReport(recordOf([...signed, { type: 'filed', findings: [filed('late', finding('left', 'power', 'DI1', grade('5')))] }]), complete))).toContain('Changed after signing: sign again.');
    expect(reportToMarkdown(report)).toContain('Not signed.');
  });

  test('names the faults of a damaged record', () => {
    const events = log([{ type: 'begun', setUp }, ...heardAndFiled(carpalTunnel)]);
    expect(reportToMarkdown(buildReport(project([events[0], events[2]]), complete))).toContain('Event 1 is missing.');
  });
});

describe('codes', () => {
  // WHO ICD-10, four characters; an open wound makes it an injury code
  test.each([
    ['median.carpal-tunnel', false, ['G56.0']], ['median.carpal-tunnel', true, ['S64.1']], ['ulnar.elbow', false, ['G56.2']], ['ulnar.wrist', true, ['S64.0']], ['radial.groove', true, ['S44.2']], ['digital.D1r', true, ['S64.3']], ['common-digital.web3', true, ['S64.4']],
    ['tendon.both-flexors.D3+digital.D3r+digital.D3u', true, ['S66.1', 'S64.4']], ['tendon.FPL', false, ['M66.3']], ['trigger.D4', false, ['M65.3']], ['scaphoid', false, ['S62.0']], ['compartment.forearm', true, ['T79.6']], ['unexplained', false, []], ['normal', false, []],
  ])('%s, wound %s: %j', (lesion, wounded, codes) => {
    const found = codesFor(lesion, wounded);
    expect(found.map(({ code }) => code)).toEqual(codes);
    for (const { code, title, source } of found) { expect(code).toMatch(/^[A-Z]\d\d\.\d$/); expect(title).not.toBe(''); expect(source).toMatch(/\[(checked|from memory)\]/); }
  });

  test('are not suggested for a guess', () => {
    const record = recordOf(heardAndFiled([finding('left', 'light.touch', 'D2.pulp', level('reduced'))]));
    const localisation = localised(record);
    const first = localisation.sides.left?.ranked[0];
    expect(buildReport(record, complete, localisation).codes.length > 0).toBe(localisation.sides.left?.fit === 'ok' && (first?.probability ?? 0) >= 0.5 && first?.kind !== 'normal');
  });
});

describe('safe output', () => {
  const nasty = '<script>alert(1)</script> " onload=\'x\' & | ] [a](javascript:b) `c`';
  const record = recordOf([
    { type: 'heard', utterance: utterance('u1', nasty), statements: [{ type: 'unparsed', text: nasty }] }, { type: 'queried', utteranceId: 'u1', question: nasty, options: [] },
    { type: 'not testable', side: 'left', items: ['power@APB'], reason: nasty, utteranceId: 'u1' }, { type: 'filed', findings: [filed('f1', finding('left', 'refill', 'hand', quantity(5, 's')))] }, { type: 'withdrawn', findingIds: ['f1'], by: 'reviewer', why: nasty }, { type: 'signed', by: nasty, note: nasty },
  ], { label: nasty, mechanism: nasty, examiner: nasty });

  /** Every tag of a piece of HTML; anything else that opens with "<" counts as a stray. */
  const tagsOf = (html: string): string[] => html.replace(/<!doctype html>/, '').match(/<[^>]*>?/g) ?? [];

  test('no text of a record becomes markup', () => {
    for (const tag of tagsOf(reportToHtmlBody(buildReport(record, complete)))) expect(tag).toMatch(/^<\/?(h1|h2|section|p|strong|ul|li|table|thead|tbody|tr|td|th)( scope="(col|row)")?>$/);
    expect(reportToHtml(buildReport(record, complete))).not.toContain('<script');
    expect(reportToMarkdown(buildReport(record, complete))).not.toMatch(/(^|[^\\])<script|(^|[^\\])\[a\]\(/);
  });

  test('whatever the label', () => {
    fc.assert(fc.property(fc.string(), (label) => {
      for (const tag of tagsOf(reportToHtmlBody(buildReport(recordOf([], { label }), complete)))) expect(tag).toMatch(/^<\/?[a-z0-9]+( scope="(col|row)")?>$/);
    }));
  });

  test('the page loads and runs nothing', () => {
    const page = reportToHtml(buildReport(record, complete));
    expect(page).toContain("default-src 'none'");
    expect(page).not.toMatch(/<(script|img|link|iframe)|\bsrc=/);
  });

  test('any examination gives a report', () => {
    fc.assert(fc.property(fc.array(anyHappening, { maxLength: 25 }), (happenings) => {
      const report = buildReport(project(log(happenings)), complete);
      expect(reportToMarkdown(report)).toContain('## Signature');
      expect(reportToHtml(report)).toContain('</html>');
    }), { numRuns: 60 });
  });
});
