import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { secondCsv } from '../support/claims.ts';
import {
  amplifier,
  type Files,
  log,
  problemsOf,
  smallJournal,
  versionWith,
  writeFiles,
} from '../support/journal.ts';

const one = 'amplifiers/tern/units/t-01.md';
const two = 'amplifiers/tern/units/t-02.md';

const limits = `limits:
  - { reading: Cathode voltage, least: 12 V, most: 14 V }
  - { figure: thd, of: load, most: 1 % }
`;

/** A unit with these lines of frontmatter from line 5 on. */
const unit = (keys = '', serial = 'T-01') =>
  `---\nserial: ${serial}\nversion: amplifiers/tern/v1\ndate: 2026-02-01\n${keys}---\n`;

const reading = (value: string, keys = '') =>
  `readings: [ { reading: cathode voltage, value: ${value}${keys} } ]\n`;

const batch: Files = {
  'amplifiers/tern/v1.md': versionWith(limits),
  'logs/first/index.md': log(`version: amplifiers/tern/v1
captures: [ { file: a.csv, title: A }, { file: b.csv, title: B } ]
`),
  'logs/first/a.csv': secondCsv(0.5),
  'logs/first/b.csv': secondCsv(2),
};

async function unitsOf(files: Files) {
  const { journal, problems } = await openJournal(writeFiles({ ...smallJournal, ...batch, ...files }));
  expect(problems).toEqual([]);
  return journal?.units ?? [];
}

const faults = (files: Files) => problemsOf({ ...batch, ...files });

describe('a unit', () => {
  test('is held against the limits of its version, readings by name and figures by capture and channel', async () => {
    const [first] = await unitsOf({ [one]: unit(`${reading('13.2 V')}captures: [ logs/first/a ]\n`) });
    expect(first).toMatchObject({ amplifier: 'amplifiers/tern', outcome: 'within' });
    expect(first?.rows).toMatchObject([
      { name: 'Cathode voltage', verdict: 'within', text: '13.2 V', counts: true },
      { figure: 'thd', name: 'load', verdict: 'within', capture: { id: 'logs/first/a', title: 'A' } },
    ]);
    // 0.5 % of second harmonic; the noise of the record moves THD by less than 0.01 %.
    expect(Math.abs((first?.rows[1]?.value ?? 0) - 0.005)).toBeLessThan(1e-4);
  });

  test.each([
    [`${reading('14.5 V')}captures: [ logs/first/a ]\n`, 'outside'],
    [`${reading('13 V')}captures: [ logs/first/b ]\n`, 'outside'],
    [reading('13 V'), 'not read'],
    ['', 'not read'],
  ])('with %j is %s', async (keys, outcome) => {
    expect((await unitsOf({ [one]: unit(keys) }))[0]?.outcome).toBe(outcome);
  });

  test('whose interval reaches over a limit cannot be told', async () => {
    const tight = { 'amplifiers/tern/v1.md': versionWith('limits: [ { figure: thd, most: 0.5 % } ]\n') };
    const csv = { 'logs/first/a.csv': secondCsv(0.5) };
    const [first] = await unitsOf({ ...tight, ...csv, [one]: unit('captures: [ logs/first/a ]\n') });
    const [row] = first?.rows ?? [];
    expect(row?.low).toBeLessThan(0.005);
    expect(row?.high).toBeGreaterThan(0.005);
    expect(first?.outcome).toBe('cannot be told');
  });

  test('that was mended counts by its last reading, and keeps the first with what was done', async () => {
    const keys = `readings:
  - { reading: Cathode voltage, value: 15.1 V, done: resistor changed }
  - { reading: Cathode voltage, value: 13.1 V, date: 2026-02-03 }
captures: [ logs/first ]
`;
    const ofLog = { 'logs/first/index.md': log('captures: [ { file: a.csv, title: A } ]\n') };
    const [first] = await unitsOf({ ...ofLog, [one]: unit(keys) });
    expect(first?.outcome).toBe('within');
    expect(first?.rows.map(({ verdict, counts, done, date }) => [verdict, counts, done, date])).toEqual([
      ['outside', false, 'resistor changed', null],
      ['within', true, null, '2026-02-03'],
      ['within', true, null, null],
    ]);
  });

  test('may have bounds of its own, which win over those of the version', async () => {
    const keys = `readings:
  - { reading: Cathode voltage, value: 13.1 V, most: 13 V }
  - { reading: Hum, value: 2 mV, most: 3 mV }
captures: [ logs/first/a ]
`;
    const [first] = await unitsOf({ [one]: unit(keys) });
    expect(first?.rows.map(({ name, verdict }) => [name, verdict])).toEqual([
      ['Cathode voltage', 'outside'],
      ['load', 'within'],
      ['Hum', 'within'],
    ]);
  });

  test('of a version without limits passes nothing', async () => {
    const none = { 'amplifiers/tern/v1.md': versionWith('') };
    const found = await problemsOf({ ...none, [one]: unit(reading('13 V')) });
    expect(found).toContain(`${one}:5:24 warning reading-without-limits`);
  });
});

