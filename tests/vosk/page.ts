/** What the tests drive inside the browser: the real adapter over the real library. */
import type { SpokenGrammar } from '../../src/grammar';
import type { RecogniserEvent } from '../../src/recogniser/recogniser';
import { FramedVosk, type FramedOptions } from '../../src/recogniser/vosk';

/** A grammar as it crosses from the test to the page. */
export type PlainGrammar = Omit<SpokenGrammar, 'pronunciations'>;

const engines: { readonly engine: FramedVosk; readonly events: RecogniserEvent[] }[] = [];
const at = (id: number): (typeof engines)[number] => engines[id]!;

/** Bytes cross as base64; see chromium.ts. */
export const toBase64 = (bytes: Uint8Array): string => { let text = ''; for (let n = 0; n < bytes.length; n += 0x8000) text += String.fromCharCode(...bytes.subarray(n, n + 0x8000)); return btoa(text); };
export const toFloats = (text: string): Float32Array => new Float32Array(Uint8Array.from(atob(text), (char) => char.charCodeAt(0)).buffer);

const harness = {
  make(options: FramedOptions): number {
    const engine = new FramedVosk(options);
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
  /** Whether the page may evaluate code; asked later, because what a debugger starts always may. */
  evaluates: () => new Promise<boolean>((resolve) => { setTimeout(() => { try { (0, eval)('1'); resolve(true); } catch { resolve(false); } }); }),
  finish: (id: number) => at(id).engine.finish(),
  dispose: (id: number) => at(id).engine.dispose(),
  /** Takes the events so far. */
  events: (id: number) => at(id).events.splice(0).map((event) =>
    (event.type === 'utterance' ? { ...event, utterance: { ...event.utterance, audio: event.utterance.audio && toBase64(new Uint8Array(event.utterance.audio.buffer)) } } : event)),
};
export type Harness = typeof harness;
Object.assign(globalThis, { harness });
