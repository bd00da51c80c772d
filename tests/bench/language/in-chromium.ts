import { chromium } from 'playwright-core';
import { build } from 'vite';
import type { GrammarSources } from '../../../src/grammar';
import type { CompileTimes } from './compile';

/** The bundle of compile.ts, as a plain script that leaves `language` in the page. */
async function bundle(): Promise<string> {
  const entry = new URL('compile.ts', import.meta.url).pathname;
  const built = await build({ configFile: false, logLevel: 'error', build: { write: false, target: 'es2022', lib: { entry, formats: ['iife'], name: 'language' } } });
  const [first] = Array.isArray(built) ? built : [built];
  if (!first || !('output' in first)) throw new Error('The bundle for Chromium could not be built.');
  return first.output[0].code;
}

/** Compiles the grammars in real Chromium, each time in a fresh page, so that every run is as cold as the first start is. */
export async function compileInChromium(sources: GrammarSources, runs: number): Promise<CompileTimes[]> {
  const code = await bundle();
  const browser = await chromium.launch({ executablePath: process.env['CHROMIUM'] ?? '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
  try {
    const times: CompileTimes[] = [];
    for (let run = 0; run < runs; run += 1) {
      const context = await browser.newContext();
      const page = await context.newPage();
      await page.addScriptTag({ content: code });
      times.push(await page.evaluate((texts) => (globalThis as unknown as { language: { timeCompile: (sources: unknown) => CompileTimes } }).language.timeCompile(texts), sources));
      await context.close();
    }
    return times;
  } finally { await browser.close(); }
}
