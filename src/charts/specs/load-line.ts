import { plateChart } from '../plate-chart.ts';
import { plateTable, plateText } from '../plate-text.ts';
import type { ChartResult, ChartSize, LoadLineData } from '../types.ts';

/**
 * Plate current in milliamperes against plate voltage: the family of curves with its grid voltages, the load line,
 * the path of a full swing, the operating point and the curve of constant dissipation at its limit. Without a curve
 * of two points it is absent.
 */
export function loadLine(data: LoadLineData, size: ChartSize = 'wide'): ChartResult {
  return plateChart(data, size, { text: plateText, table: plateTable });
}
