import type { SpokenGrammar } from '../../grammar';
import type { Recogniser, Utterance } from '../../recogniser';
import { asOne, hearClip } from '../../recogniser/vosk';

/** Quiet before and after a stored clip, which was cut close: engines need some to tell where speech begins and ends. */
const QUIET = 8_000; // samples, half a second

export function inQuiet(clip: Float32Array): Float32Array {
  const padded = new Float32Array(clip.length + 2 * QUIET);
  padded.set(clip, QUIET);
  return padded;
}

/** An engine that listens to stored clips, one after the other. */
export interface SecondEar {
  /** What it hears in a clip (16 kHz mono), as one utterance; null if nothing was for the recorder. Rejects if the engine fails. */
  readonly hear: (clip: Float32Array) => Promise<Utterance | null>;
  readonly close: () => void;
}

/** Loads an engine for the reviewer. Rejects with a message that says what to do. */
export async function openSecondEar(recogniser: Recogniser, grammar: SpokenGrammar): Promise<SecondEar> {
  let turn: Promise<unknown> = Promise.resolve();
  try {
    await recogniser.load();
    await recogniser.setGrammar(grammar);
  } catch (error) {
    recogniser.dispose();
    throw error;
  }
  return {
    hear(clip) {
      const heard = turn.then(async () => asOne(await hearClip(recogniser, inQuiet(clip))));
      turn = heard.catch(() => undefined);
      return heard;
    },
    close: () => recogniser.dispose(),
  };
}
