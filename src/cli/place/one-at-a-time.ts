import { rm } from 'node:fs/promises';
import { connect, createServer, type Server } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { sha256Of } from '../../journal/analysis/sha256.ts';

/**
 * Runs a task when no other process runs one under the same name, and calls `onWait` if it has to wait for that.
 * The name is held as a local socket, which the system lets go of however a process ends.
 */
export async function oneAtATime<T>(name: string, task: () => Promise<T>, onWait: () => void): Promise<T> {
  const address = addressOf(name);
  let held = await hold(address);
  if (held === null) onWait();
  while (held === null) {
    if (!(await untilFree(address))) await takeAway(address);
    held = await hold(address);
  }
  try {
    return await task();
  } finally {
    held.release();
  }
}

/** Removes a name that nobody answers to, where it is a file. */
async function takeAway(address: string): Promise<void> {
  await rm(address, { force: true }).catch(() => undefined);
  await setTimeout(50);
}

/** On Linux and Windows the name is the system's own; elsewhere it is a file for temporary use. */
function addressOf(name: string): string {
  const short = `quiescent-${sha256Of(name).slice(0, 32)}`;
  if (process.platform === 'win32') return path.join('\\\\?\\pipe', short);
  return process.platform === 'linux' ? `\0${short}` : path.join(tmpdir(), short);
}

interface Held {
  /** Lets go of the name and tells those who wait. */
  release(): void;
}

/** Takes the name; null where another process has it. */
function hold(address: string): Promise<Held | null> {
  return new Promise((resolve, reject) => {
    const waiting = new Set<{ destroy(): void }>();
    const server: Server = createServer((socket) => {
      socket.on('error', () => undefined).unref();
      waiting.add(socket);
      socket.once('close', () => waiting.delete(socket));
    });
    server.once('error', (error: NodeJS.ErrnoException) =>
      error.code === 'EADDRINUSE' ? resolve(null) : reject(error),
    );
    server.listen(address, () => {
      server.unref();
      resolve({
        release() {
          server.close();
          for (const socket of waiting) socket.destroy();
        },
      });
    });
  });
}

/** Waits until the holder lets go; false where there is none, but only what one left behind. */
function untilFree(address: string): Promise<boolean> {
  return new Promise((resolve) => {
    let answered = false;
    const socket = connect(address, () => {
      answered = true;
    });
    socket.on('error', () => undefined);
    socket.once('close', () => resolve(answered));
  });
}
