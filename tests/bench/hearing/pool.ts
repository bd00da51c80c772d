import { fork, type ChildProcess } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Recording } from './material';
import type { HeardBy } from './engine';
import type { Answer, ComparisonTask, Done, EngineTask, Task } from './worker';

const WORKER = fileURLToPath(new URL('worker.ts', import.meta.url));
/** Recordings that a process takes at a time: few enough that all end together, enough that an engine is seldom opened anew. */
const BATCH = 12;

export interface Measured<Result> {
  readonly answers: readonly Answer<Result>[];
  /** Processor time over audio time. */
  readonly rtf: number;
  readonly heapMiB: number;
  readonly loadSeconds: number;
}

type Work<T> = T extends { readonly recordings: unknown } ? Omit<T, 'recordings' | 'talkers'> : never;

/** Processes that hear side by side, in the order asked. */
export class Pool {
  private readonly idle: ChildProcess[];
  private readonly queue: { readonly task: Task; readonly done: (done: Done) => void; readonly failed: (error: Error) => void }[] = [];

  constructor(size: number, private readonly talkers: readonly string[]) {
    this.idle = Array.from({ length: size }, () => fork(WORKER, { stdio: ['ignore', 'inherit', 'inherit', 'ipc'] }));
  }

  measure(work: Work<Task & EngineTask>, recordings: readonly Recording[]): Promise<Measured<HeardBy>>;
  measure(work: Work<Task & ComparisonTask>, recordings: readonly Recording[]): Promise<Measured<string>>;
  async measure(work: Work<Task & (EngineTask | ComparisonTask)>, recordings: readonly Recording[]): Promise<Measured<HeardBy | string>> {
    const batches = Array.from({ length: Math.ceil(recordings.length / BATCH) }, (_, i) => recordings.slice(i * BATCH, (i + 1) * BATCH));
    const done = await Promise.all(batches.map((batch) => this.run({ ...work, recordings: batch, talkers: this.talkers })));
    const answers = done.flatMap((each) => each.answers);
    const sum = (of: (answer: Answer<unknown>) => number): number => answers.reduce((total, answer) => total + of(answer), 0);
    return { answers, rtf: sum(({ cpu }) => cpu) / (sum(({ seconds }) => seconds) || 1), heapMiB: Math.max(0, ...done.map((each) => each.heapMiB)), loadSeconds: Math.max(0, ...done.map((each) => each.loadSeconds)) };
  }

  close(): void {
    for (const child of this.idle) child.kill();
  }

  private run(task: Task): Promise<Done> {
    return new Promise((done, failed) => { this.queue.push({ task, done, failed }); this.next(); });
  }

  private next(): void {
    const child = this.queue.length ? this.idle.pop() : undefined;
    const job = child && this.queue.shift();
    if (!child || !job) return;
    const ended = (code: number | null): void => job.failed(new Error(`A process that hears ended (${code ?? 'killed'}) while at "${job.task.condition}".`));
    child.once('exit', ended);
    child.once('message', (answer: Done | { readonly failed: string }) => {
      child.off('exit', ended);
      this.idle.push(child);
      if ('failed' in answer) job.failed(new Error(answer.failed)); else job.done(answer);
      this.next();
    });
    child.send(job.task);
  }
}
