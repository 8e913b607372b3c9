import type { Fault } from '../problem/index.ts';
import { nearestNames } from '../problem/index.ts';
import { unitNames } from '../quantity/index.ts';
import type { CaptureKind, ColumnQuantity } from './types.ts';

const longestCell = 60;

/** Text as read, shortened and with control characters made visible. */
function quoted(text: string): string {
  const short = text.length > longestCell ? `${text.slice(0, longestCell)}…` : text;
  return JSON.stringify(short);
}

const plural = (count: number, one: string, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;
const listed = (words: readonly string[]) => words.map((word) => quoted(word)).join(', ');
const mebibytes = (bytes: number) => `${Number((bytes / 1024 / 1024).toPrecision(3))} MiB`;
const short = (value: number) => String(Number(value.toPrecision(6)));

export const emptyFile = (): Fault => ({
  rule: 'capture-empty',
  message: 'The file is empty.',
  hint: 'Export the capture again, with its numbers as text.',
});

export const tooLarge = (bytes: number, limit: number): Fault => ({
  rule: 'capture-too-large',
  message: `The file has ${mebibytes(bytes)}; the limit is ${mebibytes(limit)}.`,
  hint: 'Export fewer samples, or fewer digits.',
});

export const binary = (): Fault => ({
  rule: 'capture-binary',
  message: 'The file holds binary data, not text.',
  hint: 'Export the capture as text. A UTF-16 text without byte-order mark needs `encoding: utf-16le` or `utf-16be`.',
});

export const undecodable = (encoding: string): Fault => ({
  rule: 'capture-encoding',
  message: `The bytes of the file are not ${encoding} text.`,
  hint: 'Declare another `encoding`: utf-8, utf-16le, utf-16be or windows-1252.',
});

export const noNumbers = (): Fault => ({
  rule: 'capture-no-numbers',
  message: 'No rows of numbers were found in the file.',
  hint: 'A capture is text with one row of numbers for each sample. Declare `delimiter`, `decimalMark` or `skip` if it is unusual.',
});

export interface ReadingExample {
  delimiter: string;
  decimalMark: string;
  numbers: readonly number[];
}

const delimiterNames: Readonly<Record<string, string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  ' ': 'space',
};

function readingText({ delimiter, decimalMark, numbers }: ReadingExample): string {
  const count = plural(numbers.length, 'column');
  const mark = decimalMark === ',' ? 'decimal comma' : 'decimal point';
  const cells = numbers.length === 1 ? count : `${count} with ${delimiterNames[delimiter]} between them`;
  return `${cells} and a ${mark} (${numbers.join(' and ')})`;
}

export const readingUnclear = (readings: readonly ReadingExample[]): Fault => ({
  rule: 'capture-delimiter-unclear',
  message: `The row can be read in more than one way: ${readings.map(readingText).join(', or ')}.`,
  hint: 'Declare which it is with `delimiter` and `decimalMark`.',
});

export const groupedDigits = (cell: string): Fault => ({
  rule: 'capture-decimal-unclear',
  message: `Every comma is followed by three digits, as in ${quoted(cell)}: it may be a decimal comma or group thousands.`,
  hint: 'Declare `decimalMark: ","` if it is a decimal comma. Grouped digits are not read: export without them.',
});

export const tooManyRows = (limit: number): Fault => ({
  rule: 'capture-too-many-rows',
  message: `The file has more than ${limit} rows, which is the limit.`,
  hint: 'Export a shorter record.',
});

export const tooManyColumns = (found: number, limit: number): Fault => ({
  rule: 'capture-too-many-columns',
  message: `The row has ${found} cells; the limit is ${limit}.`,
  hint: 'A capture has one row for each sample and one column for each channel; exchange rows and columns if they are swapped.',
});

export const lineTooLong = (limit: number): Fault => ({
  rule: 'capture-line-too-long',
  message: `The line is longer than ${limit} characters, which is the limit.`,
  hint: 'A capture has one row for each sample. Exchange rows and columns if they are swapped.',
});

export const fieldCount = (found: number, expected: number, line: string): Fault => ({
  rule: 'capture-field-count',
  message: `The row ${quoted(line)} has ${plural(found, 'cell')} where ${expected} ${expected === 1 ? 'is' : 'are'} expected.`,
  hint: 'Give the row the same cells as the others, or take the row out if it is no data.',
});

export const missingValue = (position: number): Fault => ({
  rule: 'capture-missing-value',
  message: `Column ${position} has no value in this row; a number is expected.`,
  hint: 'A missing sample cannot be made up: export the record again or cut it before this row.',
});

