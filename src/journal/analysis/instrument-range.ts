import type { Capture, Column } from '../../capture/index.ts';
import { type Measurement, stepOfRecord } from '../../figures/index.ts';
import { type Place, type Problem, problemAt } from '../../problem/index.ts';
import type { CaptureRecord } from '../types.ts';
import { instrumentMessages as messages } from './instrument-messages.ts';
import { probeOf } from './measurement.ts';

/** Less of the range than this leaves more than three bits of a converter unused. */
const leastShare = 0.1;

interface Taken extends Pick<CaptureRecord, 'file' | 'analysis' | 'data' | 'capture'> {
  /** True for a sweep that runs downward in its file. */
  turnedRound: boolean;
}

/** Warnings of channels that leave their instrument's range, at the line of the peak, or hardly use it, at `place`. */
export function rangeProblems(taken: Taken, { instrument }: Measurement, place: Place): Problem[] {
  const { largestInput, bits } = instrument;
  if (largestInput === undefined) return [];
  return voltages(taken.capture).flatMap(({ name, values }) => {
    const probe = probeOf(taken.data, name);
    const { peak, row } = peakOf(values, isSampled(taken) ? 1 : Math.SQRT2);
    const largest = largestInput * probe;
    if (peak > largest) {
      const line = lineOfRow(taken, row);
      return [
        problemAt({ file: taken.file, line, column: 1 }, messages.aboveLargestInput(name, peak, largest)),
      ];
    }
    const step = stepOfRecord(instrument, { probe, peak, levelStep: levelStepOf(taken, name) });
    if (step === null || bits === undefined || !isSampled(taken)) return [];
    const range = step * 2 ** (bits - 1);
    if (!(peak > 0) || peak >= leastShare * range) return [];
    return [problemAt(place, messages.smallPartOfRange(name, peak, range, Math.log2((2 * peak) / step)))];
  });
}

const voltages = ({ columns }: Capture): Column[] => columns.filter(({ quantity }) => quantity === 'voltage');

const isSampled = ({ analysis }: Taken) => analysis.kind === 'waveform' || analysis.kind === 'two-tone';

function levelStepOf({ analysis }: Taken, name: string): number | null {
  if (analysis.kind !== 'waveform' && analysis.kind !== 'two-tone') return null;
  return [...analysis.summary.channels].find((channel) => channel.name === name)?.levelStep ?? null;
}

/** The largest distance from zero as a peak, and its row; readings of a sweep are rms values of sines. */
function peakOf(values: Float64Array, crest: number): { peak: number; row: number } {
  const found = values.reduce(
    (most, value, row) => (Math.abs(value) > most.size ? { size: Math.abs(value), row } : most),
    { size: 0, row: 0 },
  );
  return { peak: crest * found.size, row: found.row };
}

/** Line of a row of numbers, in a sweep that runs downward counted from its end. */
function lineOfRow({ capture: { table }, turnedRound }: Taken, row: number): number {
  return table.firstDataLine + (turnedRound ? table.rows - 1 - row : row);
}
