import type { Capture, Column } from '../capture/index.ts';
import type { Analysed } from '../journal/analysis/analyse.ts';
import { quantityText } from '../quantity/index.ts';
import type { ChannelSummary } from '../signal/index.ts';
import { alignRows } from './rows.ts';

const longest = 40;
/** Decibels re the fundamental at which a harmonic's bar has no length left. */
const floorDb = -120;
/** A sweep of more points than this is drawn thinned out. */
const mostRows = 16;

/** Charts of a capture in lines of text: harmonics of each channel of a waveform, or one column along a sweep. */
export function textChart(capture: Capture, { analysis }: Analysed): string[] {
  if (analysis.kind === 'waveform') return analysis.summary.channels.flatMap(harmonicBars);
  const axis = capture.columns.find((column) => column.axis);
  const shown = axis && shownColumn(capture.columns);
  return axis && shown ? sweepBars(axis, shown) : [];
}

/** One bar a harmonic, as long as it stands above −120 dB; those that noise alone could give have none. */
function harmonicBars({ name, harmonics }: ChannelSummary): string[] {
  if (!harmonics.some(({ detected }) => detected)) return [];
  const rows = harmonics.slice(0, 9).map(({ order, ratio, detected }) => {
    const decibels = 20 * Math.log10(ratio);
    return detected
      ? [String(order), bar(1 - decibels / floorDb), `${decibels.toFixed(1).replace('-', '−')} dB`]
      : [String(order), '', 'not told from noise'];
  });
  return titled(
    `Harmonics of ${name} re the fundamental, from ${String(floorDb).replace('-', '−')} dB`,
    rows,
  );
}

/** What a sweep is most asked for: total distortion, else its second harmonic, else impedance, gain or level. */
function shownColumn(columns: readonly Column[]): Column | undefined {
  const values = columns.filter(({ axis, role }) => !axis && role !== 'stimulus');
  const wanted = ['thd', 'harmonic', 'impedance', 'gain', 'voltage', 'current', 'power'];
  return wanted.map((quantity) => values.find((column) => column.quantity === quantity)).find(Boolean);
}

/** One bar a point, logarithmic between the least and the greatest value where all are above zero. */
function sweepBars(axis: Column, shown: Column): string[] {
  const places = thinned(axis.values.length);
  const values = places.map((place) => shown.values[place] ?? Number.NaN);
  const share = scaleOf(values.filter(Number.isFinite));
  const rows = places.map((place, row) => [
    quantityText(axis.values[place] ?? 0, axis.unit, 3),
    bar(share(values[row] ?? Number.NaN)),
    Number.isFinite(values[row]) ? valueText(values[row] ?? 0, shown) : 'no reading',
  ]);
  const some = places.length < axis.values.length ? `, ${places.length} of ${axis.values.length} points` : '';
  return titled(`${shown.name} against ${axis.name}${some}`, rows);
}

/** Places spread evenly over a sweep, both ends among them. */
function thinned(count: number): number[] {
  const rows = Math.min(count, mostRows);
  return Array.from({ length: rows }, (_, row) =>
    rows < 2 ? row : Math.round((row * (count - 1)) / (rows - 1)),
  );
}

/** From a value to its share of the longest bar; the least one keeps a tenth of it. */
function scaleOf(values: readonly number[]): (value: number) => number {
  const [least, greatest] = [Math.min(...values), Math.max(...values)];
  const scaled = (value: number) => (least > 0 ? Math.log(value) : value);
  const span = scaled(greatest) - scaled(least);
  return (value) => (span > 0 ? 0.1 + (0.9 * (scaled(value) - scaled(least))) / span : 0.5);
}

function valueText(value: number, { unit, quantity }: Column): string {
  if (unit !== '1') return quantityText(value, unit, 3);
  return quantity === 'gain' ? value.toPrecision(3) : `${(100 * value).toPrecision(3)} %`;
}

const titled = (title: string, rows: readonly string[][]) => ['', `  ${title}`, ...alignRows(rows)];

/** A bar of whole blocks; a share that is no number has none. */
function bar(share: number): string {
  const blocks = Math.round(longest * Math.min(1, share));
  return blocks > 0 ? '█'.repeat(blocks) : '';
}
