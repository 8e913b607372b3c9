import type { Capture, Column } from '../../capture/index.ts';
import { type Measurement, stepOfRecord } from '../../figures/index.ts';
import { type Place, type Problem, problemAt } from '../../problem/index.ts';
import type { CaptureRecord } from '../types.ts';
import { instrumentMessages as messages } from './instrument-messages.ts';
import { probeOf } from './measurement.ts';
import type { Peaks } from './peaks.ts';

/** Less of the range than this leaves more than three bits of a converter unused. */
const leastShare = 0.1;

interface Taken extends Pick<CaptureRecord, 'file' | 'analysis' | 'data' | 'capture'> {
  peaks: Peaks;
  /** True for a sweep that runs downward in its file. */
  turnedRound: boolean;
}

/** Warnings of channels that leave their instrument's range, at the line of the peak, or hardly use it, at `place`. */
export function rangeProblems(taken: Taken, { instrument }: Measurement, place: Place): Problem[] {
  const { largestInput, bits } = instrument;
  if (largestInput === undefined) return [];
  return voltages(taken.capture).flatMap(({ name }) => {
    const probe = probeOf(taken.data, name);
    const { size, row } = taken.peaks.get(name) ?? { size: 0, row: 0 };
    // Readings of a sweep are rms values of sines.
    const peak = size * (isSampled(taken) ? 1 : Math.SQRT2);
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

/** Line of a row of numbers, in a sweep that runs downward counted from its end. */
function lineOfRow({ capture: { table }, turnedRound }: Taken, row: number): number {
  return table.firstDataLine + (turnedRound ? table.rows - 1 - row : row);
}
