import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join, normalize } from 'node:path';
import { chromium, type Browser, type Page } from 'playwright-core';
import { build, type Rolldown } from 'vite';
import type { SpokenGrammar } from '../../src/grammar';
import type { Recogniser, RecogniserEvent } from '../../src/recogniser/recogniser';
import type { VoskOptions } from '../../src/recogniser/vosk';
import type { Harness } from './page';

declare const harness: Harness;

async function bundle(): Promise<string> {
  const result = await build({
    configFile: false, logLevel: 'error', root: import.meta.dirname,
    build: { write: false, minify: false, target: 'es2022', lib: { entry: join(import.meta.dirname, 'page.ts'), formats: ['es'], fileName: 'page' }, rollupOptions: { output: { codeSplitting: false } } },
  }) as Rolldown.RolldownOutput[];
  return result[0]!.output[0].code;
}

/** Content security policies by page, to learn what the library needs. */
export const POLICIES: Readonly<Record<string, string>> = {
  '/no-eval': "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; worker-src blob:; connect-src 'self' data:",
  '/eval': "default-src 'self'; script-src 'self' 'unsafe-eval'; worker-src blob:; connect-src 'self' data:",
  '/no-worker': "default-src 'self'; script-src 'self' 'unsafe-eval'; worker-src 'none'",
};

export interface Lab {
  /** Opens a page with its own storage, or another page on the storage of one that is open. */
  page(path?: string, beside?: Page, init?: string): Promise<Page>;
  close(): Promise<void>;
}

/**
 * A browser with the adapter in it and a server that gives it model files. A model folder whose name begins with
 * "silent" never gets its archive.
 * @param modelsDir folder served as /models/
 */
export async function openLab(modelsDir: string): Promise<Lab> {
  const code = await bundle();
  const server: Server = createServer((request, response) => {
    const path = (request.url ?? '/').split('?')[0]!;
    const policy = POLICIES[path];
    if (policy) response.setHeader('content-security-policy', policy);
    if (path === '/page.js') { response.setHeader('content-type', 'text/javascript'); response.end(code); return; }
    if (!path.startsWith('/models/')) { response.setHeader('content-type', 'text/html'); response.end('<!doctype html><title>lab</title><script type="module" src="/page.js"></script>'); return; }
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
    async page(path = '/', beside, init) {
      const context = beside?.context() ?? await browser.newContext();
      const page = await context.newPage();
      if (init) await page.addInitScript(init);
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

const base64 = (audio: Float32Array): string => Buffer.from(audio.buffer, audio.byteOffset, audio.byteLength).toString('base64');
const floats = (text: string): Float32Array => { const bytes = Buffer.from(text, 'base64'); return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length)); };

/** The engine on a page, as a recogniser in Node, so that tests and benchmarks written for the interface can drive it. */
export class EngineOnPage implements Recogniser {
  readonly engine = 'vosk';
  private readonly listeners = new Set<(event: RecogniserEvent) => void>();
  private sending: Promise<unknown> = Promise.resolve();

  private constructor(readonly page: Page, private readonly id: number, private readonly chunk: number) {}

  /** @param chunk samples a time in which audio is pushed */
  static async on(page: Page, options: VoskOptions, chunk = 1600): Promise<EngineOnPage> {
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
