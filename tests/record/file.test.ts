import { readFileSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020';
import { describe, expect, test } from 'vitest';
import { exportExamination, fileJsonSchema, importExamination, memoryStore, project, readExaminationFile } from '../../src/record';
import type { Happening } from '../../src/record';
import { filed, finding, grade, log, quantity, said, setUp, utterance } from './samples';

const weakThumb = finding('left', 'power', 'APB', grade('3'), { qualifiers: ['painful'] });
const happenings: Happening[] = [
  { type: 'begun', setUp: { ...setUp, onset: { value: 3, unit: 'd' }, mechanism: 'glass' } },
  { type: 'heard', utterance: { ...utterance('u1', 'thumb three'), words: [{ word: 'thumb', start: 0, end: 0.4, confidence: 0.9 }], alternatives: [{ text: 'thumb tree', margin: 2 }] }, statements: [said(weakThumb), { type: 'unparsed', text: 'er' }] },
  { type: 'filed', findings: [filed('f1', weakThumb)] },
  { type: 'queried', utteranceId: 'u1', question: 'Which?', options: [[weakThumb]], gap: 'unsure' }, { type: 'answered', utteranceId: 'u1', option: null },
  { type: 'corrected', findingId: 'f1', to: filed('f2', finding('left', 'power', 'APB', { kind: 'grade', grade: '4', to: '4+' })), why: 'amended' },
  { type: 'not testable', side: 'left', items: ['power@EIP'], reason: 'splint', utteranceId: 'u1' }, { type: 'testable again', side: 'left', items: ['power@EIP'] },
  { type: 'side set', side: null }, { type: 'stage set', stage: 'feel' }, { type: 'held' }, { type: 'resumed' }, { type: 'ordered', order: { order: 'amend', grade: '4' } },
  { type: 'caution shown', caution: 'amputation.left' }, { type: 'caution acknowledged', caution: 'amputation.left' }, { type: 'withdrawn', findingIds: ['f2'], by: 'reviewer' },
  { type: 'filed', findings: [filed('f3', finding('right', 'two.point', 'D2r', quantity(12, 'mm')))] }, { type: 'concluded' }, { type: 'signed', by: 'Dr Example', note: 'reviewed' },
];
const exported = async (): Promise<string> => {
  const store = memoryStore();
  await store.append(log(happenings), [{ utteranceId: 'u1', samples: new Float32Array([0, 0.5, -0.5]) }]);
  return exportExamination(store, 'exam-1', '2026-03-02T12:00:00.000Z');
};

describe('an examination file', () => {
  test('brings everything to another device: every kind of event, and the audio', async () => {
    const there = memoryStore();
    expect(await importExamination(there, await exported())).toMatchObject({ ok: true, examinationId: 'exam-1' });
    expect(await there.read('exam-1')).toEqual(log(happenings));
    expect(project(await there.read('exam-1')).faults).toEqual([]);
    expect([...(await there.audio('exam-1', 'u1'))!].map((sample) => sample.toFixed(3))).toEqual(['0.000', '0.500', '-0.500']);
  });

  test('is what its published JSON Schema says (draft 2020-12)', async () => {
    const published = JSON.parse(readFileSync(new URL('../../src/record/examination-file.schema.json', import.meta.url), 'utf8'));
    expect(published).toEqual(JSON.parse(JSON.stringify(fileJsonSchema())));
    const validate = new Ajv2020({ strict: false, formats: { 'date-time': true, base64: true } }).compile(published);
    const file = JSON.parse(await exported());
    expect(validate(file), JSON.stringify(validate.errors)).toBe(true);
    expect(validate({ ...file, version: 2 })).toBe(false);
    expect(validate({ ...file, events: [{ ...file.events[2], happening: { type: 'filed', findings: [{}] } }] })).toBe(false);
  });

  test('does not replace an examination that is there', async () => {
    const there = memoryStore();
    await importExamination(there, await exported());
    expect(await importExamination(there, await exported())).toMatchObject({ ok: false, issues: [{ path: 'examinationId', message: expect.stringMatching(/already/) }] });
  });

  test.each<[string, string, RegExp]>([['no JSON', '{"format":', /Not a JSON file/], ['another JSON', '[]', /expected object/i], ['nothing', '', /Not a JSON file/]])('refuses %s with a reason', (_, text, message) => {
    const reading = readExaminationFile(text);
    expect(reading.ok).toBe(false);
    if (!reading.ok) expect(reading.issues[0]?.message).toMatch(message);
  });

  // A sound file damaged in one place at a time: each damage is found, at its path.
  test.each<[string, (file: any) => void, string]>([
    ['format', (file) => { file.format = 'something'; }, 'format'],
    ['version', (file) => { file.version = 2; }, 'version'],
    ['side', (file) => { file.events[2].happening.findings[0].finding.side = 'middle'; }, 'events[2].happening.findings[0].finding.side'],
    ['sign', (file) => { file.events[2].happening.findings[0].finding.sign = 'mood'; }, 'events[2].happening.findings[0].finding.sign'],
    ['site', (file) => { file.events[2].happening.findings[0].finding.site = 'knee'; }, 'events[2].happening.findings[0].finding.site'],
    ['grade', (file) => { file.events[2].happening.findings[0].finding.result.grade = '6'; }, 'events[2].happening.findings[0].finding.result.grade'],
    ['sense', (file) => { file.events[2].happening.findings[0].finding.sign = 'light.touch'; }, 'events[2].happening.findings[0].finding'],
    ['unit', (file) => { file.events[16].happening.findings[0].finding.result.quantity.unit = 'inch'; }, 'events[16].happening.findings[0].finding.result.quantity.unit'],
    ['confidence', (file) => { file.events[2].happening.findings[0].confidence = 2; }, 'events[2].happening.findings[0].confidence'],
    ['kind of event', (file) => { file.events[9].happening.type = 'erased'; }, 'events[9].happening.type'],
    ['item', (file) => { file.events[6].happening.items = ['power@knee']; }, 'events[6].happening.items[0]'],
    ['time', (file) => { file.events[1].at = 'yesterday'; }, 'events[1].at'],
    ['order', (file) => { file.events.splice(4, 1); }, 'events[4].seq'],
    ['examination', (file) => { file.events[3].examinationId = 'other'; }, 'events[3].examinationId'],
    ['audio', (file) => { file.audio[0].pcm16 = '***'; }, 'audio[0].pcm16'],
    ['set-up', (file) => { file.events.shift(); file.events.forEach((event: any, seq: number) => { event.seq = seq; }); }, 'events[0]'],
  ])('names the place of a damaged %s', async (_, damage, path) => {
    const file = JSON.parse(await exported());
    damage(file);
    const reading = readExaminationFile(JSON.stringify(file));
    expect(reading.ok ? [] : reading.issues.map((issue) => issue.path)).toContain(path);
  });

  test('collects every fault, not just the first', async () => {
    const file = JSON.parse(await exported());
    file.events[1].at = 'yesterday';
    file.events[2].happening.findings[0].confidence = 2;
    const reading = readExaminationFile(JSON.stringify(file));
    expect(reading.ok ? 0 : reading.issues.length).toBe(2);
  });
});