export const notFinite = (cell: string, position: number): Fault => ({
  rule: 'capture-not-finite',
  message: `Column ${position} holds ${quoted(cell)}, which is not a finite number.`,
  hint: 'Instruments print this for an overload or a missing sample: cut the record before this row.',
});

export const notANumber = (cell: string, position: number, decimalMark: string): Fault => ({
  rule: 'capture-not-a-number',
  message: `Column ${position} holds ${quoted(cell)} where a number with decimal ${decimalMark === ',' ? 'comma' : 'point'} is expected.`,
  hint: 'Correct the cell, or take the row out if it is no data.',
});

export const textRow = (line: string): Fault => ({
  rule: 'capture-text-row',
  message: `The row ${quoted(line)} holds no numbers. A second header or a remark among the numbers is not read over.`,
  hint: 'Keep one capture in each file. If the numbers begin below this line, declare `skip` with its number.',
});

export const blankLine = (): Fault => ({
  rule: 'capture-blank-line',
  message: 'The line is blank, and more numbers follow it.',
  hint: 'Keep one capture in each file, and take the blank line out if nothing is missing here.',
});

export const moreFaults = (count: number): Fault => ({
  rule: 'capture-more-faults',
  message: `${plural(count, 'more row has', 'more rows have')} faults, beginning with this one.`,
  hint: 'Mend the rows above first; the rest may share their cause.',
});

export const numbersAboveHeader = (): Fault => ({
  rule: 'capture-numbers-above-header',
  severity: 'warning',
  message:
    'The line holds numbers like a row of data but stands above a line of text; it is left out as preamble.',
  hint: 'Declare `skip` to say that it is no data.',
});

export const textColumn = (position: number): Fault => ({
  rule: 'capture-text-column',
  severity: 'warning',
  message: `Column ${position} holds text and is left out.`,
});

export const emptyColumn = (header: string): Fault => ({
  rule: 'capture-empty-column',
  severity: 'warning',
  message: `The header names ${quoted(header)}, but no row has a value under it; it is left out.`,
});

export const columnUnknown = (wanted: string, near: readonly string[]): Fault => ({
  rule: 'capture-column-unknown',
  message: `The declaration names the column ${quoted(wanted)}, which the file does not have.`,
  hint:
    near.length > 0
      ? `The file has ${listed(near)}.`
      : 'The file has no header: give the position, counted from 1.',
});

export const columnUnclear = (wanted: string, count: number): Fault => ({
  rule: 'capture-column-unclear',
  message: `${count} columns have the header ${quoted(wanted)} that the declaration names.`,
  hint: 'Declare the position of the column instead, counted from 1.',
});

export const notANumberColumn = (wanted: string | number, positions: readonly number[]): Fault => ({
  rule: 'capture-column-unknown',
  message: `The declaration names column ${typeof wanted === 'number' ? wanted : quoted(wanted)}, which is no column of numbers.`,
  hint: `The columns of numbers have the positions ${positions.join(', ')}.`,
});

export const declaredTwice = (first: string, second: string, column: string | number): Fault => ({
  rule: 'capture-column-twice',
  message: `The declaration gives column ${typeof column === 'number' ? column : quoted(column)} two names, ${quoted(first)} and ${quoted(second)}.`,
  hint: 'Keep one of the two.',
});

export function unitUnknown(text: string): Fault {
  const near = nearestNames(text, unitNames());
  return {
    rule: 'capture-unit-unknown',
    message: `The unit ${quoted(text)} is not known.`,
    hint:
      near.length > 0
        ? `Did you mean ${near.join(' or ')}?`
        : 'Units are V, A, W, Ω, Hz, s, %, deg, rad, °C with prefixes as in mV, and dB, dBV, dBu, dBm, dBFS.',
  };
}

export const unitTwice = (header: string, row: string): Fault => ({
  rule: 'capture-unit-unclear',
  message: `The header says ${quoted(header)} and the unit row says ${quoted(row)}.`,
  hint: 'Declare the `unit` of this column.',
});

export const unitMismatch = (column: string, quantity: ColumnQuantity, unit: string): Fault => ({
  rule: 'capture-unit-mismatch',
  message: `The column ${quoted(column)} is read as ${quantity}, which cannot be in ${unit === '' ? 'no unit' : quoted(unit)}.`,
  hint: 'Declare `quantity` and `unit` of this column.',
});

const choicesOf: Partial<Record<ColumnQuantity, string>> = {
  level: 'V, dBV, dBu, dBm, dBFS or another level unit',
  gain: 'dB or a plain ratio',
  phase: 'degrees or radians',
  thd: '%, dB or a plain ratio',
  'thd-plus-noise': '%, dB or a plain ratio',
  harmonic: '%, dB or a plain ratio',
};

