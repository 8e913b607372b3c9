import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { findFirefox, firefoxMissing } from './browser.ts';

/** An answer to a command, or an event that the browser tells by itself. */
interface Message {
  id?: number;
  type?: string;
  method?: string;
  message?: string;
  result?: Record<string, unknown>;
  params?: Record<string, unknown>;
}

/** What is told of a page that was looked at. */
export interface FirefoxLook {
  /** What the expression gave, or its promise, as JSON: the protocol has types of its own. */
  read: string;
  /** Errors and warnings of the console, and what the policy refused. */
  complaints: string[];
}

/** Noted ahead of the page's own scripts: the console is not told what a policy refuses. */
const noteRefusals = `() => {
  window.refusals = [];
  addEventListener('securitypolicyviolation', (event) =>
    window.refusals.push(event.violatedDirective + ' ' + event.blockedURI));
}`;

/** Starts Firefox and drives it by WebDriver BiDi (W3C), of which the smallest part is spoken here. */
export async function launchFirefox() {
  const path = findFirefox();
  if (path === null) throw new Error(firefoxMissing);
  const profile = mkdtempSync(join(tmpdir(), 'quiescent-firefox-'));
  const args = ['--headless', '--no-remote', '--profile', profile, '--remote-debugging-port', '0'];
  const process = spawn(path, args, { stdio: ['ignore', 'ignore', 'pipe'] });
  const { send, complaints } = await connection(await addressOf(process));
  await send('session.new', { capabilities: {} });
  await send('session.subscribe', { events: ['log.entryAdded'] });
  await send('script.addPreloadScript', { functionDeclaration: noteRefusals });
  const { context } = await send('browsingContext.create', { type: 'tab' });

  return {
    /**
     * Opens an address in a window of that width and evaluates an expression there. A page that is left may complain of
     * what it was still loading, so that an empty one comes between.
     */
    async look(url: string, width: number, expression: string): Promise<FirefoxLook> {
      await send('browsingContext.navigate', { context, url: 'about:blank', wait: 'complete' });
      complaints.length = 0;
      await send('browsingContext.setViewport', { context, viewport: { width, height: 844 } });
      await send('browsingContext.navigate', { context, url, wait: 'complete' });
      const read = async (wanted: string) => {
        const asText = `Promise.resolve(${wanted}).then(JSON.stringify)`;
        const asked = { expression: asText, target: { context }, awaitPromise: true };
        const { result } = await send('script.evaluate', asked);
        return String((result as { value?: unknown } | undefined)?.value);
      };
      const found = await read(expression);
      return {
        read: found,
        complaints: [...complaints, ...(JSON.parse(await read('refusals')) as string[])],
      };
    },
    async close() {
      await send('browser.close', {});
      if (process.exitCode === null) await once(process, 'exit');
      rmSync(profile, { recursive: true, force: true });
    },
  };
}

/** Where Firefox says that it listens. */
async function addressOf(process: ChildProcess): Promise<string> {
  const said: string[] = [];
  if (process.stderr)
    for await (const line of createInterface(process.stderr)) {
      const address = /listening on (ws:\S+)/.exec(line)?.[1];
      if (address !== undefined) return `${address}/session`;
      said.push(line);
    }
  throw new Error(`Firefox cannot be driven:\n${said.join('\n')}`);
}

async function connection(address: string) {
  const socket = new WebSocket(address);
  await new Promise((resolve, reject) => {
    socket.addEventListener('open', resolve);
    socket.addEventListener('error', reject);
  });
  const complaints: string[] = [];
  const waiting = new Map<number, (answer: Message) => void>();
  socket.addEventListener('message', ({ data }) => {
    const told = JSON.parse(String(data)) as Message;
    if (told.id !== undefined) waiting.get(told.id)?.(told);
    else if (['error', 'warn'].includes(String(told.params?.['level'])))
      complaints.push(String(told.params?.['text']));
  });
  let last = 0;
  const send = async (method: string, params: object): Promise<Record<string, unknown>> => {
    const id = ++last;
    const answer = new Promise<Message>((resolve) => waiting.set(id, resolve));
    socket.send(JSON.stringify({ id, method, params }));
    const { type, message, result = {} } = await answer;
    if (type === 'error') throw new Error(`${method}: ${message}`);
    return result;
  };
  return { send, complaints };
}
