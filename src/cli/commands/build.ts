import { build as buildSite } from 'astro';
import { type Journal, openJournal, publishJournal } from '../../journal/index.ts';
import { workFolder } from '../../journal/publishing/work-folder.ts';
import { sweepStore } from '../../journal/store/sweep.ts';
import { hasErrors, type Problem } from '../../problem/index.ts';
import { drawChartsBy } from '../../site/drawing.ts';
import { collectSooner } from '../engine/heap-growth.ts';
import { type Means, withEngine } from '../engine/with-engine.ts';
import { subsetFonts } from '../fonts/subset-fonts.ts';
import { writeHeadersFile } from '../headers-file.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import { oneAtATime } from '../place/one-at-a-time.ts';
import { checkOutFolder, realOf } from '../place/out-folder.ts';
import { mendSwap, swapIn } from '../place/swap.ts';
import { WriteFault, writeFault } from '../place/write-fault.ts';
import { countProblems, countText, problemReport } from '../problems.ts';
import { writeSearchIndex } from '../search-index.ts';
import { type SiteAddress, siteConfig, siteOf } from '../site-config.ts';
import { siteProblem } from '../site-problem.ts';

export interface BuildOptions {
  journal: string;
  out: string;
  base: string;
  site: string | null;
  /** Says where the time went. */
  timings: boolean;
}

/** Checks, computes and writes the site. With an error the previous site stays as it was. */
export async function build(options: BuildOptions, output: Output): Promise<number> {
  const { base, site, timings } = options;
  const folder = fromCaller(options.journal);
  const out = fromCaller(options.out);
  await mendSwap(out);
  await checkOutFolder(out, folder);
  const task = { folder, out, base, site };
  const alone = () => withEngine({ folder, timings }, output, (means) => buildWith(means, task, output));
  collectSooner();
  return oneAtATime(await realOf(folder), alone, () => output.notice(waits));
}

/** Two builds of one journal would write into one work folder. */
const waits = 'Another build of this journal is under way; this one begins when that ends.';

interface Task extends SiteAddress {
  folder: string;
  out: string;
}

async function buildWith(means: Means, { folder, out, base, site }: Task, output: Output): Promise<number> {
  const { engine, work } = means;
  const { journal, problems } = await openJournal(folder, { base, ...engine.opening, onStage: work.begin });
  const failed = journal && !hasErrors(problems) ? await write(journal, out, { base, site }, means) : [];
  const all = [...problems, ...failed];
  if (all.length > 0) output.notice(await problemReport(all, folder));
  const counts = countText(countProblems(all));
  if (!journal || hasErrors(all)) {
    output.notice(`${shownPath(folder)}: ${counts} No site was written.`);
    return 1;
  }
  await sweepStore(engine.store, Date.now());
  if (siteOf(journal, site) === null) output.notice(withoutAddress);
  output.notice(`${counts} The site is in ${shownPath(out)}.`);
  return 0;
}

/** Said once, as a journal may be meant for nobody's eyes but its maker's. */
const withoutAddress =
  'The address of the site is not stated (site: in journal.yaml, or --site), so that it has no feed, no sitemap and no pictures for link previews.';

/** Writes the site in the journal's work folder and swaps it in; answers with what kept it from being written. */
async function write(
  journal: Journal,
  out: string,
  address: SiteAddress,
  { engine, work }: Means,
): Promise<Problem[]> {
  publishJournal(journal);
  drawChartsBy(engine);
  work.begin('pages');
  try {
    const config = siteConfig(journal, address);
    await inFolder(workFolder(journal), () => buildSite(config));
    work.begin('fonts');
    await subsetFonts(String(config.outDir), workFolder(journal));
    work.begin('search');
    await writeSearchIndex(String(config.outDir), journal);
    work.begin('putting in place');
    await writeHeadersFile(String(config.outDir), address.base);
    await swapIn(String(config.outDir), out);
    return [];
  } catch (error) {
    const fault = writeFault(error, out);
    if (fault !== null) throw new WriteFault(fault);
    return [siteProblem(error, journal)];
  } finally {
    drawChartsBy(null);
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
