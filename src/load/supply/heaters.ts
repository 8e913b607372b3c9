import type { HeaterLoad, HeaterRow, HeaterSheet, HeaterWinding, LoadFault, TubeLibrary } from '../types.ts';
import * as messages from './supply-messages.ts';

/** How far a winding may stand off a heater's voltage to count as the same. */
const sameVoltage = 0.1;

/** The heater currents of each winding, summed; a sum with a current that is not known is null. */
export function heaterSheets(windings: readonly HeaterWinding[], tubes: TubeLibrary): HeaterSheet[] {
  return windings.map(({ name, voltageV, ratedA, feeds }) => {
    const rows = feeds.map((load) => heaterRow(load, voltageV, tubes));
    const totalA = rows.reduce<number | null>(
      (total, { currentA }) => (total === null || currentA === null ? null : total + currentA),
      0,
    );
    const share = totalA === null || ratedA === null ? null : totalA / ratedA;
    return { name, voltageV, rows, totalA, ratedA, share };
  });
}

function heaterRow({ device, count, currentA }: HeaterLoad, windingV: number, tubes: TubeLibrary): HeaterRow {
  if (currentA !== null)
    return { device, count, currentA: count * currentA, source: messages.heaterStated() };
  const heater = tubes[device]?.heater;
  const unknown = (absent: string) => ({ device, count, currentA: null, source: null, absent });
  if (!heater) return unknown(messages.noHeater(device));
  const { voltage, current, source } = heater;
  if (isNear(windingV, voltage)) return { device, count, currentA: count * current, source };
  // A heater of 12.6 V has a centre tap: its halves in parallel take twice the current.
  if (isNear(voltage, 12.6) && isNear(windingV, voltage / 2)) {
    return { device, count, currentA: 2 * count * current, source: messages.halvesInParallel(source) };
  }
  return unknown(messages.otherHeaterVoltage(device, voltage, windingV));
}

const isNear = (value: number, other: number) => Math.abs(value / other - 1) <= sameVoltage;

/** Warnings of a winding that carries more than its rating, and of tubes whose current is not known. */
export function heaterWarnings(sheets: readonly HeaterSheet[]): LoadFault[] {
  return sheets.flatMap(({ name, totalA, ratedA, rows }, index) => {
    const path = ['heaters', index];
    const over =
      totalA !== null && ratedA !== null && totalA > ratedA
        ? [messages.overRatedHeater([...path, 'ratedCurrent'], name, { totalA, ratedA })]
        : [];
    const unknown = rows.flatMap(({ absent }, row) =>
      absent === undefined ? [] : [messages.heaterUnknown([...path, 'feeds', row, 'device'], absent)],
    );
    return [...over, ...unknown];
  });
}
