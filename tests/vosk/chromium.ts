import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join, normalize } from 'node:path';
import { chromium, type Browser, type Frame, type Page } from 'playwright-core';
import { build, type Rolldown } from 'vite';
import type { SpokenGrammar } from '../../src/grammar';
import type { Recogniser, RecogniserEvent } from '../../src/recogniser/recogniser';
import type { FramedOptions } from '../../src/recogniser/vosk';
import { buildSecondEngine } from '../../src/setup/vite-second-engine';
import type { Harness } from './page';

declare const harness: Harness;

async function bundle(): Promise<string> {
  const result = await build({
    configFile: false, logLevel: 'error', root: import.meta.dirname,
    build: { write: false, minify: false, target: 'es2022', lib: { entry: join(import.meta.dirname, 'page.ts'), formats: ['es'], fileName: 'page' }, rollupOptions: { output: { codeSplitting: false } } },
  }) as Rolldown.RolldownOutput[];
  return result[0]!.output[0].code;
}

const SRC = join(import.meta.dirname, '../../src');
const policyOf = (html: string): string => /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/.exec(html)![1]!;
/** The security policy of the recorder's own page, under which the lab's pages stand too. */
export const PAGE_POLICY = policyOf(readFileSync(join(SRC, 'index.html'), 'utf8'));

/** What becomes of the engine's own document below a page's address, to learn what it needs. */
const TAMPERING: Readonly<Record<string, (html: string) => string | null>> = {
  '/': (html) => html,
  '/no-eval/': (html) => html.replace("'unsafe-eval'", "'wasm-unsafe-eval'"),
  '/no-worker/': (html) => html.replace('worker-src blob:', "worker-src 'none'"),
  '/no-document/': () => null,
  '/empty-document/': () => '<!doctype html><title>another page</title>',
};

/** Runs before the engine's own script, to tell the size of the WebAssembly memory of its workers, and to stop them in their tracks as a crash would. */
const PROBE = `{
  const inWorker = ${JSON.stringify(`{
    const memories = [];
    const keep = (result) => { const { exports } = result.instance ?? result; memories.push(...Object.values(exports).filter((one) => one instanceof WebAssembly.Memory)); return result; };
    for (const name of ['instantiate', 'instantiateStreaming']) { const plain = WebAssembly[name]; WebAssembly[name] = (...args) => plain.apply(WebAssembly, args).then(keep); }
    const channel = new BroadcastChannel('memory');
    channel.onmessage = ({ data }) => { if (data === 'how much') channel.postMessage(memories.reduce((sum, { buffer }) => sum + buffer.byteLength, 0)); };
  }\n`)};
  const plainUrl = URL.createObjectURL.bind(URL);
  URL.createObjectURL = (object) => plainUrl(object.type === 'application/javascript' ? new Blob([inWorker, object], { type: object.type }) : object);
  const NativeWorker = Worker;
  const workers = [];
  globalThis.Worker = class extends NativeWorker { constructor(...args) { super(...args); workers.push(this); } };
  globalThis.probe = {
    stop: () => workers.at(-1).terminate(),
    memory: () => new Promise((resolve) => {
      const channel = new BroadcastChannel('memory');
      channel.onmessage = ({ data }) => { if (typeof data === 'number') { channel.close(); resolve(data); } };
      channel.postMessage('how much');
    }),
  };
}\n`;
export interface Probe { stop(): void; memory(): Promise<number> }

export interface Lab {
  /** Opens a page with its own storage, at one of the addresses of TAMPERING. */
  page(path?: string): Promise<Page>;
  close(): Promise<void>;
}

/**
 * A browser with the adapter in it and a server that gives it model files. A model folder whose name begins with
 * "silent" never gets its archive.
 * @param modelsDir folder served as /models/
 */
