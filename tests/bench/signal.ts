import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import { inferSchema, initParser } from 'udsv';
import { readCapture } from '../../src/capture/index.ts';
import { analyse } from '../../src/journal/analysis/analyse.ts';

/** Median and half the distance between the quartiles. */
export interface Spread {
  median: number;
  quartile: number;
}

/** What the analysis of a waveform file costs, from bytes to summary. */
export interface SignalBench {
  rows: number;
  bytes: number;
  rounds: number;
  /** The splitting library alone: text split and converted to columns of numbers. */
  libraryMs: Spread;
  /** Bytes to columns in SI units. */
  readingMs: Spread;
  /** Bytes to summary. */
  wholeMs: Spread;
  /** Medians of the ratios within each round. */
  readingRatio: Spread;
  wholeRatio: Spread;
}

/** What a process of its own that analyses one file costs. */
export interface ProcessCost {
  /** Bytes to summary. */
  analysisMs: number;
  peakMiB: number;
}

/** Whole processes of both on the same file, `inspect` being ours; null without a Python that has scipy. */
export interface ProcessBench {
  ours: Spread;
  scipy: Spread;
  ratio: number;
}

export const rows = 65_536;
const rateHz = 48_000;
const rounds = 31;

/** Times reading and analysis against the splitting library on the same text, in turn within each round. */
export function measureSignal(): SignalBench {
  const text = waveformText(rows);
  const bytes = new TextEncoder().encode(text);
  const times = Array.from({ length: rounds + warmUp }, () => ({
    library: timed(() => initParser(inferSchema(text)).typedCols(text).length),
    reading: timed(() => read(bytes).table.rows),
    whole: timed(() => analysed(bytes)),
  })).slice(warmUp);
  return {
    rows,
    bytes: bytes.length,
    rounds,
    libraryMs: spread(times.map(({ library }) => library)),
    readingMs: spread(times.map(({ reading }) => reading)),
    wholeMs: spread(times.map(({ whole }) => whole)),
    readingRatio: spread(times.map(({ library, reading }) => reading / library)),
    wholeRatio: spread(times.map(({ library, whole }) => whole / library)),
  };
}

const warmUp = 5;

/** Analyses a file of so many rows in a process of its own. */
export function measureProcess(count: number): ProcessCost {
  return withFile(count, (file) => {
    const { output } = wholeProcess(process.execPath, [new URL(import.meta.url).pathname, file]);
    return JSON.parse(output) as ProcessCost;
  });
}

/** `inspect` and the same work in scipy, where a Python with scipy is there; both have run once before. */
export function measureAgainstScipy(times = 7): ProcessBench | null {
  return withFile(rows, (file) => {
    const script = new URL('signal_scipy.py', import.meta.url).pathname;
    if (spawnSync('python3', ['-c', 'import numpy, scipy']).status !== 0) return null;
    const command = new URL('../../src/cli/main.ts', import.meta.url).pathname;
    const both = Array.from({ length: times + 1 }, () => ({
      ours: wholeProcess(process.execPath, [command, 'inspect', file]).seconds,
      scipy: wholeProcess('python3', [script, file]).seconds,
    })).slice(1);
    return {
      ours: spread(both.map((round) => round.ours)),
      scipy: spread(both.map((round) => round.scipy)),
      ratio: spread(both.map((round) => round.scipy / round.ours)).median,
    };
  });
}

function wholeProcess(command: string, args: readonly string[]): { seconds: number; output: string } {
  const started = performance.now();
  const { stdout, stderr, status } = spawnSync(command, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
  return { seconds: (performance.now() - started) / 1000, output: stdout };
}

function withFile<Result>(count: number, work: (file: string) => Result): Result {
  const folder = mkdtempSync(join(tmpdir(), 'quiescent-bench-'));
  const file = join(folder, 'waveform.csv');
  writeFileSync(file, waveformText(count));
  const result = work(file);
  rmSync(folder, { recursive: true });
  return result;
}

/** Two channels of a sine with harmonics and a little noise, with time stamps. */
function waveformText(count: number): string {
  let state = 20_260_118;
  const noise = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32 - 0.5;
  };
  const lines = Array.from({ length: count }, (_, row) => {
    const angle = (2 * Math.PI * 997 * row) / rateHz;
    const input = 0.3 * Math.sin(angle) + 1e-4 * noise();
    const output =
      9 * Math.cos(angle) + 0.04 * Math.cos(2 * angle) + 0.02 * Math.cos(3 * angle) + 0.01 * noise();
    return `${(row / rateHz).toFixed(9)},${input.toFixed(7)},${output.toFixed(7)}`;
  });
  return `time (s),v_in (V),v_out (V)\n${lines.join('\n')}\n`;
}

function read(bytes: Uint8Array) {
  const { capture, problems } = readCapture(bytes, 'bench.csv');
  if (!capture) throw new Error(problems.map((problem) => problem.message).join(' '));
  return capture;
}

/** Bytes to summary, as the journal does it; ten harmonics. */
function analysed(bytes: Uint8Array): number {
  const { analysis } = analyse(read(bytes), {});
  if (analysis.kind !== 'waveform') throw new Error('not taken for a waveform');
  return analysis.summary.channels.length;
}

function timed(work: () => number): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

export function spread(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0;
  return { median: at(0.5), quartile: (at(0.75) - at(0.25)) / 2 };
}

/** As a process of its own: analyses the file it is given and prints what that cost. */
function analyseFile(file: string): void {
  const bytes = readFileSync(file);
  const analysisMs = timed(() => analysed(bytes));
  console.log(JSON.stringify({ analysisMs, peakMiB: process.resourceUsage().maxRSS / 1024 }));
}

const [, program, file] = process.argv;
if (file !== undefined && import.meta.url === pathToFileURL(program ?? '').href) analyseFile(file);
