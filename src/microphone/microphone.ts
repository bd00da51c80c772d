import { Resampler } from './resample';
import { RATE } from './wav';
import workletUrl from './worklet.ts?worker&url';

export type MicrophoneTrouble = 'none' | 'refused' | 'busy' | 'insecure' | 'unsupported';

const MESSAGES: Readonly<Record<MicrophoneTrouble, string>> = {
  none: 'No microphone was found. Connect one and try again; typing works meanwhile.',
  refused: 'The browser was not allowed to use the microphone. Allow it in the address bar and try again; typing works meanwhile.',
  busy: 'The microphone could not be started; another program may be using it. Close that program and try again.',
  insecure: 'The browser gives the microphone only to pages on this computer or over https. Open the address that npm start printed.',
  unsupported: 'This browser cannot record sound in a page. Use a current Chrome, Edge, Firefox or Safari.',
};

export class MicrophoneError extends Error {
  override readonly name = 'MicrophoneError';
  readonly trouble: MicrophoneTrouble;
  constructor(trouble: MicrophoneTrouble) { super(MESSAGES[trouble]); this.trouble = trouble; }
}

/** What a failed request for the microphone means (names of the Media Capture and Streams recommendation, W3C). */
export function troubleOf(error: unknown): MicrophoneTrouble {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  if (name === 'NotFoundError' || name === 'OverconstrainedError') return 'none';
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'refused';
  return 'busy';
}

export interface Microphone {
  /** The device as the system calls it. */
  readonly label: string;
  /** Ends capture and frees the device; safe to call twice. */
  stop(): void;
}

export interface MicrophoneOptions {
  /** Called with mono 16 kHz samples. */
  readonly onAudio: (audio: Float32Array) => void;
  /** Called once when the device goes away by itself (unplugged, switched off, permission withdrawn). */
  readonly onLost?: (message: string) => void;
  readonly deviceId?: string;
}

/** Browser processing distorts consonants and moves levels by a factor of five: all off. */
const CONSTRAINTS = { echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: 1 } as const;

/**
 * Opens the microphone through an AudioWorklet.
 * @throws MicrophoneError whose message says what happened and what to do
 */
export async function openMicrophone({ onAudio, onLost, deviceId }: MicrophoneOptions): Promise<Microphone> {
  if (!globalThis.isSecureContext) throw new MicrophoneError('insecure');
  if (!navigator.mediaDevices?.getUserMedia || typeof AudioWorkletNode === 'undefined') throw new MicrophoneError('unsupported');
  let stream: MediaStream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({ audio: { ...CONSTRAINTS, ...(deviceId ? { deviceId: { exact: deviceId } } : {}) } });
  } catch (error) { throw new MicrophoneError(troubleOf(error)); }

  const context = new AudioContext({ latencyHint: 'interactive' });
  const track = stream.getAudioTracks()[0];
  let open = true;
  const stop = (): void => {
    if (!open) return;
    open = false;
    for (const each of stream.getTracks()) each.stop();
    void context.close().catch(() => undefined);
  };
  try {
    await context.audioWorklet.addModule(workletUrl);
    const tap = new AudioWorkletNode(context, 'tap', { numberOfOutputs: 0 });
    const resampler = new Resampler(context.sampleRate, RATE);
    tap.port.onmessage = ({ data }: MessageEvent<Float32Array>) => { if (open) onAudio(resampler.push(data)); };
    context.createMediaStreamSource(stream).connect(tap);
    await context.resume();
  } catch (error) {
    stop();
    throw error instanceof MicrophoneError ? error : new MicrophoneError('busy');
  }
  track?.addEventListener('ended', () => {
    if (!open) return;
    stop();
    onLost?.('The microphone was disconnected. Everything said so far is kept; connect it again and carry on.');
  });
  return { label: track?.label ?? '', stop };
}
