import { Worker } from 'node:worker_threads';
import { targets } from './cases.ts';

/** Cases of one target that one worker reads: every `step`-th from `first` on, below `count`. */
export interface Share {
  target: string;
  seed: number;
  first: number;
  step: number;
  count: number;
}

/** A case that was not read as it should be; the same target, seed and number make it again. */
export interface Failure {
  target: string;
  number: number;
  failure: string;
}

/** A worker that stays at one case so long hangs; a case takes milliseconds, and a busy machine ten times that. */
const patienceMs = 20_000;
const workers = 2;
/** What stands in the place of a case while a worker loads what it tests. */
const notBegun = -1;
/** Failures of one share that are told. */
const mostTold = 5;

/** Shares out `cases` among the targets, dear readers with few. */
export function planOf(cases: number, only?: string): { target: string; count: number }[] {
  const chosen = Object.entries(targets).filter(([target]) => only === undefined || target === only);
  const whole = chosen.reduce((sum, [, { share }]) => sum + share, 0);
  return chosen.map(([target, { share }]) => ({ target, count: Math.ceil((cases * share) / whole) }));
}

/** Reads the cases of a target in workers that are ended where they hang. */
export async function campaign(target: string, count: number, seed: number): Promise<Failure[]> {
  const shares = Array.from({ length: workers }, (_, first) => ({
    target,
    seed,
    first,
    step: workers,
    count,
  }));
  return (await Promise.all(shares.map(readShare))).flat();
}

function readShare(share: Share): Promise<Failure[]> {
  const { target } = share;
  const failures: Failure[] = [];
  const at = new Int32Array(new SharedArrayBuffer(4)).fill(notBegun);
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { workerData: { ...share, at } });
  const tell = (number: number, failure: string) => {
    failures.push({ target, number, failure });
    if (failures.length >= mostTold) void worker.terminate();
  };
  worker.on('message', ({ number, failure }: Omit<Failure, 'target'>) => tell(number, failure));
  worker.on('error', (error) => tell(Atomics.load(at, 0), `The worker ended: ${String(error)}`));
  const watch = watchOver(at, () => {
    tell(Atomics.load(at, 0), `It takes longer than ${patienceMs / 1000} s.`);
    void worker.terminate();
  });
  return new Promise((resolve) => {
    worker.on('exit', () => {
      clearInterval(watch);
      resolve(failures);
    });
  });
}

/** Calls back once a worker has stayed at one case for too long. */
function watchOver(at: Int32Array, onHang: () => void): NodeJS.Timeout {
  let [last, since] = [-1, Date.now()];
  return setInterval(() => {
    const now = Atomics.load(at, 0);
    if (now !== last || now === notBegun) [last, since] = [now, Date.now()];
    else if (Date.now() - since > patienceMs) onHang();
  }, 500);
}
