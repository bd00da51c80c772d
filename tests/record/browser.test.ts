import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import type * as Record from '../../src/record';

/** The store in a real Chromium: its IndexedDB, its Web Locks, its quota. */
const ADDRESS = 'http://localhost/';
const PAGE = `<!doctype html><title>record</title><script type="module">import * as record from '/record.js'; Object.assign(window, { record }, await record.openStore(), { ready: true });</script>`;
let code: string;
let browser: Browser;
let context: BrowserContext;

beforeAll(async () => {
  const bundle = await build({ configFile: false, logLevel: 'silent', build: { write: false, lib: { entry: fileURLToPath(new URL('../../src/record/index.ts', import.meta.url)), formats: ['es'] } } });
  code = (Array.isArray(bundle) ? bundle : [bundle]).flatMap((output) => ('output' in output ? output.output : [])).flatMap((part) => (part.type === 'chunk' ? [part.code] : [])).join('\n');
  browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox'] });
});
afterAll(() => browser?.close());
beforeEach(async () => {
  context = await browser.newContext();
  await context.route('**/*', (route) => route.fulfill(route.request().url().endsWith('.js') ? { contentType: 'text/javascript', body: code } : { contentType: 'text/html', body: PAGE }));
  return () => context.close();
});

async function tab(): Promise<Page> {
  const page = await context.newPage();
  await page.goto(ADDRESS);
  await page.waitForFunction(() => window.ready);
  return page;
}
/** What the page keeps for the tests. */
declare const window: { record: typeof Record; store: Record.Store; notice?: string; ready?: true; journal: Record.Journal };

const begin = (page: Page): Promise<string> => page.evaluate(async () => {
  window.journal = await window.record.Journal.begin(window.store, { label: 'Baker, crushed thumb', protocol: 'wound' });
  return window.journal.examinationId;
});
/** Resumes and gives back the labels and sides found, or why not. */
const resume = (page: Page, id: string): Promise<{ label?: string; sides?: (string | null)[]; faults?: readonly string[]; refused?: string }> => page.evaluate(async (examinationId) => {
  try {
    window.journal = await window.record.Journal.resume(window.store, examinationId);
    const { setUp, currentSide, faults } = window.journal.record;
    return { label: setUp?.label ?? '', sides: [currentSide], faults };
  } catch (error) { return { refused: (error as Error).message }; }
}, id);

describe('in a real browser', () => {
  test('a second tab is told, and takes over with nothing lost once the first is gone', async () => {
    const first = await tab();
    const id = await begin(first);
    await first.evaluate(() => window.journal.append([{ type: 'side set', side: 'left' }]));
    const second = await tab();
    expect(await resume(second, id)).toEqual({ refused: 'This examination is open in another tab or window. Go on there, or close it there and open it here again.' });
    await first.close();
    expect(await resume(second, id)).toEqual({ label: 'Baker, crushed thumb', sides: ['left'], faults: [] });
  });

  test('a page that dies in the middle resumes with all that was confirmed', async () => {
    const page = await tab();
    const id = await begin(page);
    const confirmed = await page.evaluate(async () => {
      let stored = 0;
      for (let n = 0; n < 25; n += 1) if ((await window.journal.append([{ type: 'side set', side: n % 2 ? 'left' : 'right' }], [{ utteranceId: `u${n}`, samples: new Float32Array(16_000).fill(0.25) }])).stored) stored += 1;
      void window.journal.append([{ type: 'side set', side: null }]); // under way when the page dies
      return stored;
    });
    await page.goto('about:blank');
    await page.close();
    const again = await tab();
    expect((await resume(again, id)).faults).toEqual([]);
    const kept = await again.evaluate(async (examinationId) => ({ events: window.journal.events.length, sample: (await window.store.audio(examinationId, 'u24'))?.[0] }), id);
    expect(confirmed).toBe(25);
    expect(kept.events).toBeGreaterThanOrEqual(26);
    expect(kept.sample).toBeCloseTo(0.25, 4);
  });

  test('a full device: findings stay in memory, the message says what to do, and room brings them in', async () => {
    const page = await tab();
    const cdp = await context.newCDPSession(page);
    // Before the first write: the browser remembers for a while how much room there was.
    await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(ADDRESS).origin, quotaSize: 500_000 });
    const id = await begin(page);
    const full = await page.evaluate(async () => {
      // Sound that the browser cannot pack small, or little would be enough.
      const samples = Float32Array.from({ length: 16_000 * 60 }, () => Math.random() * 2 - 1);
      const kept = await window.journal.append([{ type: 'side set', side: 'right' }], [{ utteranceId: 'u1', samples }]);
      return { kept: kept.stored ? 'stored' : kept.fault.message, side: window.journal.record.currentSide, unsaved: window.journal.unsaved.length };
    });
    expect(full).toEqual({ kept: 'The device has no room left to store the examination. Findings are held in memory: export the examination, free some space, then try again.', side: 'right', unsaved: 1 });
    await cdp.send('Storage.overrideQuotaForOrigin', { origin: new URL(ADDRESS).origin });
    expect(await page.evaluate(async () => [(await window.journal.retry()).stored, window.journal.unsaved.length])).toEqual([true, 0]);
    await page.close();
    expect(await resume(await tab(), id)).toMatchObject({ sides: ['right'] });
  });

  test('opens its store without a notice', async () => {
    const page = await tab();
    expect(await page.evaluate(() => [window.store.kind, window.notice ?? null])).toEqual(['device', null]);
  });
});
