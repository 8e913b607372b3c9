import type { Problem } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import { versionSheet } from '../stages/sheets.ts';
import type { Prose, Version } from '../types.ts';
import { billOf, type PlacedBill } from './bill.ts';

type SheetContext = Parameters<typeof versionSheet>[1];

/** What versions are joined with. */
interface VersionContext extends SheetContext {
  tubes: Parameters<typeof versionSheet>[2];
  proseOf(record: RawRecord<unknown>): Prose;
}

/** Joins each version with its load sheet, its bill of materials and its prose. */
export function resolveVersions(
  bills: readonly PlacedBill[],
  { tubes, proseOf, ...origin }: VersionContext,
): { versions: Version[]; problems: Problem[] } {
  const resolved = bills.map((placed) => {
    const { id, file, data } = placed.record;
    const { problems, ...sheet } = versionSheet(placed.record, origin, tubes);
    const { bill, problems: prices } = billOf(placed);
    const amplifier = id.slice(0, id.lastIndexOf('/'));
    const prose = proseOf(placed.record);
    const version: Version = { id, file, data, prose, amplifier, ...sheet, bill };
    return { version, problems: [...problems, ...prices] };
  });
  return {
    versions: resolved.map(({ version }) => version),
    problems: resolved.flatMap(({ problems }) => problems),
  };
}
