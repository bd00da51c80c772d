import { readFileSync } from 'node:fs';
import { OggOpusDecoder } from 'ogg-opus-decoder';
import { resample } from '../../src/microphone/resample';

export interface Clip { readonly file: string; readonly voice: string; readonly text: string }

/** The committed clips: measuring sentences in synthetic voices that nothing was tuned on (see make-clips.py). */
export function listClips(): Clip[] {
  return readFileSync(new URL('clips/clips.tsv', import.meta.url), 'utf8').trim().split('\n').map((line) => {
    const [file = '', voice = '', text = ''] = line.split('\t');
    return { file, voice, text };
  });
}

/** Reads a clip as 16 kHz mono. */
export async function readClip(file: string): Promise<Float32Array> {
  const decoder = new OggOpusDecoder();
  await decoder.ready;
  const { channelData, sampleRate } = await decoder.decodeFile(new Uint8Array(readFileSync(new URL(`clips/${file}`, import.meta.url))));
  decoder.free();
  return resample(channelData[0] ?? new Float32Array(0), sampleRate, 16_000);
}
