import type { Built } from './built.ts';
import type { Encoding } from './decode.ts';
import { type Finished, finishColumns } from './finished.ts';
import type { Heading } from './heading.ts';
import { isSampled } from './kind.ts';
import * as say from './messages.ts';
import type { StatedRate } from './rates.ts';
import { type Report, topOfFile } from './report.ts';
import { samplingOf } from './sampling.ts';
import { axisOf, checkValues, directionOf, repeats } from './sweep.ts';
import type { Table } from './table.ts';
import type { Capture, CaptureDeclaration, CaptureKind, Sampling, TableReading } from './types.ts';
import { declarationOf } from './understood.ts';

export interface Parts {
  kind: CaptureKind;
  encoding: Encoding;
  heading: Heading;
  table: Table;
  columns: readonly Built[];
  stated: readonly StatedRate[];
  declaration: CaptureDeclaration;
}

/** A capture and the declaration under which it reads the same. */
export interface Assembled {
  capture: Capture;
  declaration: CaptureDeclaration;
}

/** Puts the capture together from its columns; null with an error where sampling or order is at fault. */
export function assemble(parts: Parts, report: Report): Assembled | null {
  return isSampled(parts.kind) ? sampledCapture(parts, report) : sweptCapture(parts, report);
}

function sampledCapture(parts: Parts, report: Report): Assembled | null {
  const { columns, table, stated, declaration } = parts;
  const isOf = (quantity: string) => (column: Built) => column.conversion.quantity === quantity;
  const times = columns.filter(isOf('time'));
  const indices = columns.filter(isOf('index'));
  const signals = columns.filter((column) => !times.includes(column) && !indices.includes(column));
  if (signals.length === 0) return report.at(topOfFile, say.noSignal());
  const sampling = samplingOf({ table, times, indices, stated, declaration }, report);
  return sampling && assembled(parts, { columns: signals, axis: null, sampling }, report);
}

function sweptCapture(parts: Parts, report: Report): Assembled | null {
  const { kind, columns, table } = parts;
  const axis = axisOf(kind, columns, report);
  if (axis === undefined || !checkValues(kind, columns, table, report)) return null;
  const direction = axis && directionOf(axis, table, report);
  if (axis && !direction) return null;
  const kept = columns.filter((column) => !repeats(column, axis));
  if (axis && direction === 'descending') {
    report.at(axis.sense.spot, say.turnedRound(axis.conversion.quantity));
    for (const { values } of kept) values.reverse();
  }
  return assembled(parts, { columns: kept, axis, sampling: null }, report);
}

interface Outcome {
  /** The columns that leave the room. */
  columns: readonly Built[];
  axis: Built | null;
  sampling: Sampling | null;
}

function assembled(parts: Parts, { columns, axis, sampling }: Outcome, report: Report): Assembled {
  const { kind } = parts;
  const { finished, doubles } = finishColumns(columns, kind, axis);
  const line = columns[0]?.sense.spot.line ?? 1;
  for (const name of doubles) report.at({ line, column: 1 }, say.doubleName(name, namesLike(name, finished)));
  const dropped = parts.columns.filter((column) => !columns.includes(column));
  return {
    capture: { kind, table: tableReading(parts), columns: finished.map(({ column }) => column), sampling },
    declaration: declarationOf({ ...parts, sampling, finished, dropped }),
  };
}

const namesLike = (name: string, finished: readonly Finished[]) =>
  finished.map(({ column }) => column.name).filter((other) => other === name || other.startsWith(`${name}-`));

function tableReading({ encoding, heading, table }: Parts): TableReading {
  const { delimiter, decimalMark } = table.layout;
  return {
    encoding,
    delimiter,
    decimalMark,
    firstDataLine: table.firstLine,
    rows: table.rows,
    passedOver: [...heading.passedOver, ...table.passedOver],
    notes: [...heading.notes, ...table.notes],
  };
}
