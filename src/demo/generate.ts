import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { heronCaptures } from './heron-captures.ts';
import { slateCaptures } from './slate-captures.ts';
import { slateRepeatCaptures } from './slate-repeat-captures.ts';
import { slateTwoToneCaptures } from './slate-two-tone-captures.ts';
import { wrenCaptures } from './wren-captures.ts';

/**
 * Writes the demo journal's captures below a folder of logs (default `content/logs`). All of them are
 * invented: computed from simple circuit models with repeatable noise. Run with `node src/demo/generate.ts`.
 */
function writeCaptures(folder: string): void {
  for (const { path, bytes } of [
    ...heronCaptures(),
    ...wrenCaptures(),
    ...slateCaptures(),
    ...slateRepeatCaptures(),
    ...slateTwoToneCaptures(),
  ]) {
    const target = join(folder, path);
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, bytes);
  }
}

writeCaptures(process.argv[2] ?? join(import.meta.dirname, '../../content/logs'));
