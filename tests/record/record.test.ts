import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { apply, checkEvent, emptyRecord, openQuestion, project } from '../../src/record';
import type { FiledFinding, Happening } from '../../src/record';
import { AT, anyFinding, anyHappening, filed, finding, grade, level, log, said, setUp, utterance } from './samples';

const weakThumb = finding('left', 'power', 'APB', grade('3'));
const numbIndex = finding('left', 'light.touch', 'D2.pulp', level('reduced'));

describe('the record of an examination', () => {
  test('holds what was filed, with where it came from', () => {
    const record = project(log([{ type: 'begun', setUp }, { type: 'heard', utterance: utterance('u1', 'abductor pollicis brevis three left'), statements: [said(weakThumb)] }, { type: 'filed', findings: [filed('f1', weakThumb)] }]));
    expect(record).toMatchObject({ setUp, begunAt: AT, nextSeq: 3, faults: [], findings: [{ id: 'f1', finding: weakThumb, utteranceId: 'u1', by: 'examiner', confidence: 0.95, corrections: [] }], utterances: [{ status: 'accepted' }] });
  });

  test('keeps every earlier wording of a corrected finding', () => {
    const record = project(log([{ type: 'begun', setUp }, { type: 'filed', findings: [filed('f1', weakThumb)] },
      { type: 'corrected', findingId: 'f1', to: filed('f2', finding('left', 'power', 'APB', grade('4'))), why: 'misheard' },
      { type: 'corrected', findingId: 'f2', to: { ...filed('f3', finding('right', 'power', 'APB', grade('4'))), by: 'reviewer' } }]));
    expect(record.findings).toHaveLength(1);
    expect(record.findings[0]).toMatchObject({ id: 'f3', by: 'reviewer', corrections: [{ from: { id: 'f1' }, why: 'misheard' }, { from: { id: 'f2' } }] });
  });

  test('shows what was withdrawn, by whom and why', () => {
    const record = project(log([{ type: 'begun', setUp }, { type: 'filed', findings: [filed('f1', weakThumb), filed('f2', numbIndex)] }, { type: 'withdrawn', findingIds: ['f1'], by: 'reviewer', why: 'other hand' }]));
    expect(record.findings.map(({ id }) => id)).toEqual(['f2']);
    expect(record.withdrawn).toMatchObject([{ finding: { id: 'f1' }, by: 'reviewer', why: 'other hand' }]);
  });

  test('a finding lifts "not testable" from its own item and side only', () => {
    const barred = (side: 'left' | 'right'): Happening => ({ type: 'not testable', side, items: ['power@APB'], reason: 'splint', utteranceId: 'u0' });
    const record = project(log([{ type: 'begun', setUp }, barred('left'), barred('right'), { type: 'filed', findings: [filed('f1', weakThumb)] }]));
    expect(record.notTestable).toMatchObject([{ side: 'right', item: 'power@APB', reason: 'splint' }]);
  });

  test('a signature covers what stood when it was given', () => {
    const signed = log([{ type: 'begun', setUp }, { type: 'concluded' }, { type: 'signed', by: 'Dr Example' }]);
    expect(project(signed)).toMatchObject({ changedSinceSigned: false, signatures: [{ by: 'Dr Example' }] });
    const changed = project([...signed, ...log([{ type: 'filed', findings: [filed('f1', weakThumb)] }]).map((event) => ({ ...event, seq: 3 }))]);
    expect(changed.changedSinceSigned).toBe(true);
    expect(project([...log([]), ...signed, { ...signed[2], seq: 3, happening: { type: 'filed', findings: [filed('f1', weakThumb)] } }, { ...signed[2], seq: 4 }]).changedSinceSigned).toBe(false);
  });

  test('a second opinion moves how sure a finding is, and a doubt is the reviewer\'s alone', () => {
    const heardAgain = (agrees: boolean, confidence: number): Happening => ({ type: 'heard again', utteranceId: 'u1', engine: 'other', text: 'abductor pollicis brevis three left', verdict: 'accepted', agrees, confidence });
    const before: Happening[] = [{ type: 'begun', setUp }, { type: 'heard', utterance: utterance('u1', 'abductor pollicis brevis three left'), statements: [said(weakThumb)] }, { type: 'filed', findings: [filed('f1', weakThumb)] }];
    const agreed = project(log([...before, { type: 'signed', by: 'Dr Example' }, heardAgain(true, 0.99)]));
    expect(agreed).toMatchObject({ faults: [], findings: [{ id: 'f1', confidence: 0.99 }], utterances: [{ secondOpinion: { agrees: true, engine: 'other' } }], changedSinceSigned: false });
    const doubted = project(log([...before, { type: 'signed', by: 'Dr Example' }, heardAgain(false, 0.04), { type: 'queried', utteranceId: 'u1', question: 'Which?', options: [[weakThumb], [numbIndex]], gap: 'second opinion' }]));
    expect(doubted).toMatchObject({ faults: [], findings: [{ id: 'f1', confidence: 0.04 }], utterances: [{ status: 'accepted' }], questions: [{ state: 'open' }], changedSinceSigned: true });
    expect(openQuestion(doubted)).toBeUndefined();
    // What a person corrected is not for an engine to doubt.
    const corrected = project(log([...before, { type: 'corrected', findingId: 'f1', to: { ...filed('f2', numbIndex), by: 'reviewer', confidence: 1 } }, heardAgain(false, 0.04)]));
    expect(corrected.findings).toMatchObject([{ id: 'f2', confidence: 1 }]);
    expect(project(log([{ type: 'begun', setUp }, heardAgain(true, 1)])).faults).toEqual(['Event 1: a second opinion on u1, which was not heard.']);
  });

  test.each<[string, Happening[], string]>([
    ['ignored speech', [{ type: 'heard', utterance: utterance('u1', 'how are you', 'ignored'), statements: [] }], 'ignored'],
    ['nothing understood', [{ type: 'heard', utterance: utterance('u1', 'mumble'), statements: [{ type: 'unparsed', text: 'mumble' }] }], 'unparsed'],
    ['a question back', [{ type: 'heard', utterance: utterance('u1', 'index reduced'), statements: [] }, { type: 'queried', utteranceId: 'u1', question: 'Left or right?', options: [] }], 'queried'],
    ['speech on hold', [{ type: 'held' }, { type: 'heard', utterance: utterance('u1', 'thumb three'), statements: [said(weakThumb)] }], 'held'],
  ])('tells what became of an utterance: %s', (_, happenings, status) => {
    expect(project(log([{ type: 'begun', setUp }, ...happenings])).utterances.at(-1)?.status).toBe(status);
  });
});

