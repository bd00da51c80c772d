/** One of the processes that hear: takes batches of recordings from pool.ts, one at a time, and sends back what was heard. */
import { join } from 'node:path';
import { CACHE, loadRecording, type Recording } from './material';
import { comparisonListener, type Comparison } from './comparison';
import { CONDITIONS, condition, type ConditionName } from './conditions';
import { grammar, openEngine, type Engine, type HeardBy, type Variation } from './engine';
import { digitGrammar } from './digits';

export interface EngineTask { readonly by: 'engine'; readonly variation: Variation; readonly hears: 'everything' | 'digits' }
export interface ComparisonTask { readonly by: Comparison }
export type Task = (EngineTask | ComparisonTask) & { readonly condition: ConditionName; readonly recordings: readonly Recording[]; readonly talkers: readonly string[] };

/** What came of one recording; seconds of processor time and of audio. */
export interface Answer<Result> { readonly recording: Recording; readonly result: Result; readonly cpu: number; readonly seconds: number }
export interface Done { readonly answers: readonly Answer<HeardBy | string>[]; readonly heapMiB: number; readonly loadSeconds: number }

let open: { readonly key: string; readonly engine: Engine } | null = null;
async function engineFor({ variation, hears }: EngineTask): Promise<Engine> {
  const key = `${variation}, ${hears}`;
  if (open?.key !== key) {
    open?.engine.dispose();
    open = { key, engine: await openEngine(variation, hears === 'digits' ? digitGrammar(grammar) : grammar) };
  }
  return open.engine;
}

let talkers: { readonly key: string; readonly audio: readonly Float32Array[] } = { key: '', audio: [] };
async function talking(paths: readonly string[]): Promise<readonly Float32Array[]> {
  const key = paths.join();
  if (talkers.key !== key) talkers = { key, audio: await Promise.all(paths.map(loadRecording)) };
  return talkers.audio;
}

async function work(task: Task): Promise<Done> {
  const { change } = condition(task.condition);
  const others = 'babble' in CONDITIONS[task.condition] ? await talking(task.talkers) : [];
  const engine = task.by === 'engine' ? await engineFor(task) : null;
  const answers: Answer<HeardBy | string>[] = [];
  for (const recording of task.recordings) {
    const audio = change(await loadRecording(recording.path), recording.seed, others);
    const seconds = audio.length / 16_000;
    if (engine) {
      const before = process.cpuUsage();
      const result = await engine.hear(audio);
      const used = process.cpuUsage(before);
      answers.push({ recording, result, cpu: (used.user + used.system) / 1e6, seconds });
    } else if (task.by !== 'engine') {
      const { text, cpu } = await comparisonListener(task.by, join(CACHE, 'comparison'))(audio);
      answers.push({ recording, result: text, cpu, seconds });
    }
  }
  return { answers, heapMiB: engine?.heapMiB() ?? 0, loadSeconds: engine?.loadSeconds ?? 0 };
}

process.on('message', (task: Task) => {
  work(task).then((done) => process.send?.(done), (error: unknown) => process.send?.({ failed: error instanceof Error ? error.stack ?? error.message : String(error) }));
});
