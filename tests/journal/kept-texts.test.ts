import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { proseRooms } from '../../src/journal/prose/kept-texts.ts';
import { openStore } from '../../src/journal/store/result-store.ts';
import { roomsOf } from '../support/imports.ts';
import { log, problemText, smallJournal, writeFiles } from '../support/journal.ts';

const inFirst = (body: string) => ({ 'logs/first/index.md': log('', body) });

/** A journal that is opened as by one process after another; each opening tells how many texts it rendered. */
function openedAnew(body: string) {
  const folder = writeFiles({ ...smallJournal, ...inFirst(body) });
  return {
    folder,
    async open(base = '/') {
      let rendered = 0;
      const onText = (origin: 'kept' | 'computed') => {
        if (origin === 'computed') rendered += 1;
      };
      const { journal, problems } = await openJournal(folder, { base, store: openStore({ folder }), onText });
      const prose = journal?.logs.find(({ id }) => id === 'logs/first')?.prose;
      return { rendered, prose, problems: problems.map(problemText) };
    },
  };
}

const rich =
  'See [the version](/amplifiers/tern/v1/).\n\n## Hum \ud800\n\n$x^2$ and [nowhere](../nowhere/).\n';

test('a text that did not change is taken as it was rendered, with its problems', async () => {
  const { open } = openedAnew(rich);
  const first = await open();
  const again = await open();
  expect(first.rendered).toBe(3);
  expect(first.problems.join()).toContain('nowhere');
  expect(again).toEqual({ ...first, rendered: 0 });
});

test('a text that changed is rendered, and no other', async () => {
  const { folder, open } = openedAnew('One.\n');
  await open();
  writeFiles(inFirst('Two.\n'), folder);
  const { rendered, prose } = await open();
  expect(rendered).toBe(1);
  expect(prose?.html).toContain('Two.');
});

test('a text is rendered again where what it links to comes or goes, or the site stands elsewhere', async () => {
  const { folder, open } = openedAnew('[The second log](../second/).\n');
  expect((await open()).problems).toHaveLength(1);
  writeFiles({ 'logs/second/index.md': log() }, folder);
  const linked = await open();
  expect([linked.rendered, linked.problems]).toEqual([2, []]);
  expect(linked.prose?.html).toContain('href="/logs/second/"');
  expect((await open('/notes/')).prose?.html).toContain('href="/notes/logs/second/"');
  rmSync(join(folder, 'logs/second'), { recursive: true });
  expect((await open()).problems).toHaveLength(1);
});

test('a file that a text does not name leaves it kept', async () => {
  const { folder, open } = openedAnew('[The version](/amplifiers/tern/v1/).\n');
  await open();
  writeFileSync(join(folder, 'logs/first/readings.txt'), '1\n');
  expect((await open()).rendered).toBe(0);
});

test('every room that rendering takes code from counts in the version of a kept text', () => {
  expect(roomsOf(['src/journal/prose/texts.ts']).filter((room) => !proseRooms.includes(room))).toEqual([]);
});
