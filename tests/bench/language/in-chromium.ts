import { chromium, type CDPSession, type Page } from 'playwright-core';
import { build } from 'vite';
import type { GrammarSources } from '../../../src/grammar';

/** Milliseconds by the clock, and of the page's own thread, which other programs on the machine do not lengthen. */
export interface Duration { readonly wall: number; readonly processor: number }
export interface InChromium { readonly compile: Duration; readonly parser: Duration }

/** The bundle of compile.ts, as a plain script that leaves `language` in the page. */
async function bundle(): Promise<string> {
  const entry = new URL('compile.ts', import.meta.url).pathname;
  const built = await build({ configFile: false, logLevel: 'error', build: { write: false, target: 'es2022', lib: { entry, formats: ['iife'], name: 'language' } } });
  const [first] = Array.isArray(built) ? built : [built];
  if (!first || !('output' in first)) throw new Error('The bundle for Chromium could not be built.');
  return first.output[0].code;
}

async function time(page: Page, session: CDPSession, step: 'compileGrammar' | 'makeParser'): Promise<Duration> {
  const busy = async (): Promise<number> => 1000 * ((await session.send('Performance.getMetrics')).metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0);
  const before = await busy();
  const wall = await page.evaluate((name) => {
    const { language, sources } = globalThis as unknown as { language: Record<string, (sources: unknown) => number>; sources: unknown };
    const start = performance.now();
    language[name]!(sources);
    return performance.now() - start;
  }, step);
  return { wall, processor: (await busy()) - before };
}

/** Compiles the grammars in real Chromium, each time in a fresh page, so that every run is as cold as the first start is. */
export async function compileInChromium(sources: GrammarSources, runs: number): Promise<InChromium[]> {
  const code = await bundle();
  const browser = await chromium.launch({ executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
  try {
    const times: InChromium[] = [];
    for (let run = 0; run < runs; run += 1) {
      const context = await browser.newContext();
      const page = await context.newPage();
      await page.addScriptTag({ content: code });
      await page.evaluate((texts) => { (globalThis as unknown as { sources: unknown }).sources = texts; }, sources);
      const session = await context.newCDPSession(page);
      await session.send('Performance.enable', { timeDomain: 'threadTicks' });
      times.push({ compile: await time(page, session, 'compileGrammar'), parser: await time(page, session, 'makeParser') });
      await context.close();
    }
    return times;
  } finally { await browser.close(); }
}
