import { rename, rm, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { emptyMemory } from '../../src/journal/memory.ts';
import {
  type Files,
  log,
  problemText,
  smallJournal,
  toneCsv,
  versionWith,
  writeFiles,
} from '../support/journal.ts';

/** A journal opened again and again with one memory; each opening tells what was made for it. */
function reopened(files: Files) {
  const folder = writeFiles({ ...smallJournal, ...files });
  const made: string[] = [];
  const memory = emptyMemory((name) => made.push(name));
  return {
    folder,
    async open() {
      made.length = 0;
      const { journal, problems } = await openJournal(folder, { memory });
      return { journal, problems: problems.map(problemText), made: [...made].sort() };
    },
    write: (file: string, content: string) => writeFile(join(folder, file), content),
  };
}

const captured = 'captures:\n  - file: tone.csv\n    title: A tone\n';
const twoLogs: Files = {
  'logs/first/index.md': log(captured, 'See [the other](../second/).\n'),
  'logs/first/tone.csv': toneCsv(),
  'logs/second/index.md': log(captured),
  'logs/second/tone.csv': toneCsv(['grid']),
};

test('a journal that did not change is opened again without making anything', async () => {
  const { open } = reopened(twoLogs);
  const first = await open();
  const second = await open();
  expect(first.made).toContain('captures of logs/first');
  expect(second.made).toEqual([]);
  expect(second.problems).toEqual(first.problems);
  expect(second.journal?.logs[0]?.captures).toBe(first.journal?.logs[0]?.captures);
});

test('an edited log is the only one that is read and rendered again, and its captures are not', async () => {
  const { open, write } = reopened(twoLogs);
  const before = await open();
  await write('logs/first/index.md', log(captured, 'Another text.\n'));
  const { made, journal } = await open();
  expect(made).toEqual([
    'joined record logs/first/index.md',
    'log logs/first',
    'prose logs/first',
    'questions of logs/first',
    'record logs/first/index.md',
  ]);
  const proseOf = (id: string, from = journal) => from?.logs.find((one) => one.id === id)?.prose;
  expect(proseOf('logs/first')?.html).toContain('Another text.');
  expect(proseOf('logs/second')).toBe(proseOf('logs/second', before.journal));
});

test('an edited capture is the only one that is read again, and no text is rendered for it', async () => {
  const { open, write } = reopened(twoLogs);
  await open();
  await write('logs/second/tone.csv', toneCsv(['speaker']));
  const { made, journal } = await open();
  expect(made).toEqual([
    'captures of all logs',
    'captures of logs/second',
    'joined captures of logs/second',
    'log logs/second',
  ]);
  const second = journal?.logs.find(({ id }) => id === 'logs/second');
  expect(second?.captures[0]?.capture.columns.map(({ name }) => name)).toEqual(['speaker']);
});

test('a capture of the same size and age is read again where it was put in place by renaming', async () => {
  const { open, folder } = reopened(twoLogs);
  await open();
  const [file, beside] = [join(folder, 'logs/second/tone.csv'), join(folder, 'logs/second/.tone.csv')];
  await writeFile(beside, toneCsv(['plat']));
  await utimes(beside, new Date(0), new Date(0));
  await rename(beside, file);
  const { journal } = await open();
  const second = journal?.logs.find(({ id }) => id === 'logs/second');
  expect(second?.captures[0]?.capture.columns.map(({ name }) => name)).toEqual(['plat']);
});

test('a text is rendered again where a link of it leads nowhere any longer, and the others are not', async () => {
  const { open, folder } = reopened(twoLogs);
  await open();
  await rm(join(folder, 'logs/second'), { recursive: true });
  const gone = await open();
  expect(gone.made.filter((name) => name.startsWith('prose'))).toEqual(['prose logs/first']);
  expect(gone.problems.join('\n')).toContain('logs/first/index.md:10:5 error dangling-link');
  expect(gone.journal?.logs.map(({ id }) => id)).toEqual(['logs/first']);
  writeFiles(twoLogs, folder);
  const back = await open();
  expect(back.problems.join('\n')).not.toContain('dangling-link');
});

test('a changed picture is looked at again without rendering the text that shows it', async () => {
  const svg = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"/>';
  const { open, write } = reopened({
    'logs/first/index.md': log('', '![A square](square.svg)\n'),
    'logs/first/square.svg': svg,
  });
  expect((await open()).problems).toEqual([]);
  await write('logs/first/square.svg', svg.replace(' viewBox="0 0 1 1"', ''));
  const { made, problems } = await open();
  expect(made).toEqual(['picture square.svg of logs/first']);
  expect(problems).toHaveLength(1);
});

const triode =
  'id: output, topology: single-ended, device: 300B, connection: triode, plate: 300 V, bias: { grid: -61 V }';

test('a load sheet is computed again for an edit of its version and of a part, not for one of a log', async () => {
  const { open, write } = reopened({
    'amplifiers/tern/v1.md': versionWith(`stages:\n  - { ${triode} }\n`),
    'parts/iron.md': '---\ntitle: Iron\nkind: transformer\nprimary: 5 kΩ\nsecondary: 8 Ω\n---\n',
  });
  const isSheet = (name: string) => name.startsWith('sheet');
  const first = await open();
  expect(first.made.filter(isSheet)).toEqual(['sheet of amplifiers/tern/v1']);
  await write('logs/first/index.md', log('', 'Another text.\n'));
  expect((await open()).made.filter(isSheet)).toEqual([]);
  await write('parts/iron.md', '---\ntitle: Iron\nkind: transformer\nprimary: 3 kΩ\nsecondary: 8 Ω\n---\n');
  expect((await open()).made.filter(isSheet)).toEqual(['sheet of amplifiers/tern/v1']);
});

test('what is no longer asked for is let go', () => {
  const made: string[] = [];
  const memory = emptyMemory((name) => made.push(name));
  const ask = () => memory.remember('thing', [], () => ({}));
  const first = ask();
  memory.sweep();
  expect(ask()).toBe(first);
  memory.sweep();
  memory.sweep();
  expect(ask()).not.toBe(first);
  expect(made).toEqual(['thing', 'thing']);
});

test('a failure is not remembered', async () => {
  const memory = emptyMemory();
  const failing = memory.remember('thing', [], () => Promise.reject(new Error('gone')));
  await expect(failing).rejects.toThrow('gone');
  expect(await memory.remember('thing', [], () => Promise.resolve(1))).toBe(1);
});