export function unitMissing(column: string, quantity: ColumnQuantity | null, unknown: string | null): Fault {
  const choices = quantity === null ? undefined : choicesOf[quantity];
  return {
    rule: 'capture-unit-missing',
    message:
      unknown === null
        ? `The column ${quoted(column)} has no unit: it may be in ${choices ?? 'any'}.`
        : `The column ${quoted(column)} is in ${quoted(unknown)}, which is no unit that is known.`,
    hint: 'Declare its `unit`, for example `"%"`, `dB`, `dBV`, `mV` or `1` for a plain ratio.',
  };
}

export const quantityMissing = (column: string, unit: string): Fault => ({
  rule: 'capture-quantity-missing',
  message: `The column ${quoted(column)} is in ${quoted(unit)}, but nothing says what it measures.`,
  hint: 'Declare its `quantity`: thd, thd-plus-noise, harmonic (with `order`) or gain.',
});

export const orderMissing = (column: string): Fault => ({
  rule: 'capture-order-missing',
  message: `The column ${quoted(column)} is a harmonic, but nothing says which.`,
  hint: 'Declare its `order`, 2 for the second harmonic.',
});

export const referenceMissing = (column: string): Fault => ({
  rule: 'capture-reference-missing',
  message: `The column ${quoted(column)} is a level in dB, but nothing says re what.`,
  hint: 'Declare the value of 0 dB, for example `reference: 1 V`, or `quantity: gain` if it is output re input.',
});

export const fullScaleMissing = (column: string): Fault => ({
  rule: 'capture-full-scale-missing',
  message: `The column ${quoted(column)} is in dBFS, but nothing says what full scale is.`,
  hint: 'Declare the rms voltage of a full-scale sine, for example `fullScale: 2 V`.',
});

export const loadMissing = (column: string, unit: string, wanted: ColumnQuantity): Fault => ({
  rule: 'capture-load-missing',
  message: `The column ${quoted(column)} is in ${quoted(unit)} and is to be read as ${wanted}, which depends on the load.`,
  hint: 'Declare the load resistance, for example `load: 8 Ω`.',
});

export const beyondNumbers = (value: number, conversion: string): Fault => ({
  rule: 'capture-not-finite',
  message: `The value ${value} read as ${conversion} is beyond what a number can hold.`,
  hint: 'Check the unit of the column.',
});

export const columnsUnnamed = (count: number): Fault => ({
  rule: 'capture-columns-unnamed',
  message:
    count === 1
      ? 'The column of numbers has no header, so nothing says what it is.'
      : `Nothing says what all of the ${count} columns of numbers are: no header with a name for each stands above them.`,
  hint: 'Declare them by position, for example `columns: { time: { column: 1, unit: s }, out: { column: 2, unit: V } }`, or `rate` for samples without a time column.',
});

export function kindUnclear(fitting: readonly CaptureKind[], columns: readonly string[]): Fault {
  const found = `The columns are ${listed(columns)}`;
  return {
    rule: 'capture-kind-unclear',
    message:
      fitting.length === 0
        ? `${found}: no kind of capture is certain from them.`
        : `${found}: they fit more than one kind of capture, ${fitting.join(' and ')}.`,
    hint: 'Declare `kind`, and the `quantity` of columns whose header does not say it. Samples without a time column need `rate`.',
  };
}

export const kindLacks = (kind: CaptureKind, missing: readonly ColumnQuantity[]): Fault => ({
  rule: 'capture-kind-lacks',
  message: `${/^[aeiou]/.test(kind) ? 'An' : 'A'} ${kind} needs a column of ${missing.join(', ')}${missing.length > 1 ? ' (one of them)' : ''}, and none was found.`,
  hint: 'Declare the `quantity` of the column that holds it, or another `kind`.',
});

export const noSignal = (): Fault => ({
  rule: 'capture-no-signal',
  message: 'The file has a time axis but no column of samples.',
  hint: 'Export at least one channel with the time.',
});

export const tooFewRows = (rows: number, needed: number): Fault => ({
  rule: 'capture-too-few-rows',
  message: `The file has ${plural(rows, 'row')} of numbers; at least ${needed} are needed.`,
  hint: 'Export a longer record.',
});

export const timeStandsStill = (stamp: number): Fault => ({
  rule: 'capture-time-still',
  message: `Every time stamp is ${stamp}.`,
  hint: 'Export the time with more digits, or declare `rate` and leave the time column out.',
});

