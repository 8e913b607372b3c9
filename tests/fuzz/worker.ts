import { parentPort, workerData } from 'node:worker_threads';
import type { Share } from './campaign.ts';
import { failureOf } from './cases.ts';

/** Reads a share of the cases of a target, and says which one it is at before it begins it. */
const { target, seed, first, step, count, at } = workerData as Share & { at: Int32Array };
for (let number = first; number < count; number += step) {
  Atomics.store(at, 0, number);
  const failure = await failureOf(target, seed, number);
  if (failure !== null) parentPort?.postMessage({ number, failure });
}
