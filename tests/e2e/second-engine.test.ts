/**
 * The second engine on the real pages, in real Chromium, with a tiny real model whose speech sounds are tones
 * (tests/vosk/fixtures/make-tone-model.py): installed like any other, heard through the microphone, chosen, remembered, asked by the reviewer.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Happening } from '../../src/record';
import { pcm16ToBase64, toPcm16 } from '../../src/record/audio';
import { installedVoskModel } from '../../src/recogniser/vosk/node';
import { projectLanguage } from '../../src/setup/vosk-language';
import { installModel } from '../../src/setup/vosk-model';
import type { Finding } from '../../src/vocabulary';
import { toneInstall } from '../vosk/tone-language';
import { quiet, say } from '../vosk/tones';
import { begin, findingsAtDesk, launch, openPage, options, servePage, toWav, violations, wavFile } from './browser';
import type { Watch } from './browser';
import { MEDIAN_WRIST } from './median-wrist';

const RATE = 16_000;

const wav = (...parts: readonly Float32Array[]): Buffer => wavFile(Buffer.from(toPcm16(Float32Array.from(parts.flatMap((part) => [...part]))).buffer));

let home: string;
let served: Awaited<ReturnType<typeof servePage>>;
let browser: Browser;
beforeAll(async () => {
  home = mkdtempSync(join(tmpdir(), 'second-engine-'));
  await installModel({ ...toneInstall(home), language: { ...projectLanguage(), overrides: { thenar: ['thin are'] } } });
  writeFileSync(join(home, 'speech.wav'), wav(quiet(1), say('left thumb numb'), quiet(4), say('hello and hello'), quiet(6)));
  served = await servePage();
  browser = await launch({ kind: 'file', wav: join(home, 'speech.wav') });
});
afterAll(async () => {
  await browser?.close();
  await served?.stop();
  rmSync(home, { recursive: true, force: true });
});

const ROOT = join(import.meta.dirname, '../..');
const contexts: BrowserContext[] = [];
const watches: Watch[] = [];
/** A page whose server has the tone model installed, or not, or has lost its archive. */
async function page(model: 'installed' | 'not installed' | 'archive lost', [width, height] = [1280, 800], folder = home, from = browser): Promise<Page> {
  const context = await from.newContext(options(width, height));
  contexts.push(context);
  await context.route('**/models/vosk/**', (route) => {
    const name = new URL(route.request().url()).pathname.split('/').at(-1)!;
    if (model === 'not installed' || (model === 'archive lost' && name.endsWith('.tgz'))) return route.fulfill({ status: 404, body: 'Not found' });
    return route.fulfill({ path: join(folder, 'vosk', name), contentType: name.endsWith('.json') ? 'application/json' : 'application/octet-stream' });
  });
  const opened = await openPage(context, served.address);
  watches.push(opened.watch);
  await opened.page.getByText(/hears, because/).waitFor();
  return opened.page;
}
afterEach(async () => {
  for (const context of contexts.splice(0)) await context.close();
  expect(watches.splice(0).flatMap(({ outside, blocked, errors }) => [...outside, ...blocked, ...errors])).toEqual([]);
});

const panel = (page: Page) => page.getByRole('region', { name: 'Speech engine' });
const choose = (page: Page, group: string, name: string): Promise<void> => page.getByRole('group', { name: group }).getByRole('radio', { name }).check();

