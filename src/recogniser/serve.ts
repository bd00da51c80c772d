/// <reference lib="webworker" />
import { EmbeddedRecogniser, type EmbeddedOptions } from './embedded';
import type { SpeechModule } from './decoder';
import { readRescorer } from './rescorer/files';
import { openRescorer, type Rescorer } from './rescorer/rescorer';
import type { FromWorker, ToWorker } from './worker-messages';

const post = (message: FromWorker): void => { self.postMessage(message); };
/** Fetches once and says plainly when an address answers with a page instead of a model. */
export async function chosenModel(modelUrl: string): Promise<{ name: string; title: string; note?: string }> {
  const answer = await fetch(`${modelUrl}model.json`);
  if (!answer.ok) throw new Error(`no acoustic model is served at ${modelUrl} (${answer.status}); run "npm start" again to fetch it`);
  return await answer.json() as { name: string; title: string; note?: string };
}

/** Starts the speech library in a worker. */
export async function startModule(): Promise<SpeechModule> {
  // The web build asks for a document when it is imported.
  (self as unknown as { document?: object }).document ??= { currentScript: null, title: '' };
  const { default: createModule } = await import('soundswallower');
  return (await createModule({ defaultModel: null, modelBase: '', print: () => {}, printErr: () => {} } as never)) as unknown as SpeechModule;
}

/** Opens the network that weighs sentences, or answers null when set-up could not fetch it. */
async function servedRescorer(modelUrl: string): Promise<Rescorer | null> {
  const folder = `${modelUrl}rescorer/`;
  if (!(await fetch(`${folder}made.json`)).ok) return null;
  const [runtime, { default: wasm }, parts] = await Promise.all([
    import('onnxruntime-web/wasm'),
    import('onnxruntime-web/ort-wasm-simd-threaded.wasm?url'),
    readRescorer(async (name) => {
      const answer = await fetch(folder + name);
      if (!answer.ok) throw new Error(`${folder}${name} is not served (${answer.status}); run "npm start" again`);
      return new Uint8Array(await answer.arrayBuffer());
    }),
  ]);
  runtime.env.wasm.wasmPaths = { wasm };
  return openRescorer(runtime, parts);
}

/**
 * Makes this worker the thread of the embedded engine. Everything but the loading is EmbeddedRecogniser, as in Node.
 * @param parts what only code can bring: whether two sentences mean the same
 */
export function serve(parts: Pick<EmbeddedOptions, 'sameMeaning'> = {}): void {
  let engine: EmbeddedRecogniser | null = null;

  async function answer(message: ToWorker): Promise<void> {
    if (message.type === 'load') {
      const model = await chosenModel(message.modelUrl);
      engine = new EmbeddedRecogniser({
        ...parts, startModule, openRescorer: () => servedRescorer(message.modelUrl), modelDir: `${message.modelUrl}${model.name}`, modelName: model.name, contrasts: message.contrasts,
        partials: message.partials, keepAudio: message.keepAudio, ...(message.profile ? { profile: message.profile } : {}), newId: () => crypto.randomUUID(), ...(model.note ? { note: model.note } : {}),
      });
      engine.listen((event) => post({ type: 'event', event }));
      await engine.load();
      return;
    }
    if (!engine) throw new Error('The speech engine is not loaded yet.');
    if (message.type === 'grammar') await engine.setGrammar(message.grammar);
    else if (message.type === 'audio') engine.push(message.audio);
    else await engine.finish();
  }

  // One message after the other: loading is asynchronous, and audio must not overtake a grammar.
  let queue: Promise<void> = Promise.resolve();
  self.onmessage = ({ data }: MessageEvent<ToWorker>): void => {
    queue = queue.then(() => answer(data)).then(
      () => { if (data.type !== 'audio') post({ type: 'done', call: data.call }); },
      (error: unknown) => {
        const text = error instanceof Error ? error.message : String(error);
        if (data.type === 'audio') post({ type: 'event', event: { type: 'failed', message: `The speech engine stopped: ${text}. Reload the page; everything recorded so far is kept.`, fatal: true } });
        else post({ type: 'failed', call: data.call, message: text });
      },
    );
  };
}