export async function openLab(modelsDir: string): Promise<Lab> {
  const code = await bundle();
  const document = await buildSecondEngine(SRC);
  const server: Server = createServer((request, response) => {
    const path = (request.url ?? '/').split('?')[0]!;
    const send = (type: string, body: string | null): void => { response.statusCode = body === null ? 404 : 200; response.setHeader('content-type', type); response.end(body ?? 'Not found'); };
    if (path === '/page.js') { send('text/javascript', code); return; }
    if (path.endsWith('/second-engine.js')) { send('text/javascript', PROBE + document['second-engine.js']); return; }
    if (path.endsWith('/second-engine.html')) { send('text/html', TAMPERING[path.slice(0, -'second-engine.html'.length)]!(document['second-engine.html'])); return; }
    if (!path.startsWith('/models/')) { response.setHeader('content-security-policy', PAGE_POLICY); send('text/html', '<!doctype html><title>lab</title><script type="module" src="/page.js"></script>'); return; }
    if (path.startsWith('/models/silent') && path.endsWith('.tgz')) return;
    const file = normalize(join(modelsDir, decodeURIComponent(path.slice('/models/'.length))));
    if (!file.startsWith(modelsDir) || !existsSync(file) || !statSync(file).isFile()) { response.statusCode = 404; response.end(); return; }
    response.setHeader('content-type', file.endsWith('.json') ? 'application/json' : 'application/octet-stream');
    response.end(readFileSync(file));
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const browser: Browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox'] });
  return {
    async page(path = '/') {
      const page = await (await browser.newContext()).newPage();
      await page.goto(address + path);
      await page.waitForFunction(() => 'harness' in globalThis);
      return page;
    },
    async close() {
      await browser.close();
      server.closeAllConnections();
      await new Promise((done) => server.close(done));
    },
  };
}

/** The frames of a page that hold an engine. */
export const enginesIn = (page: Page): Frame[] => page.frames().filter((frame) => frame.url().endsWith('/second-engine.html'));

const base64 = (audio: Float32Array): string => Buffer.from(audio.buffer, audio.byteOffset, audio.byteLength).toString('base64');
const floats = (text: string): Float32Array => { const bytes = Buffer.from(text, 'base64'); return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length)); };

/** The engine on a page, as a recogniser in Node, so that tests and benchmarks written for the interface can drive it. */
export class EngineOnPage implements Recogniser {
  readonly engine = 'vosk';
  private readonly listeners = new Set<(event: RecogniserEvent) => void>();
  private sending: Promise<unknown> = Promise.resolve();

  private constructor(readonly page: Page, private readonly id: number, private readonly chunk: number) {}

  /** @param chunk samples a time in which audio is pushed */
  static async on(page: Page, options: FramedOptions, chunk = 1600): Promise<EngineOnPage> {
    return new EngineOnPage(page, await page.evaluate((options) => harness.make(options), options), chunk);
  }

  load(): Promise<void> { return this.call(() => this.page.evaluate((id) => harness.load(id), this.id)); }
  setGrammar({ pronunciations: _, ...grammar }: SpokenGrammar): Promise<void> {
    return this.call(() => this.page.evaluate(([id, grammar]) => harness.setGrammar(id, grammar), [this.id, grammar] as const));
  }
  push(audio: Float32Array): void {
    this.sending = this.sending.then(() => this.page.evaluate(([id, audio, chunk]) => harness.push(id, audio, chunk), [this.id, base64(audio), this.chunk] as const));
  }
  finish(): Promise<void> { return this.call(() => this.page.evaluate((id) => harness.finish(id), this.id)); }
  listen(listener: (event: RecogniserEvent) => void): () => void {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }
  /** A page that is closed already has taken its engine with it. */
  dispose(): void { this.sending = this.sending.then(() => this.page.evaluate((id) => harness.dispose(id), this.id)).catch((error: unknown) => { if (!this.page.isClosed()) throw error; }); }

  /** Delivers what has happened on the page since the last call. */
  async deliver(): Promise<void> {
    await this.sending;
    for (const event of await this.page.evaluate((id) => harness.events(id), this.id)) {
      const told: RecogniserEvent = event.type !== 'utterance' ? event : { ...event, utterance: { ...event.utterance, audio: floats(event.utterance.audio ?? '') } };
      for (const listener of [...this.listeners]) listener(told);
    }
  }

  private async call(work: () => Promise<void>): Promise<void> {
    await this.sending;
    try {
      await work();
    } catch (error) {
      throw new Error((error as Error).message.replace(/^page\.evaluate: (Error: )?/, '').split('\n')[0]);
    } finally {
      await this.deliver();
    }
  }
}
