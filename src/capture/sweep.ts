import type { Fault } from '../problem/index.ts';
import type { Built } from './built.ts';
import { columnName } from './convert.ts';
import * as say from './messages.ts';
import type { Report } from './report.ts';
import type { Table } from './table.ts';
import type { CaptureKind, ColumnQuantity } from './types.ts';

/** The column along which a sweep runs; null for kinds without one, undefined with an error when unclear. */
export function axisOf(
  kind: CaptureKind,
  columns: readonly Built[],
  report: Report,
): Built | null | undefined {
  if (kind === 'level-sweep') return levelAxis(columns, report);
  if (!kind.endsWith('-sweep') && kind !== 'spectrum') return null;
  const axes = columns.filter(({ conversion }) => conversion.quantity === 'frequency');
  const distinct = axes.filter((axis, at) => at === 0 || !repeats(axis, axes[0]));
  return only(distinct, report, () => say.axisUnclear('frequency', axes.map(nameOf)));
}

/** True for a second frequency column with the values of the first, as where each channel has its own. */
export function repeats(column: Built, axis: Built | null | undefined): boolean {
  if (!axis || column === axis || column.conversion.quantity !== axis.conversion.quantity) return false;
  return column.values.every((value, row) => value === axis.values[row]);
}

/** The stimulus where there is one, else the power, else the only level. */
function levelAxis(columns: readonly Built[], report: Report): Built | undefined {
  const isLevel = ({ conversion }: Built) => ['voltage', 'current', 'power'].includes(conversion.quantity);
  const levels = columns.filter(isLevel);
  const stimuli = levels.filter(({ sense }) => sense.role === 'stimulus');
  const powers = levels.filter(({ conversion }) => conversion.quantity === 'power');
  const axes = [stimuli, powers, levels].find((choice) => choice.length > 0) ?? [];
  return only(axes, report, () => say.axisUnclear('level', axes.map(nameOf)));
}

const nameOf = ({ sense }: Built) => columnName(sense);

function only(axes: readonly Built[], report: Report, fault: () => Fault): Built | undefined {
  const [first, second] = axes;
  if (first && !second) return first;
  report.at(second?.sense.spot ?? { line: 1, column: 1 }, fault());
  return undefined;
}

/** Smallest value that a quantity may have, and whether it may have it. */
const floors: Partial<Record<ColumnQuantity, 'positive' | 'not negative'>> = {
  frequency: 'positive',
  impedance: 'positive',
  power: 'not negative',
  thd: 'not negative',
  'thd-plus-noise': 'not negative',
  harmonic: 'not negative',
};

/**
 * Reports the first value of each column that its quantity cannot have; false when there is any. A spectrum
 * may begin at 0 Hz.
 */
export function checkValues(
  kind: CaptureKind,
  columns: readonly Built[],
  table: Table,
  report: Report,
): boolean {
  const before = report.problems.length;
  for (const { sense, conversion, values } of columns) {
    const floor = kind === 'spectrum' ? 'not negative' : floors[conversion.quantity];
    if (!floor || !floors[conversion.quantity]) continue;
    const row = values.findIndex((value) => (floor === 'positive' ? value <= 0 : value < 0));
    if (row < 0) continue;
    const fault = say.valueTooSmall(sense.values[row] ?? 0, conversion.quantity, floor);
    report.at(table.spot(row, sense.at), fault);
  }
  return report.problems.length === before;
}

/**
 * Checks that a sweep's axis runs strictly in one direction, and tells which; null with an error at the row
 * that breaks the order.
 */
export function directionOf(axis: Built, table: Table, report: Report): 'ascending' | 'descending' | null {
  const { values, sense } = axis;
  if (table.rows < 2) return report.at(table.spot(0, sense.at), say.tooFewRows(table.rows, 2));
  const sign = Math.sign((values[1] ?? 0) - (values[0] ?? 0)) || 1;
  const row = values.findIndex((value, at) => at > 0 && !((value - (values[at - 1] ?? 0)) * sign > 0));
  if (row < 0) return sign > 0 ? 'ascending' : 'descending';
  const fault = say.orderBroken(sense.values[row] ?? 0, sense.values[row - 1] ?? 0, columnName(sense));
  return report.at(table.spot(row, sense.at), fault);
}
