import { createServer } from 'node:net';
import { expect, onTestFinished, test } from 'vitest';
import { portFault } from '../../../src/cli/live/port.ts';

/** A port of this machine that is listened on until the test is over. */
function takenPort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address();
      resolve(typeof address === 'object' && address ? address.port : 0);
    });
    onTestFinished(() => void server.close());
  });
}

test('a taken port is refused, with one beside it that can be had', async () => {
  const port = await takenPort();
  const [, free = ''] = /add --port (\d+)\.$/.exec((await portFault(port)) ?? '') ?? [];
  expect(await portFault(port)).toContain(`Port ${port} is in use by another program.`);
  expect(Number(free)).toBeGreaterThan(port);
  expect(await portFault(Number(free))).toBeNull();
});
