import { enableCompileCache } from 'node:module';
import { parentPort } from 'node:worker_threads';
import type { Answered, Asked } from './pool.ts';

// As in the command itself, so that a thread begins as quickly.
enableCompileCache();
const { perform } = await import('./jobs.ts');

const words = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error);

parentPort?.on('message', async ({ id, name, task }: Asked) => {
  const answered: Answered = await perform(name, task as never).then(
    (answer) => ({ id, answer }),
    (error: unknown) => ({ id, failure: words(error) }),
  );
  parentPort?.postMessage(answered);
});
