import { mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import type { Utterance } from '../../../src/recogniser';
import { ENDPOINTER } from '../../../src/recogniser/endpointer';
import { ensureBuild } from '../../../src/setup/steps.mjs';
import { inQuietRoom } from '../../speech/mix';
import { begin, launch, openPage, options, servePage } from '../../e2e/browser';
import { parse } from './engine';
import { findingClips, loadRecording, writeWav } from './material';
import { percent } from './table';

/**
 * How long a finding takes in a real browser: sentences are played into Chromium's fake microphone, and the page is watched
 * from outside: what goes to the hearing worker and comes back, and what the screen then shows. The product is not changed for it.
 */

/** What the page was seen to do; times in ms of its own clock. */
interface Seen {
  /** After each chunk of audio: when it was posted, and how many samples had gone by then. */
  readonly audio: { readonly at: number; readonly samples: number }[];
  /** Energy of the audio posted, one value for each 10 ms. */
  readonly energy: number[];
  readonly utterances: { readonly at: number; readonly utterance: Pick<Utterance, 'text' | 'verdict' | 'start' | 'end'> }[];
  /** When the panel of what was heard came to read so. It shows a finding as filed only once it is stored. */
  readonly shown: { readonly at: number; readonly text: string }[];
  loadAsked: number;
  loaded: number;
}
declare global { interface Window { seen: Seen } }

/** Runs in the page before its own code. */
function watchPage(): void {
  const seen: Seen = { audio: [], energy: [], utterances: [], shown: [], loadAsked: 0, loaded: 0 };
  window.seen = seen;
  let [samples, sum, filled] = [0, 0, 0];
  window.Worker = class extends Worker {
    constructor(url: string | URL, settings?: WorkerOptions) {
      super(url, settings);
      if (settings?.name !== 'hearing') return;
      let grammar = -1;
      const post = this.postMessage.bind(this) as (message: unknown, transfer: Transferable[]) => void;
      this.postMessage = (message: { type: string; call?: number; audio?: Float32Array }, transfer?: unknown): void => {
        if (message.type === 'load') seen.loadAsked = performance.now();
        if (message.type === 'grammar') grammar = message.call ?? -1;
        if (message.type === 'audio' && message.audio) {
          for (const sample of message.audio) {
            sum += sample * sample;
            filled += 1;
            if (filled === 160) { seen.energy.push(sum); [sum, filled] = [0, 0]; }
          }
          samples += message.audio.length;
          seen.audio.push({ at: performance.now(), samples });
        }
        post(message, (transfer ?? []) as Transferable[]);
      };
      this.addEventListener('message', ({ data }: MessageEvent<{ type: string; call?: number; event?: { type: string; utterance: Utterance } }>) => {
        if (data.type === 'done' && data.call === grammar) seen.loaded = performance.now();
        if (data.event?.type === 'utterance') { const { text, verdict, start, end } = data.event.utterance; seen.utterances.push({ at: performance.now(), utterance: { text, verdict, start, end } }); }
      });
    }
  };
  let before = '';
  new MutationObserver(() => {
    const panel = document.querySelector('[aria-label="Heard"] > div')?.textContent ?? '';
    const question = document.querySelector('[aria-label="Question"]')?.textContent ?? '';
    const text = `${panel} ${question}`;
    if (text !== before) { before = text; seen.shown.push({ at: performance.now(), text }); }
  }).observe(document, { subtree: true, childList: true, characterData: true });
}

/** Runs in the worker as it starts: the speech library's memory can't be seen from outside. */
function watchMemory(): void {
  const scope = globalThis as unknown as { engineMemory: WebAssembly.Memory[] };
  scope.engineMemory = [];
  // The network's runtime is given its memory, the speech library brings its own.
  const Memory = WebAssembly.Memory;
  WebAssembly.Memory = class extends Memory {
    constructor(size: WebAssembly.MemoryDescriptor) { super(size); scope.engineMemory.push(this); }
  };
  for (const name of ['instantiate', 'instantiateStreaming'] as const) {
    const original = WebAssembly[name] as (...args: unknown[]) => Promise<WebAssembly.WebAssemblyInstantiatedSource | WebAssembly.Instance>;
    (WebAssembly as unknown as Record<string, unknown>)[name] = async (...args: unknown[]) => {
      const made = await original.apply(WebAssembly, args);
      for (const value of Object.values(('instance' in made ? made.instance : made).exports)) if (value instanceof Memory) scope.engineMemory.push(value);
      return made;
    };
  }
}

interface Memory { readonly engine: number; readonly worker: number; readonly page: number }
/** MiB: the engine's own, the JavaScript heap of its worker, and that of the page. */
async function memoryOf(page: Page): Promise<Memory> {
  const session = await page.context().newCDPSession(page);
  const { usedSize } = await session.send('Runtime.getHeapUsage');
  const used = new Promise<number>((resolve) => {
    // The protocol's types lack the older, nested form of talking to a worker.
    const nested = session as unknown as { on(name: string, call: (event: { sessionId: string; message: string; targetInfo: { type: string } }) => void): void; send(name: string, settings: object): Promise<unknown> };
    nested.on('Target.attachedToTarget', ({ sessionId, targetInfo }) => { if (targetInfo.type === 'worker') void nested.send('Target.sendMessageToTarget', { sessionId, message: JSON.stringify({ id: 1, method: 'Runtime.getHeapUsage' }) }); });
    nested.on('Target.receivedMessageFromTarget', ({ message }) => { const { result } = JSON.parse(message) as { result?: { usedSize: number } }; if (result) resolve(result.usedSize); });
    void nested.send('Target.setAutoAttach', { autoAttach: true, waitForDebuggerOnStart: false, flatten: false });
  });
  const engine = await page.workers().find((worker) => worker.url().includes('hearing'))?.evaluate(() => (globalThis as unknown as { engineMemory: WebAssembly.Memory[] }).engineMemory.reduce((sum, memory) => sum + memory.buffer.byteLength, 0));
  const bytes = { engine: engine ?? NaN, worker: await used, page: usedSize };
  return { engine: bytes.engine / 2 ** 20, worker: bytes.worker / 2 ** 20, page: bytes.page / 2 ** 20 };
}

const energyOf = (audio: Float32Array): number[] => Array.from({ length: Math.floor(audio.length / 160) }, (_, i) => audio.subarray(i * 160, (i + 1) * 160).reduce((sum, sample) => sum + sample * sample, 0));
/** Seconds in a recording at which its last 10 ms within 30 dB of the loudest end. */
function endOfSpeech(audio: Float32Array): number {
  const energy = energyOf(audio);
  const limit = Math.max(...energy) / 1000;
  return (energy.findLastIndex((value) => value > limit) + 1) / 100;
}

/** How many frames later `heard` begins than `played`: where their levels go together best. */
function offsetOf(played: readonly number[], heard: readonly number[]): number {
  const level = (energy: readonly number[]): number[] => { const logs = energy.map((value) => Math.log(value + 1e-4)); const mean = logs.reduce((sum, value) => sum + value, 0) / (logs.length || 1); return logs.map((value) => value - mean); };
  const [a, b] = [level(played), level(heard)];
  let best = { offset: 0, fit: -Infinity };
  for (let offset = -600; offset <= 600; offset += 1) {
    let fit = 0;
    for (let i = Math.max(0, offset); i < Math.min(a.length, b.length + offset); i += 1) fit += (a[i] ?? 0) * (b[i - offset] ?? 0);
    if (fit > best.fit) best = { offset, fit };
  }
  return best.offset;
}

const quantile = (values: readonly number[], share: number): number => [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? NaN;
const ms = (values: readonly number[]): string => (values.length ? `p50 ${quantile(values, 0.5).toFixed(0)} ms, p95 ${quantile(values, 0.95).toFixed(0)} ms, longest ${Math.max(...values).toFixed(0)} ms` : 'none');

/** Plays some measuring sentences, each a whole finding with its side, and tells the times. */
export async function measureBrowser(count: number): Promise<string[]> {
  ensureBuild();
  const clips = findingClips(1).filter(({ said }) => parse(said, { findings: [] }).every(({ type }) => type === 'findings'));
  const step = Math.max(1, Math.floor(clips.length / count));
  const chosen = clips.filter((_, i) => i % step === 0).slice(0, count);
  const played: number[] = Array.from(inQuietRoom(new Float32Array(16_000), 1));
  const ends: number[] = []; // seconds into the recording
  for (const { path } of chosen) {
    const speech = await loadRecording(path);
    ends.push(played.length / 16_000 + endOfSpeech(speech));
    for (const sample of speech) played.push(sample);
    for (let i = 0; i < 9_600; i += 1) played.push(0);
  }
  const audio = inQuietRoom(Float32Array.from(played), 2).subarray(16_000);
  const folder = mkdtempSync(join(tmpdir(), 'hearing-'));
  writeWav(join(folder, 'speech.wav'), audio);
  const served = await servePage();
  const browser = await launch({ kind: 'file', wav: join(folder, 'speech.wav') });
  try {
    const { page } = await openPage(await browser.newContext(options()), 'about:blank');
    await page.addInitScript(watchPage);
    page.on('worker', (worker) => { if (worker.url().includes('hearing')) void worker.evaluate(watchMemory); });
    await page.goto(served.address);
    await begin(page, { side: 'Right', protocol: 'Complete examination', label: 'Heron 27' });
    await page.waitForTimeout((audio.length / 16_000 + 8) * 1000);
    const memory = await memoryOf(page);
    return report(await page.evaluate(() => window.seen), ends, energyOf(audio), memory);
  } finally {
    await browser.close();
    await served.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

function report(seen: Seen, ends: readonly number[], played: readonly number[], memory: Memory): string[] {
  const offset = offsetOf(played, seen.energy) / 100;
  // The clock at which the stream's first sample was spoken: no chunk can come before its last sample was.
  const began = Math.min(...seen.audio.map(({ at, samples }) => at - samples / 16));
  const rows = ends.flatMap((end, i) => {
    const spoken = end - offset;
    const next = (ends[i + 1] ?? Infinity) - offset;
    // The last utterance that ends about where the sentence does, before the next one.
    const heard = seen.utterances.filter(({ utterance }) => utterance.verdict !== 'ignored' && utterance.end > spoken - 0.5 && utterance.end < Math.min(next - 0.5, spoken + 1.5)).at(-1);
    if (!heard) return [];
    const due = began + (spoken + ENDPOINTER.hangOver) * 1000;
    const shown = seen.shown.find(({ at, text }) => at >= heard.at && text.includes(heard.utterance.text));
    const decided = seen.audio.find(({ samples }) => samples / 16_000 >= heard.utterance.end - ENDPOINTER.tail + ENDPOINTER.hangOver)?.at ?? heard.at;
    return [{ verdict: heard.utterance.verdict, heard: heard.at - due, shown: shown ? shown.at - due : null, endpoint: (heard.utterance.end - ENDPOINTER.tail - spoken) * 1000, decoding: heard.at - decided, filing: shown ? shown.at - heard.at : null }];
  });
  const coded = rows.filter(({ verdict }) => verdict === 'accepted');
  const shown = (list: readonly (typeof rows)[number][]): number[] => list.flatMap((row) => row.shown ?? []);
  return [
    `IN A BROWSER: ${ends.length} sentences played in real time into Chromium's microphone, synthetic voices; the page shows words while somebody speaks and keeps the sound. Load of the machine: ${loadavg()[0]?.toFixed(1)} on ${availableParallelism()} cores (above 1, times are too long).`,
    `Heard ${rows.length} (${percent(rows.length, ends.length)} %), filed ${coded.length}, asked ${rows.length - coded.length}.`,
    `End of speech to coded finding on the screen, stored, beyond the ${ENDPOINTER.hangOver} s of quiet that end an utterance (aim: p95 ≤ 150 ms):`,
    `  filed                         ${ms(shown(coded))}`,
    `  filed or asked                ${ms(shown(rows))}`,
    `  of which: where the endpointer put the end ${ms(rows.map(({ endpoint }) => endpoint))}; hearing after the deciding sound ${ms(rows.map(({ decoding }) => decoding))}; parsing, storing, showing ${ms(rows.flatMap(({ filing }) => filing ?? []))}`,
    `Loading engine, model and grammar in its worker: ${((seen.loaded - seen.loadAsked) / 1000).toFixed(2)} s.`,
    `Memory after all of it: engine ${memory.engine.toFixed(0)} MiB, JavaScript of its worker ${memory.worker.toFixed(0)} MiB (aim, together: ≤ 96); page ${memory.page.toFixed(0)} MiB.`,
    '',
  ];
}
