import { drawable } from './axis.ts';
import type { DrawnLine } from './curves.ts';
import { capital, decibels, fixed, hertz, listed, ordinal, significant } from './format.ts';
import { type HarmonicMark, unclearState } from './harmonic-marks.ts';
import type { Panel } from './layers.ts';
import { type Levels, middleLevel } from './spectrum-levels.ts';
import { noted } from './table.ts';
import type { ChartTable, ChartText, HarmonicSpectrumData } from './types.ts';

/** Title and description of a spectrum. */
export function spectrumText(
  { channel, fundamental }: HarmonicSpectrumData,
  { floor, marks, notes }: Levels,
  { x, y }: Panel,
): ChartText {
  const [from, to] = x.domain.map(hertz);
  const what = `Amplitude spectrum of ${channel} from ${from} to ${to} in decibels re the fundamental at ${hertz(fundamental?.frequencyHz ?? 0)}.`;
  const edge = `Lines below ${decibels(y.domain[0])} are cut off at the lower edge.`;
  const clear = marks.filter(({ order, detected }) => order > 1 && detected);
  const named = clear.map(({ order, levelDb }) => `${ordinal(order)} ${decibels(levelDb, 1)}`);
  const harmonics = named.length === 0 ? [] : [`Harmonics above the noise: ${listed(named)}.`];
  return {
    title: titleOf(clear),
    description: [what, ...harmonics, ...floorText(floor), edge, ...notes].join(' '),
  };
}

function floorText(floor: DrawnLine | null): string[] {
  const middle = floor === null ? null : middleLevel(floor);
  return middle === null ? [] : [`Half of the lines have their noise floor below ${decibels(middle)}.`];
}

function titleOf(clear: readonly HarmonicMark[]): string {
  const largest = clear.toSorted((a, b) => b.levelDb - a.levelDb).slice(0, 3);
  if (largest.length === 0) return 'No harmonic stands above the noise';
  const [first = '', ...others] = largest.map(
    ({ order, levelDb }) => `${ordinal(order)} at ${decibels(levelDb)}`,
  );
  return listed([capital(first).replace(' at', ' harmonic at'), ...others]);
}

/** The harmonics of a spectrum as a table. */
export function spectrumTable({ harmonics }: HarmonicSpectrumData, notes: readonly string[]): ChartTable {
  return {
    columns: [
      { title: 'Harmonic', numeric: true },
      { title: 'Frequency', unit: 'Hz', numeric: true },
      { title: 'Level re fundamental', unit: 'dB', numeric: true },
      { title: 'Amplitude re fundamental', unit: '%', numeric: true },
      { title: 'State', numeric: false },
    ],
    rows: harmonics.map(({ order, frequencyHz, ratio, detected }) => [
      `${order}`,
      significant(frequencyHz, 5),
      drawable('log', ratio) ? fixed(20 * Math.log10(ratio), 1) : '–',
      Number.isFinite(ratio) ? significant(ratio * 100, 3) : '–',
      detected ? 'above the noise' : unclearState,
    ]),
    ...noted(notes),
  };
}
