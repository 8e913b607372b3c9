import { type Fault, nearestNames, type Problem, problemAt } from '../../problem/index.ts';
import { type Price, parsePrice, sumOfPrices, timesPrice } from '../../quantity/index.ts';
import { readText, resolveInside } from '../files.ts';
import { messages } from '../messages.ts';
import type { RawRecord } from '../records.ts';
import type { PartLine, VersionData } from '../schemas/index.ts';
import { billMessages } from './bill-messages.ts';
import { type PlacedPart, readPartsFile } from './parts-file.ts';

/** One line of a bill of materials; `cost` is the price times the quantity, null where there is none to add. */
export interface BillLine extends PartLine {
  cost: Price | null;
}

/** What a version is made of, and what that costs. */
export interface Bill {
  lines: BillLine[];
  /** The CSV file that the list stands in; null where it stands in the record. */
  file: string | null;
  /** Of one unit, by currency. */
  perUnit: Price[];
  /** Of the whole batch; null where no batch is stated. */
  perBatch: Price[] | null;
  /** Parts that are in no total. */
  unpriced: string[];
}

/** A version's list of parts before it is summed, with the place of every value. */
export interface PlacedBill {
  record: RawRecord<VersionData>;
  file: string | null;
  parts: PlacedPart[];
}

/** Finds the parts of a version in its record or in the file beside it. */
export async function readBill(
  root: string,
  record: RawRecord<VersionData>,
  files: readonly string[],
): Promise<{ bill: PlacedBill; problems: Problem[] }> {
  const { data, yaml } = record;
  if (data.partsFile === undefined) {
    const parts = data.parts.map((line, index) => ({
      line,
      placeOf: (key: keyof PartLine) => yaml.placeOf(['parts', index, key]),
    }));
    return { bill: { record, file: null, parts }, problems: [] };
  }
  const named = fileOf(record.file, data.partsFile, files);
  if ('fault' in named) {
    const problem = problemAt(yaml.placeOf(['partsFile']), named.fault);
    return { bill: { record, file: null, parts: [] }, problems: [problem] };
  }
  const { text, problems } = await readText(root, named.file);
  const read = text === null ? { parts: [], problems } : readPartsFile(text, named.file);
  return { bill: { record, file: named.file, parts: read.parts }, problems: read.problems };
}

function fileOf(
  record: string,
  written: string,
  files: readonly string[],
): { file: string } | { fault: Fault } {
  const file = resolveInside(record, written);
  if (file === null) return { fault: messages.leavesJournal(written) };
  if (!/\.csv$/i.test(file)) return { fault: billMessages.notCsv(written) };
  if (files.includes(file)) return { file };
  const folder = record.slice(0, record.lastIndexOf('/') + 1);
  const beside = files.filter((one) => one.startsWith(folder) && /\.csv$/i.test(one));
  const near = nearestNames(
    written,
    beside.map((one) => one.slice(folder.length)),
  );
  return { fault: billMessages.missing(written, near) };
}

/** Sums a list of parts; a price that cannot be added is a warning at its place. */
export function billOf({ record, file, parts }: PlacedBill): { bill: Bill; problems: Problem[] } {
  const lines = parts.map(({ line }): BillLine => {
    const price = line.price === undefined ? null : parsePrice(line.price);
    return { ...line, cost: price && timesPrice(price, line.quantity) };
  });
  const perUnit = sumOfPrices(lines.flatMap(({ cost }) => cost ?? []));
  const { batch } = record.data;
  const bill: Bill = {
    ...{ lines, file, perUnit },
    perBatch: batch === undefined ? null : perUnit.map((price) => timesPrice(price, batch)),
    unpriced: lines.flatMap(({ part, cost }) => (cost ? [] : [part])),
  };
  const problems = parts.flatMap(({ line: { price }, placeOf }) =>
    price === undefined || parsePrice(price) ? [] : [problemAt(placeOf('price'), billMessages.price(price))],
  );
  return { bill, problems };
}
