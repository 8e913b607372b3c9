import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { AstroIntegration } from 'astro';
import type { ViteDevServer } from 'vite';
import { answerWithErrors } from './answers.ts';
import { compileAnew } from './compile-anew.ts';
import type { LiveJournal } from './live-journal.ts';

/** How long the folder must be quiet before it is read again, as editors write a file in several steps. */
const quietMs = 80;

/** After so long a new MDX record can be compiled, as the list of them is written half a second late. */
const listedMs = 700;

/**
 * Lets a live site follow its journal: after a change the files are read again, what pages are made of is forgotten
 * and open pages load anew. Pages that cannot be made show why.
 */
export function following(live: LiveJournal): AstroIntegration {
  let begin = (): void => undefined;
  return {
    name: 'quiescent-live',
    hooks: {
      'astro:server:setup': ({ server, refreshContent }) => {
        answerWithErrors(server, live);
        const { folder } = live.current();
        const follow = follower(server, live, async () => refreshContent?.({}));
        const inTurn = queue((error) => live.failed('/', error));
        const later = debounce(() => inTurn(() => follow().then(() => loadAnew(server))));
        begin = () => inTurn(follow);
        server.watcher.add(folder);
        server.watcher.on('all', (_event, file) => {
          if (isOfJournal(folder, file)) later();
        });
      },
      // What was edited between the first reading and the beginning of the watch would go unnoticed.
      'astro:server:start': () => begin(),
    },
  };
}

/** Reads the journal again and forgets what pages were made of. */
function follower(server: ViteDevServer, live: LiveJournal, refresh: () => Promise<void>) {
  let before = new Set(live.current().files);
  return async (): Promise<void> => {
    await live.reopen();
    const now = new Set(live.current().files);
    const added = [...now].filter((file) => !before.has(file));
    if (added.length > 0 || now.size < before.size) compileAnew(server);
    before = now;
    await refresh();
    if (added.some((file) => file.endsWith('.mdx'))) await pause(listedMs);
    for (const { hot, name } of Object.values(server.environments))
      if (name !== 'client') hot.send('astro:content-changed', {});
  };
}

function loadAnew(server: ViteDevServer): void {
  server.ws.send({ type: 'full-reload', path: '*' });
}

/** Files of the journal itself, not what the site keeps in hidden folders below it. */
function isOfJournal(folder: string, file: string): boolean {
  const [top = '', ...below] = path.relative(folder, file).split(path.sep);
  return top === 'static' || ![top, ...below].some((part) => part.startsWith('.') || part === 'node_modules');
}

/** Runs tasks one after the other; one that fails is told and does not keep the next from running. */
function queue(onFault: (error: unknown) => unknown): (task: () => Promise<void>) => void {
  let running: Promise<unknown> = Promise.resolve();
  return (task) => {
    running = running.then(task).catch(onFault);
  };
}

/** Runs a task once the calls have stopped. */
function debounce(task: () => void): () => void {
  let timer: NodeJS.Timeout | undefined;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(task, quietMs);
  };
}
