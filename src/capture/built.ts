import { type Conversion, type ConversionContext, conversionOf } from './convert.ts';
import * as say from './messages.ts';
import type { Report } from './report.ts';
import type { Sense } from './senses.ts';
import type { Table } from './table.ts';

/** A column of numbers converted to SI. */
export interface Built {
  sense: Sense;
  conversion: Conversion;
  values: Float64Array;
}

/** Converts every column; null when a conversion is not known or leaves the range of numbers. */
export function buildColumns(
  senses: readonly Sense[],
  table: Table,
  context: ConversionContext,
  report: Report,
): Built[] | null {
  const built = senses.flatMap((sense) => buildColumn(sense, table, context, report) ?? []);
  return built.length === senses.length ? built : null;
}

function buildColumn(sense: Sense, table: Table, context: ConversionContext, report: Report): Built | null {
  const conversion = conversionOf(sense, context);
  if ('rule' in conversion) return report.at(sense.spot, conversion);
  const values = conversion.factor === 1 ? sense.values : sense.values.map(conversion.convert);
  const beyond = conversion.factor === 1 ? -1 : values.findIndex((value) => !Number.isFinite(value));
  if (beyond < 0) return { sense, conversion, values };
  return report.at(
    table.spot(beyond, sense.at),
    say.beyondNumbers(sense.values[beyond] ?? 0, conversion.text),
  );
}
