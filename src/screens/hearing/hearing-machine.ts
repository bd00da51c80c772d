import { assign, emit, fromCallback, sendTo, setup } from 'xstate';
import type { Utterance } from '../../recogniser';
import type { Message } from '../shared/messages';
import { MESSAGES } from '../shared/messages';
import type { Ears, EarsEvent, EarsParts, Source } from './ears';
import { moved, openEars } from './ears';
import type { HearingState, Level } from './level';

export interface HearingContext {
  readonly parts: Omit<EarsParts, 'source'>;
  readonly source: Source | null;
  readonly level: Level | null;
  /** Clock readings, in seconds. */
  readonly lastSignal: number;
  readonly lastClipped: number;
  readonly partial: string;
  /** Deaf while the recorder itself speaks. */
  readonly muted: boolean;
  readonly note: string | null;
  readonly message: Message | null;
}

export type HearingEvent =
  | EarsEvent
  | { readonly type: 'listen'; readonly source: Source }
  | { readonly type: 'mute'; readonly muted: boolean }
  | { readonly type: 'stop' };

export type HearingEmitted = { readonly type: 'heard'; readonly utterance: Utterance } | { readonly type: 'finished' };

/** Ears as an actor: opened on entry, closed on exit, whatever way the machine leaves. */
const ears = fromCallback<{ type: 'mute'; muted: boolean }, EarsParts>(({ input, sendBack, receive }) => {
  const opened: Ears = openEars(input, sendBack);
  receive(({ muted }) => opened.mute(muted));
  return () => opened.close();
});

/**
 * Whether the recorder hears: off, starting, listening, restarting after a crash, or failed.
 * "On hold" is no state here: it belongs to the examination, and even then the recorder listens for "carry on".
 */
export const hearingMachine = setup({
  types: { context: {} as HearingContext, events: {} as HearingEvent, emitted: {} as HearingEmitted, input: {} as Omit<EarsParts, 'source'> },
  actors: { ears },
  actions: {
    take: assign(({ context, event }) => (event.type === 'listen' ? { source: event.source, message: null, partial: '', muted: false, level: null, lastSignal: context.parts.clock(), lastClipped: -Infinity } : {})),
    showLevel: assign(({ context, event }) => (event.type === 'level'
      ? { level: event.level, lastSignal: moved(event.level) ? event.at : context.lastSignal, lastClipped: event.level.clipped ? event.at : context.lastClipped }
      : {})),
    say: assign(({ event }) => ('why' in event ? { message: event.why, partial: '' } : {})),
  },
}).createMachine({
  id: 'hearing',
  context: ({ input }) => ({ parts: input, source: null, level: null, lastSignal: 0, lastClipped: -Infinity, partial: '', muted: false, note: null, message: null }),
  initial: 'off',
  states: {
    off: { on: { listen: { target: 'on', actions: 'take' } } },
    on: {
      invoke: { id: 'ears', src: 'ears', input: ({ context }) => ({ ...context.parts, source: context.source as Source }) },
      initial: 'starting',
      on: {
        stop: { target: 'off', actions: assign({ partial: '', level: null }) },
        // Always a new pair of ears, even if one is open already.
        listen: { target: 'on', reenter: true, actions: 'take' },
        mute: { actions: [assign(({ event }) => ({ muted: event.muted, partial: '' })), sendTo('ears', ({ event }) => event)] },
        ready: { target: '.listening', actions: assign(({ event }) => ({ note: event.note ?? null })) },
        note: { actions: assign(({ event }) => ({ note: event.note })) },
        restarting: { target: '.restarting', actions: assign({ message: MESSAGES.workerStopped, partial: '' }) },
        level: { actions: 'showLevel' },
        partial: { actions: assign(({ event }) => ({ partial: event.text })) },
        utterance: { actions: [assign({ partial: '', message: null }), emit(({ event }) => ({ type: 'heard' as const, utterance: event.utterance }))] },
        ended: { target: 'off', actions: ['say', emit({ type: 'finished' })] },
        failed: { target: 'failed', actions: 'say' },
      },
      states: { starting: {}, listening: {}, restarting: {} },
    },
    failed: { on: { listen: { target: 'on', actions: 'take' }, stop: 'off' } },
  },
});

/** The state in one word for the meter; `held` comes from the examination. */
export function hearingState(value: unknown, held: boolean, muted: boolean): HearingState {
  const state = (typeof value === 'string' ? value : Object.values(value as Record<string, string>)[0]) as HearingState;
  if (state !== 'listening') return state;
  return muted ? 'reading' : held ? 'held' : 'listening';
}