describe('the start screen', () => {
  it('says that the second engine is not installed, and how to install it', async () => {
    const opened = await page('not installed');
    const text = await panel(opened).innerText();
    expect(text).toContain('The built-in engine hears, because it is the only one installed.');
    expect(text).toMatch(/Second engine: not installed[\s\S]*npm run model:vosk[\s\S]*npm start/);
    expect(text).toMatch(/Built-in engine: installed/);
    expect(await opened.getByRole('group', { name: 'Which engine hears' }).count()).toBe(0);
  });

  it.each([[1280, 800], [390, 844]] as const)('offers the choice, says why, and keeps to WCAG 2.2 AA at %d x %d', async (width, height) => {
    const opened = await page('installed', [width, height]);
    expect(await panel(opened).innerText()).toContain('The built-in engine hears, because there are no measured figures for the second engine.');
    await choose(opened, 'Which engine hears', 'Second');
    await panel(opened).getByText('The second engine hears, because it was chosen.').waitFor();
    await choose(opened, 'How you speak', 'Freely');
    expect(await violations(opened)).toEqual([]);
    await opened.reload();
    await panel(opened).getByText('The second engine hears, because it was chosen.').waitFor();
    expect(await opened.getByRole('radio', { name: 'Freely' }).isChecked()).toBe(true);
  });
});

describe('the bedside', () => {
  it('hears free speech with the second engine, files a finding from it, drops other talk, and lets the built-in engine doubt it at the desk', async () => {
    const opened = await page('installed');
    await choose(opened, 'Which engine hears', 'Second');
    await choose(opened, 'How you speak', 'Freely');
    await begin(opened, { side: 'Left', protocol: 'Acute wound', label: 'Heron 27' });
    await opened.getByText('Free speech: what is not a known sentence').waitFor({ timeout: 60_000 });
    await opened.getByText('Left · numbness, thumb: present').first().waitFor({ timeout: 30_000 });
    await opened.locator('.partial').getByText('Not for the recorder').waitFor({ timeout: 30_000 });
    expect(opened.frames().filter((frame) => frame.url().endsWith('/second-engine.html'))).toHaveLength(1);

    await opened.getByRole('link', { name: 'Desk' }).click();
    expect(await findingsAtDesk(opened)).toEqual(['Left · numbness, thumb: present']);
    expect(await opened.locator('.utterances').innerText()).not.toContain('hello');
    await expect.poll(() => opened.frames().filter((frame) => frame.url().endsWith('/second-engine.html')).length).toBe(0);
    await opened.getByRole('button', { name: 'Second opinion on one utterance' }).click();
    await opened.getByText(/^The built-in engine heard /).first().waitFor({ timeout: 60_000 });
    await opened.getByText('Filed, in doubt').waitFor();
    expect(await violations(opened)).toEqual([]);
    await opened.getByRole('button', { name: 'Leave it as it is' }).click();
    await opened.getByText('Filed, in doubt').waitFor({ state: 'detached' });
    expect(await findingsAtDesk(opened)).toEqual(['Left · numbness, thumb: present']);
  });

  it('falls back to the built-in engine, and says why, where the second cannot be had', async () => {
    const opened = await page('archive lost');
    await choose(opened, 'Which engine hears', 'Second');
    await begin(opened, { side: 'Left', protocol: 'Acute wound', label: 'Heron 28' });
    await opened.getByText(/The second engine cannot be used, so the built-in engine hears\..*archive is not where it should be \(404\)/).waitFor({ timeout: 60_000 });
    await opened.getByText(/^(Listening|No signal)$/).waitFor({ timeout: 60_000 });
  });
});

