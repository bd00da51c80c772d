import { describe, expect, it } from 'vitest';
import { AudioFileError, decodeWav } from '../../src/microphone/wav';

/** Builds a WAV file by the RIFF rules (Microsoft/IBM Multimedia Programming Interface 1.0, 1991). */
function wav({ rate = 16_000, channels = 1, bits = 16, code = 1, data }: { rate?: number; channels?: number; bits?: number; code?: number; data: Uint8Array }): Uint8Array {
  const bytes = new Uint8Array(44 + data.length);
  const view = new DataView(bytes.buffer);
  const text = (at: number, value: string): void => { for (let i = 0; i < value.length; i += 1) view.setUint8(at + i, value.charCodeAt(i)); };
  text(0, 'RIFF'); view.setUint32(4, 36 + data.length, true); text(8, 'WAVE'); text(12, 'fmt '); view.setUint32(16, 16, true);
  view.setUint16(20, code, true); view.setUint16(22, channels, true); view.setUint32(24, rate, true);
  view.setUint32(28, (rate * channels * bits) / 8, true); view.setUint16(32, (channels * bits) / 8, true); view.setUint16(34, bits, true);
  text(36, 'data'); view.setUint32(40, data.length, true); bytes.set(data, 44);
  return bytes;
}

const sine = (seconds: number, rate: number, hertz = 440): number[] => Array.from({ length: Math.round(seconds * rate) }, (_, i) => 0.5 * Math.sin((2 * Math.PI * hertz * i) / rate));
const pcm16 = (samples: readonly number[]): Uint8Array => new Uint8Array(Int16Array.from(samples, (s) => Math.round(s * 32_767)).buffer);
const pcm8 = (samples: readonly number[]): Uint8Array => Uint8Array.from(samples, (s) => Math.round(s * 127) + 128);
const pcm24 = (samples: readonly number[]): Uint8Array => Uint8Array.from(samples.flatMap((s) => { const v = Math.round(s * 8_388_607); return [v & 255, (v >> 8) & 255, (v >> 16) & 255]; }));
const float32 = (samples: readonly number[]): Uint8Array => new Uint8Array(Float32Array.from(samples).buffer);
const rms = (samples: Float32Array): number => Math.sqrt(samples.reduce((sum, s) => sum + s * s, 0) / samples.length);

describe('decodeWav', () => {
  it.each([
    ['16-bit 16 kHz', wav({ data: pcm16(sine(1, 16_000)) })],
    ['16-bit 44.1 kHz', wav({ rate: 44_100, data: pcm16(sine(1, 44_100)) })],
    ['16-bit 8 kHz', wav({ rate: 8_000, data: pcm16(sine(1, 8_000)) })],
    ['8-bit', wav({ bits: 8, data: pcm8(sine(1, 16_000)) })],
    ['24-bit', wav({ bits: 24, data: pcm24(sine(1, 16_000)) })],
    ['32-bit float', wav({ bits: 32, code: 3, data: float32(sine(1, 16_000)) })],
    ['stereo', wav({ channels: 2, data: pcm16(sine(1, 16_000).flatMap((s) => [s, s])) })],
  ])('reads %s as one second of the same tone at 16 kHz', (_, bytes) => {
    const { samples, seconds } = decodeWav(bytes, 'tone.wav');
    expect(seconds).toBeCloseTo(1, 3);
    expect(samples.length).toBe(16_000);
    expect(rms(samples.subarray(200, -200))).toBeCloseTo(0.5 / Math.SQRT2, 1);
  });

  const good = wav({ data: pcm16(sine(1, 16_000)) });
  it.each([
    ['empty', new Uint8Array(0), 'is empty'],
    ['not audio', new TextEncoder().encode('tinel positive left, and more text than a header'), 'not a WAV'],
    ['cut short in the audio', good.slice(0, 1000), 'cut short'],
    ['cut short in the header', good.slice(0, 30), 'cut short'],
    ['no audio chunk', good.slice(0, 36), 'cut short'],
    ['zero length', wav({ data: new Uint8Array(0) }), 'no length'],
    ['compressed', wav({ code: 85, data: new Uint8Array(400) }), 'not read here'],
    ['nonsense rate', wav({ rate: 3, data: pcm16([0.1, 0.2]) }), 'header is wrong'],
  ])('refuses a file that is %s, naming it', (_, bytes, words) => {
    const read = (): unknown => decodeWav(bytes, 'visit.wav');
    expect(read).toThrow(AudioFileError);
    expect(read).toThrow(/^visit\.wav: /);
    expect(read).toThrow(words);
  });
});
