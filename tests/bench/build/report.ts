import type { BuildMeasure } from './measure.ts';
import type { Watched } from './watched.ts';

type Row = readonly [string, ...string[]];

const explained = `The baseline is taken in the same run, on the same machine and files: Astro alone (unified processor) builds the journal's
Markdown with its pictures, and fills each page to the bytes that it has in the built site; a splitting library splits and
converts each capture; and each distinct drawing is compiled, parsed and rendered afresh. The last two are shared out over
all cores, and drawings are rendered for a sample of the logs, the rest in proportion. Memory is the largest sum of
resident memory of a build and all that it starts. A journal has for each log two waveform captures of 16,384 rows and two
channels, two sweeps, a picture, maths and a table, and for each twenty of them an amplifier of two versions.`;

/** What was measured as Markdown, one column for each size. */
export function reportText(machine: string, measures: readonly BuildMeasure[]): string {
  const heading: Row = ['', ...measures.map(({ logs }) => `${logs} logs`)];
  const rule: Row = ['---', ...measures.map(() => '---:')];
  const rows = [heading, rule, ...rowsOf(measures)];
  const widths = heading.map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  const lines = rows.map(
    (row) => `| ${row.map((cell, column) => padded(cell, widths[column] ?? 0, column)).join(' | ')} |`,
  );
  return [`# Builds of synthetic journals`, machine, lines.join('\n'), explained, ''].join('\n\n');
}

const padded = (cell: string, width: number, column: number) =>
  column === 0 ? cell.padEnd(width) : cell.padStart(width);

function rowsOf(measures: readonly BuildMeasure[]): Row[] {
  const row = (name: string, value: (measure: BuildMeasure) => string): Row => [name, ...measures.map(value)];
  const [smallest] = measures;
  return [
    row('pages', ({ pages }) => `${pages}`),
    row('HTML', ({ htmlMB }) => `${htmlMB.toFixed(0)} MB`),
    row('captures', ({ captures }) => `${captures}`),
    row('distinct drawings', ({ charts }) => `${charts}`),
    row('cold build', ({ cold }) => seconds(cold)),
    row('unchanged, built again', ({ unchanged }) => seconds(unchanged)),
    row('one capture edited', ({ edited }) => seconds(edited)),
    row('analysed and drawn, cold', ({ cold }) => countsIn(cold)),
    row('analysed and drawn, unchanged', ({ unchanged }) => countsIn(unchanged)),
    row('analysed and drawn, one edited', ({ edited }) => countsIn(edited)),
    row('Astro alone, cold', ({ bareCold }) => seconds(bareCold)),
    row('Astro alone, again', ({ bareWarm }) => seconds(bareWarm)),
    row('captures split and converted', ({ readingS }) => `${readingS.toFixed(1)} s`),
    row('drawings rendered afresh', ({ renderingS }) => `${renderingS.toFixed(1)} s`),
    row('**cold build re baseline**', (measure) => ratio(measure.cold.seconds, baseline(measure))),
    row('**built again re Astro alone**', ({ unchanged, bareWarm }) =>
      ratio(unchanged.seconds, bareWarm.seconds),
    ),
    row('cold build per log', ({ cold, logs }) => `${((1000 * cold.seconds) / logs).toFixed(0)} ms`),
    row('**per log re the smallest journal**', (measure) =>
      smallest ? ratio(perLog(measure), perLog(smallest)) : '',
    ),
    row('peak memory, cold', ({ cold }) => mebibytes(cold)),
    row('peak memory, built again', ({ unchanged }) => mebibytes(unchanged)),
  ];
}

const baseline = ({ bareCold, readingS, renderingS }: BuildMeasure) =>
  bareCold.seconds + readingS + renderingS;

const perLog = ({ cold, logs }: BuildMeasure) => cold.seconds / logs;

/** How many captures were analysed and charts drawn, as the build's own timings say. */
function countsIn({ output }: Watched): string {
  const [analysed, drawn] = [/(\d+) analysed/, /(\d+) drawn/].map((told) => told.exec(output)?.[1] ?? '?');
  return `${analysed} and ${drawn}`;
}

const seconds = (run: Watched) => `${run.seconds.toFixed(1)} s`;

const mebibytes = ({ peakMiB }: Watched) => (peakMiB === null ? 'not known' : `${peakMiB.toFixed(0)} MiB`);

const ratio = (value: number, reference: number) => (value / reference).toFixed(2);
