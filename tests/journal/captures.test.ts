import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import {
  type Files,
  log,
  problemsOf,
  settings,
  smallJournal,
  toneCsv,
  writeFiles,
} from '../support/journal.ts';

const first = 'logs/first/index.md';
const tone = toneCsv();
const withCaptures = (entries: readonly string[], more = '', body = '') =>
  log(`captures:\n${entries.map((entry) => `  - { title: Tone, ${entry} }\n`).join('')}${more}`, body);

test('a sound capture is read, computed and shown without a problem', async () => {
  const files = { [first]: withCaptures(['file: tone.csv']), 'logs/first/tone.csv': tone };
  const { journal, problems } = await openJournal(writeFiles({ ...smallJournal, ...files }));
  expect(problems).toEqual([]);
  const [capture] = journal?.logs[0]?.captures ?? [];
  expect(capture).toMatchObject({
    id: 'logs/first/tone',
    name: 'tone',
    file: 'logs/first/tone.csv',
    kind: 'waveform',
    bytes: Buffer.byteLength(tone),
    log: 'logs/first',
    version: null,
  });
  const thd = capture?.figures.find(({ id }) => id === 'thd');
  // The tone has 1 % of second harmonic; its noise of 0.14 mV rms moves the ratio by some 1e-5.
  expect(thd?.value).toBeCloseTo(0.01, 4);
  expect(thd?.provenance).toMatchObject({
    file: 'logs/first/tone.csv',
    sha256: capture?.sha256,
    lines: [2, 5001],
  });
});

describe('the path of a capture file', () => {
  const outside = (written: string) =>
    `error outside-journal\n  "${written}" leads out of the journal's folder; nothing outside is read or published.\n  Copy the file into the journal and name it by a relative path.`;
  const missing = (written: string, hint = 'Put the CSV file into the folder of the log.') =>
    `error capture-missing\n  The capture file "${written}" is not beside the log.\n  ${hint}`;

  test.each([
    ['../../../tone.csv', outside('../../../tone.csv')],
    ['..', missing('..')],
    ['../..', missing('../..')],
    ['../../..', outside('../../..')],
    ['/etc/hostname', outside('/etc/hostname')],
    ["'C:/tone.csv'", outside('C:/tone.csv')],
    ["'C:\\tone.csv'", outside('C:\\tone.csv')],
    ["'..\\tone.csv'", outside('..\\tone.csv')],
    ['ton.csv', missing('ton.csv', 'Did you mean tone.csv?')],
    ['second/tone.csv', missing('second/tone.csv')],
    ['.', missing('.')],
    ['tone%2ecsv', missing('tone%2ecsv', 'Did you mean tone.csv?')],
    ['Tone.csv', missing('Tone.csv', 'Did you mean tone.csv?')],
  ])('%s is refused', async (written, expected) => {
    const files = { [first]: withCaptures([`id: tone, file: ${written}`]), 'logs/first/tone.csv': tone };
    expect(await problemsOf(files)).toBe(`\n${first}:7:36 ${expected}\n`);
  });

  test.each([
    ['beside the log, by a detour', './sub/../tone.csv', 'logs/first/tone.csv'],
    ['in a folder of the log', 'sub/tone.csv', 'logs/first/sub/tone.csv'],
    ['of another log', '../second/tone.csv', 'logs/second/tone.csv'],
    ['not called .csv', 'tone.txt', 'logs/first/tone.txt'],
  ])('a file %s is read', async (_title, written, file) => {
    const files = { [first]: withCaptures([`file: ${written}`]), [file]: tone };
    const { journal, problems } = await openJournal(writeFiles({ ...smallJournal, ...files }));
    expect(problems).toEqual([]);
    expect(journal?.logs[0]?.captures.map((capture) => [capture.id, capture.file])).toEqual([
      ['logs/first/tone', file],
    ]);
  });
});

test('two captures of one name are told at the second, whether named or called after their file', async () => {
  const entries = ['file: tone.csv', 'file: other.csv, id: tone', 'file: tone.csv, id: control'];
  const files = {
    [first]: withCaptures(entries),
    'logs/first/tone.csv': tone,
    'logs/first/other.csv': tone,
  };
  expect(await problemsOf(files)).toBe(`
logs/first/index.md:8:5 error duplicate-id
  Two captures of this log are called "tone".
  Give one of them another id.
`);
});

test('a file whose name cannot stand in an address needs an id', async () => {
  const files = {
    [first]: withCaptures(['file: Tone 1 W.csv', 'file: Tone 1 W.csv, id: tone-1w']),
    'logs/first/Tone 1 W.csv': tone,
  };
  expect(await problemsOf(files)).toBe(`
logs/first/index.md:7:26 error record-name
  "Tone 1 W" cannot stand in the address of a page.
  Add id: with a short name such as tone-1w, or rename the file.
`);
});

test('a fault of a file stands in the file, and once for two captures of it', async () => {
  const files = {
    [first]: withCaptures(['file: tone.csv', 'file: tone.csv, id: again']),
    'logs/first/tone.csv': '',
  };
  expect(await problemsOf(files)).toBe(`
logs/first/tone.csv:1:1 error capture-empty
  The file is empty.
  Export the capture again, with its numbers as text.
`);
});

