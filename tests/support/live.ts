import { spawn } from 'node:child_process';
import { createServer } from 'node:net';
import { plainEnvironment } from './command.ts';

/** A live site in a process of its own. */
export interface LiveSite {
  origin: string;
  /** What the terminal shows so far. */
  printed(): string;
  /** A page once it satisfies a condition; the last state seen where it never does. */
  page(path: string, until: (html: string, status: number) => boolean): Promise<string>;
  /** Waits until the terminal shows a text; answers whether it does. */
  prints(text: string): Promise<boolean>;
  /** Ends it as ctrl-C does; the exit code. */
  stop(): Promise<number | null>;
}

const mostTries = 600;
const pauseMs = 100;

export async function startLive(journal: string): Promise<LiveSite> {
  const port = await freePort();
  const origin = `http://127.0.0.1:${port}`;
  const args = ['src/cli/main.ts', 'dev', '--journal', journal, '--port', String(port)];
  const server = spawn(process.execPath, args, { env: plainEnvironment() });
  let printed = '';
  server.stderr.on('data', (data) => {
    printed += String(data);
  });
  const ended = new Promise<number | null>((resolve) => server.once('exit', resolve));
  return {
    origin,
    printed: () => printed,
    async page(path, until) {
      let html = '';
      await repeated(async () => {
        const response = await fetch(origin + path, { headers: { accept: 'text/html' } }).catch(() => null);
        html = (await response?.text()) ?? '';
        return response !== null && until(html, response.status);
      });
      return html;
    },
    prints: (text) => repeated(async () => printed.includes(text)),
    stop() {
      server.kill('SIGINT');
      return ended;
    },
  };
}

/** Asks again and again until the answer is yes, for as long as a busy machine may need. */
async function repeated(ask: () => Promise<boolean>): Promise<boolean> {
  for (let tries = 0; tries < mostTries; tries++) {
    if (await ask()) return true;
    await new Promise((resolve) => setTimeout(resolve, pauseMs));
  }
  return false;
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const found = probe.address();
      probe.close(() => resolve(typeof found === 'object' && found ? found.port : 0));
    });
  });
}
