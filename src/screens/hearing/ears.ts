import type { SpokenGrammar } from '../../grammar';
import type { Recogniser, RecogniserEvent, Utterance } from '../../recogniser';
import type { Message } from '../shared/messages';
import { messageOf, MESSAGES } from '../shared/messages';
import type { Level } from './level';
import { SILENT_PEAK } from './level';

/** Something that delivers 16 kHz mono audio: the microphone, or a recording. Rejects with a Message where it can't. */
export type Source = (heard: (audio: Float32Array) => void, ended: (why: Message | null) => void) => Promise<{ readonly stop: () => void }>;

export type EarsEvent =
  | { readonly type: 'ready'; readonly note?: string }
  | { readonly type: 'level'; readonly level: Level; readonly at: number }
  | { readonly type: 'partial'; readonly text: string }
  | { readonly type: 'utterance'; readonly utterance: Utterance }
  | { readonly type: 'note'; readonly note: string }
  | { readonly type: 'restarting' }
  | { readonly type: 'ended'; readonly why: Message | null }
  | { readonly type: 'failed'; readonly why: Message };

export interface EarsParts {
  readonly makeRecogniser: () => Recogniser;
  readonly grammar: () => Promise<SpokenGrammar>;
  readonly source: Source;
  /** Seconds, ever rising. */
  readonly clock: () => number;
}

export interface Ears {
  /** Deaf while true: what arrives is replaced by silence (read-back must not hear itself). */
  mute(muted: boolean): void;
  close(): void;
}

const RATE = 16_000;
/** Audio since the last utterance is kept this long, and given to a restarted recogniser, so that a crash loses no words. */
const KEPT_S = 15;
/** More crashes than this within a minute are not an accident. */
const MOST_RESTARTS = 3;

const withReason = (base: Message, error: unknown): Message => ({ what: `${base.what} ${messageOf(error).what}`, todo: base.todo });

/**
 * Joins a source and a recogniser for as long as both last. A recogniser that fails is replaced, while the source goes on.
 * Every outcome is an event; nothing is thrown, and closing twice is safe.
 */
export function openEars({ makeRecogniser, grammar, source, clock }: EarsParts, tell: (event: EarsEvent) => void): Ears {
  let recogniser: Recogniser | null = null;
  let stopListening = (): void => undefined;
  let input: { readonly stop: () => void } | null = null;
  let kept: Float32Array[] = [];
  let [closed, muted, loading] = [false, false, true];
  let crashes: number[] = [];

  const drop = (): void => { stopListening(); recogniser?.dispose(); recogniser = null; };
  const close = (): void => {
    if (closed) return;
    closed = true;
    input?.stop();
    drop();
  };
  const giveUp = (why: Message): void => { if (!closed) { close(); tell({ type: 'failed', why }); } };

  const hear = (audio: Float32Array): void => {
    if (closed) return;
    const chunk = muted ? new Float32Array(audio.length) : audio;
    kept.push(chunk.slice());
    let samples = kept.reduce((sum, { length }) => sum + length, 0);
    while (samples > KEPT_S * RATE) samples -= kept.shift()?.length ?? 0;
    if (!loading) recogniser?.push(chunk);
  };

  const onEvent = (event: RecogniserEvent): void => {
    if (closed) return;
    switch (event.type) {
      case 'ready': case 'speech started': return;
      case 'level': tell({ type: 'level', level: event, at: clock() }); return;
      case 'partial': tell(event); return;
      case 'utterance': kept = []; tell(event); return;
      case 'failed': if (event.fatal) void restart(); else tell({ type: 'note', note: event.message });
    }
  };

  async function start(): Promise<void> {
    loading = true;
    const fresh = makeRecogniser();
    recogniser = fresh;
    let note: string | undefined;
    stopListening = fresh.listen((event) => { if (event.type === 'ready') note = event.note; onEvent(event); });
    await fresh.load();
    await fresh.setGrammar(await grammar());
    if (closed || recogniser !== fresh) { fresh.dispose(); return; }
    loading = false;
    for (const audio of kept) fresh.push(audio);
    tell({ type: 'ready', ...(note ? { note } : {}) });
  }

  async function restart(): Promise<void> {
    if (closed || loading) return;
    loading = true;
    drop();
    crashes = [...crashes.filter((at) => clock() - at < 60), clock()];
    if (crashes.length > MOST_RESTARTS) { giveUp(MESSAGES.workerGaveUp); return; }
    tell({ type: 'restarting' });
    try { await start(); } catch (error) { giveUp(withReason(MESSAGES.workerGaveUp, error)); }
  }

  async function open(): Promise<void> {
    try { await start(); } catch (error) { giveUp(withReason(MESSAGES.modelMissing, error)); return; }
    try {
      const opened = await source(hear, (why) => { if (!closed) void finish(why); });
      if (closed) opened.stop(); else input = opened;
    } catch (error) { giveUp(messageOf(error)); }
  }

  /** The source has ended: what was being said is still heard out. */
  async function finish(why: Message | null): Promise<void> {
    await recogniser?.finish().catch(() => undefined);
    if (closed) return;
    close();
    tell({ type: 'ended', why });
  }

  void open();
  return { mute: (on) => { muted = on; }, close };
}

/** True when the input moved at all. */
export const moved = ({ peak }: Level): boolean => peak > SILENT_PEAK;
