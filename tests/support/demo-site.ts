import { globSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { run } from '../../src/cli/run.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Folder of the demo journal's site, built once for all site tests. */
    site: string;
  }
}

/** Builds the demo journal's site once, before the site tests. */
export default async function setup(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), 'quiescent-site-'));
  const lines: string[] = [];
  const output = { result: (text: string) => lines.push(text), notice: (text: string) => lines.push(text) };
  const out = join(folder, 'site');
  const code = await run(['build', '--journal', 'content', '--out', out], output);
  if (code !== 0) throw new Error(`The demo journal does not build:\n${lines.join('\n')}`);
  project.provide('site', out);
  return () => rmSync(folder, { recursive: true, force: true });
}

/** Addresses of every page of a built site. */
export function pagesOf(site: string): string[] {
  return globSync('**/*.html', { cwd: site })
    .map((file) => `/${file.replaceAll('\\', '/').replace(/(^|\/)index\.html$/, '$1')}`)
    .sort();
}
