import { createActor } from 'xstate';
import type { ActorRefFrom } from 'xstate';
import { Journal } from '../../record';
import type { SetUp, Store } from '../../record';
import { hearingMachine } from '../hearing/hearing-machine';
import type { Source } from '../hearing/ears';
import { heardGrammar, makeRecogniser, parser } from './language';
import { Session } from './session';

export type Hearing = ActorRefFrom<typeof hearingMachine>;

/** An examination open in this page: its session, and the ears that feed it. */
export interface Open { readonly session: Session; readonly hearing: Hearing; readonly close: () => Promise<void> }

function open(journal: Journal, store: Store): Open {
  const session = new Session(journal, store, parser());
  const hearing = createActor(hearingMachine, { input: { makeRecogniser, grammar: heardGrammar, clock: () => performance.now() / 1000 } });
  hearing.on('heard', ({ utterance }) => void session.hear(utterance));
  hearing.start();
  void session.start();
  return { session, hearing, close: () => { hearing.stop(); return session.close(); } };
}

/** Begins an examination. Rejects with a StoreFault. */
export const begin = async (store: Store, setUp: SetUp): Promise<Open> => open(await Journal.begin(store, setUp), store);

/** Goes on with an examination after a reload, a crash or a day. Rejects with a StoreFault. */
export const resume = async (store: Store, examinationId: string): Promise<Open> => open(await Journal.resume(store, examinationId), store);

/** A source that waits to be used, by examination: the demonstration's recording. */
const sources = new Map<string, Source>();
export const lendSource = (examinationId: string, source: Source): void => { sources.set(examinationId, source); };
/** Taken once: after a reload the demonstration goes on with the microphone, like any examination. */
export function takeSource(examinationId: string): Source | undefined {
  const source = sources.get(examinationId);
  sources.delete(examinationId);
  return source;
}
