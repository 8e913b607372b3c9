import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { log, problemsOf, problemText, smallJournal, toneCsv, writeFiles } from '../support/journal.ts';

const page = (title: string, keys = '', body = '') =>
  `---\ntitle: ${title}\nsummary: What stands here.\n${keys}---\n${body}`;

const measured = {
  'logs/first/index.md': log('captures:\n  - file: tone.csv\n    title: A tone\n    kind: waveform\n'),
  'logs/first/tone.csv': toneCsv(),
};

async function opened(files: Record<string, string>) {
  const { journal, problems } = await openJournal(writeFiles({ ...smallJournal, ...files }));
  if (!journal) throw new Error('There is no journal.');
  return { journal, problems: problems.map(problemText).join('\n') };
}

describe('pages of the maker', () => {
  test('are listed by their order, and those without one behind them by title', async () => {
    const { journal, problems } = await opened({
      'pages/c.md': page('Anchors'),
      'pages/a.md': page('Zeroing a meter', 'order: 2\n'),
      'pages/d.md': page('Bench'),
      'pages/b.md': page('Leads', 'order: 1\n'),
    });
    expect(problems).toBe('');
    expect(journal.pages.map(({ id }) => id)).toEqual(['pages/b', 'pages/a', 'pages/c', 'pages/d']);
  });

  test('are linked by their files, from the root and from each other, and to places on them', async () => {
    const { journal, problems } = await opened({
      'pages/bench.md': page('Bench', '', '\n## Leads\n\n[logs](../logs/first/index.md), [all](/pages)\n'),
      'pages/other.md': page('Other', '', '\n[leads](bench.md#leads)\n'),
    });
    expect(problems).toBe('');
    expect(journal.pages.map(({ prose }) => prose.html).join('')).toMatch(
      /href="\/logs\/first\/".*href="\/pages\/".*href="\/pages\/bench\/#leads"/s,
    );
  });

  test('show charts and figures of any capture by its id', async () => {
    const { problems } = await opened({
      ...measured,
      'pages/bench.md': page(
        'Bench',
        '',
        '\n::chart{capture="logs/first/tone" kind="spectrum"}\n\n:figure[thd]{of="logs/first/tone#speaker"}\n',
      ),
    });
    expect(problems).toBe('');
  });

  test('are told which capture they name in vain', async () => {
    const problems = await problemsOf({
      ...measured,
      'pages/bench.md': page('Bench', '', '\n::chart{capture="logs/first/tune"}\n'),
    });
    expect(problems).toBe(`
pages/bench.md:6:1 error unknown-capture
  There is no capture "logs/first/tune" to show here.
  Did you mean logs/first/tone?
`);
  });

  test('name captures as every record but a log does', async () => {
    const part = (capture: string) =>
      `---\ntitle: A part\nkind: supplier\n---\n\n::summary{capture="${capture}"}\n`;
    expect(await problemsOf({ ...measured, 'parts/iron.md': part('logs/first/tone') })).toBe('\n\n');
    expect(await problemsOf({ ...measured, 'parts/iron.md': part('tone') })).toMatch(
      /parts\/iron\.md:6:1 error unknown-capture\n.*\n {2}There are: logs\/first\/tone\./,
    );
  });

  test('are told of a place that does not exist, and of an unknown key', async () => {
    const problems = await problemsOf({
      'pages/bench.md': page('Bench', '', '\n[leads](#leads)\n'),
      'pages/other.md': page('Other', 'navgation: Other\n'),
    });
    expect(problems).toMatch(/pages\/bench\.md:6:1 error/);
    expect(problems).toMatch(/pages\/other\.md:4:1 error unknown-key\n.*\n {2}Did you mean navigation\?/);
  });

  test('cannot take the place of the list of pages, nor have a name that no address can hold', async () => {
    const problems = await problemsOf({
      'pages/index.md': page('Bench'),
      'pages/a bench.md': page('Bench'),
    });
    expect(problems).toMatch(/pages\/index\.md:1:1 warning stray-record/);
    expect(problems).toMatch(/pages\/a bench\.md:1:1 error record-name/);
  });

  test('keep their addresses, and that of their list, from files that are published as they are', async () => {
    const problems = await problemsOf({
      'pages/bench.md': page('Bench'),
      'static/pages/bench/index.html': 'x',
      'static/pages/index.html': 'x',
      'static/colours.css': 'x',
    });
    expect(problems.match(/^static\/\S+:1:1 error reserved-file$/gm)).toEqual([
      'static/colours.css:1:1 error reserved-file',
      'static/pages/bench/index.html:1:1 error reserved-file',
      'static/pages/index.html:1:1 error reserved-file',
    ]);
  });
});