describe('a damaged log', () => {
  const sound = log([{ type: 'begun', setUp }, { type: 'filed', findings: [filed('f1', weakThumb)] }, { type: 'filed', findings: [filed('f2', numbIndex)] }]);

  test('names a gap and keeps the rest', () => {
    const record = project([sound[0], sound[2]]);
    expect(record.faults).toEqual(['Event 1 is missing.']);
    expect(record.findings.map(({ id }) => id)).toEqual(['f2']);
  });

  test('leaves out and names what it cannot read', () => {
    const record = project([sound[0], { ...sound[1], happening: { type: 'filed', findings: [{ ...filed('f1', weakThumb), finding: { ...weakThumb, side: 'middle' } }] } }, sound[2]]);
    expect(record.faults[0]).toMatch(/Entry 1 of the log is damaged.*happening\.findings\[0\]\.finding\.side/);
    expect(record.findings.map(({ id }) => id)).toEqual(['f2']);
  });

  test('keeps a correction whose original was lost', () => {
    const record = project(log([{ type: 'begun', setUp }, { type: 'corrected', findingId: 'gone', to: filed('f9', weakThumb) }]));
    expect(record.findings.map(({ id }) => id)).toEqual(['f9']);
    expect(record.faults).toEqual(['Event 1: corrects gone, which does not stand; the new finding was kept.']);
  });

  test('refuses a grade where none makes sense, by name', () => {
    const checked = checkEvent({ ...sound[1], happening: { type: 'filed', findings: [filed('f1', finding('left', 'pulse', 'radial.artery', grade('4')))] } });
    expect(checked).toMatchObject({ ok: false, issues: [{ path: 'happening.findings[0].finding', message: 'pulse takes no power grade.' }] });
  });

  test('never crashes, whatever it holds', () => {
    fc.assert(fc.property(fc.array(fc.oneof(fc.anything(), fc.constantFrom(...sound), fc.tuple(fc.constantFrom(...sound), fc.jsonValue()).map(([event, junk]) => ({ ...event, happening: junk }))), { maxLength: 12 }), (raw) => {
      expect(Array.isArray(project(raw).faults)).toBe(true);
    }));
  });
});

describe('any sequence of happenings', () => {
  const happenings = fc.array(anyHappening, { maxLength: 40 });

  test('folds to the same record at once or one by one', () => {
    fc.assert(fc.property(happenings, (list) => {
      const events = log(list);
      expect(events.reduce(apply, emptyRecord())).toEqual(project(events));
    }), { numRuns: 300 });
  });

  test('loses no filed finding except by withdrawal or correction', () => {
    fc.assert(fc.property(happenings, (list) => {
      const record = project(log(list));
      const everFiled = list.flatMap((happening) => (happening.type === 'filed' ? happening.findings : happening.type === 'corrected' ? [happening.to] : [])).map(({ finding: of }) => JSON.stringify(of));
      const kept = new Set([...record.findings, ...record.withdrawn.map((entry) => entry.finding)].flatMap((entry): FiledFinding[] => [entry, ...entry.corrections.map(({ from }) => from)]).map((entry) => JSON.stringify(entry.finding)));
      for (const each of everFiled) expect(kept.has(each)).toBe(true);
      const leaves = list.some(({ type }) => type === 'withdrawn');
      if (!leaves) expect(record.withdrawn).toEqual([]);
    }), { numRuns: 300 });
  });

  test('has one standing entry for each finding id', () => {
    fc.assert(fc.property(happenings, (list) => {
      const standing = project(log(list)).findings.map(({ id }) => id);
      expect(new Set(standing).size).toBe(standing.length);
    }));
  });

  test('every sound finding of the vocabulary passes validation', () => {
    fc.assert(fc.property(anyFinding, (value) => { expect(checkEvent(log([{ type: 'filed', findings: [filed('f1', value)] }])[0])).toMatchObject({ ok: true }); }), { numRuns: 300 });
  });
});
