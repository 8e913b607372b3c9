import { realpath, stat } from 'node:fs/promises';
import path from 'node:path';
import { type AstroInlineConfig, dev as devServer } from 'astro';
import { emptyMemory } from '../../journal/memory.ts';
import { workFolder } from '../../journal/publishing/work-folder.ts';
import { drawChartsBy } from '../../site/drawing.ts';
import { startEngine } from '../engine/engine.ts';
import { following } from '../live/follow.ts';
import { type LiveJournal, liveJournal } from '../live/live-journal.ts';
import { portFault } from '../live/port.ts';
import { standIn } from '../live/stand-in.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import { siteConfig } from '../site-config.ts';

export interface DevOptions {
  journal: string;
  port: number;
}

/** Serves a live site; an edited file of the journal shows up without a restart, and so do its errors. */
export async function dev({ journal: written, port }: DevOptions, output: Output): Promise<number> {
  const named = fromCaller(written);
  const folder = await realpath(named).catch(() => named);
  const info = await stat(folder).catch(() => null);
  const refusal = info?.isDirectory()
    ? await portFault(port)
    : `There is no folder ${shownPath(folder)}. Name one with --journal, or begin a journal with the init command.`;
  if (refusal !== null) {
    output.notice(`quiescent: ${refusal}`);
    return 1;
  }
  const engine = startEngine(folder);
  const wipe = process.stderr.isTTY ? () => process.stderr.write(fromTheTop) : null;
  const live = liveJournal({ folder, cache: engine.opening.cache, memory: emptyMemory(), output, wipe });
  await live.reopen();
  drawChartsBy({ draw: engine.draw, results: null });
  const server = await devServer(liveConfig(folder, port, live));
  output.notice(
    `The live site is at http://127.0.0.1:${server.address.port}/ until you press ctrl-C. Only a built site can be searched.`,
  );
  await stopped();
  await server.stop();
  await engine.close();
  return 0;
}

/** Empties a terminal and goes to its first line. */
const fromTheTop = '\u001b[2J\u001b[3J\u001b[H';

/**
 * Nothing of the configuration depends on what the journal says, as that may change or not be readable yet; feeds and
 * previews, which need the site's address, are only built. Each port has a root of its own, so that two live sites of one
 * journal do not write over each other's files.
 */
function liveConfig(folder: string, port: number, live: LiveJournal): AstroInlineConfig {
  const journal = standIn(folder);
  const root = path.join(workFolder(journal), `live-${port}`);
  const config = siteConfig(journal, { base: '/', site: null, root });
  return {
    ...config,
    logLevel: 'silent',
    integrations: [...(config.integrations ?? []), following(live)],
    server: { port, host: '127.0.0.1' },
    vite: {
      ...config.vite,
      server: {
        ...config.vite?.server,
        strictPort: true,
        hmr: { overlay: false },
        watch: { ignored: [path.join(workFolder(journal), 'results', '**')] },
      },
    },
  };
}

/** Waits for ctrl-C, or to be ended from outside. */
function stopped(): Promise<void> {
  return new Promise((resolve) => {
    process.once('SIGINT', () => resolve());
    process.once('SIGTERM', () => resolve());
  });
}
