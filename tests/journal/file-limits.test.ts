import { symlinkSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { listFiles } from '../../src/journal/files.ts';
import { openJournal } from '../../src/journal/index.ts';
import {
  type Files,
  log,
  problemText,
  settings,
  smallJournal,
  toneCsv,
  writeFiles,
} from '../support/journal.ts';

/** Rules of the problems of a journal made of the small one and these files, each with its place. */
async function rulesOf(files: Files, prepare: (folder: string) => void = () => undefined): Promise<string[]> {
  const folder = writeFiles({ ...smallJournal, ...files });
  prepare(folder);
  const { problems } = await openJournal(folder);
  return problems.map(
    ({ file, line, column, severity, rule }) => `${file}:${line}:${column} ${severity} ${rule}`,
  );
}

describe('names of files', () => {
  test.each([
    ['a control character', 'logs/first/a\u001b[2Jb.txt', 'error file-name'],
    ['a backslash', 'logs/first/a\\b.txt', 'error file-name'],
    ['a name of a device', 'logs/first/NUL.txt', 'warning file-name'],
    ['a folder with a name of a device', 'static/con/a.txt', 'warning file-name'],
    ['a full stop at the end', 'static/plans./a.txt', 'warning file-name'],
    ['a space at the end', 'static/a.txt ', 'warning file-name'],
    ['a colon', 'static/a:b.txt', 'warning file-name'],
  ])('%s is told', async (_title, file, expected) => {
    expect(await rulesOf({ [file]: '' })).toEqual([`${file}:1:1 ${expected}`]);
  });

  test('a control character in a name is not printed as it is', async () => {
    const { problems } = await openJournal(writeFiles({ ...smallJournal, 'static/a\u001b[2J.txt': '' }));
    expect(problems[0]?.message).toContain('"a\\u001b[2J.txt"');
  });

  test.each([
    ['capitals', 'static/Plan.pdf', 'static/plan.pdf'],
    ['how an accent is written', 'static/e\u0301.pdf', 'static/\u00e9.pdf'],
  ])('two that differ in %s alone are an error at the second', async (_title, first, second) => {
    const folder = writeFiles({ ...smallJournal, [first]: '', [second]: '' });
    const texts = (await openJournal(folder)).problems.map(problemText);
    expect(texts).toEqual([
      `${second}:1:1 error file-name-twice\n  "${second}" and "${first}" are one name where capitals or accents are not told apart, and one of the two would be lost there.\n  Rename or remove one of the two.`,
    ]);
  });

  test('two folders that differ in capitals are an error once', async () => {
    const files = { 'static/Plans/a.txt': '', 'static/plans/b.txt': '', 'static/plans/c.txt': '' };
    expect(await rulesOf(files)).toEqual(['static/plans/b.txt:1:1 error file-name-twice']);
  });

  test('a record or capture whose name is too long for a page is told before a site is written', async () => {
    const long = 'a'.repeat(121);
    const captures = `captures:\n  - { file: tone.csv, id: ${long}, title: Tone }\n`;
    const files = {
      'logs/first/index.md': log(captures),
      'logs/first/tone.csv': toneCsv(),
      [`parts/${long}.md`]: '---\ntitle: P\nkind: device\n---\n',
    };
    expect(await rulesOf(files)).toEqual([
      'logs/first/index.md:7:13 error record-name',
      `parts/${long}.md:1:1 error record-name`,
    ]);
  });

  test('a tag that is too long for a page is told where it stands', async () => {
    const files = { 'logs/first/index.md': log(`tags: [ ${'hum '.repeat(30)}]\n`) };
    expect(await rulesOf(files)).toEqual(['logs/first/index.md:6:9 error tag-address']);
  });
});

describe('links between files', () => {
  const linked = (name: string, target: string) => (folder: string) =>
    symlinkSync(target, join(folder, name));
  const files: Files = { '.git/config': 'secret', 'static/plan.txt': '', 'static/.well-known/a.txt': '' };

  test.each([
    ['out of the journal', 'static/hosts', '/etc/hosts', 'outside-journal'],
    ['out of the journal under a hidden name', 'static/.hosts', '/etc/hosts', 'outside-journal'],
    ['to a hidden file', 'static/config', '../.git/config', 'hidden-link'],
    ['to a hidden folder', 'logs/first/git', '../../.git', 'hidden-link'],
    ['to nothing', 'static/gone', 'nothing', 'dead-link'],
    ['to a folder around it', 'static/round', '..', 'link-circle'],
  ])('one that leads %s is an error', async (_title, name, target, rule) => {
    expect(await rulesOf(files, linked(name, target))).toEqual([`${name}:1:1 error ${rule}`]);
  });

  test('one within the journal is followed', async () => {
    expect(await rulesOf(files, linked('static/other.txt', 'plan.txt'))).toEqual([]);
  });
});

test('more files than are looked through are an error at the first that is not', async () => {
  const folder = writeFiles({ ...smallJournal, 'static/a.txt': '', 'static/b.txt': '' });
  const { files, problems } = await listFiles(folder, 5);
  expect(files).toHaveLength(5);
  expect(problems.map(({ file, rule }) => `${file} ${rule}`)).toEqual(['static/b.txt too-many-files']);
  expect((await listFiles(folder, 6)).problems).toEqual([]);
});

test('a capture over the limit is told without being read', async () => {
  const captures = 'captures:\n  - { file: tone.csv, title: Tone }\n';
  const files = { 'logs/first/index.md': log(captures), 'logs/first/tone.csv': '' };
  const enlarge = (folder: string) => truncateSync(join(folder, 'logs/first/tone.csv'), 65 * 1024 * 1024);
  expect(await rulesOf(files, enlarge)).toEqual(['logs/first/tone.csv:1:1 error capture-too-large']);
});

describe('what would be published in the place of something else', () => {
  const captured = (file: string) => log(`captures:\n  - { file: ${file}, title: Tone }\n`);

  test.each([
    ['the first page', 'static/index.html'],
    ['the page of a log', 'static/logs/first/index.html'],
    ['the page of a log in capitals', 'static/Logs/First/Index.html'],
    ['the page of missing pages', 'static/404.html'],
    ['a page', 'static/logs/first'],
    ['a folder of pages', 'static/amplifiers'],
    ['the site’s own files', 'static/_astro/a.css'],
  ])('a fixed file in the place of %s is refused', async (_title, file) => {
    expect(await rulesOf({ 'journal.yaml': `${settings}mdx: true\n`, [file]: '' })).toEqual([
      `${file}:1:1 error reserved-file`,
    ]);
  });

  test('a capture whose page would stand in the place of the figures of its log is refused where it is declared', async () => {
    const files = {
      'logs/first/index.md': captured('figures.csv.csv'),
      'logs/first/figures.csv.csv': toneCsv(),
    };
    expect(await rulesOf(files)).toEqual(['logs/first/index.md:7:13 error reserved-file']);
  });

  test('a fixed file in the place of a capture is refused, and one file may be several captures', async () => {
    const two = 'captures:\n  - { file: tone.csv, title: A }\n  - { file: tone.csv, id: again, title: B }\n';
    const files = {
      'logs/first/index.md': log(two),
      'logs/first/tone.csv': toneCsv(),
      'static/logs/first/tone.csv': '',
    };
    expect(await rulesOf(files)).toEqual(['static/logs/first/tone.csv:1:1 error reserved-file']);
  });
});

describe('fixed files that a browser would run', () => {
  test.each(['page.html', 'a/page.XHTML', 'worker.js', 'module.mjs', 'data.xml'])(
    '%s is refused',
    async (name) => {
      expect(await rulesOf({ [`static/${name}`]: '' })).toEqual([`static/${name}:1:1 error static-code`]);
    },
  );

  test('are allowed where the journal allows code', async () => {
    expect(await rulesOf({ 'journal.yaml': `${settings}mdx: true\n`, 'static/page.html': '' })).toEqual([]);
  });
});

describe('pictures', () => {
  const shown = { 'logs/first/index.md': log('', '![Bench](bench.png)\n') };
  const problemsWith = async (content: Uint8Array | string, prepare?: (folder: string) => void) => {
    const folder = writeFiles({ ...smallJournal, ...shown, 'logs/first/bench.png': content });
    prepare?.(folder);
    return (await openJournal(folder)).problems.map(problemText);
  };

  test('of more pixels than are published are an error that says both numbers', async () => {
    expect(await problemsWith(pngOf(20_000, 6000))).toEqual([
      'logs/first/index.md:7:1 error too-large\n  The picture "bench.png" has 20000 by 6000 pixels, and at most 100 million pixels are published.\n  Export it smaller; a page shows at most some 2000 pixels across.',
    ]);
    expect(await problemsWith(pngOf(10_000, 9000))).toEqual([]);
  });

  test('of more bytes than are published are an error that says both numbers', async () => {
    const enlarge = (folder: string) => truncateSync(join(folder, 'logs/first/bench.png'), 41_000_000);
    expect(await problemsWith(pngOf(4, 3), enlarge)).toEqual([
      'logs/first/index.md:7:1 error too-large\n  The picture "bench.png" has 41 MB, and at most 40 MB are published.\n  Export it smaller; a page shows at most some 2000 pixels across.',
    ]);
  });

  test('that are drawings under another name are refused', async () => {
    const drawing = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"><script>x()</script></svg>';
    expect((await problemsWith(drawing))[0]).toContain('cannot be read as a picture');
  });
});

/** The beginning of a picture of a size, which is all that is looked at. */
function pngOf(width: number, height: number): Uint8Array {
  const header = Buffer.alloc(17);
  header.write('IHDR', 0, 'latin1');
  header.writeUInt32BE(width, 4);
  header.writeUInt32BE(height, 8);
  header.set([1, 0, 0, 0, 0], 12);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]),
    chunk(header),
    chunk(Buffer.concat([Buffer.from('IDAT', 'latin1'), Buffer.from([0x78, 0x9c, 3, 0, 0, 0, 0, 1])])),
    chunk(Buffer.from('IEND', 'latin1')),
  ]);
}

function chunk(content: Buffer): Buffer {
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(content.length - 4);
  sum.writeUInt32BE(crc32(content));
  return Buffer.concat([length, content, sum]);
}
