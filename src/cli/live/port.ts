import { createServer } from 'node:net';

/** As many ports above a taken one as are looked at for another. */
const most = 50;

/** Why a port cannot be listened on, with one that can; null where it is free. */
export async function portFault(port: number): Promise<string | null> {
  const code = await listeningFault(port);
  if (code === null) return null;
  if (code !== 'EADDRINUSE') return `Port ${port} cannot be listened on (${code}).`;
  const free = await freeAbove(port);
  const advice = free === null ? 'Choose another with --port.' : `Port ${free} is free: add --port ${free}.`;
  return `Port ${port} is in use by another program. ${advice}`;
}

async function freeAbove(port: number): Promise<number | null> {
  for (let other = port + 1; other <= Math.min(65_535, port + most); other++)
    if ((await listeningFault(other)) === null) return other;
  return null;
}

/** The system's code for what keeps this machine from listening on a port; null where nothing does. */
function listeningFault(port: number): Promise<string | null> {
  return new Promise((resolve) => {
    const probe = createServer();
    probe.once('error', (error: NodeJS.ErrnoException) => resolve(error.code ?? 'unknown'));
    probe.listen(port, '127.0.0.1', () => probe.close(() => resolve(null)));
  });
}
