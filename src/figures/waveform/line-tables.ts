import { printDecimals, printNumber } from '../../quantity/index.ts';
import type { ChannelSummary, Harmonic, HumLine, Transfer, TransferredHarmonic } from '../../signal/index.ts';
import { type Measurement, measuredFigure } from '../instrument/instrument-figures.ts';
import { type Printable, printFigure } from '../print.ts';

/** A table of printed cells. */
export interface PrintedTable {
  columns: { title: string; unit?: string; numeric: boolean }[];
  rows: string[][];
}

const none = '–';
const percent = (ratio: number) => printNumber(100 * ratio, 3);
const number = (title: string, unit?: string) => ({
  title,
  numeric: true,
  ...(unit === undefined ? {} : { unit }),
});

/**
 * The harmonic profile of a channel: order, frequency, level re the fundamental, relative phase and state; for a
 * response with a stimulus also the stimulus's own harmonic and the bounds of what was added. Intervals and bounds hold
 * the noise and, with a measurement, its instrument. Null without harmonics.
 */
export function harmonicTable(
  { name, harmonics }: ChannelSummary,
  transfers: readonly Transfer[],
  measurement: Measurement | null,
): PrintedTable | null {
  if (harmonics.length === 0) return null;
  const measured = (figure: Line) => asMeasured({ ...figure, subject: name }, measurement);
  const transfer = transfers.find(({ response }) => response === name);
  const columns = [
    number('Order'),
    number('Frequency', 'Hz'),
    number('Level', '%'),
    number('95 % interval', '%'),
    number('Level', 'dB'),
    number('Relative phase', '°'),
    { title: 'State', numeric: false },
  ];
  const ofStimulus = [number(`In ${transfer?.stimulus}`, '%'), number('Added, bounds', '%')];
  return {
    columns: transfer ? [...columns, ...ofStimulus] : columns,
    rows: harmonics.map((harmonic) => [
      ...harmonicRow(harmonic, measured),
      ...(transfer
        ? stimulusCells(
            transfer.harmonics.find(({ order }) => order === harmonic.order),
            measured,
          )
        : []),
    ]),
  };
}

/** A line of a table, as a figure that the instrument acts on. */
interface Line extends Printable {
  remark?: string;
}

const asMeasured = (line: Line & { subject: string }, measurement: Measurement | null): Line =>
  measurement ? measuredFigure(line, measurement) : line;

type Measuring = (line: Line) => Line;

function harmonicRow(harmonic: Harmonic, measured: Measuring): string[] {
  const { order, frequencyHz, ratio, low, high, relativePhaseDeg, detected } = harmonic;
  const line = measured({ id: `harmonic-${order}`, value: ratio, low, high, unit: '1' });
  return [
    `${order}`,
    printNumber(frequencyHz, 5),
    ...levelCells(line),
    ratio > 0 ? printDecimals(20 * Math.log10(ratio), 1) : none,
    detected ? printDecimals(relativePhaseDeg, 1) : none,
    [harmonicState(harmonic), ...(line.remark ? [line.remark] : [])].join(', '),
  ];
}

/** Level without its unit, which stands at the head of the column, and interval. */
function levelCells(figure: Printable): [string, string] {
  const { number: level = none, interval } = printFigure(figure) ?? {};
  return [level, interval ?? none];
}

function harmonicState({ detected, foldedOrders }: Harmonic): string {
  if (foldedOrders) return `may hold order ${foldedOrders.join(', ')}, folded`;
  return detected ? 'above the noise' : 'not told from noise';
}

function stimulusCells(harmonic: TransferredHarmonic | undefined, measured: Measuring): string[] {
  if (harmonic === undefined) return [none, none];
  const { stimulus, added } = harmonic;
  const least = measured({ id: 'added-distortion-least', value: added.low, unit: '1' }).low ?? added.low;
  const most = measured({ id: 'added-distortion-most', value: added.high, unit: '1' }).high ?? added.high;
  return [percent(stimulus), `${percent(least)} to ${percent(most)}`];
}

/**
 * The lines of hum of a channel with level, interval and state; intervals hold the noise and, with a measurement, its
 * instrument. Null where there is no hum.
 */
export function humTable(
  { name: subject, hum, unit }: ChannelSummary,
  measurement: Measurement | null,
): PrintedTable | null {
  if (hum === null) return null;
  return {
    columns: [
      number('Multiple'),
      number('Frequency', 'Hz'),
      number('Level'),
      number('95 % interval'),
      { title: 'State', numeric: false },
    ],
    rows: hum.lines.map((line) => humRow(line, unit, (one) => asMeasured({ ...one, subject }, measurement))),
  };
}

function humRow(
  { multiple, frequencyHz, rms, low, high, detected, harmonic }: HumLine,
  unit: string,
  measured: Measuring,
): string[] {
  const state = detected ? 'above the noise' : 'not told from noise';
  return [
    `${multiple}`,
    printNumber(frequencyHz, 4),
    ...humCells(low === null || high === null ? null : measured({ id: 'hum', value: rms, low, high, unit })),
    harmonic === null ? state : `left to ${harmonic === 1 ? 'the fundamental' : `harmonic ${harmonic}`}`,
  ];
}

/** Level with its unit, and interval in the same unit. */
function humCells(figure: Printable | null): [string, string] {
  const printed = figure && printFigure(figure);
  return printed ? [`${printed.number}\u00a0${printed.unit}`, printed.interval ?? none] : [none, none];
}