describe('the record of a unit', () => {
  test('whose version is not there is told that alone', async () => {
    const keys = `${reading('13 V')}captures: [ logs/first/a ]\n`;
    const found = await faults({ [one]: unit(keys).replace('tern/v1', 'tern/v2') });
    expect(found.match(/ (error|warning) /g)).toEqual([' error ']);
    expect(found).toContain('There is no version "amplifiers/tern/v2"');
  });

  test('has a serial number of its own in the amplifier, whatever its letter case', async () => {
    const gull = { 'amplifiers/gull/index.md': amplifier, 'amplifiers/gull/v1.md': versionWith('') };
    const other = unit('', 'T-01').replace('tern', 'gull');
    const found = await faults({
      ...gull,
      [one]: unit(),
      [two]: unit('', 't-01'),
      'amplifiers/gull/units/x.md': other,
    });
    expect(found).toBe(`
${two}:2:9 error duplicate-serial
  The serial number "t-01" is that of amplifiers/tern/units/t-01 too.
  Correct one of the two; letter case does not tell serial numbers apart.
`);
  });

  test.each([
    [
      'a version that is not there',
      { [one]: unit().replace('tern/v1', 'tern/v2') },
      `${one}:3:10 error dangling-reference`,
      'There is no version "amplifiers/tern/v2"',
    ],
    [
      'a version of another amplifier',
      {
        'amplifiers/gull/index.md': amplifier,
        'amplifiers/gull/v1.md': versionWith(''),
        [one]: unit().replace('tern/v1', 'gull/v1'),
      },
      `${one}:3:10 error version-of-another-amplifier`,
      'The version "amplifiers/gull/v1" does not belong',
    ],
    [
      'a folder without an amplifier',
      { 'amplifiers/gull/units/x.md': unit() },
      'amplifiers/gull/units/x.md:1:1 error dangling-reference',
      'This record stands in the folder amplifiers/gull',
    ],
    [
      'a capture that is not there',
      { [one]: unit('captures: [ logs/first/c ]\n') },
      `${one}:5:13 error dangling-reference`,
      'There is no capture "logs/first/c"',
    ],
    [
      'a channel that is not there',
      { [one]: unit('captures: [ logs/first/a#laod ]\n') },
      `${one}:5:13 error unknown-channel`,
      'The capture has no channel "laod" with figures.',
    ],
    [
      'a capture of another unit',
      { [one]: unit('captures: [ logs/first/a ]\n'), [two]: unit('captures: [ logs/first ]\n', 'T-02') },
      `${two}:5:13 error duplicate-capture`,
      '"logs/first" is a capture of T-01 too',
    ],
    [
      'a capture of another version',
      {
        'amplifiers/tern/v2.md': versionWith(''),
        [one]: unit('captures: [ logs/first/a ]\n').replace('tern/v1', 'tern/v2'),
      },
      `${one}:5:13 error version-of-another-unit`,
      'was taken on amplifiers/tern/v1, but this unit is built to amplifiers/tern/v2',
    ],
    [
      'a reading again without what was done',
      { [one]: unit('readings: [ { reading: A, value: 1 V }, { reading: a, value: 2 V } ]\n') },
      `${one}:5:52 error reading`,
      'does not say what was done in between',
    ],
    [
      'a reading in another unit than its limit',
      { [one]: unit(reading('13 mA')) },
      `${one}:5:48 error limit`,
      'A value in A cannot be held against a limit in V.',
    ],
    [
      'a reading that has no limit',
      { [one]: unit('readings: [ { reading: Cathode volts, value: 13 V } ]\n') },
      `${one}:5:24 warning reading-without-limits`,
      'Did you mean Cathode voltage?',
    ],
    [
      'bounds in the wrong order',
      { [one]: unit(reading('13 V', ', least: 3 V, most: 2 V')) },
      `${one}:5:72 error reading`,
      'The least value is above the most.',
    ],
    [
      'a value without a unit',
      { [one]: unit(reading('13')) },
      `${one}:5:48 error limit`,
      'A value in per cent or as a plain number cannot be held',
    ],
  ])('refuses %s', async (_title, files, place, message) => {
    const found = await faults(files as Files);
    expect(found).toContain(place);
    expect(found).toContain(message);
  });
});

