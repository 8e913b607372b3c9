import { cpus, totalmem } from 'node:os';
import { measureReading } from './capture-reading.ts';
import { measureDemoBuild } from './demo-build.ts';
import { measureLoad } from './load.ts';
import { measureAgainstScipy, measureProcess, measureSignal, type Spread } from './signal.ts';

/** Each benchmark prints its figures; none of them passes or fails. */
const benches: Readonly<Record<string, () => void>> = {
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
  build() {
    const { coldS, warmS, peakMiB, pages, cssGzip } = measureDemoBuild();
    console.log(
      `Demo build: cold ${coldS.toFixed(1)} s, again ${warmS.toFixed(1)} s, peak ${peakMiB.toFixed(0)} MiB`,
    );
    console.log(`Style sheet: ${kB(cssGzip)} kB gzip. Heaviest page of each kind, kB raw, gzip, brotli:`);
    for (const { page, raw, gzip, brotli } of pages)
      console.log(`  ${kB(raw)}  ${kB(gzip)}  ${kB(brotli)}  ${page}`);
  },
};

const print = ({ median, quartile }: Spread, digits = 1) =>
  `${median.toFixed(digits)} ± ${quartile.toFixed(digits)}`;
const kB = (bytes: number) => (bytes / 1000).toFixed(1).padStart(6);

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !Object.hasOwn(benches, name));
if (unknown.length > 0) {
  console.error(`There is no benchmark "${unknown[0]}". Benchmarks: ${Object.keys(benches).join(', ')}.`);
  process.exit(2);
}
const [cpu] = cpus();
console.log(
  `${new Date().toISOString().slice(0, 10)}, Node ${process.versions.node}, ${cpus().length} × ${cpu?.model}, ${Math.round(totalmem() / 2 ** 30)} GiB`,
);
for (const [name, bench] of Object.entries(benches)) if (asked.length === 0 || asked.includes(name)) bench();
