import type { ContrastClass, SpokenGrammar } from '../grammar';
import { ENGINE, within } from './embedded';
import { Listeners } from './listeners';
import type { Recogniser } from './recogniser';
import type { VoiceProfile } from './voice-profile';
import type { FromWorker, ToWorker } from './worker-messages';

export interface WorkerRecogniserOptions {
  /** Address of the folder that holds model.json, with a closing slash. */
  readonly modelUrl: string;
  /** Words that must not be taken for one another (readContrasts of grammars/contrasts.txt). */
  readonly contrasts: readonly ContrastClass[];
  readonly partials?: boolean;
  /** Starts a worker that calls serve() with more than data, such as a sense of meaning; the plain one by default. */
  readonly makeWorker?: () => Worker;
  /** Keep the audio of each utterance for the reviewer. */
  readonly keepAudio?: boolean;
  /** Fetches the speaker's voice profile, if there is one, whenever the engine is loaded. */
  readonly profile?: () => Promise<VoiceProfile | null>;
}

const PATIENCE = { load: 90, grammar: 30, finish: 60 } as const; // seconds

type Call = { [Type in ToWorker['type']]: Omit<Extract<ToWorker, { type: Type }>, 'call'> }[Exclude<ToWorker['type'], 'audio'>];

/** The embedded engine in a worker of its own, so that hearing never holds up the screen. */
export function createWorkerRecogniser(options: WorkerRecogniserOptions): Recogniser {
  const listeners = new Listeners();
  const waiting = new Map<number, { resolve: () => void; reject: (error: Error) => void }>();
  let worker: Worker | null = null;
  let calls = 0;

  function failAll(message: string): void {
    for (const { reject } of waiting.values()) reject(new Error(message));
    waiting.clear();
  }

  function start(): Worker {
    const started = options.makeWorker?.() ?? new Worker(new URL('./worker.ts', import.meta.url), { type: 'module', name: 'hearing' });
    started.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      if (data.type === 'event') { listeners.tell(data.event); return; }
      const call = waiting.get(data.call);
      waiting.delete(data.call);
      if (data.type === 'done') call?.resolve(); else call?.reject(new Error(data.message));
    };
    started.onerror = (event) => {
      const message = `The speech engine's thread failed: ${event.message || 'it could not be started'}. Reload the page; everything recorded so far is kept.`;
      failAll(message);
      listeners.tell({ type: 'failed', message, fatal: true });
    };
    return started;
  }

  function call(message: Call): Promise<void> {
    if (!worker) return Promise.reject(new Error('The speech engine is not loaded: await load() first.'));
    calls += 1;
    const id = calls;
    const answered = new Promise<void>((resolve, reject) => { waiting.set(id, { resolve, reject }); });
    worker.postMessage({ ...message, call: id });
    return within(PATIENCE[message.type], `The speech engine (${message.type})`, answered).finally(() => waiting.delete(id));
  }

  return {
    engine: ENGINE,
    async load() {
      worker ??= start();
      await call({ type: 'load', modelUrl: options.modelUrl, contrasts: options.contrasts, partials: options.partials ?? true, keepAudio: options.keepAudio ?? true, profile: (await options.profile?.()) ?? null });
    },
    setGrammar: (grammar: SpokenGrammar) => call({ type: 'grammar', grammar }),
    push(audio) {
      const copy = audio.slice();
      worker?.postMessage({ type: 'audio', audio: copy } satisfies ToWorker, [copy.buffer]);
    },
    finish: () => call({ type: 'finish' }),
    listen: listeners.add,
    dispose() {
      worker?.terminate();
      worker = null;
      failAll('The speech engine was closed.');
      listeners.clear();
    },
  };
}
