import { availableParallelism } from 'node:os';
import path from 'node:path';
import { Worker } from 'node:worker_threads';
import type { JobName, Jobs } from './jobs.ts';

/** A job on its way to a thread, and what comes back. */
export interface Asked {
  id: number;
  name: JobName;
  task: unknown;
}
export type Answered = { id: number; answer: unknown } | { id: number; failure: string };

/** Threads that do jobs beside this one. */
export interface WorkerPool {
  run<Name extends JobName>(name: Name, task: Jobs[Name]['task']): Promise<Jobs[Name]['answer']>;
  /** Ends all threads; a job that is under way fails. */
  close(): Promise<void>;
}

interface Thread {
  worker: Worker;
  underWay: Map<number, Waiting>;
}

interface Waiting extends Asked {
  resolve(answer: never): void;
  reject(error: Error): void;
}

/** A thread is sent the next job while it does one, so that it never waits for this thread. */
const mostPerThread = 2;

/** Charts leave much behind that is soon of no use; more room for it makes no thread faster. */
const maxYoungGenerationSizeMb = 16;

/** The same file as source and in an installed package, whose files are JavaScript. */
const workerFile = new URL(`./worker${path.extname(import.meta.url)}`, import.meta.url);

/** A pool that starts its threads as jobs come, so that one job starts one; none keeps the process alive. */
export function workerPool(size = availableParallelism()): WorkerPool {
  const threads: Thread[] = [];
  const queue: Waiting[] = [];
  let jobs = 0;
  const next = () => {
    while (queue.length > 0) {
      const thread = freeThread();
      const job = thread && queue.shift();
      if (!job) return;
      send(thread, job);
    }
  };
  const freeThread = (): Thread | undefined => {
    const idle = threads.find(({ underWay }) => underWay.size === 0);
    if (idle ?? threads.length < size) return idle ?? begun();
    return threads.filter(({ underWay }) => underWay.size < mostPerThread).sort(byLoad)[0];
  };
  const begun = (): Thread => {
    const thread = startThread(next, () => {
      if (threads.includes(thread)) threads.splice(threads.indexOf(thread), 1);
    });
    threads.push(thread);
    return thread;
  };
  return {
    run: (name, task) =>
      new Promise((resolve, reject) => {
        queue.push({ id: jobs++, name, task, resolve, reject });
        next();
      }),
    async close() {
      await Promise.all(threads.map(({ worker }) => worker.terminate()));
    },
  };
}

const byLoad = (a: Thread, b: Thread) => a.underWay.size - b.underWay.size;

function send(thread: Thread, job: Waiting): void {
  thread.underWay.set(job.id, job);
  thread.worker.ref();
  thread.worker.postMessage({ id: job.id, name: job.name, task: job.task } satisfies Asked);
}

/** A thread that answers its jobs; `ended` is called when it is gone, with every job it had failed. */
function startThread(answered: () => void, ended: () => void): Thread {
  // The process may have been given flags for code on its command line, which a file takes badly.
  const worker = new Worker(workerFile, { execArgv: [], resourceLimits: { maxYoungGenerationSizeMb } });
  const underWay = new Map<number, Waiting>();
  worker.unref();
  worker.on('message', (message: Answered) => {
    const job = underWay.get(message.id);
    underWay.delete(message.id);
    if (underWay.size === 0) worker.unref();
    if ('failure' in message) job?.reject(new Error(message.failure));
    else job?.resolve(message.answer as never);
    answered();
  });
  const fail = (error: Error) => {
    ended();
    for (const job of underWay.values()) job.reject(error);
    underWay.clear();
    answered();
  };
  worker.on('error', fail);
  worker.on('exit', () => fail(new Error('A thread ended before its work was done.')));
  return { worker, underWay };
}
