import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { priceText } from '../../src/quantity/index.ts';
import { type Files, problemsOf, smallJournal, versionWith, writeFiles } from '../support/journal.ts';

const record = 'amplifiers/tern/v1.md';
const sheet = 'amplifiers/tern/tern-parts.csv';

const withFile = (text: string, keys = ''): Files => ({
  [record]: versionWith(`partsFile: tern-parts.csv\n${keys}`),
  [sheet]: text,
});

async function billOf(files: Files) {
  const { journal, problems } = await openJournal(writeFiles({ ...smallJournal, ...files }));
  expect(problems).toEqual([]);
  return journal?.versions[0]?.bill;
}

const texts = (prices: Parameters<typeof priceText>[0][] | null | undefined) =>
  prices?.map((price) => priceText(price).replace('\u00a0', ' '));

describe('a bill of materials', () => {
  test('sums a list in the record per unit and per batch, and says what is in no sum', async () => {
    const keys = `parts:
  - { part: Tube, quantity: 2, price: 12.50 EUR }
  - { part: Wire, quantity: 0.5, price: 3 EUR }
  - { part: Iron, price: 40 USD }
  - { part: Chassis }
batch: 4
`;
    const bill = await billOf({ [record]: versionWith(keys) });
    expect(texts(bill?.perUnit)).toEqual(['26.50 EUR', '40 USD']);
    expect(texts(bill?.perBatch)).toEqual(['106.00 EUR', '160 USD']);
    expect(bill?.unpriced).toEqual(['Chassis']);
    expect(bill?.file).toBeNull();
  });

  test('without a batch has no price of one', async () => {
    const bill = await billOf({ [record]: versionWith('parts: [ { part: Tube, price: 12.50 EUR } ]\n') });
    expect(bill?.perBatch).toBeNull();
  });

  test.each([
    ['commas and quotes', 'part,value,price\n"Tube, output","2A3 ""new""",48.00 EUR\n'],
    [
      'semicolons, a decimal comma and CRLF',
      '\uFEFFPart;Value;Price\r\nTube, output;2A3 "new";48,00 EUR\r\n',
    ],
    ['tabs and blank lines', 'price\tpart\tvalue\n\n48.00 EUR\tTube, output\t2A3 "new"\n\n'],
  ])('is read from a file with %s', async (_title, text) => {
    const bill = await billOf(withFile(text));
    expect(bill?.lines).toMatchObject([{ part: 'Tube, output', value: '2A3 "new"', quantity: 1 }]);
    expect(texts(bill?.perUnit)).toEqual(['48.00 EUR']);
    expect(bill?.file).toBe(sheet);
  });

  test.each([
    [
      'that is not there',
      {},
      'tern-part.csv',
      `${record}:6:12 error parts-file-missing`,
      'is not beside the version',
    ],
    [
      'that is no CSV',
      {},
      'parts.xlsx',
      `${record}:6:12 error parts-file-missing`,
      'not the name of a CSV file',
    ],
    [
      'outside of the journal',
      {},
      '../../../parts.csv',
      `${record}:6:12 error outside-journal`,
      'leads out of',
    ],
  ])('refuses a file %s', async (_title, files, name, place, message) => {
    const found = await problemsOf({ [record]: versionWith(`partsFile: ${name}\n`), ...files });
    expect(found).toContain(place);
    expect(found).toContain(message);
  });

  test('names the file that was probably meant', async () => {
    const files = { ...withFile('part\nTube\n'), [record]: versionWith('partsFile: tern-part.csv\n') };
    expect(await problemsOf(files)).toContain('Did you mean tern-parts.csv?');
  });

  test.each([
    ['an empty file', '\n', '1:1', 'The parts file has no line.'],
    ['no column for the part', 'what,price\nTube,1 EUR\n', '1:1', 'one of them is "part"'],
    ['an unknown column', 'part,pirce\nTube,1 EUR\n', '1:6', 'The column "pirce" is not known'],
    ['a column twice', 'part,value,Value\nTube,1,2\n', '1:12', 'Two columns are called "Value".'],
    ['too few cells', 'part,value\nTube\n', '2:1', 'This line has 1 cells, but the first line names 2'],
    ['too many cells', 'part,value\nTube,2A3,old\n', '2:10', 'This line has 3 cells'],
    ['an open quote', 'part,value\n"Tube,2A3\n', '2:1', 'A quote in this line is not closed.'],
    ['a line without a part', 'part,value\n ,2A3\n', '2:1', 'does not say which part it is'],
    ['a quantity of nothing', 'part,quantity\nTube,0\n', '2:6', 'A number above 0 is expected'],
    ['a quantity in words', 'part,quantity\nTube,a pair\n', '2:6', 'but this is "a pair"'],
  ])('tells %s at its line and column', async (_title, text, place, message) => {
    const found = await problemsOf(withFile(text));
    expect(found).toContain(`${sheet}:${place} error parts-file`);
    expect(found).toContain(message);
  });

  test('warns of a price that can be added to nothing, in the record and in a file', async () => {
    const inRecord = await problemsOf({ [record]: versionWith('parts: [ { part: Tube, price: 12 } ]\n') });
    expect(inRecord).toContain(`${record}:6:31 warning price`);
    expect(await problemsOf(withFile('part,price\nTube,a beer\n'))).toContain(`${sheet}:2:6 warning price`);
  });

  test('names records of parts that exist', async () => {
    const found = await problemsOf({
      ...withFile('part,record\nIron,parts/irn\n'),
      'parts/iron.md': '---\ntitle: Iron\nkind: other\n---\n',
    });
    expect(found).toContain(`${sheet}:2:6 error dangling-reference\n  There is no part "parts/irn"`);
    expect(found).toContain('Did you mean parts/iron?');
  });

  test('stands in one place', async () => {
    const found = await problemsOf(withFile('part\nTube\n', 'parts: [ { part: Tube } ]\n'));
    expect(found).toContain(`${record}:6:12 error parts-twice`);
  });
});
