import { existsSync, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join } from 'node:path';
import { headersFor, readHeaders } from './headers.ts';

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.css': 'text/css',
  '.js': 'text/javascript',
  '.svg': 'image/svg+xml',
  '.csv': 'text/csv',
  '.woff2': 'font/woff2',
  '.webp': 'image/webp',
};

/** Serves a built site on this machine, as a static host would that reads its headers file. */
export async function serve(folder: string): Promise<{ address: string; close(): void }> {
  const rules = readHeaders(readFileSync(join(folder, '_headers'), 'utf8'));
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname);
    const named = join(folder, path);
    const file = existsSync(named) && statSync(named).isDirectory() ? join(named, 'index.html') : named;
    const found = existsSync(file);
    response.statusCode = found ? 200 : 404;
    const body = found ? file : join(folder, '404.html');
    response.setHeaders(headersFor(path, rules));
    response.setHeader('content-type', types[extname(body)] ?? 'application/octet-stream');
    response.end(readFileSync(body));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  return { address: `http://127.0.0.1:${port}`, close: () => server.close() };
}
