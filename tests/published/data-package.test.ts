import { createHash } from 'node:crypto';
import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';
import { printFigure } from '../../src/figures/index.ts';
import { readCsv } from '../support/csv.ts';
import { type DataPackage, packageFaults } from '../support/data-package.ts';
import { demoJournal } from '../support/demo-journal.ts';

const site = inject('site');
const journal = await demoJournal();
const packages = globSync('**/datapackage.json', { cwd: site }).map((file) => file.replaceAll('\\', '/'));
const read = (file: string) => readFileSync(join(site, file), 'utf8');
const packageOf = (file: string) => JSON.parse(read(file)) as DataPackage;
const folderOf = (file: string) => file.slice(0, -'datapackage.json'.length);

test('the journal and every log with captures have a data package of the published form', () => {
  const logs = journal.logs.filter(({ captures }) => captures.length > 0);
  expect(packages.toSorted()).toEqual(
    ['datapackage.json', ...logs.map(({ id }) => `${id}/datapackage.json`)].toSorted(),
  );
  for (const file of packages) expect(packageFaults(packageOf(file)), file).toEqual([]);
});

test('the checks of that form refuse what the standard refuses', () => {
  const sound = { name: 'a', resources: [{ name: 'b', path: 'b.csv' }] };
  const withResource = (resource: object) => packageFaults({ ...sound, resources: [resource] });
  expect(packageFaults(sound)).toEqual([]);
  expect(packageFaults({ ...sound, resources: [] })).not.toEqual([]);
  expect(packageFaults({ ...sound, licenses: [{ title: 'Free' }] })).not.toEqual([]);
  expect(packageFaults({ ...sound, created: '2026-01-18' })).not.toEqual([]);
  expect(withResource({ path: 'b.csv' })).not.toEqual([]);
  expect(withResource({ name: 'b' })).not.toEqual([]);
  expect(withResource({ name: 'b', path: '../b.csv' })).not.toEqual([]);
  expect(withResource({ name: 'b', path: 'b.csv', data: [] })).not.toEqual([]);
  expect(withResource({ name: 'b', path: 'b.csv', schema: { fields: [{ type: 'number' }] } })).not.toEqual(
    [],
  );
});

test('every file that a package names is there, with the stated bytes and hash', () => {
  for (const file of packages) {
    for (const { name, path, bytes, hash } of packageOf(file).resources) {
      const published = path.startsWith('https://example.org/')
        ? decodeURIComponent(new URL(path).pathname)
        : `${folderOf(file)}${path}`;
      const content = readFileSync(join(site, published));
      expect({ name, bytes, hash }).toEqual({
        ...{ name, bytes: content.length },
        hash: `sha256:${createHash('sha256').update(content).digest('hex')}`,
      });
    }
  }
});

test('the package of the journal names every capture file that the pages offer', () => {
  const files = journal.logs.flatMap(({ captures }) => captures.map(({ file }) => file));
  const paths = packageOf('datapackage.json').resources.map(({ path }) => path);
  expect(paths.toSorted()).toEqual(['figures.csv', ...new Set(files)].toSorted());
});

/** A table of figures with the fields that its package states. */
function tableOf(file: string) {
  const table = packageOf(file).resources.find(({ name }) => name === 'figures');
  return { fields: table?.schema?.fields ?? [], text: read(`${folderOf(file)}${table?.path}`) };
}

test.each(packages)(
  'the table of figures of %s fits its schema: columns, numbers, and what must be there',
  (file) => {
    const { fields, text } = tableOf(file);
    const rows = readCsv(text);
    expect(text.split('\r\n', 1)[0]).toBe(fields.map(({ name }) => name).join(','));
    for (const { name, type, constraints } of fields) {
      const cells = rows.map((row) => row[name] ?? '');
      if (constraints?.required) expect(cells, name).not.toContain('');
      if (type === 'number')
        expect(
          cells.filter((cell) => !Number.isFinite(Number(cell))),
          name,
        ).toEqual([]);
    }
    for (const row of rows) expect(row['value'] === '', JSON.stringify(row)).toBe(row['absent'] !== '');
  },
);

interface Variable {
  propertyID?: string;
  value: number;
  minValue?: number;
  maxValue?: number;
  unitText: string;
}

/** The figures in the structured data of a capture's page. */
function variablesOf(page: string): Variable[] {
  const [, block = '{}'] = /<script type="application\/ld\+json">([\s\S]*?)<\/script>/.exec(read(page)) ?? [];
  const { variableMeasured = [] } = JSON.parse(block) as { variableMeasured?: Variable[] };
  return variableMeasured.filter(({ propertyID }) => propertyID !== undefined);
}

test('every number of the tables is that of the capture’s page, in its structured data and as printed', () => {
  const rows = readCsv(read('figures.csv'));
  const number = (cell = '') => (cell === '' ? undefined : Number(cell));
  for (const { id } of journal.logs.flatMap(({ captures }) => captures)) {
    const own = rows.filter(({ capture, value }) => capture === id && value !== '');
    const told = own.map(({ figure, value, low, high, unit }) => [
      figure,
      number(value),
      number(low),
      number(high),
      unit,
    ]);
    const shown = variablesOf(`${id}/index.html`);
    expect(told, id).toEqual(
      shown.map(({ propertyID, value, minValue, maxValue, unitText }) => [
        propertyID,
        value,
        minValue,
        maxValue,
        unitText,
      ]),
    );
    const html = read(`${id}/index.html`);
    for (const { figure = '', value, low, high, unit = '' } of own) {
      const bounds = low === '' || high === '' ? {} : { low: Number(low), high: Number(high) };
      const printed = printFigure({ id: figure, value: Number(value), unit, ...bounds });
      expect(html, `${id} ${figure}`).toContain(printed?.number);
    }
  }
});

test('the table of a log holds the rows of the journal’s table about it, the means of its repeats among them', () => {
  const all = readCsv(read('figures.csv'));
  const logs = journal.logs.filter(({ captures }) => captures.length > 0);
  for (const { id, captures, repeats } of logs) {
    const own = readCsv(read(`${id}/figures.csv`));
    expect(own, id).toEqual(all.filter(({ log }) => log === id));
    const expected = [
      ...captures.flatMap(({ figures }) => figures),
      ...repeats.flatMap(({ repeated }) => repeated),
    ];
    expect(own.length, id).toBe(expected.length);
  }
  expect(all.length).toBeGreaterThan(500);
  expect(logs.some(({ repeats }) => repeats.length > 0)).toBe(true);
});

test('the package of a log leads to its page, and the page to the package', () => {
  for (const file of packages) {
    const page = file === 'datapackage.json' ? 'logs/index.html' : `${folderOf(file)}index.html`;
    expect(read(page)).toContain(`href="/${file}"`);
    expect(read(page)).toContain(`href="/${folderOf(file)}figures.csv"`);
    expect(read(file)).toContain(`"homepage": "https://example.org/${folderOf(file)}"`);
  }
});
