import { resample } from './resample';

/** Bad input: the message names the file and says what is wrong and what to do. */
export class AudioFileError extends Error { override readonly name = 'AudioFileError'; }

/** Mono samples in [-1, 1] at 16 kHz. */
export interface Recording { readonly samples: Float32Array; readonly seconds: number; /** As stored in the file. */ readonly rate: number; readonly channels: number }

export const RATE = 16_000;
const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;

type Reader = (view: DataView, at: number) => number;
/** Sample formats of RIFF WAVE (Microsoft/IBM Multimedia Programming Interface 1.0, 1991): 8-bit is unsigned, the others signed. */
const READERS: Readonly<Record<string, Reader>> = {
  [`${PCM}/8`]: (view, at) => (view.getUint8(at) - 128) / 128,
  [`${PCM}/16`]: (view, at) => view.getInt16(at, true) / 32_768,
  [`${PCM}/24`]: (view, at) => (view.getUint8(at) | (view.getUint8(at + 1) << 8) | (view.getInt8(at + 2) << 16)) / 8_388_608,
  [`${PCM}/32`]: (view, at) => view.getInt32(at, true) / 2_147_483_648,
  [`${FLOAT}/32`]: (view, at) => view.getFloat32(at, true),
};

const tag = (view: DataView, at: number): string => String.fromCharCode(view.getUint8(at), view.getUint8(at + 1), view.getUint8(at + 2), view.getUint8(at + 3));

/**
 * Reads a WAV file: any rate, any number of channels (mixed to mono), 8, 16, 24 or 32-bit PCM or 32-bit float.
 * @param bytes the whole file
 * @param name how to call it in messages
 * @throws AudioFileError when it is empty, truncated, not WAV, or in a format not read here
 */
export function decodeWav(bytes: Uint8Array, name: string): Recording {
  const bad = (what: string): never => { throw new AudioFileError(`${name}: ${what}`); };
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length === 0) bad('the file is empty.');
  if (bytes.length < 12 || tag(view, 0) !== 'RIFF' || tag(view, 8) !== 'WAVE') bad('this is not a WAV recording. Save it as 16-bit PCM WAV.');

  let format: { code: number; channels: number; rate: number; bits: number } | null = null;
  for (let at = 12; at + 8 <= bytes.length;) {
    const id = tag(view, at);
    const size = view.getUint32(at + 4, true);
    const start = at + 8;
    if (id === 'fmt ') {
      if (size < 16 || start + size > bytes.length) bad('the file ends inside its header; it was cut short. Record or copy it again.');
      const code = view.getUint16(start, true);
      format = {
        code: code === EXTENSIBLE && size >= 26 ? view.getUint16(start + 24, true) : code,
        channels: view.getUint16(start + 2, true), rate: view.getUint32(start + 4, true), bits: view.getUint16(start + 14, true),
      };
    } else if (id === 'data') {
      if (!format) return bad('the audio comes before its description. Save it again as 16-bit PCM WAV.');
      // 0xFFFFFFFF marks a stream whose length was not known when it was written.
      if (size !== 0xffffffff && start + size > bytes.length) bad(`the file is cut short: it promises ${size} bytes of audio and holds ${bytes.length - start}. Record or copy it again.`);
      return read(view, start, Math.min(size, bytes.length - start), format, bad);
    }
    at = start + size + (size % 2);
  }
  return bad(format ? 'the file holds no audio; it was cut short.' : 'the file has no description of its audio; it was cut short.');
}

function read(view: DataView, start: number, size: number, { code, channels, rate, bits }: { code: number; channels: number; rate: number; bits: number }, bad: (what: string) => never): Recording {
  const sample = READERS[`${code}/${bits}`];
  if (!sample) return bad(`audio format ${code} with ${bits} bits is not read here. Save it as 16-bit PCM WAV.`);
  if (channels < 1 || channels > 32 || rate < 4_000 || rate > 384_000) return bad(`its header is wrong (${channels} channels at ${rate} Hz).`);
  const width = (bits / 8) * channels;
  const frames = Math.floor(size / width);
  if (frames === 0) return bad('the recording has no length.');
  const mono = new Float32Array(frames);
  for (let frame = 0; frame < frames; frame += 1) {
    let sum = 0;
    for (let channel = 0; channel < channels; channel += 1) sum += sample(view, start + frame * width + channel * (bits / 8));
    const value = sum / channels;
    mono[frame] = Number.isFinite(value) ? Math.max(-1, Math.min(1, value)) : 0;
  }
  return { samples: resample(mono, rate, RATE), seconds: frames / rate, rate, channels };
}
