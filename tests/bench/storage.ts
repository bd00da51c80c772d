/**
 * How long an append takes when an examination has grown to 1,000 events, in a real Chromium (IndexedDB, flushed to disk)
 * and, for comparison, in memory; and how long the pure parts take on the same record.
 *
 *   npm run bench:storage
 */
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import { build } from 'vite';
import { protocolById, progress, respond } from '../../src/examination';
import { cautionsFor } from '../../src/cautions';
import { project } from '../../src/record';
import type { Happening, RecordEvent } from '../../src/record';
import { MUSCLES } from '../../src/vocabulary';

const EVENTS = 1_000;
const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** As an examiner fills it: each utterance heard, then filed. */
function longExamination(): RecordEvent[] {
  const happenings: Happening[] = [{ type: 'begun', setUp: { label: 'Bench', protocol: 'complete', injuredSide: 'left' } }];
  for (let n = 0; happenings.length < EVENTS; n += 1) {
    const site = MUSCLES[n % MUSCLES.length]!;
    const finding = { side: n % 2 ? 'left' : 'right', sign: 'power', site, result: { kind: 'grade', grade: '4' } } as const;
    happenings.push({ type: 'heard', utterance: { id: `u${n}`, text: `${site} grade four`, start: n, end: n + 1, confidence: 0.95, verdict: 'accepted', words: Array.from({ length: 4 }, (_, word) => ({ word: 'word', start: n + word / 4, end: n + (word + 1) / 4, confidence: 0.9 })), alternatives: [], source: 'bench' }, statements: [{ type: 'findings', findings: [finding], text: 'x' }] });
    happenings.push({ type: 'filed', findings: [{ id: `f${n}`, finding, utteranceId: `u${n}`, by: 'examiner', confidence: 0.95 }] });
  }
  return happenings.slice(0, EVENTS).map((happening, seq) => ({ examinationId: 'bench', seq, at: '2026-01-01T00:00:00.000Z', happening }));
}

const quantiles = (times: readonly number[]): string => {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): string => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!.toFixed(2);
  return `median ${at(0.5)} ms, 95 % ${at(0.95)} ms, worst ${sorted.at(-1)!.toFixed(2)} ms`;
};
const timed = (times: number, work: () => unknown): number[] => Array.from({ length: times }, () => { const start = performance.now(); work(); return performance.now() - start; });

const events = longExamination();
const record = project(events);
const protocol = protocolById('complete')!;
console.log(`Record of ${EVENTS} events, ${record.findings.length} findings (Node ${process.version}):`);
console.log(`  project (validate and fold)   ${quantiles(timed(10, () => project(events)))}`);
console.log(`  progress of every item        ${quantiles(timed(20, () => progress(record, protocol)))}`);
console.log(`  cautions                      ${quantiles(timed(20, () => cautionsFor(record)))}`);
const finding = { side: 'left', sign: 'light.touch', site: 'DR', result: { kind: 'level', level: 'reduced' } } as const;
console.log(`  respond to one finding        ${quantiles(timed(20, () => respond(record, { utterance: { id: 'new', text: 'x', start: 0, end: 1, confidence: 1, verdict: 'accepted', words: [], alternatives: [], source: 'bench' }, statements: [{ type: 'findings', findings: [finding], text: 'x' }] }, { protocol, newId: () => 'new' })))}`);

const bundle = await build({ configFile: false, logLevel: 'silent', build: { write: false, lib: { entry: here('../../src/record/index.ts'), formats: ['es'] } } });
const code = (Array.isArray(bundle) ? bundle : [bundle]).flatMap((output) => ('output' in output ? output.output : [])).flatMap((part) => (part.type === 'chunk' ? [part.code] : [])).join('\n');
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium', args: ['--no-sandbox'] });
try {
  const page = await browser.newPage();
  await page.route('**/*', (route) => route.fulfill(route.request().url().endsWith('.js') ? { contentType: 'text/javascript', body: code } : { contentType: 'text/html', body: '<!doctype html><title>bench</title>' }));
  await page.goto('http://localhost/');
  const appends = await page.evaluate(async (log) => {
    const { deviceStore } = await import(/* @vite-ignore */ new URL('/record.js', location.href).href) as typeof import('../../src/record');
    const store = await deviceStore('bench');
    const times: number[] = [];
    const samples = new Float32Array(16_000 * 2);
    for (const event of log as Parameters<typeof store.append>[0]) {
      const start = performance.now();
      await store.append([event], event.happening.type === 'heard' ? [{ utteranceId: event.happening.utterance.id, samples }] : []);
      times.push(performance.now() - start);
    }
    const start = performance.now();
    const kept = (await store.read('bench')).length;
    return { times, kept, read: performance.now() - start };
  }, events as unknown);
  if (appends.kept !== EVENTS) throw new Error(`Only ${appends.kept} of ${EVENTS} events were kept.`);
  console.log(`Chromium ${browser.version()}, IndexedDB, 2 s of audio with every utterance:`);
  console.log(`  append, events 1 to 100       ${quantiles(appends.times.slice(0, 100))}`);
  console.log(`  append, events 901 to 1000    ${quantiles(appends.times.slice(900))}`);
  console.log(`  reading all back              ${appends.read.toFixed(1)} ms`);
} finally {
  await browser.close();
}
