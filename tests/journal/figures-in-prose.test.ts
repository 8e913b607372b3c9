import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { measuredFolder, measuredJournal } from '../support/claims.ts';
import { type Files, log, problemsOf, settings } from '../support/journal.ts';

const second = 'logs/second/index.md';

/** Problems of a second log with this body, which begins on line 7. */
const faults = (body: string, files: Files = {}) =>
  problemsOf({ ...measuredJournal, [second]: log('', body), ...files });

const place = (figure: string, of: string) =>
  `<span data-place="figure" data-figure="${figure}" data-of="${of}"></span>`;

test('a figure in running text leaves a place for it, and is noted with its position', async () => {
  const body = 'THD is :figure[thd]{of="logs/first/new#load"} now.\n';
  const { journal } = await openJournal(measuredFolder({ [second]: log('', body) }));
  const prose = journal?.logs.find(({ id }) => id === 'logs/second')?.prose;
  expect(prose?.html).toContain(`THD is ${place('thd', 'logs/first/new#load')} now.`);
  expect(prose?.figures).toEqual([
    { figure: 'thd', of: 'logs/first/new#load', place: { file: second, line: 7, column: 8 } },
  ]);
});

test('a capture of the same log needs no path, and the record may be of any kind', async () => {
  expect(
    await faults('', {
      'logs/first/index.md': `${measuredJournal['logs/first/index.md'] as string}:figure[thd]{of="new"}`,
    }),
  ).toBe('\n\n');
  const amplifier = `---\ntitle: Tern\npurpose: Small.\nkind: tube\ntopology: single-ended\n---\n:figure[thd]{of="new"}\n`;
  expect(await faults('', { 'amplifiers/tern/index.md': amplifier })).toContain(
    'amplifiers/tern/index.md:7:1 error dangling-reference',
  );
});

describe('a figure in running text is refused', () => {
  test.each([
    ['without its id', ':figure{of="logs/first/new"}', 'does not say which figure it prints'],
    ['without what it is of', ':figure[thd]', 'does not say what the figure is of'],
    [
      'with an attribute that is not known',
      ':figure[thd]{of="logs/first/new" from="x"}',
      '":figure" has no attribute "from"',
    ],
    ['of a capture that does not exist', ':figure[thd]{of="logs/first/odl"}', 'Did you mean logs/first/old?'],
    ['of a channel that does not exist', ':figure[thd]{of="logs/first/new#laod"}', 'Did you mean load?'],
    ['where the capture does not have it', ':figure[thdd]{of="logs/first/new"}', 'Did you mean thd?'],
  ])('%s', async (_title, body, message) => {
    const found = await faults(`Text\n${body}\n`);
    expect(found).toContain(`${second}:8:1 error`);
    expect(found).toContain(message);
  });
});

test('what only looks like it stays text', async () => {
  const { journal } = await openJournal(
    measuredFolder({ [second]: log('', 'See the list:figure and :figure.\n') }),
  );
  const prose = journal?.logs.find(({ id }) => id === 'logs/second')?.prose;
  expect(prose?.html).toContain('See the list:figure and :figure.');
});

test('a figure without a value is a warning with the reason', async () => {
  expect(await faults(':figure[lower-limit-3db]{of="logs/first/new-sweep"}\n')).toMatch(
    /logs\/second\/index\.md:7:1 warning figure-absent\n {2}The figure "lower-limit-3db" has no value here/,
  );
});

test('in MDX the component does the same', async () => {
  const mdx = {
    'journal.yaml': `${settings}mdx: true\n`,
    [second.replace('second', 'third').replace('.md', '.mdx')]: log(
      '',
      'Now <FigureValue figure="thd" of="logs/first/odl" />.\n',
    ),
  };
  const found = await problemsOf({
    ...measuredJournal,
    ...mdx,
    'logs/first/index.md': log('captures: [ { file: old.csv, title: Old } ]\n'),
  });
  expect(found).toContain('logs/third/index.mdx:7:5 error dangling-reference');
  expect(found).not.toContain('component-in-paragraph');
});
