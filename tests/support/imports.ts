import { readFileSync } from 'node:fs';
import path from 'node:path';

/** The rooms below `src` that hold what some files import, and what that imports in turn. */
export function roomsOf(files: readonly string[]): string[] {
  const seen = new Set<string>();
  const visit = (file: string) => {
    if (seen.has(file)) return;
    seen.add(file);
    for (const [, name = ''] of readFileSync(file, 'utf8').matchAll(/(?:from|import\()\s*'(\.[^']+\.ts)'/g))
      visit(path.join(path.dirname(file), name));
  };
  for (const file of files) visit(file);
  return [...new Set([...seen].map((file) => file.split(path.sep)[1] ?? ''))].sort();
}
