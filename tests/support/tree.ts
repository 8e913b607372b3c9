import { createHash } from 'node:crypto';
import { globSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** Every file of a folder with the SHA-256 of its bytes, in order of path. */
export function treeOf(folder: string): Record<string, string> {
  const files = globSync('**/*', { cwd: folder }).filter((file) => statSync(join(folder, file)).isFile());
  return Object.fromEntries(files.sort().map((file) => [file, hashOf(readFileSync(join(folder, file)))]));
}

const hashOf = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
