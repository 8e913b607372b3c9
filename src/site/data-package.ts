import { sha256Of } from '../journal/analysis/sha256.ts';
import { downloadOf } from '../journal/ids.ts';
import type { CaptureRecord, Journal, Log } from '../journal/types.ts';
import { fileAddress, pageAddress } from './address.ts';
import { fullAddress } from './canonical.ts';
import { cardsOf } from './cards.ts';
import { figuresCsv, figuresSchema } from './figures-csv.ts';
import { inventedText } from './invented.ts';

/** What a package holds: some logs, and the folder of the site that its paths begin in ('' for the whole site). */
interface Scope {
  folder: string;
  logs: readonly Log[];
  title: string;
  description: string;
  keywords: readonly string[];
}

/**
 * The data of one log as others can take it: its figures as a table, and its captures untouched.
 * @source Data Package, version 2.0 (2024), Data Package, Data Resource and Table Schema
 */
export function logPackage(log: Log, journal: Journal): Record<string, unknown> {
  const { title, question, answer, tags } = log.data;
  const description = [question, answer].filter(Boolean).join(' ');
  return packageOf({ folder: log.id, logs: [log], title, description, keywords: tags }, journal);
}

/** The data of the whole journal, in the same form. */
export function journalPackage(journal: Journal): Record<string, unknown> {
  const { settings, logs } = journal;
  const { title, tagline, about } = settings;
  const keywords = [...new Set(logs.flatMap(({ data }) => data.tags))].sort();
  return packageOf({ folder: '', logs, title, description: tagline ?? about ?? title, keywords }, journal);
}

function packageOf(scope: Scope, journal: Journal): Record<string, unknown> {
  const { folder, logs, title, keywords } = scope;
  const { author, licence } = journal.settings;
  const { resources, elsewhere } = originals(scope);
  const dates = logs.map(({ data }) => data.date).sort();
  const [created] = dates.reverse();
  const homepage = fullAddress(pageAddress(folder));
  return {
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    name: nameOf(folder === '' ? title : folder),
    title,
    description: describe(scope, elsewhere, journal),
    ...(homepage ? { homepage } : {}),
    ...(created === undefined ? {} : { created: `${created}T00:00:00Z` }),
    ...(keywords.length > 0 ? { keywords } : {}),
    contributors: [{ title: author, roles: ['creator'] }],
    ...(licence ? { licenses: [{ name: licence.name, path: licence.address }] } : {}),
    ...(cardsOf(journal).has(folder) ? { image: 'card.png' } : {}),
    resources: [figuresResource(logs), ...resources],
  };
}

function describe({ description }: Scope, elsewhere: readonly string[], { settings }: Journal): string {
  const missing =
    elsewhere.length > 0
      ? `Outside of this folder, and only in the package of the whole journal: ${elsewhere.join(', ')}.`
      : '';
  return [description, settings.invented ? inventedText : '', missing].filter(Boolean).join('\n\n');
}

function figuresResource(logs: readonly Log[]) {
  const text = figuresCsv(logs);
  return {
    ...{ name: 'figures', type: 'table', path: 'figures.csv', title: 'Figures computed from the captures' },
    ...{ format: 'csv', mediatype: 'text/csv', encoding: 'utf-8', bytes: Buffer.byteLength(text) },
    hash: `sha256:${sha256Of(text)}`,
    schema: figuresSchema,
  };
}

/**
 * The captures, each file once. A package names files of its own folder or full addresses; a file in another folder of
 * a site whose address is not known has neither, and is named as being elsewhere.
 */
function originals({ folder, logs }: Scope): { resources: object[]; elsewhere: string[] } {
  const captures = logs.flatMap((log) => log.captures);
  const files = [
    ...new Map(captures.toReversed().map((capture) => [capture.file, capture])).values(),
  ].toReversed();
  const placed = files.map((capture) => ({ capture, path: pathIn(folder, downloadOf(capture.file)) }));
  const names = new Set(['figures']);
  return {
    resources: placed.flatMap(({ capture, path }) => (path === null ? [] : [original(capture, path, names)])),
    elsewhere: placed.flatMap(({ capture, path }) => (path === null ? [capture.file] : [])),
  };
}

function pathIn(folder: string, file: string): string | null {
  const start = folder === '' ? '' : `${folder}/`;
  return file.startsWith(start) ? file.slice(start.length) : fullAddress(fileAddress(file));
}

function original({ file, data, bytes, sha256, capture }: CaptureRecord, path: string, names: Set<string>) {
  return {
    name: freeName(nameOf(file.replace(/^logs\//, '').replace(/\.csv$/, '')), names),
    path,
    title: data.title,
    ...(data.why === undefined ? {} : { description: data.why }),
    ...{
      format: 'csv',
      mediatype: 'text/csv',
      encoding: capture.table.encoding,
      bytes,
      hash: `sha256:${sha256}`,
    },
  };
}

/** A name as the standard recommends it: small letters, digits, dots, hyphens and underscores. */
const nameOf = (text: string) => text.toLowerCase().replaceAll(/[^a-z0-9._-]+/g, '-');

/** The name, or with a number where another resource has it already; it is then taken. */
function freeName(wanted: string, names: Set<string>): string {
  let name = wanted;
  for (let count = 2; names.has(name); count++) name = `${wanted}-${count}`;
  names.add(name);
  return name;
}
