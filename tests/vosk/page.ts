/** What the tests drive inside the browser: the real adapter over the real library. */
import type { SpokenGrammar } from '../../src/grammar';
import type { RecogniserEvent } from '../../src/recogniser/recogniser';
import { VoskRecogniser, type VoskOptions } from '../../src/recogniser/vosk';

/** A grammar as it crosses from the test to the page. */
export type PlainGrammar = Omit<SpokenGrammar, 'pronunciations'>;

/** Every worker that the library starts tells the size of its WebAssembly memory when asked on this channel. */
const PROBE = `{
  const memories = [];
  const keep = (result) => { const { exports } = result.instance ?? result; memories.push(...Object.values(exports).filter((one) => one instanceof WebAssembly.Memory)); return result; };
  for (const name of ['instantiate', 'instantiateStreaming']) { const plain = WebAssembly[name]; WebAssembly[name] = (...args) => plain.apply(WebAssembly, args).then(keep); }
  const channel = new BroadcastChannel('memory');
  channel.onmessage = ({ data }) => { if (data === 'how much') channel.postMessage(memories.reduce((sum, { buffer }) => sum + buffer.byteLength, 0)); };
}\n`;
const plainUrl = URL.createObjectURL.bind(URL);
URL.createObjectURL = (object) => plainUrl(object instanceof Blob && object.type === 'application/javascript' ? new Blob([PROBE, object], { type: object.type }) : object);

const workers: Worker[] = [];
let ended = 0;
const NativeWorker = Worker;
globalThis.Worker = class extends NativeWorker {
  constructor(url: string | URL, options?: WorkerOptions) { super(url, options); workers.push(this); }
  override terminate(): void { ended += 1; super.terminate(); }
};

const engines: { readonly engine: VoskRecogniser; readonly events: RecogniserEvent[] }[] = [];
const at = (id: number): (typeof engines)[number] => engines[id]!;

/** Bytes cross as base64; see chromium.ts. */
export const toBase64 = (bytes: Uint8Array): string => { let text = ''; for (let n = 0; n < bytes.length; n += 0x8000) text += String.fromCharCode(...bytes.subarray(n, n + 0x8000)); return btoa(text); };
export const toFloats = (text: string): Float32Array => new Float32Array(Uint8Array.from(atob(text), (char) => char.charCodeAt(0)).buffer);

const harness = {
  make(options: VoskOptions): number {
    const engine = new VoskRecogniser(options);
    const events: RecogniserEvent[] = [];
    engine.listen((event) => events.push(event));
    return engines.push({ engine, events }) - 1;
  },
  load: (id: number) => at(id).engine.load(),
  setGrammar: (id: number, grammar: PlainGrammar) => at(id).engine.setGrammar({ ...grammar, pronunciations: new Map() }),
  /** Pushes audio in chunks. */
  push(id: number, audio: string, chunk: number) {
    const samples = toFloats(audio);
    for (let n = 0; n < samples.length; n += chunk) at(id).engine.push(samples.slice(n, n + chunk));
  },
  finish: (id: number) => at(id).engine.finish(),
  dispose: (id: number) => at(id).engine.dispose(),
  /** Takes the events so far. */
  events: (id: number) => at(id).events.splice(0).map((event) =>
    (event.type === 'utterance' ? { ...event, utterance: { ...event.utterance, audio: event.utterance.audio && toBase64(new Uint8Array(event.utterance.audio.buffer)) } } : event)),
  workers: () => ({ made: workers.length, ended }),
  /** Stops the library's worker in its tracks, as a crash would. */
  stopWorker: () => workers.at(-1)!.terminate(),
  /** Bytes of WebAssembly memory in the worker. */
  memory: () => new Promise<number>((resolve) => {
    const channel = new BroadcastChannel('memory');
    channel.onmessage = ({ data }) => { if (typeof data === 'number') { channel.close(); resolve(data); } };
    channel.postMessage('how much');
  }),
  /** Top folders that the library keeps in the browser's storage. */
  async kept(): Promise<string[]> {
    if (!(await indexedDB.databases()).some(({ name }) => name === '/vosk')) return [];
    return new Promise((resolve, reject) => {
      const open = indexedDB.open('/vosk');
      open.onerror = () => reject(open.error ?? new Error('not opened'));
      open.onsuccess = () => {
        const keys = open.result.transaction('FILE_DATA').objectStore('FILE_DATA').getAllKeys();
        keys.onsuccess = () => { open.result.close(); resolve([...new Set(keys.result.map((key) => String(key).split('/')[2]!))]); };
      };
    });
  },
};
export type Harness = typeof harness;
Object.assign(globalThis, { harness });
