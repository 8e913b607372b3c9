import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { setTimeout } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { oneAtATime } from '../../../src/cli/place/one-at-a-time.ts';

const name = () => `a test's own ${Math.random()}`;

test('tasks under one name never overlap, and each that waits says so once', async () => {
  const [own, seen] = [name(), [] as string[]];
  let waits = 0;
  const task = async (id: string) => {
    seen.push(`${id} begins`);
    await setTimeout(20);
    seen.push(`${id} ends`);
    return id;
  };
  const all = ['a', 'b', 'c'].map((id) =>
    oneAtATime(
      own,
      () => task(id),
      () => waits++,
    ),
  );
  expect(await Promise.all(all)).toEqual(['a', 'b', 'c']);
  const order = seen.filter((line) => line.endsWith('begins')).map((line) => line[0]);
  expect(seen).toEqual(order.flatMap((id) => [`${id} begins`, `${id} ends`]));
  expect(waits).toBe(2);
});

test('other names do not wait, and a task that fails lets go', async () => {
  const own = name();
  const failing = oneAtATime(own, () => Promise.reject(new Error('no')), expect.unreachable);
  await expect(failing).rejects.toThrow('no');
  const beside = await oneAtATime(
    own,
    () => oneAtATime(name(), async () => 'both', expect.unreachable),
    expect.unreachable,
  );
  expect(beside).toBe('both');
});

test('a process that was killed holds nothing', async () => {
  const own = name();
  const code = `import { oneAtATime } from './src/cli/place/one-at-a-time.ts';
    setInterval(() => {}, 1000);
    await oneAtATime(${JSON.stringify(own)}, () => new Promise(() => console.log('held')), () => {});`;
  const child = spawn(process.execPath, ['--input-type=module', '--eval', code]);
  await once(child.stdout, 'data');
  let waited = false;
  const mine = oneAtATime(
    own,
    async () => 'mine',
    () => {
      waited = true;
      child.kill('SIGKILL');
    },
  );
  expect(await mine).toBe('mine');
  expect(waited).toBe(true);
});
