import type { Problem } from '../../problem/index.ts';
import type { Memory } from '../memory.ts';
import type { RawRecord } from '../records.ts';
import type { VersionData } from '../schemas/index.ts';
import { versionSheet } from '../stages/sheets.ts';
import type { OutputContext } from '../stages/stage-output.ts';
import type { Prose, Version } from '../types.ts';
import { billOf, type PlacedBill } from './bill.ts';

type SheetContext = Parameters<typeof versionSheet>[1];

/** What versions are joined with. */
interface VersionContext extends SheetContext {
  memory: Memory;
  /** The state of the files that stages may name besides records and captures. */
  beside: string;
  tubes: Parameters<typeof versionSheet>[2];
  proseOf(record: RawRecord<unknown>): Prose;
}

/** Joins each version with its load sheet, its bill of materials and its prose. */
export function resolveVersions(
  bills: readonly PlacedBill[],
  { tubes, proseOf, memory, beside, ...origin }: VersionContext,
): { versions: Version[]; problems: Problem[] } {
  const parts = partsToken(origin.outputs, memory);
  const resolved = bills.map((placed) => {
    const { id, file, data } = placed.record;
    const { problems, ...sheet } = memory.remember(
      `sheet of ${id}`,
      [data, origin.mains, tubes, beside, parts, ...namedCaptures(data, origin.outputs)],
      () => versionSheet(placed.record, origin, tubes),
    );
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

/** One thing for as long as the parts of the journal, and the names among which they are looked for, stay the same. */
const partsToken = ({ parts, partIds, captureIds }: OutputContext, memory: Memory): object =>
  memory.remember('parts', [...parts.values(), JSON.stringify([partIds, captureIds])], () => ({}));

/** The captures that the stages of a version name; any text of theirs that is a capture's id counts. */
function namedCaptures({ stages }: VersionData, { captures }: OutputContext) {
  const texts = new Set<unknown>();
  JSON.stringify(stages, (_key, value) => {
    texts.add(value);
    return value;
  });
  return captures.filter(({ id }) => texts.has(id));
}
