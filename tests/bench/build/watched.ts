import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { plainEnvironment } from '../../support/command.ts';

/** A whole process and what it started. */
export interface Watched {
  seconds: number;
  /** Largest sum of resident memory of all of them; null where the system does not tell. */
  peakMiB: number | null;
  output: string;
}

const everyMs = 250;

/** Runs a Node program to its end; one that fails ends the benchmark with what it said. */
export async function watched(args: readonly string[], cwd = process.cwd()): Promise<Watched> {
  const started = performance.now();
  const child = spawn(process.execPath, args, { cwd, env: plainEnvironment() });
  const said: Buffer[] = [];
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (bytes: Buffer) => said.push(bytes));
  let peakBytes = 0;
  const timer = setInterval(() => {
    peakBytes = Math.max(peakBytes, residentBytes(child.pid ?? 0));
  }, everyMs);
  const code = await new Promise<number | null>((resolve) => child.on('close', resolve));
  clearInterval(timer);
  const output = Buffer.concat(said).toString('utf8');
  if (code !== 0) throw new Error(`node ${args.join(' ')} ended with ${code}:\n${output}`);
  return {
    seconds: (performance.now() - started) / 1000,
    peakMiB: peakBytes > 0 ? peakBytes / 2 ** 20 : null,
    output,
  };
}

/** Of a process and of everything below it, by /proc; a page that some of them share is divided among them. */
function residentBytes(process: number): number {
  const [, kibibytes = '0'] = /^Pss: +(\d+) kB$/m.exec(read(`/proc/${process}/smaps_rollup`)) ?? [];
  const below = read(`/proc/${process}/task/${process}/children`).split(' ').filter(Boolean);
  return below.reduce((sum, one) => sum + residentBytes(Number(one)), 1024 * Number(kibibytes));
}

function read(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}

/** The same program on each share of its work, all at once; the wall time of the slowest. */
export async function sharedOut(
  program: string,
  shares: number,
  args: readonly string[],
): Promise<Watched[]> {
  return Promise.all(
    Array.from({ length: shares }, (_, share) => watched([program, `${share}`, `${shares}`, ...args])),
  );
}
