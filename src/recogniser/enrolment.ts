import type { SpokenGrammar } from '../grammar';
import type { Reading } from './enrol';
import { within } from './embedded';
import type { VoiceProfile } from './voice-profile';

type Request =
  | { readonly type: 'load'; readonly modelUrl: string; readonly pronunciations: SpokenGrammar['pronunciations'] }
  | { readonly type: 'reading'; readonly reading: Reading }
  | { readonly type: 'profile' };
export type EnrolRequest = Request & { readonly call: number };
export type EnrolAnswer =
  | { readonly call: number; readonly ok: true; readonly fits?: boolean; readonly profile?: VoiceProfile }
  | { readonly call: number; readonly ok: false; readonly message: string };

export interface EnrolmentOptions {
  /** Address of the folder that holds model.json, with a closing slash. */
  readonly modelUrl: string;
  readonly pronunciations: SpokenGrammar['pronunciations'];
}

/** One speaker reading the prompts. Sound and features stay in a worker of their own and go with it. */
export interface Enrolment {
  /** Rejects with a message that says what to do; never hangs. */
  load(): Promise<void>;
  /** Takes a reading; false when it does not fit its sentence and was left out. */
  read(reading: Reading): Promise<boolean>;
  /** The profile of what was read so far. Rejects when that is too little. */
  profile(): Promise<VoiceProfile>;
  /** Ends the worker; safe to call twice. */
  dispose(): void;
}

const PATIENCE = { load: 90, reading: 60, profile: 60 } as const; // seconds

export function createEnrolment({ modelUrl, pronunciations }: EnrolmentOptions): Enrolment {
  const worker = new Worker(new URL('./enrol-worker.ts', import.meta.url), { type: 'module', name: 'enrolment' });
  const waiting = new Map<number, { resolve: (answer: Extract<EnrolAnswer, { ok: true }>) => void; reject: (error: Error) => void }>();
  let calls = 0;
  const failAll = (message: string): void => { for (const { reject } of waiting.values()) reject(new Error(message)); waiting.clear(); };
  worker.onmessage = ({ data }: MessageEvent<EnrolAnswer>) => {
    const call = waiting.get(data.call);
    waiting.delete(data.call);
    if (data.ok) call?.resolve(data); else call?.reject(new Error(data.message));
  };
  worker.onerror = (event) => failAll(`The speech engine failed: ${event.message || 'it could not be started'}. Reload the page and read again.`);
  function ask(request: Request): Promise<Extract<EnrolAnswer, { ok: true }>> {
    const call = (calls += 1);
    const answered = new Promise<Extract<EnrolAnswer, { ok: true }>>((resolve, reject) => { waiting.set(call, { resolve, reject }); });
    worker.postMessage({ ...request, call } satisfies EnrolRequest);
    return within(PATIENCE[request.type], 'The voice profile', answered).finally(() => waiting.delete(call));
  }
  return {
    load: async () => { await ask({ type: 'load', modelUrl, pronunciations }); },
    read: async (reading) => (await ask({ type: 'reading', reading })).fits === true,
    profile: async () => {
      const { profile } = await ask({ type: 'profile' });
      if (!profile) throw new Error('No voice profile came back. Reload the page and read again.');
      return profile;
    },
    dispose: () => { worker.terminate(); failAll('The enrolment was closed.'); },
  };
}
