import path from 'node:path';
import type { AstroIntegration } from 'astro';

/** How long the folder must be quiet before it is read again, as editors write a file in several steps. */
const quietMs = 80;

/**
 * Watches a journal's folder while the live site runs. After a change `reopen` reads the journal anew; when
 * it answers true the content store is filled again and open pages reload.
 */
export function liveReload(folder: string, reopen: () => Promise<boolean>): AstroIntegration {
  return {
    name: 'quiescent-live-reload',
    hooks: {
      'astro:server:setup': ({ server, refreshContent }) => {
        const refresh = async () => {
          if (!(await reopen())) return;
          await refreshContent?.({});
          server.ws.send({ type: 'full-reload' });
        };
        const later = debounce(refresh);
        server.watcher.add(folder);
        server.watcher.on('all', (_event, file) => {
          if (isOfJournal(folder, file)) later();
        });
      },
    },
  };
}

/** Files of the journal itself, not what the site keeps in hidden folders below it. */
function isOfJournal(folder: string, file: string): boolean {
  const relative = path.relative(folder, file);
  return !relative.split(path.sep).some((part) => part.startsWith('.') || part === 'node_modules');
}

/** Runs a task once the calls have stopped, and never twice at the same time. */
function debounce(task: () => Promise<void>): () => void {
  let timer: NodeJS.Timeout | undefined;
  let running: Promise<void> = Promise.resolve();
  return () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      running = running.then(task);
    }, quietMs);
  };
}
