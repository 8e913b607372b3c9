import { mkdirSync, writeFileSync } from 'node:fs';
import { cpus, totalmem } from 'node:os';
import { join } from 'node:path';
import { type BuildMeasure, measureBuild } from './build/measure.ts';
import { reportText } from './build/report.ts';
import { measureReading } from './capture-reading.ts';
import { measureLive } from './live.ts';
import { measureLoad } from './load.ts';
import { measureAgainstScipy, measureProcess, measureSignal, type Spread } from './signal.ts';

/** What the command line asks of a benchmark. */
interface Asked {
  /** Logs of each synthetic journal, where the command line says so. */
  sizes: readonly number[];
  /** Keeps what is measured of builds beside this file. */
  write: boolean;
}

/** Each benchmark prints its figures; none of them passes or fails. */
const benches: Readonly<Record<string, (asked: Asked) => void | Promise<void>>> = {
  reading() {
    const { libraryMs, oursMs, ratio } = measureReading();
    console.log(`Reading a capture of 65,536 rows: ${oursMs.toFixed(1)} ms`);
    console.log(
      `The library's own split and conversion: ${libraryMs.toFixed(1)} ms, ratio ${ratio.toFixed(2)}`,
    );
  },
  signal() {
    const { libraryMs, readingMs, wholeMs, readingRatio, wholeRatio } = measureSignal();
    console.log('Two channels, 65,536 rows, ten harmonics; medians ± half the distance between quartiles:');
    console.log(`  the library's own split and conversion ${print(libraryMs)} ms`);
    console.log(`  reading ${print(readingMs)} ms, ratio ${print(readingRatio, 2)}`);
    console.log(`  bytes to summary ${print(wholeMs)} ms, ratio ${print(wholeRatio, 2)}`);
    for (const count of [65_536, 1_000_000]) {
      const { analysisMs, peakMiB } = measureProcess(count);
      const perRow = ((1000 * analysisMs) / count).toFixed(2);
      console.log(
        `Process of its own, ${count} rows: ${analysisMs.toFixed(0)} ms, ${perRow} µs a row, peak ${peakMiB.toFixed(0)} MiB`,
      );
    }
    const scipy = measureAgainstScipy();
    console.log(
      scipy
        ? `Whole processes: inspect ${print(scipy.ours, 2)} s, numpy and scipy ${print(scipy.scipy, 2)} s, ratio ${scipy.ratio.toFixed(1)}`
        : 'No python3 with scipy here to compare with.',
    );
  },
  load() {
    console.log(
      'Load sheet of a pentode pair, processor time; medians ± half the distance between quartiles:',
    );
    for (const { points, evaluations, sheetMs, bareMs, ratio } of measureLoad([30, 60, 120])) {
      const count = `${evaluations.plate} plate and ${evaluations.screen} screen currents`;
      console.log(`  sweep of ${points} loads ${print(sheetMs)} ms, ratio ${print(ratio, 2)}`);
      console.log(`    its ${count} alone ${print(bareMs)} ms`);
    }
  },
  async build({ sizes, write }) {
    const measures: BuildMeasure[] = [];
    for (const logs of sizes.length > 0 ? sizes : [50, 200]) measures.push(await measureBuild(logs));
    const text = reportText(machine, measures);
    console.log(text);
    if (write) keep('build', text);
  },
  async live({ sizes: [logs = 200] }) {
    const { rounds, log, capture, added, removed } = await measureLive(logs);
    console.log(
      `Live site of ${logs} logs, seconds until the open page shows a change; ${rounds} rounds, medians:`,
    );
    console.log(`  a log edited ${print(log, 2)}, a capture edited ${print(capture, 2)}`);
    console.log(`  a log added ${print(added, 2)}, a log removed ${print(removed, 2)}`);
  },
};

const print = ({ median, quartile }: Spread, digits = 1) =>
  `${median.toFixed(digits)} ± ${quartile.toFixed(digits)}`;

/** Beside the earlier ones, under today's date. */
function keep(name: string, text: string): void {
  const folder = join(import.meta.dirname, 'results');
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, `${today}-${name}.md`), text);
}

const today = new Date().toISOString().slice(0, 10);
const [cpu] = cpus();
const machine = `${today}, Node ${process.versions.node}, ${cpus().length} × ${cpu?.model}, ${Math.round(totalmem() / 2 ** 30)} GiB`;

const words = process.argv.slice(2);
const sizes = words.filter((word) => /^[1-9]\d*$/.test(word)).map(Number);
const asked = words.filter((word) => !/^[1-9]\d*$/.test(word) && word !== '--write');
const unknown = asked.filter((name) => !Object.hasOwn(benches, name));
if (unknown.length > 0) {
  console.error(`There is no benchmark "${unknown[0]}". Benchmarks: ${Object.keys(benches).join(', ')}.`);
  process.exit(2);
}
console.log(machine);
for (const [name, bench] of Object.entries(benches)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  await bench({ sizes, write: words.includes('--write') });
}
