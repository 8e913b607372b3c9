import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';
import { demoJournal } from '../support/demo-journal.ts';
import { pagesOf } from '../support/demo-site.ts';

const site = inject('site');
const journal = await demoJournal();
const captures = pagesOf(site).filter((page) => /^\/logs\/[^/]+\/[^/]+\/$/.test(page));
const blocks = /<script type="application\/ld\+json">([\s\S]*?)<\/script>/g;

type Thing = Record<string, unknown> & { '@type': string };

interface Dataset extends Thing {
  variableMeasured: Thing[];
  distribution: Thing;
  creator: Thing;
}

const datasetsOf = (page: string): Dataset[] => {
  const html = readFileSync(join(site, page, 'index.html'), 'utf8');
  return [...html.matchAll(blocks)].map(([, text = '']) => JSON.parse(text) as Dataset);
};

/**
 * The properties of each type that are used here, with the kinds of value that they take.
 * @source schema.org, pages of the types and of what they inherit from CreativeWork, MediaObject and Thing
 */
const terms: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>> = {
  Dataset: {
    ...{
      name: ['string'],
      description: ['string'],
      url: ['string'],
      creator: ['Person'],
      license: ['string'],
    },
    ...{
      dateCreated: ['string'],
      isAccessibleForFree: ['boolean'],
      keywords: ['string'],
      isPartOf: ['string'],
    },
    ...{
      measurementTechnique: ['string'],
      variableMeasured: ['PropertyValue'],
      distribution: ['DataDownload'],
    },
  },
  Person: { name: ['string'] },
  DataDownload: {
    ...{ contentUrl: ['string'], encodingFormat: ['string'], contentSize: ['string'], sha256: ['string'] },
  },
  PropertyValue: {
    ...{ propertyID: ['string'], name: ['string'], description: ['string'], value: ['number'] },
    ...{ minValue: ['number'], maxValue: ['number'], unitText: ['string'], measurementTechnique: ['string'] },
  },
};

const kindOf = (value: unknown) =>
  typeof value === 'object' && value !== null ? ((value as Thing)['@type'] ?? 'nothing') : typeof value;

/** What keeps a thing from having the published shape of its type. */
function faultsOf(thing: Thing): string[] {
  const { '@type': type, '@context': _context, ...properties } = thing;
  const known = terms[type];
  if (!known) return [`${type} is not expected here`];
  return Object.entries(properties).flatMap(([name, value]) =>
    [value].flat().flatMap((one) => {
      const fits = known[name]?.includes(kindOf(one)) ?? false;
      const inner = typeof one === 'object' && one !== null ? faultsOf(one as Thing) : [];
      return fits ? inner : [`${type}.${name} is ${kindOf(one)}`, ...inner];
    }),
  );
}

test('a capture page describes its capture as one Dataset of the published shape', () => {
  expect(captures.length).toBeGreaterThan(30);
  for (const page of captures) {
    const [dataset, ...others] = datasetsOf(page);
    expect(others).toEqual([]);
    expect(dataset?.['@context'], page).toBe('https://schema.org');
    expect(dataset?.['@type'], page).toBe('Dataset');
    expect(dataset && faultsOf(dataset), page).toEqual([]);
    for (const key of ['name', 'description', 'creator', 'license', 'distribution', 'variableMeasured']) {
      expect(dataset, page).toHaveProperty(key);
    }
    // The length that search engines ask for, from their own documentation (from memory).
    expect(String(dataset?.['description']).length, page).toBeGreaterThanOrEqual(50);
  }
});

test('the file that a Dataset names is the published one, by its length and its SHA-256', () => {
  for (const page of captures) {
    const distribution: Record<string, unknown> = datasetsOf(page)[0]?.distribution ?? {};
    const { contentUrl, contentSize, sha256 } = distribution;
    expect(contentUrl).toMatch(/^https:\/\/example\.org\/(logs|amplifiers)\//);
    const bytes = readFileSync(join(site, decodeURIComponent(new URL(String(contentUrl)).pathname)));
    expect(contentSize, page).toBe(`${bytes.length} B`);
    expect(sha256, page).toBe(createHash('sha256').update(bytes).digest('hex'));
  }
});

test('what a Dataset says was measured are the figures of the capture that exist, with their intervals', () => {
  const records = journal.logs.flatMap((log) => log.captures);
  expect(records).toHaveLength(captures.length);
  for (const { id, figures, capture } of records) {
    const variables = datasetsOf(`/${id}/`)[0]?.variableMeasured ?? [];
    const measured = variables.filter(({ propertyID }) => propertyID !== undefined);
    const told = measured.map(({ propertyID, value, minValue, maxValue, unitText }) => ({
      ...{ id: propertyID, value, low: minValue, high: maxValue, unit: unitText },
    }));
    const existing = figures.filter(({ value }) => value !== null);
    expect(told, id).toEqual(
      existing.map((figure) => {
        const { value, low, high, unit } = figure;
        const bounds =
          low === undefined || high === undefined ? { low: undefined, high: undefined } : { low, high };
        return { id: figure.id, value, ...bounds, unit: unit || '1' };
      }),
    );
    expect(variables.length - measured.length, id).toBe(capture.columns.length);
  }
});

test('other pages carry no data block', () => {
  const others = pagesOf(site).filter((page) => !captures.includes(page) && page !== '/404.html');
  for (const page of others) expect(datasetsOf(page), page).toEqual([]);
});