export const timeDecreases = (stamp: number, before: number): Fault => ({
  rule: 'capture-time-decreasing',
  message: `The time stamp ${stamp} comes after ${before}: time runs backward here.`,
  hint: 'Keep one record in each file.',
});

/** `steps` is the time since the stamp before in steps of the grid, `slack` what rounding leaves open of it. */
export function timeIrregular(stamp: number, steps: number, slack: number): Fault {
  const missing = Math.round(steps) - 1;
  const isGap = missing >= 1 && Math.abs(steps - missing - 1) < 0.05 + slack;
  return isGap
    ? {
        rule: 'capture-samples-missing',
        message: `The time stamp ${stamp} comes ${missing + 1} steps after the one before it: ${plural(missing, 'sample is', 'samples are')} missing.`,
        hint: 'Cut the record here; a spectrum needs every sample. Declare `kind: readings` for values that are no waveform.',
      }
    : {
        rule: 'capture-time-irregular',
        message: `The time stamp ${stamp} comes ${short(steps)} steps after the one before it: the samples are not evenly spaced beyond the rounding of the stamps.`,
        hint: 'Export at a uniform rate. Declare `kind: readings` for values that are no waveform.',
      };
}

export const indexGap = (index: number, before: number): Fault => ({
  rule: 'capture-index-gap',
  message: `The sample number ${index} comes after ${before}: samples are missing or out of order.`,
  hint: 'Cut the record here, or export it again.',
});

export const timeColumnsDiffer = (column: string, first: string): Fault => ({
  rule: 'capture-time-columns-differ',
  message: `The time column ${quoted(column)} spans another time than ${quoted(first)}.`,
  hint: 'Channels of one capture share one sampling rate: keep them in separate files.',
});

export const channelSkew = (column: string, first: string, steps: number): Fault => ({
  rule: 'capture-channel-skew',
  severity: 'warning',
  message: `The time column ${quoted(column)} begins ${short(steps)} samples later than ${quoted(first)}; phases between the two channels are off by that much.`,
});

export const ratesDiffer = (first: number, line: number, second: number): Fault => ({
  rule: 'capture-rate-unclear',
  message: `The preamble gives the sampling rate ${short(second)} Hz here and ${short(first)} Hz in line ${line}.`,
  hint: 'Declare `rate`, for example `rate: 48 kHz`.',
});

export const statedRateDiffers = (stated: number, measured: number): Fault => ({
  rule: 'capture-rate-unclear',
  message: `The preamble gives the sampling rate ${short(stated)} Hz, but the time stamps come at ${short(measured)} Hz.`,
  hint: 'Declare `rate`, or the `unit` of the time column.',
});

export const declaredRateDiffers = (declared: number, measured: number): Fault => ({
  rule: 'capture-rate-differs',
  severity: 'warning',
  message: `The declared rate of ${short(declared)} Hz is used, although the time stamps come at ${short(measured)} Hz.`,
});

export const rateMissing = (): Fault => ({
  rule: 'capture-rate-missing',
  message: 'Nothing says how fast the samples came: there is no time column and no sampling rate.',
  hint: 'Declare `rate`, for example `rate: 48 kHz`.',
});

export const axisUnclear = (axis: string, columns: readonly string[]): Fault => ({
  rule: 'capture-axis-unclear',
  message:
    columns.length === 0
      ? `No column of ${axis} was found to run along.`
      : `More than one column may be the ${axis} that was swept: ${listed(columns)}.`,
  hint: 'Declare `role: stimulus` for the column that was set, and `role: response` for those that were measured.',
});

export const valueTooSmall = (value: number, quantity: ColumnQuantity, floor: string): Fault => ({
  rule: 'capture-value-range',
  message: `The value ${value} is not a ${quantity}: it must be ${floor}.`,
  hint:
    quantity === 'frequency' && value === 0
      ? 'If the file is a spectrum that begins at 0 Hz, declare `kind: spectrum`.'
      : 'Check the column and its unit.',
});

export const orderBroken = (value: number, before: number, column: string): Fault => ({
  rule: 'capture-order',
  message: `The value ${value} in ${quoted(column)} comes after ${before}: a sweep runs strictly up or strictly down.`,
  hint: 'Keep one sweep in each file.',
});

export const turnedRound = (quantity: ColumnQuantity): Fault => ({
  rule: 'capture-descending',
  severity: 'warning',
  message: `The sweep runs downward; its rows were turned round so that ${quantity} ascends.`,
});

export const doubleName = (name: string, names: readonly string[]): Fault => ({
  rule: 'capture-double-name',
  severity: 'warning',
  message: `More than one column is called ${quoted(name)}; they are told apart as ${listed(names)}.`,
  hint: 'Declare names of your own under `columns`.',
});
