import { execFileSync, spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { CACHE, ROOT, writeWav } from './material';

/** General-purpose recognisers that hear the same recordings. */
export const COMPARISONS = ['whisper', 'pocketsphinx'] as const;
export type Comparison = (typeof COMPARISONS)[number];
export const COMPARISON_TITLE: Readonly<Record<Comparison, string>> = { whisper: 'Whisper tiny.en, prompted', pocketsphinx: 'PocketSphinx, general model' };

/** Whisper takes a text "said before": with the trade's words in it, it hears them better (60 clips in tuning voices: 57 words wrong instead of 72, 30 sentences exact instead of 29). */
const PROMPT = 'Hand examination: wasting of the thenar and hypothenar eminence, abductor pollicis brevis, flexor digitorum profundus, extensor indicis, Tinel, Phalen, Froment, capillary refill, grade four, left, right.';

const FOLDER = join(CACHE, 'comparison');
const PYTHON = join(FOLDER, 'bin/python');
const SCRIPT = join(ROOT, 'tests/bench/comparison.py');
const REQUIREMENTS = join(ROOT, 'tests/bench/comparison-requirements.txt');
const lastLine = (text: string): string => text.trim().split('\n').at(-1) ?? '';

/** Sets both up in a virtual environment below .cache, once. Answers why each that can't be used can't. */
export function prepareComparisons(): Readonly<Record<Comparison, string | null>> {
  const stamp = join(FOLDER, '.requirements');
  const wanted = readFileSync(REQUIREMENTS, 'utf8');
  if (!existsSync(stamp) || readFileSync(stamp, 'utf8') !== wanted) {
    mkdirSync(FOLDER, { recursive: true });
    try {
      execFileSync('python3', ['-m', 'venv', FOLDER], { stdio: ['ignore', 'ignore', 'pipe'] });
      execFileSync(PYTHON, ['-m', 'pip', 'install', '--quiet', '--requirement', REQUIREMENTS], { stdio: ['ignore', 'ignore', 'pipe'] });
      writeFileSync(stamp, wanted);
    } catch (error) {
      const why = `Python packages could not be set up (${lastLine(error instanceof Error ? error.message : String(error))})`;
      return { whisper: why, pocketsphinx: why };
    }
  }
  const check = (name: Comparison): string | null => {
    const tried = spawnSync(PYTHON, [SCRIPT, name], { input: '', encoding: 'utf8' });
    return tried.status === 0 ? null : lastLine(tried.stderr || 'python could not be started');
  };
  return { whisper: check('whisper'), pocketsphinx: check('pocketsphinx') };
}

interface Text { readonly text: string; readonly cpu: number }
type Listen = (audio: Float32Array) => Promise<Text>;
const listeners = new Map<Comparison, Listen>();

/** Hears with a comparison recogniser. Its texts are kept: the same audio never needs hearing twice. */
export function comparisonListener(name: Comparison, folder: string): Listen {
  const known = listeners.get(name);
  if (known) return known;
  const listen = startListener(name, folder);
  listeners.set(name, listen);
  return listen;
}

function startListener(name: Comparison, folder: string): Listen {
  const log = join(folder, `heard-${name}.jsonl`);
  const kept = new Map<string, Text>();
  if (existsSync(log)) for (const line of readFileSync(log, 'utf8').split('\n').filter(Boolean)) { const { key, ...text } = JSON.parse(line) as Text & { key: string }; kept.set(key, text); }
  const setup = createHash('sha256').update(readFileSync(SCRIPT)).update(readFileSync(REQUIREMENTS)).update(PROMPT).digest('hex');
  let ask: ((path: string) => Promise<{ text: string; seconds: number }>) | null = null;

  function start(): (path: string) => Promise<{ text: string; seconds: number }> {
    const child = spawn(PYTHON, [SCRIPT, name, ...(name === 'whisper' ? [PROMPT] : [])], { stdio: ['pipe', 'pipe', 'inherit'] });
    const answers: ((line: string) => void)[] = [];
    createInterface({ input: child.stdout }).on('line', (line) => answers.shift()?.(line));
    // The process ends by itself when this one does and its input closes.
    return (path) => new Promise((resolve, reject) => {
      const ended = (): void => reject(new Error(`${name} ended while hearing ${path}`));
      child.once('exit', ended);
      answers.push((line) => { child.off('exit', ended); resolve(JSON.parse(line) as { text: string; seconds: number }); });
      child.stdin.write(`${path}\n`);
    });
  }

  return async (audio) => {
    const key = createHash('sha256').update(setup).update(new Uint8Array(audio.buffer, audio.byteOffset, audio.byteLength)).digest('hex');
    const before = kept.get(key);
    if (before) return before;
    const path = join(folder, `${process.pid}.wav`);
    writeWav(path, audio);
    const { text, seconds } = await (ask ??= start())(path);
    rmSync(path);
    const heard = { text, cpu: seconds };
    appendFileSync(log, `${JSON.stringify({ key, ...heard })}\n`);
    kept.set(key, heard);
    return heard;
  };
}
