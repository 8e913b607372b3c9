import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import Ajv from 'ajv';
import { describe, expect, it } from 'vitest';
import type { ChartLayer, ChartSpec } from '../../src/charts/index.ts';
import { sampleData, samples, sizes } from './samples.ts';
import { chartOf, sceneOf } from './support.ts';

const cases = Object.entries(samples).flatMap(([name, make]) =>
  sizes.map((size) => [`${name}, ${size}`, () => chartOf(make(size)), `${name}-${size}`] as const),
);

type Rows = Record<string, unknown>[];

interface Unit {
  data: { name: string };
  encoding: Record<string, { field?: string; scale?: { type?: string; domain?: number[] } | null }>;
}

function unitsOf(layers: readonly ChartLayer[]): Unit[] {
  return layers.flatMap((layer) => ('layer' in layer ? unitsOf(layer.layer) : [layer as unknown as Unit]));
}

const rowsOf = ({ datasets }: ChartSpec, { data }: Unit): Rows => (datasets?.[data.name] ?? []) as Rows;

describe.each(cases)('%s', (_, make, file) => {
  it('is a valid spec by the JSON schema of Vega-Lite', () => {
    const valid = validate(JSON.parse(JSON.stringify(make().spec)));
    expect(validate.errors ?? []).toEqual([]);
    expect(valid).toBe(true);
  });

  it('encodes only fields that every row of its data has', () => {
    const { spec } = make();
    for (const unit of unitsOf(spec.layer)) {
      for (const { field } of Object.values(unit.encoding)) {
        if (field === undefined) continue;
        expect(
          rowsOf(spec, unit).every((row) => row[field] !== undefined),
          `${unit.data.name}.${field}`,
        ).toBe(true);
      }
    }
  });

  it('has data for every dataset a layer names, and a layer for every dataset', () => {
    const { spec } = make();
    const named = new Set(unitsOf(spec.layer).map(({ data }) => data.name));
    expect([...named].toSorted()).toEqual(Object.keys(spec.datasets ?? {}).toSorted());
  });

  it('puts only positive numbers on logarithmic axes', () => {
    const { spec } = make();
    for (const unit of unitsOf(spec.layer)) {
      for (const { field, scale } of Object.values(unit.encoding)) {
        if (scale?.type !== 'log' || field === undefined) continue;
        expect(Math.min(...(scale.domain ?? []))).toBeGreaterThan(0);
        for (const row of rowsOf(spec, unit)) expect(row[field]).toBeGreaterThan(0);
      }
    }
  });

  it('keeps all text inside the drawing', async () => {
    const { spec } = make();
    const { texts } = await sceneOf(make());
    const { left, right, top, bottom } = spec.padding as Record<'left' | 'right' | 'top' | 'bottom', number>;
    expect(texts.length).toBeGreaterThan(4);
    for (const text of texts) {
      expect(text.left, text.text).toBeGreaterThanOrEqual(-left);
      expect(text.right, text.text).toBeLessThanOrEqual(Number(spec.width) + right);
      expect(text.top, text.text).toBeGreaterThanOrEqual(-top);
      expect(text.bottom, text.text).toBeLessThanOrEqual(Number(spec.height) + bottom);
    }
  });

  it('lets no text cover another', async () => {
    const { texts } = await sceneOf(make());
    const covering = texts.flatMap((a, i) =>
      texts.slice(i + 1).flatMap((b) => {
        const apart = a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
        const halo = a.text === b.text && a.left === b.left && a.top === b.top;
        return apart || halo ? [] : [`${a.text} and ${b.text}`];
      }),
    );
    expect(covering).toEqual([]);
  });

  it('is laid out as before', async () => {
    const { spec, text } = make();
    const { marks, texts } = await sceneOf(make());
    const size = `${spec.width} x ${Math.round(Number(spec.height))}`;
    const golden = {
      size,
      ...text,
      marks,
      texts: texts.map((line) => `${Math.round(line.left)},${Math.round(line.top)} ${line.text}`),
    };
    await expect(`${JSON.stringify(golden, null, 1)}\n`).toMatchFileSnapshot(`fixtures/${file}.json`);
  });

  it('has a title, a description and a table whose rows fit its columns', () => {
    const { text, table } = make();
    expect(text.title).toMatch(/\S{3}/);
    expect(text.description).toMatch(/\.$/);
    expect(table.rows.length).toBeGreaterThan(0);
    for (const row of table.rows) expect(row).toHaveLength(table.columns.length);
  });
});

it('making charts leaves the data as they were', () => {
  const before = structuredClone(sampleData);
  for (const [, make] of cases) make();
  expect(sampleData).toEqual(before);
});

const schemaFile = createRequire(import.meta.url).resolve('vega-lite/vega-lite-schema.json');
const validate = new Ajv({ strict: false, validateFormats: false }).compile(
  JSON.parse(readFileSync(schemaFile, 'utf8')),
);