describe('the limits of a version', () => {
  const version = 'amplifiers/tern/v1.md';

  test.each([
    ['of a reading or a figure', '{ most: 1 V }', '6:11', 'A limit is that of a reading or of a figure'],
    ['of one of them', '{ reading: A, figure: thd, most: 1 % }', '6:33', 'and of one of them only'],
    ['with a bound', '{ reading: A }', '6:22', 'This limit has no bound.'],
    [
      'with a channel of figures only',
      '{ reading: A, of: load, most: 1 V }',
      '6:29',
      'Only a figure has a channel',
    ],
    ['in one unit', '{ reading: A, least: 1 V, most: 1 A }', '6:43', 'which are different quantities'],
    ['in order', '{ reading: A, least: 2 V, most: 1 V }', '6:43', 'The least value is above the most.'],
    ['of each thing once', '{ reading: A, most: 1 V }, { reading: a, most: 2 V }', '6:49', 'limited twice'],
    ['of a figure that exists', '{ figure: tdh, most: 1 % }', '6:21', 'There is no figure "tdh".'],
    ['of a kind that exists', '{ figure: thd, kind: wave, most: 1 % }', '6:32', '"wave" is not one of'],
  ])('are %s', async (_title, list, place, message) => {
    const found = await faults({ [version]: versionWith(`limits: [ ${list} ]\n`) });
    expect(found).toContain(`${version}:${place} error`);
    expect(found).toContain(message);
  });

  test('say which channel, where a capture has several', async () => {
    const found = await faults({
      [version]: versionWith('limits: [ { figure: thd, most: 1 % } ]\n'),
      'logs/first/a.csv': secondCsv(1).replaceAll(
        /^(.*),(.*)$/gm,
        (_, time, value) => `${time},${value},${String(value).replace('load', 'grid')}`,
      ),
      [one]: unit('captures: [ logs/first/a ]\n'),
    });
    expect(found).toContain(`${one}:5:13 error limit\n  Several channels of a capture of T-01`);
    expect(found).toContain('Add of: with one of load, grid.');
  });
});

test('a Markdown file called index among the units is told to be no record', async () => {
  expect(await faults({ 'amplifiers/tern/units/index.md': unit() })).toContain(
    'amplifiers/tern/units/index.md:1:1 warning stray-record',
  );
});
