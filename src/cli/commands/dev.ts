import { dev as devServer } from 'astro';
import { analysisCache, openJournal, publishJournal } from '../../journal/index.ts';
import { hasErrors } from '../../problem/index.ts';
import { liveReload } from '../live-reload.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import { countProblems, countText, problemReport } from '../problems.ts';
import { siteConfig } from '../site-config.ts';

export interface DevOptions {
  journal: string;
  port: number;
}

/** Serves a live site; an edited file of the journal shows up without a restart. */
export async function dev({ journal: written, port }: DevOptions, output: Output): Promise<number> {
  const folder = fromCaller(written);
  const cache = analysisCache();
  const open = async () => {
    const { journal, problems } = await openJournal(folder, { cache });
    if (problems.length > 0) output.notice(await problemReport(problems, folder));
    output.notice(`${shownPath(folder)}: ${countText(countProblems(problems))}`);
    const usable = hasErrors(problems) ? null : journal;
    if (usable) publishJournal(usable, true);
    return usable;
  };
  const first = await open();
  if (!first) return 1;
  const config = siteConfig(first, { base: '/', site: null });
  const follow = liveReload(first.folder, async () => (await open()) !== null);
  const integrations = [...(config.integrations ?? []), follow];
  const server = await devServer({ ...config, integrations, server: { port, host: '127.0.0.1' } });
  output.notice(
    `The live site is at http://127.0.0.1:${server.address.port}/ until you press ctrl-C. Only a built site can be searched.`,
  );
  await new Promise<void>((resolve) => process.once('SIGINT', resolve));
  await server.stop();
  return 0;
}
