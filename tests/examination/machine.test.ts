import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { startExamination, toMachine } from '../../src/examination';
import { project } from '../../src/record';
import type { Happening } from '../../src/record';
import { anyHappening, filed, finding, grade, log, setUp } from '../record/samples';

const stateAfter = (...happenings: Happening[]): unknown => startExamination('exam-1', log(happenings)).getSnapshot().value;
const begun: Happening = { type: 'begun', setUp };
const found: Happening = { type: 'filed', findings: [filed('f1', finding('left', 'power', 'APB', grade('4')))] };

describe('the course of an examination', () => {
  test.each<[string, Happening[], string]>([
    ['nothing yet', [], 'waiting'], ['begun', [begun], 'examining'], ['a finding', [begun, found], 'examining'], ['on hold', [begun, { type: 'held' }], 'held'],
    ['carrying on', [begun, { type: 'held' }, { type: 'resumed' }], 'examining'], ['concluded', [begun, { type: 'concluded' }], 'concluded'],
    ['a late finding', [begun, { type: 'concluded' }, found], 'concluded'], ['signed', [begun, { type: 'concluded' }, { type: 'signed', by: 'Dr Example' }], 'signed'],
    ['signed without an end said', [begun, { type: 'signed', by: 'Dr Example' }], 'signed'],
  ])('%s', (_, happenings, state) => { expect(stateAfter(...happenings)).toBe(state); });

  test('its context is the record, late findings included', () => {
    const events = log([begun, { type: 'concluded' }, found]);
    const actor = startExamination('exam-1');
    for (const event of events) actor.send(toMachine(event));
    expect(actor.getSnapshot().context.record).toEqual(project(events));
  });

  test('replaying the log leads to the same state as living through it, and never fails', () => {
    fc.assert(fc.property(fc.array(anyHappening, { maxLength: 30 }), (happenings) => {
      const events = log(happenings);
      const lived = startExamination('exam-1');
      for (const event of events) lived.send(toMachine(event));
      const replayed = startExamination('exam-1', events).getSnapshot();
      expect(lived.getSnapshot().value).toBe(replayed.value);
      expect(lived.getSnapshot().status).toBe('active');
      expect(replayed.context.record).toEqual({ ...project(events), examinationId: 'exam-1' });
    }), { numRuns: 100 });
  });
});
