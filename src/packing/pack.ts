import { cpSync, globSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { withNewImports, withoutTypes } from './stripped.ts';

/** What an installed package runs from, beside the sources; all of it as it is. */
const others = ['shared/tubes', 'shared/schemas', 'shared/starter', 'shared/handbook', 'astro.config.mjs'];

/** Sources that only the project itself uses. */
const own = /^src\/(demo|packing)\/|\.d\.ts$/;

/**
 * Writes `lib/`, what an installed package runs: the project's tree with TypeScript files made JavaScript, and all
 * else as it is. `npm pack` calls it.
 */
function pack(root: string): void {
  const lib = path.join(root, 'lib');
  rmSync(lib, { recursive: true, force: true });
  const sources = globSync('{src,components}/**/*', { cwd: root }).map((file) =>
    file.replaceAll(path.sep, '/'),
  );
  for (const file of sources.filter((name) => !own.test(name) && statSync(path.join(root, name)).isFile()))
    copySource(root, lib, file);
  for (const other of others)
    cpSync(path.join(root, other), path.join(lib, other), { recursive: true, filter: isSource });
}

/** What a build of the handbook leaves in its folder stays out. */
const isSource = (file: string) => path.basename(file) !== '.quiescent';

function copySource(root: string, lib: string, file: string): void {
  const source = readFileSync(path.join(root, file));
  const target = path.join(lib, file.replace(/\.ts$/, '.js'));
  mkdirSync(path.dirname(target), { recursive: true });
  writeFileSync(target, made(file, source));
}

function made(file: string, source: Buffer): string | Uint8Array {
  if (file.endsWith('.ts')) return withoutTypes(source.toString('utf8'));
  return file.endsWith('.astro') ? withNewImports(source.toString('utf8')) : source;
}

pack(path.join(import.meta.dirname, '../..'));
