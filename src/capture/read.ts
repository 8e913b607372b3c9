import { byPlace, hasErrors } from '../problem/index.ts';
import { type Assembled, assemble } from './assemble.ts';
import { findBlock } from './block.ts';
import { buildColumns } from './built.ts';
import { chooseKind } from './choose-kind.ts';
import { declaredColumns } from './declared.ts';
import { decodeText } from './decode.ts';
import { findLayout } from './dialect.ts';
import { type Heading, readHeading } from './heading.ts';
import * as say from './messages.ts';
import { statedRates } from './rates.ts';
import { type Report, reportOn, type Spot, topOfFile } from './report.ts';
import { sensesOf } from './senses.ts';
import { readTable, type Table } from './table.ts';
import type { CaptureDeclaration, CaptureReading } from './types.ts';

/**
 * Reads an instrument's text file: finds the block of numbers, what each column is, and how it was sampled
 * or swept. Columns come out in SI units.
 *
 * Whatever the bytes hold, nothing is thrown: faults are problems at their line and column of `file`, and the
 * capture is null when one of them is an error. What is ambiguous is an error that asks for a declaration.
 */
export function readCapture(
  bytes: Uint8Array,
  file: string,
  declaration: CaptureDeclaration = {},
): CaptureReading {
  const report = reportOn(file);
  const read = readBytes(bytes, declaration, report);
  const problems = report.problems.toSorted(byPlace);
  return read && !hasErrors(problems)
    ? { ...read, problems }
    : { capture: null, declaration: null, problems };
}

function readBytes(bytes: Uint8Array, declaration: CaptureDeclaration, report: Report): Assembled | null {
  const source = decodeText(bytes, declaration.encoding, report);
  if (!source) return null;
  const { text, encoding } = source;
  const layout = findLayout(text, declaration, report);
  if (!layout) return null;
  const block = findBlock(text, layout, declaration.skip ?? 0);
  if (!block) return report.at(topOfFile, say.noNumbers());
  const heading = readHeading(block.head, layout);
  const table = readTable(text, block, heading, layout, report);
  if (!table) return null;
  warnOfLeftOut(heading, table, declaration.skip ?? 0, report);
  return understand({ encoding, heading, table, declaration }, report);
}

type Source = Pick<Parameters<typeof assemble>[0], 'encoding' | 'heading' | 'table' | 'declaration'>;

/** From numbers to columns with a meaning. */
function understand(source: Source, report: Report): Assembled | null {
  const { heading, table, declaration } = source;
  const declared = declaredColumns(declaration, heading, table.layout, report);
  const senses = declared && sensesOf({ table, heading, declared }, report);
  if (!senses) return null;
  const stated = statedRates([...heading.notes, ...table.notes], table.layout.decimalMark);
  const kind = chooseKind(senses, stated.length > 0, declaration, report);
  if (!kind) return null;
  const columns = buildColumns(senses, table, { kind, declaration }, report);
  return columns && assemble({ ...source, kind, columns, stated }, report);
}

/** Numbers above the header and columns without numbers are left out, and said so. */
function warnOfLeftOut(heading: Heading, table: Table, skip: number, report: Report): void {
  for (const line of heading.strayNumbers.filter((stray) => stray > skip)) {
    report.at({ line, column: 1 }, say.numbersAboveHeader());
  }
  for (const position of table.textColumns) {
    report.at(table.spot(0, position), say.textColumn(position + 1));
  }
  for (const { text, spot } of emptyColumns(heading, table)) report.at(spot, say.emptyColumn(text));
}

/** Headers over columns that hold nothing in any row. */
function emptyColumns({ names, units }: Heading, { layout, notes, textColumns }: Table): NamedSpot[] {
  if (!names || notes.length > 0) return [];
  return names.cells.flatMap(({ text, column }, at) => {
    const isUsed =
      layout.numeric.includes(at) || textColumns.includes(at) || (units?.cells[at]?.text ?? '') !== '';
    return text === '' || isUsed ? [] : [{ text, spot: { line: names.line, column } }];
  });
}

interface NamedSpot {
  text: string;
  spot: Spot;
}
