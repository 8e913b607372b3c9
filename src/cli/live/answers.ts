import type { IncomingMessage, ServerResponse } from 'node:http';
import type { ViteDevServer } from 'vite';
import type { LiveJournal } from './live-journal.ts';

/**
 * Puts pages of errors in the place of those that cannot be made: of all while there is no journal to show, and of
 * one while its making fails.
 */
export function answerWithErrors(server: ViteDevServer, live: LiveJournal): void {
  let raised: unknown = null;
  const fixStacktrace = server.ssrFixStacktrace.bind(server);
  server.ssrFixStacktrace = (error) => {
    raised = error;
    fixStacktrace(error);
  };
  server.middlewares.use((request, response, next) => {
    if (!asksForPage(request)) return next();
    const page = live.pageForAll();
    if (page !== null) return answer(response, page);
    const address = new URL(request.url ?? '/', 'http://localhost').pathname;
    hold(response, async (status) => {
      if (status === 500) return live.failed(address, raised);
      await live.succeeded(address);
      return null;
    });
    next();
  });
}

const asksForPage = ({ method, url = '', headers }: IncomingMessage) =>
  method === 'GET' && (headers.accept ?? '').includes('text/html') && !/^\/@|^\/node_modules\//.test(url);

function answer(response: ServerResponse, page: string): void {
  response.writeHead(500, { 'content-type': 'text/html; charset=utf-8', 'cache-control': 'no-store' });
  response.end(page);
}

type Chunk = string | Uint8Array;

/**
 * Keeps what is written of an answer until it is complete; `replace` then gives the page that goes out in its place,
 * or null where it may go out as it is.
 */
function hold(response: ServerResponse, replace: (status: number) => Promise<string | null>): void {
  const chunks: Buffer[] = [];
  const { end, write, writeHead } = response;
  let head: { status: number; headers: Record<string, string | number | string[]> } | null = null;
  const keep = (chunk: unknown) => {
    if (typeof chunk === 'string' || chunk instanceof Uint8Array) chunks.push(Buffer.from(chunk as Chunk));
  };
  response.writeHead = ((status: number, ...rest: unknown[]) => {
    const headers = rest.at(-1);
    head = { status, headers: typeof headers === 'object' && headers !== null ? { ...headers } : {} };
    return response;
  }) as typeof response.writeHead;
  response.write = ((chunk: unknown) => {
    keep(chunk);
    return true;
  }) as typeof response.write;
  response.end = ((chunk: unknown) => {
    keep(chunk);
    Object.assign(response, { end, write, writeHead });
    void release();
    return response;
  }) as typeof response.end;
  const release = async () => {
    const { status, headers } = head ?? { status: response.statusCode, headers: {} };
    const page = await replace(status).catch(() => null);
    if (page !== null) return answer(response, page);
    response.writeHead(status, headers);
    response.end(Buffer.concat(chunks));
  };
}
