import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { type Files, log, problemsOf, smallJournal, toneCsv, writeFiles } from '../support/journal.ts';

const first = 'logs/first/index.md';

const captures = `captures:
  - { file: a.csv, title: A }
  - { file: b.csv, title: B }
`;
const files: Files = {
  'logs/first/a.csv': toneCsv(),
  'logs/first/b.csv': toneCsv().replace(/[^\n]*\n$/, ''),
};
const whole = 'captures: 6, from: six in January';

/** The problems of a log with these entries, the first on line 10. */
const faultsOf = (...entries: string[]) => {
  const lines = entries.map((entry) => `  - { ${entry} }\n`).join('');
  return problemsOf({ ...files, [first]: log(`${captures}repeatability:\n${lines}`) });
};

describe('a declared repeatability', () => {
  test('reaches the captures that it is declared for, and no others', async () => {
    const keys = `${captures}repeatability:\n  - { figures: [ thd ], of: [ b ], interval: 8 %, ${whole} }\n`;
    const folder = writeFiles({ ...smallJournal, ...files, [first]: log(keys) });
    const { journal } = await openJournal(folder);
    const [a, b] = journal?.logs[0]?.captures ?? [];
    expect(a?.repeatability).toEqual([]);
    expect(b?.repeatability).toEqual([
      {
        ...{ figures: ['thd'], of: ['b'], captures: 6, from: 'six in January' },
        ...{ stated: '95 % interval', size: { value: 0.08, unit: '1' } },
      },
    ]);
  });

  test('with nothing wrong gives no problem', async () => {
    expect(
      await faultsOf(
        `figures: [ thd, harmonics ], deviation: 3 %, ${whole}`,
        `figures: [ sinad ], of: [ a ], deviation: 0.2 dB, ${whole}`,
        `figures: [ sinad ], of: [ b ], deviation: 0.3 dB, ${whole}`,
        `figures: [ fundamental-level ], deviation: 2 mV, ${whole}`,
      ),
    ).toBe('\n\n');
  });

  test('of a capture that is not there is refused at its entry', async () => {
    expect(await faultsOf(`figures: [ thd ], of: [ a, bb ], deviation: 3 %, ${whole}`)).toBe(`
${first}:10:34 error dangling-reference
  There is no capture "bb" in this log of which a repeatability could be declared.
  Did you mean b?
`);
  });

  test('of a figure that the captures do not give is refused at the figure', async () => {
    expect(await faultsOf(`figures: [ thd, harmonic-22 ], deviation: 3 %, ${whole}`)).toBe(`
${first}:10:23 error dangling-reference
  None of the captures that this is declared for gives a figure "harmonic-22".
  Did you mean harmonic-2 or harmonic-10 or harmonic-3?
`);
  });

  test('in a unit that the figure does not scatter in is refused at its size', async () => {
    expect(await faultsOf(`figures: [ sinad ], deviation: 3 %, ${whole}`)).toBe(`
${first}:10:38 error repeatability-unit
  The figure "sinad" cannot scatter by an amount in this unit.
  Write an amount in dB.
`);
    expect(await faultsOf(`figures: [ thd ], interval: 3 mV, ${whole}`)).toBe(`
${first}:10:35 error repeatability-unit
  The figure "thd" cannot scatter by an amount in this unit.
  Write a share of its value, for example 3 %.
`);
  });

  test('twice for one figure of one capture is refused at the second', async () => {
    expect(
      await faultsOf(
        `figures: [ harmonic-2 ], of: [ b ], deviation: 3 %, ${whole}`,
        `figures: [ thd, harmonics ], deviation: 3 %, ${whole}`,
      ),
    ).toBe(`
${first}:11:23 error repeatability-twice
  A repeatability of "harmonics" is declared for the capture "b" already.
  Keep one of the two, or say with of: which captures each holds for.
`);
  });

  test('without a size, with two of them, or with none above zero is refused', async () => {
    const either = `A declared repeatability has either deviation: or interval:, and one of them only.
  Write deviation: for a standard deviation, or interval: for half of a 95 % interval.`;
    expect(await faultsOf(`figures: [ thd ], ${whole}`)).toBe(`
${first}:10:16 error repeatability
  ${either}
`);
    expect(await faultsOf(`figures: [ thd ], deviation: 3 %, interval: 8 %, ${whole}`)).toBe(`
${first}:10:51 error repeatability
  ${either}
`);
    expect(await faultsOf(`figures: [ thd ], deviation: 0 %, ${whole}`)).toBe(`
${first}:10:36 error number
  A scatter above zero is expected here.
  Write its size, for example 3 % of the value, or 0.05 dB.
`);
  });

  test('found from a single capture is refused, as one has no scatter', async () => {
    expect(await faultsOf('figures: [ thd ], deviation: 3 %, captures: 1, from: one')).toContain(
      `${first}:10:51 error number\n  A whole number from 2 to 10000 is expected here, but this is "1".`,
    );
  });
});
