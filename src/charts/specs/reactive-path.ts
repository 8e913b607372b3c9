import { hertz, withPrefix } from '../format.ts';
import { plateChart } from '../plate-chart.ts';
import { loopTitle, plateTable } from '../plate-text.ts';
import { extent } from '../readings.ts';
import type { ChartResult, ChartSize, ChartText, PlatePoint, ReactivePathData } from '../types.ts';

/**
 * Plate current against plate voltage over a whole cycle into a load that is no resistor, on the plate
 * characteristics and beside the load line of the rated load. Without a curve of two points it is absent.
 */
export function reactivePath(data: ReactivePathData, size: ChartSize = 'wide'): ChartResult {
  const { path, at, ...plate } = data;
  const [first] = path;
  const closed = first ? [...path, first] : [];
  return plateChart({ ...plate, swing: closed }, size, {
    text: (drawn, notes) => textOf(data, drawn.swing, notes),
    table: plateTable,
  });
}

function textOf(
  { device, at, loadOhm }: ReactivePathData,
  swing: readonly PlatePoint[],
  notes: readonly string[],
): ChartText {
  const volts = extent(swing.map(({ plateV }) => plateV)) ?? [0, 0];
  const amperes = extent(swing.map(({ plateA }) => plateA)) ?? [0, 0];
  const rated = loadOhm === null ? '' : ` The straight line is that of ${withPrefix(loadOhm, 'Ω', 3)}.`;
  return {
    title: `${loopTitle(at)} at the plate`,
    description: [
      `Plate current of ${device} against plate voltage over one cycle at ${hertz(at.frequencyHz)}: a closed path from ${withPrefix(volts[0], 'V', 3)} to ${withPrefix(volts[1], 'V', 3)} and from ${withPrefix(amperes[0], 'A', 3)} to ${withPrefix(amperes[1], 'A', 3)}.${rated}`,
      ...notes,
    ].join(' '),
  };
}
