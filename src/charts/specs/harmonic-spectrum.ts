import { levelAspects, proportion } from '../aspect.ts';
import { drawable } from '../axis.ts';
import { type DrawnLine, logAxis } from '../curves.ts';
import { type Frame, frameFor } from '../frame.ts';
import { frequencyChannel } from '../frequency.ts';
import { type HarmonicMark, markKey } from '../harmonic-marks.ts';
import type { Panel } from '../layers.ts';
import { lineSpectrum } from '../line-spectrum.ts';
import { absentReasons } from '../messages.ts';
import { extent } from '../readings.ts';
import { floorName, type Levels, levelsOf, middleLevel } from '../spectrum-levels.ts';
import { spectrumTable, spectrumText } from '../spectrum-text.ts';
import type { ChartResult, ChartSize, HarmonicSpectrumData } from '../types.ts';

/**
 * Amplitude spectrum in decibels re the fundamental against logarithmic frequency, from a hundredth to a hundred
 * times the fundamental as far as there is data, in an aspect ratio of IEC 60263. Harmonics are numbered; those
 * above the noise are discs, the others diamonds. Without a fundamental or without two lines it is absent.
 */
export function harmonicSpectrum(data: HarmonicSpectrumData, size: ChartSize = 'wide'): ChartResult {
  const { fundamental } = data;
  if (!drawable('log', fundamental?.rms) || !drawable('log', fundamental?.frequencyHz)) {
    return { absent: absentReasons.noFundamental(data.channel), table: spectrumTable(data, []) };
  }
  const levels = levelsOf(data, fundamental);
  const table = spectrumTable(data, levels.notes);
  if (!levels.line.runs.some(({ x }) => x.length > 1)) {
    return { absent: absentReasons.fewLines(data.channel), table };
  }
  const key = markKey(levels.marks);
  const frame = frameFor(size, levels.floor === null ? [] : [floorName], {
    most: 48,
    rows: key.width > 0 ? 1 : 0,
  });
  const panel = panelOf(levels, frame, size);
  return { spec: specOf(levels, panel, frame), text: spectrumText(data, levels, panel), table };
}

function panelOf({ line, floor, marks }: Levels, { width }: Frame, size: ChartSize): Panel {
  const x = logAxis([line], width);
  const [low, high] = levelDomain(line, floor, marks);
  const { unitLength, span } = proportion({
    aspects: levelAspects,
    span: high - low,
    decadeLength: width / Math.log10(x.domain[1] / x.domain[0]),
    height: size === 'wide' ? 270 : 230,
  });
  return {
    x,
    y: { kind: 'linear', domain: [high - span, high], length: span * unitLength },
    top: 0,
  };
}

/** From ten decibels below the noise and the lowest mark to above the highest line, in whole tens. */
function levelDomain(
  line: DrawnLine,
  floor: DrawnLine | null,
  marks: readonly HarmonicMark[],
): [number, number] {
  const noise = middleLevel(floor ?? line) ?? -100;
  const lowest = Math.min(noise - 10, ...marks.map(({ levelDb }) => levelDb - 5), -20);
  const highest = extent(line.runs.flatMap(({ y }) => y))?.[1] ?? 0;
  return [10 * Math.floor(lowest / 10), 10 * Math.ceil(Math.max(0, highest) / 10 + 0.5)];
}

function specOf({ line, floor, marks }: Levels, panel: Panel, frame: Frame) {
  const shown = { line, floor, marks, key: markKey(marks), x: frequencyChannel(panel) };
  return lineSpectrum({ ...shown, title: 'Level, dB re fundamental' }, panel, frame);
}
