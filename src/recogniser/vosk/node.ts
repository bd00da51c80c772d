/**
 * The second engine in Node, for the headless command, benchmarks and tests: the same adapter and the same library,
 * whose worker runs in a thread that is given the few things of a browser that it asks for.
 */
import { resolveObjectURL } from 'node:buffer';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Worker as Thread } from 'node:worker_threads';
import { readContrasts } from '../../grammar';
import { installedModel } from '../node';
import { chooseEngine, measuredFor, type Choice } from './choose-engine';
import { SURROUNDINGS } from './surroundings';
import { INSTALL_COMMAND, INSTALLED, SOUNDS_LIKE, toInstallation, type Installation } from './installed';
import type { VoskOptions } from './options';
import { VoskRecogniser } from './vosk-recogniser';

const CONTRASTS = new URL('../../../grammars/contrasts.txt', import.meta.url);
const MODEL = fileURLToPath(new URL('../../../models/files/vosk', import.meta.url));

/** Runs before the library's worker code. */
const BROWSER_IN_THREAD = `${SURROUNDINGS}{
  const { parentPort } = require('node:worker_threads');
  const { readFile } = require('node:fs/promises');
  const plainFetch = globalThis.fetch;
  Object.assign(globalThis, {
    self: globalThis,
    addEventListener: (type, listener) => { if (type === 'message') parentPort.on('message', (data) => listener({ data })); },
    postMessage: (message) => parentPort.postMessage(message),
    close: () => process.exit(),
    fetch: (url, ...rest) => String(url).startsWith('file:') ? readFile(new URL(url)).then((bytes) => new Response(bytes), () => new Response(null, { status: 404 })) : plainFetch(url, ...rest),
    console: { ...console, log() {}, info() {}, debug() {}, warn() {}, error() {} },
  });
}\n`;

type Told = { readonly message: MessageEvent; readonly error: ErrorEvent };

/** As much of the Web's Worker as the library uses, over a thread of Node. The script comes from a blob's address. */
class ThreadWorker extends EventTarget {
  private thread: Thread | null = null;
  private ended = false;
  private waiting: [unknown, readonly ArrayBuffer[]][] = [];

  constructor(url: string) {
    super();
    void resolveObjectURL(url)?.text().then((code) => {
      if (this.ended) return;
      this.thread = new Thread(BROWSER_IN_THREAD + code, { eval: true });
      this.thread.on('message', (data: unknown) => this.tell('message', { data }));
      this.thread.on('error', (error) => this.tell('error', { message: error.message }));
      for (const [message, transfer] of this.waiting.splice(0)) this.thread.postMessage(message, [...transfer]);
    });
  }
  postMessage(message: unknown, options?: { readonly transfer?: readonly ArrayBuffer[] }): void {
    const transfer = options?.transfer ?? [];
    if (this.thread) this.thread.postMessage(message, [...transfer]); else this.waiting.push([message, transfer]);
  }
  terminate(): void {
    this.ended = true;
    void this.thread?.terminate();
  }
  private tell<Type extends keyof Told>(type: Type, more: Partial<Told[Type]>): void {
    this.dispatchEvent(Object.assign(new Event(type), more));
  }
}

/** What is installed in a folder, or null. */
export function nodeInstallation(folder = MODEL): Installation | null {
  const read = (name: string): unknown => {
    const path = join(folder, name);
    try { return existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')) : null; } catch { return null; }
  };
  return toInstallation(read(INSTALLED), read(SOUNDS_LIKE));
}

/** Name of the installed model, or null. */
export const installedVoskModel = (folder = MODEL): string | null => nodeInstallation(folder)?.model.name ?? null;

/** Name of the built-in engine's model, or null when set-up has not run. */
const builtInModel = (): string | null => { try { return installedModel().name; } catch { return null; } };

/** Which engine hears in Node: the one asked for, or the best that was measured. @throws Error naming the engines, or how to install the one asked for */
export function chooseNodeEngine(wanted: string, folder = MODEL): Choice {
  const found = nodeInstallation(folder);
  const builtIn = builtInModel();
  return chooseEngine({
    embedded: { installed: builtIn !== null, measured: builtIn === null ? undefined : measuredFor('embedded', builtIn) },
    vosk: { installed: found !== null, measured: found ? measuredFor('vosk', found.model.name) : undefined },
  }, wanted);
}

/**
 * The second engine in Node. Not loaded yet: await load(), then setGrammar(). Gives the process a global Worker if it has none.
 * @param options.folder what `npm run model:vosk` filled; models/files/vosk by default
 * @throws Error if no model is there
 */
export function createNodeVosk({ folder = MODEL, ...options }: Partial<VoskOptions> & { readonly folder?: string } = {}): VoskRecogniser {
  const found = nodeInstallation(folder);
  if (!found) throw new Error(`The second engine's model is not installed in ${folder}. Run "${INSTALL_COMMAND}" once.`);
  (globalThis as { Worker?: unknown }).Worker ??= ThreadWorker;
  return new VoskRecogniser({ contrasts: readContrasts(readFileSync(CONTRASTS, 'utf8')), ...options }, { ...found, archive: pathToFileURL(join(folder, found.model.archive)).href });
}
