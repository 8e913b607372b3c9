import { build as buildSite } from 'astro';
import { type Journal, openJournal, publishJournal } from '../../journal/index.ts';
import { workFolder } from '../../journal/publishing/work-folder.ts';
import { hasErrors, type Problem } from '../../problem/index.ts';
import { checkOutFolder, swapIn } from '../out-folder.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import { countProblems, countText, problemReport } from '../problems.ts';
import { writeSearchIndex } from '../search-index.ts';
import { type SiteAddress, siteConfig, siteOf } from '../site-config.ts';
import { siteProblem } from '../site-problem.ts';

export interface BuildOptions {
  journal: string;
  out: string;
  base: string;
  site: string | null;
}

/** Checks, computes and writes the site. With an error the previous site stays as it was. */
export async function build(options: BuildOptions, output: Output): Promise<number> {
  const { base, site } = options;
  const folder = fromCaller(options.journal);
  const out = fromCaller(options.out);
  await checkOutFolder(out, folder);
  const { journal, problems } = await openJournal(folder, { base });
  const failed = journal && !hasErrors(problems) ? await write(journal, out, { base, site }) : [];
  const all = [...problems, ...failed];
  if (all.length > 0) output.notice(await problemReport(all, folder));
  const counts = countText(countProblems(all));
  if (!journal || hasErrors(all)) {
    output.notice(`${shownPath(folder)}: ${counts} No site was written.`);
    return 1;
  }
  if (siteOf(journal, site) === null) output.notice(withoutAddress);
  output.notice(`${counts} The site is in ${shownPath(out)}.`);
  return 0;
}

/** Said once, as a journal may be meant for nobody's eyes but its maker's. */
const withoutAddress =
  'The address of the site is not stated (site: in journal.yaml, or --site), so that it has no feed, no sitemap and no pictures for link previews.';

/** Writes the site in the journal's work folder and swaps it in; answers with what kept it from being written. */
async function write(journal: Journal, out: string, address: SiteAddress): Promise<Problem[]> {
  publishJournal(journal);
  try {
    const config = siteConfig(journal, address);
    await inFolder(workFolder(journal), () => buildSite(config));
    await writeSearchIndex(String(config.outDir), journal);
    await swapIn(String(config.outDir), out);
    return [];
  } catch (error) {
    return [siteProblem(error, journal)];
  }
}

/** Runs a task in another folder, as the site builder keeps intermediate files where it was called. */
async function inFolder(folder: string, task: () => Promise<void>): Promise<void> {
  const caller = process.cwd();
  process.chdir(folder);
  try {
    await task();
  } finally {
    process.chdir(caller);
  }
}
