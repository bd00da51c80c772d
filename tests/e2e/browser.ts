import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { preview } from 'vite';
import type { PreviewServer } from 'vite';

const ROOT = join(import.meta.dirname, '../..');
const ARGS = ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--no-first-run', '--autoplay-policy=no-user-gesture-required'];

/** The built page on a server of its own, as `npm start` serves it. */
export async function servePage(): Promise<{ readonly address: string; readonly stop: () => Promise<void> }> {
  if (!existsSync(join(ROOT, 'dist/index.html'))) throw new Error('The page is not built. "npm test" builds it; or run: npx vite build');
  const server: PreviewServer = await preview({ root: join(ROOT, 'src'), configFile: join(ROOT, 'vite.config.ts'), logLevel: 'error', preview: { host: '127.0.0.1', port: 4400, strictPort: false, open: false } });
  const address = server.resolvedUrls?.local[0];
  if (!address) throw new Error('The page could not be served.');
  return { address, stop: async () => { await server.close(); } };
}

export type Microphone = { readonly kind: 'none' } | { readonly kind: 'refused' } | { readonly kind: 'tone' } | { readonly kind: 'file'; readonly wav: string };

/** A browser whose microphone is a file, a tone, refused, or not there. */
export const launch = (microphone: Microphone): Promise<Browser> => chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: [
    ...ARGS,
    ...(microphone.kind === 'none' ? [] : ['--use-fake-device-for-media-stream']),
    ...(microphone.kind === 'tone' || microphone.kind === 'file' ? ['--use-fake-ui-for-media-stream'] : ['--deny-permission-prompts']),
    ...(microphone.kind === 'file' ? [`--use-file-for-fake-audio-capture=${microphone.wav}%noloop`] : []),
  ],
});

/** What must never happen on any page, gathered while a test runs. */
export interface Watch { readonly outside: string[]; readonly blocked: string[]; readonly errors: string[] }

/** A page that watches for requests to anywhere else, for what the Content-Security-Policy had to stop, and for errors. */
export async function openPage(context: BrowserContext, address: string, hash = ''): Promise<{ readonly page: Page; readonly watch: Watch }> {
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  const watch: Watch = { outside: [], blocked: [], errors: [] };
  const origin = new URL(address).origin;
  page.on('request', (request) => { if (!request.url().startsWith(origin) && !/^(data|blob):/.test(request.url())) watch.outside.push(request.url()); });
  page.on('console', (message) => { if (/Content[- ]Security[- ]Policy/i.test(message.text())) watch.blocked.push(message.text()); });
  page.on('pageerror', (error) => watch.errors.push(error.message));
  await page.goto(address + hash);
  return { page, watch };
}

export const options = (width = 1280, height = 800): BrowserContextOptions => ({ viewport: { width, height }, permissions: ['microphone'] });

/** 16-bit samples, little-endian, at 16 kHz, as the WAV that Chromium's fake microphone takes. */
export function wavFile(samples: Buffer): Buffer {
  const header = Buffer.alloc(44);
  header.write('RIFF', 0); header.writeUInt32LE(36 + samples.length, 4); header.write('WAVEfmt ', 8); header.writeUInt32LE(16, 16);
  header.writeUInt16LE(1, 20); header.writeUInt16LE(1, 22); header.writeUInt32LE(16000, 24); header.writeUInt32LE(32000, 28); header.writeUInt16LE(2, 32); header.writeUInt16LE(16, 34);
  header.write('data', 36); header.writeUInt32LE(samples.length, 40);
  return Buffer.concat([header, samples]);
}

/** Reads a recording with the browser's own decoder and writes it as the 16-bit WAV that Chromium's fake microphone takes. */
export async function toWav(recording: string): Promise<{ readonly wav: string; readonly seconds: number; readonly peak: number; readonly remove: () => void }> {
  const browser = await launch({ kind: 'tone' });
  try {
    const page = await browser.newPage();
    const bytes = readFileSync(recording).toString('base64');
    const pcm = await page.evaluate(async (base64) => {
      const data = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      const audio = (await new OfflineAudioContext(1, 1, 16000).decodeAudioData(data.buffer)).getChannelData(0);
      const view = new DataView(new ArrayBuffer(audio.length * 2));
      audio.forEach((sample, n) => view.setInt16(n * 2, Math.round(sample * 32767), true));
      let text = '';
      for (let at = 0; at < view.byteLength; at += 0x8000) text += String.fromCharCode(...new Uint8Array(view.buffer, at, Math.min(0x8000, view.byteLength - at)));
      return btoa(text);
    }, bytes);
    const samples = Buffer.from(pcm, 'base64');
    const folder = mkdtempSync(join(tmpdir(), 'lumbrical-'));
    const wav = join(folder, 'speech.wav');
    writeFileSync(wav, wavFile(samples));
    let peak = 0;
    for (let at = 0; at < samples.length; at += 2) peak = Math.max(peak, Math.abs(samples.readInt16LE(at)));
    return { wav, seconds: samples.length / 32000, peak, remove: () => rmSync(folder, { recursive: true, force: true }) };
  } finally {
    await browser.close();
  }
}

/** The built page in a browser whose microphone hears a recording. */
export async function openSpokenPage(recording: string): Promise<{ readonly page: Page; readonly watch: Watch; readonly speech: { readonly seconds: number; readonly peak: number }; readonly close: () => Promise<void> }> {
  const served = await servePage();
  const speech = await toWav(join(import.meta.dirname, recording));
  const browser = await launch({ kind: 'file', wav: speech.wav });
  const opened = await openPage(await browser.newContext(options()), served.address);
  return { ...opened, speech, close: async () => { await browser.close(); await served.stop(); speech.remove(); } };
}

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** axe-core 4.14, rules tagged for WCAG 2.0 to 2.2, levels A and AA. */
export async function violations(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run: (root: Document, options: object) => Promise<{ violations: { id: string; nodes: { html: string; failureSummary: string }[] }[] }> } };
    const found = await axe.run(document, { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] });
    return found.violations.flatMap(({ id, nodes }) => nodes.map(({ html, failureSummary }) => `${id}: ${html} ${failureSummary}`));
  });
}

/** Begins an examination from the start screen. */
export async function begin(page: Page, { side, protocol, label }: { side: 'Left' | 'Right'; protocol: string; label?: string }): Promise<void> {
  if (label) await page.getByLabel('Label (a code, never a name)').fill(label);
  await page.getByRole('group', { name: 'Injured or affected side' }).getByRole('radio', { name: side, exact: true }).check();
  await page.getByRole('radio', { name: protocol }).check();
  await page.getByRole('button', { name: 'Begin' }).click();
  await page.getByLabel('Type what you would say').waitFor();
}

export async function type(page: Page, text: string): Promise<void> {
  await page.getByLabel('Type what you would say').fill(text);
  await page.getByLabel('Type what you would say').press('Enter');
}

/** The findings that stand, as the desk shows them. */
export const findingsAtDesk = async (page: Page): Promise<string[]> => page.locator('.finding.filed .coded-line').allInnerTexts();
