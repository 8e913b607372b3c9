import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { TubeLibrary, TubeType } from '../../load/index.ts';

/** The tube types that come with the project, by type number. */
export function readTubes(): TubeLibrary {
  const folder = fileURLToPath(new URL('../../../shared/tubes/', import.meta.url));
  const types = readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => JSON.parse(readFileSync(join(folder, name), 'utf8')) as TubeType);
  return Object.fromEntries(types.map((tube) => [tube.type, tube]));
}
