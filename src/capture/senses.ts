import { columnUnit } from './column-unit.ts';
import type { Declared } from './declared.ts';
import { parseHeader } from './header-text.ts';
import { type HeaderUnit, quantityOfUnit } from './header-unit.ts';
import type { Heading, HeadRow } from './heading.ts';
import type { Report, Spot } from './report.ts';
import type { Table } from './table.ts';
import type { ChannelRole, ColumnQuantity } from './types.ts';
import { type Meaning, meaningOf, roleOf } from './words.ts';

/** What one column of numbers is, as far as declaration, header, unit row and preamble say. */
export interface Sense {
  /** Position in the row, counted from 0. */
  at: number;
  values: Float64Array;
  header: string | null;
  /** Header without its unit. */
  label: string;
  declared: Declared | null;
  quantity: ColumnQuantity | null;
  order: number | null;
  unit: HeaderUnit | null;
  /** A unit that is not known, where there is no other. */
  unknownUnit: string | null;
  role: ChannelRole | null;
  spot: Spot;
}

interface Surroundings {
  table: Table;
  heading: Heading;
  declared: ReadonlyMap<number, Declared>;
}

/** Makes sense of each column of numbers; null when a unit is unknown or given twice in different ways. */
export function sensesOf(around: Surroundings, report: Report): Sense[] | null {
  const before = report.problems.length;
  const { layout, columns } = around.table;
  const senses = layout.numeric.map((at, k) => senseOf(at, columns[k] ?? new Float64Array(), around, report));
  return report.problems.length === before ? senses : null;
}

function senseOf(at: number, values: Float64Array, around: Surroundings, report: Report): Sense {
  const { table, heading } = around;
  const declared = around.declared.get(at) ?? null;
  const text = cellText(heading.names, at);
  const header = parseHeader(text);
  const meaning = meaningOf(header.label) ?? (declared && meaningOf(declared.name));
  const notes = [...heading.notes, ...table.notes];
  const unitCell = cellText(heading.units, at);
  const { unit, unknown, fault } = columnUnit({ declared, header, meaning, unitCell, notes });
  const spot = headerSpot(heading, at) ?? table.spot(0, at);
  if (fault) report.at(spot, fault);
  return {
    ...{ at, values, declared, unit, spot },
    header: text === '' ? null : text,
    label: header.label,
    quantity: declared?.quantity ?? quantityOf(meaning, unit),
    order: declared?.order ?? meaning?.order ?? null,
    unknownUnit: unknown,
    role: declared?.role ?? roleOf(declared?.name ?? '') ?? roleOf(header.label) ?? null,
  };
}

const cellText = (row: HeadRow | null, at: number) => row?.cells[at]?.text ?? '';

const headerSpot = ({ names }: Heading, at: number): Spot | null =>
  names && { line: names.line, column: names.cells[at]?.column ?? 1 };

/** A count called "sample" in volts is a voltage; otherwise words outrank the unit. */
function quantityOf(meaning: Meaning | null, unit: HeaderUnit | null): ColumnQuantity | null {
  const implied = unit && quantityOfUnit(unit);
  if (meaning?.quantity === 'index' && unit) return implied;
  return meaning?.quantity ?? implied;
}

/** True when nothing in the file or the declaration says what the column is. */
export function isUnnamed(sense: Sense): boolean {
  return sense.header === null && sense.declared === null;
}
