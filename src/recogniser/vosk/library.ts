/**
 * The only file that touches vosk-browser: loading a model in its worker, with an end to every wait.
 *
 * What the library does by itself, and what is done about it here (vosk-browser 0.0.8, read in its source):
 * - `createModel` never rejects: the error event of the Model class is used, and a time-out.
 * - `terminate()` leaves the worker alive if no model was loaded: the worker is ended directly.
 * - it keeps unpacked files in the browser's storage, and asks its own address for a server: see surroundings.ts.
 */
import type { KaldiRecognizer, Model } from 'vosk-browser';

export type LibraryRecogniser = KaldiRecognizer;
export type LibraryModel = Model;

const REINSTALL = 'Install the model again with "npm run model:vosk".';

const workerOf = (model: Model): Worker => (model as unknown as { worker: Worker }).worker;

/** Ends the worker and everything in it at once. */
export const endModel = (model: Model): void => workerOf(model).terminate();

async function library(): Promise<typeof Model> {
  const module = await import('vosk-browser') as typeof import('vosk-browser') & { default?: typeof import('vosk-browser') };
  return (module.Model ?? module.default?.Model) as typeof Model;
}

function explain(detail: string | undefined): string {
  if (detail?.startsWith('HTTP error')) return `The second engine's model archive is not where it should be (${detail}). ${REINSTALL}`;
  if (detail && /Content Security Policy|unsafe-eval|EvalError/i.test(detail)) return `The page's security policy forbids the second engine (${detail}).`;
  return `The second engine could not open its model${detail ? ` (${detail})` : ''}: it is damaged or of another kind. ${REINSTALL}`;
}

export interface LoadOptions {
  /** Absolute address of the archive. */
  readonly url: string;
  /** Seconds until the load is given up. */
  readonly timeout: number;
  /** Called if the worker fails after it has loaded. */
  readonly onCrash: (message: string) => void;
  readonly signal: AbortSignal;
}

/**
 * Loads a model into a worker of its own.
 * @throws Error that says what happened and what to do; the worker is gone then
 */
export async function loadModel({ url, timeout, onCrash, signal }: LoadOptions): Promise<Model> {
  const LibraryModel = await library();
  signal.throwIfAborted();
  const model = new LibraryModel(url, -1);
  let timer: ReturnType<typeof setTimeout> | undefined;
  try {
    await new Promise<void>((resolve, reject) => {
      timer = setTimeout(() => reject(new Error(`The second engine's model was not ready after ${timeout} s. Try again, or use the built-in engine.`)), timeout * 1000);
      signal.addEventListener('abort', () => reject(new Error('The second engine was closed while it was loading.')), { once: true });
      model.on('load', (message) => { if ('result' in message && message.result) resolve(); else reject(new Error(explain(undefined))); });
      model.on('error', (message) => reject(new Error(explain('error' in message ? message.error : undefined))));
      workerOf(model).addEventListener('error', (event) => { event.preventDefault(); reject(new Error(explain(event.message))); });
    });
  } catch (error) {
    endModel(model);
    throw error;
  } finally {
    clearTimeout(timer);
  }
  workerOf(model).addEventListener('error', (event) => onCrash(event.message));
  return model;
}
