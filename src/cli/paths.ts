import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The project's own folder, which holds the pages and shared data. */
export const packageFolder = fileURLToPath(new URL('../../', import.meta.url));

/** Resolves a path of the command line against the caller's folder, which npm changes and remembers. */
export function fromCaller(written: string): string {
  return path.resolve(process.env['INIT_CWD'] ?? process.cwd(), written);
}

/** A path as a person would write it from where they stand. */
export function shownPath(absolute: string): string {
  const relative = path.relative(process.env['INIT_CWD'] ?? process.cwd(), absolute);
  return relative.startsWith('..') ? absolute : relative || '.';
}
