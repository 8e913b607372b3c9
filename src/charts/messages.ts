import type { Axis } from './axis.ts';
import { counted, listed, significant } from './format.ts';
import type { Run, Sorted } from './readings.ts';

/** Readings of one line that are not in the drawing. */
interface LeftOut {
  name: string;
  missing: number;
  notPositive: number;
}

/** Counts what a line leaves out. */
export function leftOutOf(name: string, { missing, notPositive }: Sorted): LeftOut {
  return { name, missing, notPositive };
}

/** Sentences on what a drawing leaves out; none where it shows everything. */
export function leftOutNotes(lines: readonly LeftOut[]): string[] {
  return lines.flatMap(({ name, missing, notPositive }) => [
    ...(notPositive > 0 ? [notPositiveNote(name, notPositive)] : []),
    ...(missing > 0 ? [missingNote(name, missing)] : []),
  ]);
}

function notPositiveNote(name: string, count: number): string {
  const readings = counted(count, 'reading at or below zero has', 'readings at or below zero have');
  return `${name}: ${readings} no place on a logarithmic axis and ${count === 1 ? 'is' : 'are'} not drawn.`;
}

function missingNote(name: string, count: number): string {
  return `${name}: ${counted(count, 'reading has no value and is', 'readings have no value and are')} not drawn.`;
}

/** Says that a table holds a part of the readings. */
export function thinnedNote(shown: number, total: number, source?: string): string {
  const whole = source === undefined ? '' : ` The whole data is in ${source}.`;
  return `${shown} of ${total} readings.${whole}`;
}

/** Says that the drawing ends before the data does. */
export function rangeNote(what: string): string {
  return `The drawing shows ${what}; the rest of the data lies outside of it.`;
}

/** Says that readings lie below a vertical axis. */
export function cutNotes(
  lines: readonly { runs: readonly Run[] }[],
  { domain: [low] }: Axis,
  unit: string,
): string[] {
  const cut = lines.some(({ runs }) => runs.some(({ y }) => y.some((value) => value < low)));
  return cut ? [`What lies below ${significant(low, 3)} ${unit} is cut off at the lower edge.`] : [];
}

/** Says where an excerpt begins. */
export function excerptStart(time: string): string {
  return `Time counts from ${time} after the start of the record.`;
}

export const absentReasons = {
  noFundamental: (channel: string): string =>
    `The spectrum of ${channel} has no clear fundamental, so there is no level for its harmonics to be compared with.`,
  noTones: (channel: string): string =>
    `The spectrum of ${channel} has no two clear tones, so there is no level for its lines to be compared with.`,
  fewLines: (channel: string): string =>
    `The spectrum of ${channel} has fewer than two lines that can be drawn on logarithmic axes.`,
  fewSamples: (names: readonly string[]): string =>
    `A waveform needs at least two samples; ${listed(names) || 'this capture'} ${names.length > 1 ? 'have' : 'has'} fewer.`,
  noRate: 'The rate of the samples is not known, so there is no time axis to draw them on.',
  fewReadings: (what: string): string =>
    `A line of ${what} needs at least two readings that can be drawn; there are fewer.`,
  fewValues: (name: string): string => `Fewer than two versions have a value for ${name}.`,
  fewUnits: (name: string): string => `Fewer than two units have a value for ${name}.`,
  noCurves: (device: string): string =>
    `The plate characteristics of ${device} hold no curve with two points, so there is nothing to lay a load line on.`,
};
