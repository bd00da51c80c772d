/**
 * The script of second-engine.html, the only document that may evaluate code: the engine's library needs that. It is sandboxed
 * without an origin and may talk to no server, so whatever runs here reaches neither the examinations nor anything outside.
 * Model and sound come in through one port, and what was heard goes out through it.
 */
import { SURROUNDINGS } from './surroundings';
import type { FromFrame, ToFrame } from './frame-messages';
import { VoskRecogniser } from './vosk-recogniser';

const plainUrl = URL.createObjectURL.bind(URL);
URL.createObjectURL = (object) => plainUrl(object instanceof Blob && object.type === 'application/javascript' ? new Blob([SURROUNDINGS, object], { type: object.type }) : object);

function serve(port: MessagePort): void {
  const post = (message: FromFrame): void => port.postMessage(message);
  let engine: VoskRecogniser | null = null;

  async function load({ options, installation, archive }: Extract<ToFrame, { type: 'load' }>): Promise<void> {
    const url = plainUrl(new Blob([archive]));
    engine = new VoskRecogniser(options, { ...installation, archive: url });
    engine.listen((event) => post({ type: 'event', event }));
    try { await engine.load(); } finally { URL.revokeObjectURL(url); }
  }

  async function answer(message: ToFrame): Promise<void> {
    if (message.type === 'load') return load(message);
    if (!engine) throw new Error('The second engine is not loaded.');
    if (message.type === 'grammar') return engine.setGrammar(message.grammar);
    if (message.type === 'audio') return engine.push(message.audio);
    return engine.finish();
  }

  port.onmessage = ({ data }: MessageEvent<ToFrame>) => {
    answer(data).then(
      () => post({ type: 'done', call: data.call }),
      (error: unknown) => post({ type: 'failed', call: data.call, message: error instanceof Error ? error.message : String(error) }),
    );
  };
  post({ type: 'here' });
}

addEventListener('message', ({ source, ports: [port] }) => { if (source === window.parent && port) serve(port); }, { once: true });
