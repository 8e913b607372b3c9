import { printDecimals, printNumber } from '../../quantity/index.ts';
import type { AddedHarmonic, Subtraction } from '../../signal/index.ts';
import { draftsComplete } from '../draft.ts';
import { type Measurement, measuredFigure } from '../instrument/instrument-figures.ts';
import { printFigure } from '../print.ts';
import type { Figure } from '../types.ts';
import type { PrintedTable } from './line-tables.ts';
import type { FigureContext } from './waveform.ts';

const notTold = 'not told from noise';

/** What a circuit added between two channels, all orders together, where a sweep of its gain allows the difference. */
export function addedFigures({ response, total, leftOut }: Subtraction, context: FigureContext): Figure[] {
  if (total === null) {
    const absent = 'No harmonic lies within the response sweep and in both channels.';
    return draftsComplete(
      [{ id: 'added-distortion', value: null, unit: '1', absent }],
      { channel: response },
      context,
    );
  }
  const { ratio: value, low, high } = total;
  const remarks = [
    ...(low === 0 ? [notTold] : []),
    ...(leftOut.length > 0 ? [`without order ${leftOut.join(', ')}`] : []),
  ];
  const remark = remarks.length > 0 ? { remark: remarks.join(', ') } : {};
  const draft = { id: 'added-distortion', value, low, high, unit: '1', ...remark };
  return draftsComplete([draft], { channel: response }, context);
}

const column = (title: string, unit?: string) => ({ title, numeric: true, ...(unit ? { unit } : {}) });

/** What was added to each harmonic, with the instrument in its interval where there is one. */
export function addedTable(
  { response, harmonics }: Subtraction,
  measurement: Measurement | null,
): PrintedTable {
  const columns = [
    ...[column('Order'), column('Frequency', 'Hz'), column('Level', '%'), column('95 % interval', '%')],
    ...[column('Relative phase', '°'), { title: 'State', numeric: false }],
  ];
  return { columns, rows: harmonics.map((harmonic) => addedRow(harmonic, response, measurement)) };
}

function addedRow(
  { order, frequencyHz, ratio: value, low, high, relativePhaseDeg }: AddedHarmonic,
  subject: string,
  measurement: Measurement | null,
): string[] {
  const line = { id: `added-harmonic-${order}`, value, low, high, unit: '1', subject };
  const measured: Parameters<typeof measuredFigure>[0] = measurement
    ? measuredFigure(line, measurement)
    : line;
  const { number = '–', interval } = printFigure({ ...measured, id: `harmonic-${order}` }) ?? {};
  return [
    ...[`${order}`, printNumber(frequencyHz, 5), number, interval ?? '–'],
    low > 0 ? printDecimals(relativePhaseDeg, 1) : '–',
    [low > 0 ? 'above the noise' : notTold, ...(measured.remark ? [measured.remark] : [])].join(', '),
  ];
}
