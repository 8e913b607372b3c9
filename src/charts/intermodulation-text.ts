import type { Axis } from './axis.ts';
import { drawable } from './axis.ts';
import { decibels, fixed, hertz, listed, significant } from './format.ts';
import { type SpectrumMark, unclearState } from './harmonic-marks.ts';
import { noted } from './table.ts';
import type { ChartTable, ChartText, IntermodulationSpectrumData } from './types.ts';

/** Title and description of a spectrum of two tones; `marks` are the lines inside the drawing, without the tones. */
export function intermodulationText(
  { channel, tones }: IntermodulationSpectrumData,
  marks: readonly SpectrumMark[],
  { x, y, notes }: { x: Axis; y: Axis; notes: readonly string[] },
): ChartText {
  const [from, to] = x.domain.map(hertz);
  const what = `Amplitude spectrum of ${channel} from ${from} to ${to} in decibels re the upper tone f2 at ${hertz(tones?.upper.frequencyHz ?? 0)}; the lower tone f1 is at ${hertz(tones?.lower.frequencyHz ?? 0)}.`;
  const clear = marks.filter(({ detected }) => detected);
  const named = clear.map(({ label, levelDb }) => `${label} ${decibels(levelDb, 1)}`);
  const lines = named.length === 0 ? [] : [`Lines above the noise: ${listed(named)}.`];
  const edge = `Lines below ${decibels(y.domain[0])} are cut off at the lower edge.`;
  return { title: titleOf(clear), description: [what, ...lines, edge, ...notes].join(' ') };
}

function titleOf(clear: readonly SpectrumMark[]): string {
  const largest = clear.toSorted((a, b) => b.levelDb - a.levelDb).slice(0, 3);
  if (largest.length === 0) return 'No intermodulation line stands above the noise';
  const named = listed(largest.map(({ label, levelDb }) => `${label} at ${decibels(levelDb)}`));
  return `${largest.length === 1 ? 'Largest line' : 'Largest lines'}: ${named} re the upper tone`;
}

/** The lines of a spectrum of two tones as a table. */
export function intermodulationTable(
  { lines }: IntermodulationSpectrumData,
  notes: readonly string[],
): ChartTable {
  return {
    columns: [
      { title: 'Line', numeric: false },
      { title: 'Frequency', unit: 'Hz', numeric: true },
      { title: 'Level re upper tone', unit: 'dB', numeric: true },
      { title: 'Amplitude re upper tone', unit: '%', numeric: true },
      { title: 'State', numeric: false },
    ],
    rows: lines.map(({ name, frequencyHz, ratio, detected }) => [
      name,
      significant(frequencyHz, 6),
      drawable('log', ratio) ? fixed(20 * Math.log10(ratio), 1) : '–',
      Number.isFinite(ratio) ? significant(ratio * 100, 3) : '–',
      detected ? 'above the noise' : unclearState,
    ]),
    ...noted(notes),
  };
}
