import { existsSync } from 'node:fs';
import { mkdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { build as buildSite } from 'astro';
import { openJournal, publishJournal } from '../../journal/index.ts';
import { hasErrors } from '../../problem/index.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import { countProblems, countText, problemReport } from '../problems.ts';
import { siteConfig } from '../site-config.ts';

export interface BuildOptions {
  journal: string;
  out: string;
  base: string;
  site: string | null;
}

/** Checks, computes and writes the site. With an error the previous site stays as it was. */
export async function build(options: BuildOptions, output: Output): Promise<number> {
  const folder = fromCaller(options.journal);
  const out = fromCaller(options.out);
  const base = options.base.replace(/^\/?/, '/').replace(/\/?$/, '/');
  const { journal, problems } = await openJournal(folder, { base });
  if (problems.length > 0) output.notice(await problemReport(problems, folder));
  if (!journal || hasErrors(problems)) {
    output.notice(`${shownPath(folder)}: ${countText(countProblems(problems))} No site was written.`);
    return 1;
  }
  publishJournal(journal);
  const fresh = `${out}.next-${process.pid}`;
  try {
    await buildSite(siteConfig(journal, { out: fresh, base, site: options.site }));
    await swap(fresh, out);
  } finally {
    await rm(fresh, { recursive: true, force: true });
  }
  output.notice(`${countText(countProblems(problems))} The site is in ${shownPath(out)}.`);
  return 0;
}

/** Puts a finished site in the place of the previous one; each step is one rename. */
async function swap(fresh: string, out: string): Promise<void> {
  const previous = `${out}.previous-${process.pid}`;
  await mkdir(path.dirname(out), { recursive: true });
  if (existsSync(out)) await rename(out, previous);
  await rename(fresh, out);
  await rm(previous, { recursive: true, force: true });
}
