import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { heronCaptures } from './heron-captures.ts';
import { slateCaptures } from './slate-captures.ts';
import { slateRepeatCaptures } from './slate-repeat-captures.ts';
import { slateTwoToneCaptures } from './slate-two-tone-captures.ts';
import { starterCaptures } from './starter-captures.ts';
import type { DemoFile } from './table.ts';
import { wrenCaptures } from './wren-captures.ts';
import { wrenTracing } from './wren-tracing.ts';
import { wrenUnitCaptures } from './wren-unit-captures.ts';

/**
 * Writes the demo journal's captures and tracings into a journal's folder (default `content`), and those of the
 * journal that a newcomer begins with (default `shared/starter`). All of them are invented: computed from simple
 * circuit models with repeatable noise. Run with `node src/demo/generate.ts`.
 */
function writeCaptures(journal: string, starter: string): void {
  const inLogs = [
    ...heronCaptures(),
    ...wrenCaptures(),
    ...wrenUnitCaptures(),
    ...slateCaptures(),
    ...slateRepeatCaptures(),
    ...slateTwoToneCaptures(),
  ].map(({ path, bytes }) => ({ path: join('logs', path), bytes }));
  for (const file of [...inLogs, wrenTracing()]) write(journal, file);
  for (const { path, bytes } of starterCaptures()) write(starter, { path: join('logs', path), bytes });
}

function write(folder: string, { path, bytes }: DemoFile): void {
  const target = join(folder, path);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, bytes);
}

const root = join(import.meta.dirname, '../..');
writeCaptures(process.argv[2] ?? join(root, 'content'), process.argv[3] ?? join(root, 'shared/starter'));
