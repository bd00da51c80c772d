import type { SpokenGrammar } from '../../grammar';
import { Listeners } from '../listeners';
import type { Recogniser } from '../recogniser';
import type { FromFrame, Question, ToFrame } from './frame-messages';
import { NOT_INSTALLED, servedArchive, servedInstallation } from './installed';
import { ANSWER_TIMEOUT, LOAD_TIMEOUT, type VoskOptions } from './options';

export interface FramedOptions extends VoskOptions {
  /** Address of the folder that `npm run model:vosk` filled, relative to the page. */
  readonly base: string;
  /** Seconds until the model must have come from the server, and until the engine's own document must be there. */
  readonly fetchTimeout?: number;
  readonly startTimeout?: number;
}

/** The document beside the page; src/setup/vite-second-engine.ts builds it. */
const DOCUMENT = 'second-engine.html';
/** A sandboxed document and the port to it. */
interface Frame { readonly port: MessagePort; readonly close: () => void }

/** Opens the engine's document in a frame that is not seen. It gets no origin: neither the page's storage nor its server is open to it. */
async function openFrame(startTimeout: number, signal: AbortSignal): Promise<Frame> {
  const frame = document.createElement('iframe');
  frame.sandbox.add('allow-scripts');
  frame.hidden = true;
  frame.title = 'Second speech engine, nothing to see';
  frame.src = new URL(DOCUMENT, document.baseURI).href;
  const { port1: port, port2 } = new MessageChannel();
  const close = (): void => { port.close(); frame.remove(); };
  let timer: ReturnType<typeof setTimeout> | undefined;
  try {
    await new Promise<void>((resolve, reject) => {
      timer = setTimeout(() => reject(new Error(`The second engine's own document (${DOCUMENT}) did not start. Run "npm start" again, or use the built-in engine.`)), startTimeout * 1000);
      signal.addEventListener('abort', () => reject(new Error(CLOSED)), { once: true });
      port.onmessage = ({ data }: MessageEvent<FromFrame>) => { if (data.type === 'here') resolve(); };
      // A document without an origin can only be addressed as "*"; all that it is given is the port.
      frame.onload = () => frame.contentWindow?.postMessage(null, '*', [port2]);
      document.body.append(frame);
    });
    return { port, close };
  } catch (error) {
    close();
    throw error;
  } finally {
    clearTimeout(timer);
  }
}

const CLOSED = 'The second engine was closed while it was loading.';

/** Reads from the server with an end to the wait. */
async function withinTime<T>(seconds: number, signal: AbortSignal, work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const late = AbortSignal.timeout(seconds * 1000);
  try { return await work(AbortSignal.any([signal, late])); } catch (error) {
    if (signal.aborted) throw new Error(CLOSED);
    if (late.aborted) throw new Error(`The second engine's model could not be read from the recorder's own server within ${seconds} s. Is that server still running?`);
    throw error;
  }
}

interface Waiting { readonly resolve: () => void; readonly reject: (error: Error) => void; readonly timer: ReturnType<typeof setTimeout> }

/** The second engine for the recorder's page: in a document of its own, because the page's security policy rightly forbids what it needs. */
export class FramedVosk implements Recogniser {
  readonly engine = 'vosk';
  private readonly listeners = new Listeners();
  readonly listen = this.listeners.add;
  private readonly ending = new AbortController();
  private readonly waiting = new Map<number, Waiting>();
  private frame: Frame | null = null;
  private calls = 0;
  private failed = false;

  constructor(private readonly options: FramedOptions) {}

  async load(): Promise<void> {
    const { base, fetchTimeout = 60, startTimeout = 20, ...options } = this.options;
    const { signal } = this.ending;
    const { installation, archive } = await withinTime(fetchTimeout, signal, async (early) => {
      const installation = await servedInstallation(base, early);
      if (!installation) throw new Error(NOT_INSTALLED);
      return { installation, archive: await servedArchive(base, installation.model, early) };
    });
    const frame = await openFrame(startTimeout, signal);
    frame.port.onmessage = ({ data }: MessageEvent<FromFrame>) => this.take(data);
    this.frame = frame;
    try { await this.ask({ type: 'load', options, installation, archive }, [archive]); } catch (error) {
      this.closeFrame();
      throw error;
    }
  }

  setGrammar(grammar: SpokenGrammar): Promise<void> { return this.ask({ type: 'grammar', grammar }); }

  push(audio: Float32Array): void {
    if (!this.frame || this.failed) return;
    const copy = audio.slice();
    this.ask({ type: 'audio', audio: copy }, [copy.buffer]).catch((error: Error) => this.fail(error));
  }

  finish(): Promise<void> { return this.ask({ type: 'finish' }); }

  dispose(): void {
    if (this.ending.signal.aborted) return;
    this.ending.abort();
    this.listeners.clear();
    this.closeFrame();
  }

  private closeFrame(): void {
    this.frame?.close();
    this.frame = null;
    for (const { reject, timer } of this.waiting.values()) { clearTimeout(timer); reject(new Error('The second engine was closed.')); }
    this.waiting.clear();
  }

  private ask(question: Question, transfer: Transferable[] = []): Promise<void> {
    const { frame } = this;
    if (!frame) return Promise.reject(new Error('The second engine is not loaded.'));
    this.calls += 1;
    const call = this.calls;
    return new Promise((resolve, reject) => {
      const patience = this.patience(question);
      const timer = setTimeout(() => {
        this.waiting.delete(call);
        const error = new Error(`The second engine has not answered for ${patience} s.`);
        reject(error);
        this.fail(error);
      }, patience * 1000);
      this.waiting.set(call, { resolve, reject, timer });
      frame.port.postMessage({ ...question, call } satisfies ToFrame, transfer);
    });
  }

  /** Seconds after which a question without an answer means that the document itself hangs or is gone; the engine inside gives up earlier, with better words. */
  private patience({ type }: Question): number {
    const { loadTimeout = LOAD_TIMEOUT, answerTimeout = ANSWER_TIMEOUT } = this.options;
    return type === 'load' ? loadTimeout + 30 : 2 * answerTimeout;
  }

  private take(message: FromFrame): void {
    if (message.type === 'event') { this.listeners.tell(message.event); return; }
    if (message.type === 'here') return;
    const asked = this.waiting.get(message.call);
    this.waiting.delete(message.call);
    clearTimeout(asked?.timer);
    if (message.type === 'done') asked?.resolve(); else asked?.reject(new Error(message.message));
  }

  /** The engine's document itself has stopped; failures inside it come as events of its own. */
  private fail({ message }: Error): void {
    if (this.failed || this.ending.signal.aborted) return;
    this.failed = true;
    this.listeners.tell({ type: 'failed', message: `${message} Switch to the built-in engine, or reload the page.`, fatal: true });
  }
}
