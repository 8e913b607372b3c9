import { drawable } from './axis.ts';
import type { DrawnLine } from './curves.ts';
import { counted, hertz } from './format.ts';
import { type HarmonicMark, harmonicMarks } from './harmonic-marks.ts';
import { leftOutNotes, leftOutOf, rangeNote } from './messages.ts';
import { extent, type Run, type Sorted, sortReadings } from './readings.ts';
import { evenly } from './table.ts';
import { colour, lineStyle } from './theme.ts';
import type { HarmonicSpectrumData, Readings } from './types.ts';

/** The name at the end of the noise floor. */
export const floorName = 'noise floor';
const reach = 100;
const mostForMiddle = 2000;

/** A spectrum in decibels re its fundamental. */
export interface Levels {
  line: DrawnLine;
  floor: DrawnLine | null;
  marks: HarmonicMark[];
  /** What the drawing leaves out. */
  notes: string[];
}

/** Levels of spectra that were asked for, as both widths of a chart are drawn from the same. */
const known = new WeakMap<HarmonicSpectrumData, Levels>();

/** Everything a spectrum shows, in decibels, from a hundredth to a hundred times the fundamental. */
export function levelsOf(
  data: HarmonicSpectrumData,
  fundamental: NonNullable<HarmonicSpectrumData['fundamental']>,
): Levels {
  const levels = known.get(data) ?? levelsRe(data, fundamental);
  known.set(data, levels);
  return levels;
}

function levelsRe(
  data: HarmonicSpectrumData,
  { frequencyHz, rms }: NonNullable<HarmonicSpectrumData['fundamental']>,
): Levels {
  const range: [number, number] = [frequencyHz / reach, frequencyHz * reach];
  const sorted = sortReadings(data.frequencyHz, data.rms, { x: 'log', y: 'log' });
  const runs = inRange(sorted, range, rms);
  const style = { ...lineStyle(data.role === 'stimulus' ? 1 : 0), dash: [], weight: 0.8 };
  const [from, to] = extent(runs.flatMap(({ x }) => x)) ?? range;
  const cut = count(runs) < count(sorted.runs);
  return {
    line: { name: data.channel, runs, style },
    floor: data.floorRms === null ? null : floorOf(data.frequencyHz, data.floorRms, range, rms),
    marks: harmonicMarks(frequencyHz, data.harmonics).filter((mark) => mark.frequencyHz <= range[1]),
    notes: [
      ...leftOutNotes([leftOutOf(data.channel, sorted)]),
      ...(cut ? [rangeNote(`${hertz(from)} to ${hertz(to)}`)] : []),
      ...zeroHarmonics(data),
    ],
  };
}

function floorOf(
  frequencyHz: Readings,
  floorRms: Readings,
  range: [number, number],
  reference: number,
): DrawnLine {
  const runs = inRange(sortReadings(frequencyHz, floorRms, { x: 'log', y: 'log' }), range, reference);
  return { name: floorName, runs, style: { stroke: colour('soft'), dash: [4, 2], weight: 1 } };
}

/** Runs cut to a range of frequencies, in decibels re a reference. */
export function inRange({ runs }: Sorted, [low, high]: [number, number], reference: number): Run[] {
  return runs
    .map(({ x, y }) => {
      const inside: Run = { x: [], y: [] };
      for (let i = 0; i < x.length; i++) {
        const place = x[i] ?? 0;
        if (place < low || place > high) continue;
        inside.x.push(place);
        inside.y.push(20 * Math.log10((y[i] ?? 0) / reference));
      }
      return inside;
    })
    .filter(({ x }) => x.length > 0);
}

const count = (runs: readonly Run[]): number => runs.reduce((sum, { x }) => sum + x.length, 0);

function zeroHarmonics({ harmonics }: HarmonicSpectrumData): string[] {
  const zero = harmonics.filter(({ ratio }) => !drawable('log', ratio)).length;
  if (zero === 0) return [];
  return [
    `${counted(zero, 'harmonic without an amplitude has', 'harmonics without an amplitude have')} no level and no mark.`,
  ];
}

/** The level that half of the readings of a line lie below, found from an even share where there are many. */
export function middleLevel({ runs }: DrawnLine): number | null {
  const all = runs.flatMap(({ y }) => y);
  const levels = evenly(all.length, mostForMiddle)
    .map((i) => all[i] ?? 0)
    .toSorted((a, b) => a - b);
  return levels[Math.floor(levels.length / 2)] ?? null;
}
