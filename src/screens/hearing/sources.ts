import { openMicrophone, RATE } from '../../microphone';
import { messageOf, MESSAGES } from '../shared/messages';
import type { Source } from './ears';

/** The microphone of this device. */
export const microphoneSource: Source = async (heard, ended) => {
  try {
    return await openMicrophone({ onAudio: heard, onLost: (message) => ended(messageOf(message)) });
  } catch (error) {
    throw messageOf(error);
  }
};

const CHUNK_S = 0.064;
/** Silence after the last word, so that it is heard out like any other. */
const TAIL_S = 2;

/** Mono samples at 16 kHz of any recording that the browser can decode. */
async function decode(url: string): Promise<Float32Array> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(String(answer.status));
  const audio = await new OfflineAudioContext(1, 1, RATE).decodeAudioData(await answer.arrayBuffer());
  return audio.getChannelData(0);
}

/**
 * A recording, played aloud and handed over in real time, down the same path as the microphone.
 * Time comes from the clock, not from counting ticks, so that a page in the background catches up.
 */
export const recordingSource = (url: string, volume = 0.6): Source => async (heard, ended) => {
  let samples: Float32Array;
  try { samples = await decode(url); } catch { throw MESSAGES.demonstrationMissing; }
  const context = new AudioContext();
  const buffer = context.createBuffer(1, samples.length, RATE);
  buffer.getChannelData(0).set(samples);
  const [player, gain] = [new AudioBufferSourceNode(context, { buffer }), new GainNode(context, { gain: volume })];
  player.connect(gain).connect(context.destination);
  player.start();

  const total = samples.length + TAIL_S * RATE;
  const began = performance.now();
  let given = 0;
  const stop = (): void => { clearInterval(timer); void context.close().catch(() => undefined); };
  const timer = setInterval(() => {
    const due = Math.min(total, Math.floor(((performance.now() - began) / 1000) * RATE));
    if (due > given) {
      const chunk = new Float32Array(due - given);
      chunk.set(samples.subarray(Math.min(given, samples.length), Math.min(due, samples.length)));
      given = due;
      heard(chunk);
    }
    if (given >= total) { stop(); ended(null); }
  }, CHUNK_S * 1000);
  return { stop };
};
