import { assign, createActor, setup } from 'xstate';
import type { Actor } from 'xstate';
import { apply, emptyRecord } from '../record';
import type { ExaminationRecord, Happening, RecordEvent } from '../record';

/** A stored event, addressed to the machine by what happened. */
export interface ExaminationEvent { readonly type: Happening['type']; readonly event: RecordEvent }
export const toMachine = (event: RecordEvent): ExaminationEvent => ({ type: event.happening.type, event });

/**
 * Where an examination is: waiting, examining, held, concluded, signed. Driven by stored events alone, so that replaying
 * the log after a crash leads to the same state. The stage under way and what remains are read from the record in its context.
 */
export const examinationMachine = setup({
  types: { context: {} as { readonly record: ExaminationRecord }, events: {} as ExaminationEvent, input: {} as { readonly examinationId: string } },
  actions: { record: assign({ record: ({ context, event }) => apply(context.record, event.event) }) },
}).createMachine({
  id: 'examination',
  context: ({ input }) => ({ record: emptyRecord(input.examinationId) }),
  initial: 'waiting',
  on: { '*': { actions: 'record' } },
  states: {
    waiting: { on: { begun: { target: 'examining', actions: 'record' } } },
    examining: { on: { held: { target: 'held', actions: 'record' }, concluded: { target: 'concluded', actions: 'record' }, signed: { target: 'signed', actions: 'record' } } },
    held: { on: { resumed: { target: 'examining', actions: 'record' }, concluded: { target: 'concluded', actions: 'record' } } },
    // Late findings are still recorded after the end; a signature covers what stood when it was given.
    concluded: { on: { signed: { target: 'signed', actions: 'record' } } },
    signed: { on: { signed: { target: 'signed', actions: 'record' } } },
  },
});

export type ExaminationActor = Actor<typeof examinationMachine>;

/** A running machine, brought up to date with the log. Create it outside React and pass it down. */
export function startExamination(examinationId: string, events: readonly RecordEvent[] = []): ExaminationActor {
  const actor = createActor(examinationMachine, { input: { examinationId } }).start();
  for (const event of events) actor.send(toMachine(event));
  return actor;
}