describe('the desk', () => {
  const FROMENT: Finding = { side: 'left', sign: 'froment', site: 'D1', result: { kind: 'level', level: 'present' } };
  /** An examination that the built-in engine heard, with tones for its sound: "no" both times. */
  function examination(): string {
    const heard = (id: string, text: string): Happening => ({ type: 'heard', utterance: { id, text, start: 0, end: 1, confidence: 0.9, verdict: 'accepted', words: [], alternatives: [], source: 'embedded' }, statements: text === 'no' ? [{ type: 'order', order: { order: 'confirm', yes: false }, text }] : [{ type: 'findings', findings: [FROMENT], text }] });
    const happenings: Happening[] = [
      { type: 'begun', setUp: { label: 'Heron 29', protocol: 'wound' } }, heard('u1', 'no'), heard('u2', 'froment positive left'),
      { type: 'filed', findings: [{ id: 'f1', finding: FROMENT, utteranceId: 'u2', by: 'examiner', confidence: 0.9 }] },
    ];
    return JSON.stringify({
      format: 'lumbrical examination', version: 1, exportedAt: '2026-03-02T10:00:00.000Z', examinationId: 'second-opinion',
      events: happenings.map((happening, seq) => ({ examinationId: 'second-opinion', seq, at: '2026-03-02T10:00:00.000Z', happening })),
      audio: ['u1', 'u2'].map((utteranceId) => ({ utteranceId, sampleRate: RATE, pcm16: pcm16ToBase64(toPcm16(say('no'))) })),
    });
  }

  it('asks the second engine about stored sound: agreement is told, a difference is put to the reviewer', async () => {
    const opened = await page('installed');
    await opened.getByLabel('Import an examination file').setInputFiles({ name: 'examination.json', mimeType: 'application/json', buffer: Buffer.from(examination()) });
    await opened.getByRole('link', { name: 'Review at the desk: Heron 29' }).click();
    await opened.getByRole('button', { name: 'Second opinion on all 2' }).click();
    await opened.getByText('The second engine heard the same: together over 99 % sure.').waitFor({ timeout: 60_000 });
    const question = opened.getByRole('group', { name: 'Question about “froment positive left”' });
    await question.waitFor({ timeout: 60_000 });
    expect(await question.innerText()).toContain('The second engine heard “no” in the same sound. Is what was filed right? If not, correct or withdraw it.');
    expect(await findingsAtDesk(opened)).toEqual(['Left · Froment, thumb: positive']);
    await question.getByRole('button', { name: /Froment/ }).click();
    await question.waitFor({ state: 'detached' });
    await opened.reload();
    await opened.getByText('The second engine heard the same: together over 99 % sure.').waitFor();
    expect(await opened.getByRole('button', { name: /^Second opinion/ }).count()).toBe(0);
  });

  it('says what a second opinion needs where only one engine is installed', async () => {
    const opened = await page('not installed');
    await opened.getByLabel('Import an examination file').setInputFiles({ name: 'examination.json', mimeType: 'application/json', buffer: Buffer.from(examination()) });
    await opened.getByRole('link', { name: 'Review at the desk: Heron 29' }).click();
    await opened.getByText('For a second opinion on what was heard, install the second engine: npm run model:vosk').waitFor();
    expect(await opened.getByRole('button', { name: /^Second opinion/ }).count()).toBe(0);
  });
});

const given = process.env.LUMBRICAL_VOSK_MODEL;
describe.skipIf(!given && installedVoskModel() === null)('the English model (not on this machine: run "npm run model:vosk" or set LUMBRICAL_VOSK_MODEL)', () => {
  it('hears a spoken examination through the microphone and files nothing that was not said; voices are synthetic', async () => {
    const folder = given ? join(home, 'english') : join(ROOT, 'models/files');
    if (given) await installModel({ manifest: JSON.parse(readFileSync(join(ROOT, 'models/vosk.json'), 'utf8')), language: projectLanguage(), filesDir: folder, from: given });
    const speech = await toWav(join(import.meta.dirname, 'median-wrist.flac'));
    const own = await launch({ kind: 'file', wav: speech.wav });
    try {
      const opened = await page('installed', [1280, 800], folder, own);
      await choose(opened, 'Which engine hears', 'Second');
      await begin(opened, { side: 'Right', protocol: 'Acute wound', label: 'Heron 27' });
      await opened.getByText(/^(Listening|No signal|Too loud)$/).waitFor({ timeout: 150_000 });
      await opened.waitForTimeout((speech.seconds + 20) * 1000);
      await opened.getByRole('link', { name: 'Desk' }).click();
      const filed = await findingsAtDesk(opened);
      process.stdout.write(`second engine, one examination in synthetic voices: ${filed.length} of ${MEDIAN_WRIST.length} findings filed\n`);
      expect(filed.filter((finding) => !MEDIAN_WRIST.includes(finding))).toEqual([]);
      expect(filed.length).toBeGreaterThan(0);
    } finally {
      await own.close();
      speech.remove();
    }
  }, 400_000);
});
