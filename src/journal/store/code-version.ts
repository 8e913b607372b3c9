import { createHash } from 'node:crypto';
import { globSync, readFileSync } from 'node:fs';
import { findPackageJSON } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds `src`: the checkout, or `lib` of an installed package. */
const root = fileURLToPath(new URL('../../../', import.meta.url));

const known = new Map<string, string>();

/**
 * Tells the code that makes a result from every other: a hash over the sources of some folders below `src` and
 * over the versions of the packages they use, of all that those use in turn, and of the engine that runs them.
 */
export function codeVersion(folders: readonly string[], packages: readonly string[] = []): string {
  const about = JSON.stringify([folders, packages]);
  const found = known.get(about) ?? computed(folders, packages);
  known.set(about, found);
  return found;
}

function computed(folders: readonly string[], packages: readonly string[]): string {
  const hash = createHash('sha256').update(process.versions.v8);
  for (const file of folders.flatMap(sourcesIn))
    hash.update(file).update(readFileSync(path.join(root, file)));
  hash.update(JSON.stringify(versionsOf(packages)));
  return hash.digest('hex');
}

function sourcesIn(folder: string): string[] {
  return globSync(`src/${folder}/**/*.{ts,js}`, { cwd: root }).sort();
}

/** Versions of packages and of every other that they bring, each once. */
function versionsOf(packages: readonly string[]): string[] {
  const found = new Map<string, string>();
  const visit = (name: string, from: string) => {
    const { file, version, dependencies } = manifestOf(name, from);
    if (found.has(file)) return;
    found.set(file, `${name} ${version}`);
    for (const other of Object.keys(dependencies)) visit(other, file);
  };
  for (const name of packages) visit(name, import.meta.url);
  return [...found.values()];
}

interface Manifest {
  version?: string;
  dependencies?: Record<string, string>;
}

/** A package's manifest as seen from a file; that of a package that is not there says nothing. */
function manifestOf(name: string, from: string) {
  const file = findPackageJSON(name, from);
  const { version = '', dependencies = {} }: Manifest =
    file === undefined ? {} : JSON.parse(readFileSync(file, 'utf8'));
  return { file: file ?? `${name} of ${from}`, version, dependencies };
}
