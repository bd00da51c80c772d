/**
 * The only file that touches vosk-browser: loading a model in its worker, with an end to every wait.
 *
 * What the library does by itself, and what is done about it here (vosk-browser 0.0.8, read in its source):
 * - `createModel` never rejects: the error event of the Model class is used, and a time-out.
 * - `terminate()` leaves the worker alive if no model was loaded: the worker is ended directly.
 * - unpacked files are kept in IndexedDB under the model's address and never checked again, and old ones never
 *   leave: files of another address are dropped before loading, all files when loading fails.
 * - a failing or full IndexedDB can stop it without a word: storage is probed first.
 */
import type { KaldiRecognizer, Model } from 'vosk-browser';

export type LibraryRecogniser = KaldiRecognizer;
export type LibraryModel = Model;

const DATABASE = '/vosk';
const STORE = 'FILE_DATA';
const REINSTALL = 'Install the model again with "npm run model:vosk".';

const workerOf = (model: Model): Worker => (model as unknown as { worker: Worker }).worker;

/** Ends the worker and everything in it at once. */
export const endModel = (model: Model): void => workerOf(model).terminate();

const done = <T>(request: IDBRequest<T>): Promise<T> => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error ?? new Error('the request failed'));
  if ('onblocked' in request) request.onblocked = () => reject(new Error('another tab uses it'));
});

const dropDatabase = (): Promise<unknown> => done(indexedDB.deleteDatabase(DATABASE)).catch(() => undefined);

/** The library's own name for the folder of a model's files. */
const folderOf = (url: string): string => `${DATABASE}/${url.replace(/\W/g, '_')}`;

/** Drops files of other models, and of a load that was broken off. */
async function tidyCache(url: string): Promise<void> {
  const known = await indexedDB.databases?.() ?? [];
  if (!known.some(({ name }) => name === DATABASE)) return;
  const database = await done(indexedDB.open(DATABASE));
  const keys = database.objectStoreNames.contains(STORE) ? await done(database.transaction(STORE).objectStore(STORE).getAllKeys()) : [];
  database.close();
  const mine = keys.map(String).filter((key) => key === folderOf(url) || key.startsWith(`${folderOf(url)}/`));
  if (mine.length < keys.length || !mine.includes(`${folderOf(url)}/extracted.ok`)) await dropDatabase();
}

async function checkStorage(bytes: number): Promise<void> {
  if (typeof indexedDB === 'undefined') throw new Error('This browser has no storage for the second engine\'s model. Use the built-in engine.');
  try {
    (await done(indexedDB.open('storage-probe'))).close();
    await done(indexedDB.deleteDatabase('storage-probe'));
  } catch (error) {
    throw new Error(`The browser refuses to store the second engine's model (${(error as Error).message}). In a private window use the built-in engine.`);
  }
  const { quota, usage } = await navigator.storage?.estimate?.() ?? {};
  const free = (quota ?? Infinity) - (usage ?? 0);
  if (free < bytes) throw new Error(`The second engine's model needs ${megabytes(bytes)} of browser storage and ${megabytes(free)} are free. Make room on the disk, or use the built-in engine.`);
}

const megabytes = (bytes: number): string => `${Math.round(bytes / 1e6)} MB`;

async function library(): Promise<typeof Model> {
  const module = await import('vosk-browser') as typeof import('vosk-browser') & { default?: typeof import('vosk-browser') };
  return (module.Model ?? module.default?.Model) as typeof Model;
}

function explain(detail: string | undefined): string {
  if (detail?.startsWith('HTTP error')) return `The second engine's model archive is not where it should be (${detail}). ${REINSTALL}`;
  if (detail && /fetch|network/i.test(detail)) return `The second engine's model could not be read (${detail}). Is the recorder's own server still running?`;
  if (detail && /Content Security Policy|unsafe-eval|EvalError/i.test(detail)) return `The page's security policy forbids the second engine (${detail}).`;
  return `The second engine could not open its model${detail ? ` (${detail})` : ''}: it is damaged or of another kind. ${REINSTALL}`;
}

export interface LoadOptions {
  /** Absolute address of the archive. */
  readonly url: string;
  readonly unpackedBytes: number;
  /** Whether unpacked files are kept in the browser's storage. */
  readonly kept: boolean;
  /** Seconds until the load is given up. */
  readonly timeout: number;
  /** Called if the worker fails after it has loaded. */
  readonly onCrash: (message: string) => void;
  readonly signal: AbortSignal;
}

/**
 * Loads a model into a worker of its own.
 * @throws Error that says what happened and what to do; the worker is gone then and nothing is cached
 */
export async function loadModel({ url, unpackedBytes, kept, timeout, onCrash, signal }: LoadOptions): Promise<Model> {
  if (kept) {
    await checkStorage(unpackedBytes);
    await tidyCache(url).catch(() => undefined);
  }
  const LibraryModel = await library();
  signal.throwIfAborted();
  const model = new LibraryModel(url, -1);
  let timer: ReturnType<typeof setTimeout> | undefined;
  try {
    await new Promise<void>((resolve, reject) => {
      timer = setTimeout(() => reject(new Error(`The second engine's model was not ready after ${timeout} s. The browser's storage may be full or blocked (as in a private window). Reload the page to try again, or use the built-in engine.`)), timeout * 1000);
      signal.addEventListener('abort', () => reject(new Error('The second engine was closed while it was loading.')), { once: true });
      model.on('load', (message) => { if ('result' in message && message.result) resolve(); else reject(new Error(explain(undefined))); });
      model.on('error', (message) => reject(new Error(explain('error' in message ? message.error : undefined))));
      workerOf(model).addEventListener('error', (event) => { event.preventDefault(); reject(new Error(explain(event.message))); });
    });
  } catch (error) {
    endModel(model);
    if (kept) await dropDatabase();
    throw error;
  } finally {
    clearTimeout(timer);
  }
  workerOf(model).addEventListener('error', (event) => onCrash(event.message));
  return model;
}
