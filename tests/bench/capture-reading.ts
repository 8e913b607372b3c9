import { pathToFileURL } from 'node:url';
import { inferSchema, initParser } from 'udsv';
import { readCapture } from '../../src/capture/index.ts';

/** Milliseconds are medians over all rounds, which alternate between the two. */
export interface ReadingBench {
  rows: number;
  bytes: number;
  rounds: number;
  /** The library alone: text split and converted to columns of numbers. */
  libraryMs: number;
  /** `readCapture`: bytes to a waveform in SI units with its sampling rate. */
  oursMs: number;
  /** The same file with time stamps rounded to five digits. */
  roundedMs: number;
  ratio: number;
  roundedRatio: number;
}

const rows = 65_536;
const rateHz = 48_000;
const rounds = 41;

/** Times reading a clean two-channel capture against the splitting library's own conversion of the same text. */
export function measureReading(): ReadingBench {
  const exact = captureText((time) => time.toFixed(9));
  const rounded = captureText((time) => time.toExponential(4));
  const bytes = new TextEncoder().encode(exact);
  const roundedBytes = new TextEncoder().encode(rounded);
  const library: number[] = [];
  const ours: number[] = [];
  const oursRounded: number[] = [];
  for (let round = 0; round < rounds; round++) {
    library.push(timed(() => initParser(inferSchema(exact)).typedCols(exact).length));
    ours.push(timed(() => readRows(bytes)));
    oursRounded.push(timed(() => readRows(roundedBytes)));
  }
  const [libraryMs, oursMs, roundedMs] = [median(library), median(ours), median(oursRounded)];
  return {
    rows,
    bytes: bytes.length,
    rounds,
    libraryMs,
    oursMs,
    roundedMs,
    ratio: oursMs / libraryMs,
    roundedRatio: roundedMs / libraryMs,
  };
}

function captureText(stamp: (time: number) => string): string {
  const lines = Array.from({ length: rows }, (_, row) => {
    const angle = (2 * Math.PI * 997 * row) / rateHz;
    return `${stamp(row / rateHz)},${(0.3 * Math.sin(angle)).toFixed(7)},${Math.cos(angle).toFixed(7)}`;
  });
  return `time,ch1,ch2\n${lines.join('\n')}\n`;
}

function readRows(bytes: Uint8Array): number {
  const { capture, problems } = readCapture(bytes, 'bench.csv');
  if (!capture) throw new Error(problems.map((problem) => problem.message).join(' '));
  return capture.table.rows;
}

function timed(work: () => number): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  console.log(JSON.stringify(measureReading(), null, 2));
}
