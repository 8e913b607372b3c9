import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { heronCaptures } from './heron-captures.ts';
import { slateCaptures } from './slate-captures.ts';
import { slateRepeatCaptures } from './slate-repeat-captures.ts';
import { slateTwoToneCaptures } from './slate-two-tone-captures.ts';
import { wrenCaptures } from './wren-captures.ts';
import { wrenTracing } from './wren-tracing.ts';

/**
 * Writes the demo journal's captures and tracings into a journal's folder (default `content`). All of them are
 * invented: computed from simple circuit models with repeatable noise. Run with `node src/demo/generate.ts`.
 */
function writeCaptures(journal: string): void {
  const inLogs = [
    ...heronCaptures(),
    ...wrenCaptures(),
    ...slateCaptures(),
    ...slateRepeatCaptures(),
    ...slateTwoToneCaptures(),
  ].map(({ path, bytes }) => ({ path: join('logs', path), bytes }));
  for (const { path, bytes } of [...inLogs, wrenTracing()]) {
    const target = join(journal, path);
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, bytes);
  }
}

writeCaptures(process.argv[2] ?? join(import.meta.dirname, '../../content'));
