import type { Output } from '../output.ts';
import { type Engine, startEngine } from './engine.ts';
import { type WatchedWork, watchedWork } from './watched-work.ts';

/** What a command works with. */
export interface Means {
  engine: Engine;
  work: WatchedWork;
}

/** Does a task with the engine of the journal in a folder, and tells how far it is and, if asked, where the time went. */
export async function withEngine<T>(
  { folder, timings }: { folder: string; timings: boolean },
  output: Output,
  task: (means: Means) => Promise<T>,
): Promise<T> {
  const work = watchedWork(output);
  const engine = startEngine(folder, work.listener);
  try {
    return await task({ engine, work });
  } finally {
    work.end(timings);
    await engine.close();
  }
}