describe('a key figure', () => {
  const keyFigure = (figure: string, of: string) => `keyFigures:\n  - { figure: ${figure}, of: ${of} }\n`;
  const files = { 'logs/first/tone.csv': toneCsv(['grid', 'speaker']) };

  test.each([
    [
      'that the kind of capture does not have',
      keyFigure('thdd', 'tone#grid'),
      '9:15 error unknown-figure\n  The capture has no figure "thdd".\n  Did you mean thd?',
    ],
    [
      'of a channel that is not there',
      keyFigure('thd', 'tone#speker'),
      '9:24 error unknown-channel\n  The capture has no channel "speker".\n  Did you mean speaker?',
    ],
    [
      'of no capture of the log',
      keyFigure('thd', 'tune#grid'),
      '9:24 error figure-form\n  "tune#grid" does not name a capture of this log.\n  Did you mean tone?',
    ],
    [
      'of something else',
      keyFigure('thd', 'the amplifier'),
      '9:24 error figure-form\n  "the amplifier" does not name a capture of this log.\n  Write capture or capture#channel, for example tone-1w#speaker.',
    ],
  ])('%s is told at its place', async (_title, keys, expected) => {
    expect(await problemsOf({ ...files, [first]: withCaptures(['file: tone.csv'], keys) })).toBe(
      `\n${first}:${expected}\n`,
    );
  });

  test('of a channel is found, and without a channel is that of the first', async () => {
    const keys = `${keyFigure('thd', 'tone#speaker')}  - { figure: rms, of: tone }\n`;
    const folder = writeFiles({ ...smallJournal, ...files, [first]: withCaptures(['file: tone.csv'], keys) });
    const { journal, problems } = await openJournal(folder);
    expect(problems).toEqual([]);
    expect(journal?.logs[0]?.keyFigures.map(({ figure }) => [figure.id, figure.subject])).toEqual([
      ['thd', 'speaker'],
      ['rms', 'grid'],
    ]);
  });

  test('of a capture that cannot be read adds no second complaint', async () => {
    const keys = keyFigure('thd', 'gone');
    expect(await problemsOf({ [first]: withCaptures(['file: gone.csv'], keys) })).toBe(`
logs/first/index.md:7:26 error capture-missing
  The capture file "gone.csv" is not beside the log.
  Put the CSV file into the folder of the log.
`);
  });
});

describe('a chart or summary in the prose', () => {
  const mdx = { 'journal.yaml': `${settings}mdx: true\n` };
  const shape = {
    md: (name: string, attributes: string) => `::${name}{${attributes}}`,
    mdx: (name: string, attributes: string) => `<${name === 'chart' ? 'Chart' : 'Summary'} ${attributes} />`,
  } as const;

  /** Problems of a second log of this kind with one capture and this in line 9 of its file. */
  async function placed(format: 'md' | 'mdx', name: string, attributes: string, files: Files = {}) {
    const file = `logs/second/index.${format}`;
    const body = `${shape[format](name, attributes)}\n`;
    const source = withCaptures(['file: tone.csv'], '', body);
    const text = await problemsOf({ ...mdx, 'logs/second/tone.csv': tone, [file]: source, ...files });
    return text.replaceAll(file, 'log');
  }

  test.each(['md', 'mdx'] as const)('is checked against the captures of the log in .%s', async (format) => {
    expect(await placed(format, 'chart', 'capture="tone" kind="spectrum" channel="speaker"')).toBe('\n\n');
    expect(await placed(format, 'summary', 'capture="tone"')).toBe('\n\n');
    expect(await placed(format, 'summary', 'capture="tune"')).toBe(`
log:9:1 error unknown-capture
  There is no capture "tune" to show here.
  Did you mean tone?
`);
    expect(await placed(format, 'chart', 'capture="drive"')).toBe(`
log:9:1 error unknown-capture
  There is no capture "drive" to show here.
  There are: tone.
`);
    expect(await placed(format, 'chart', 'capture="tone" kind="spektrum" channel="speakr"')).toBe(`
log:9:1 error unknown-chart
  A chart of the kind "spektrum" cannot be drawn from this capture.
  Did you mean spectrum?
log:9:1 error unknown-channel
  The capture has no channel "speakr".
  Did you mean speaker?
`);
    expect(await placed(format, 'chart', 'capture="tone" kind="impedance"')).toMatch(
      /A chart of the kind "impedance" cannot be drawn from this capture\.\n {2}It gives: spectrum, excerpt[\w, -]*\.\n$/,
    );
    const gone = { 'logs/second/tone.csv': '' };
    expect(await placed(format, 'chart', 'capture="tone" kind="impedance"', gone)).toMatch(
      /^\nlogs\/second\/tone\.csv:1:1 error capture-empty\n[^\n]*\n[^\n]*\n$/,
    );
  });

  test.each([
    ['md', '::chart', '::summary'],
    ['mdx', '<Chart>', '<Summary>'],
  ] as const)('says what it shows, in known attributes, in .%s', async (format, chart, summary) => {
    expect(await placed(format, 'summary', 'capture=""')).toBe(`
log:9:1 error missing-attribute
  "${summary}" does not say which capture it shows.
  Write capture="…" with the name of a capture of this log.
`);
    expect(await placed(format, 'chart', 'capture="tone" chanel="speaker"')).toBe(`
log:9:1 error unknown-attribute
  "${chart}" has no attribute "chanel".
  It takes capture, kind, channel.
`);
  });

  test('in a log without captures asks for one', async () => {
    expect(await problemsOf({ [first]: log('', '::chart{capture="tone"}\n') })).toBe(`
logs/first/index.md:7:1 error unknown-capture
  There is no capture "tone" to show here.
  Declare it under captures: first.
`);
  });
});
