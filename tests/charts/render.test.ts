import { describe, expect, it } from 'vitest';
import { type Chart, harmonicSpectrum, renderChart } from '../../src/charts/index.ts';
import { samples, sizes, spectrumData } from './samples.ts';
import { chartOf } from './support.ts';

const cases = Object.entries(samples).flatMap(([name, make]) =>
  sizes.map((size) => [`${name}, ${size}`, () => chartOf(make(size))] as const),
);

const idsIn = (svg: string): string[] => [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id = '']) => id);

describe.each(cases)('%s', (_, make) => {
  it('draws without a word from the loggers of Vega and Vega-Lite', async () => {
    expect((await renderChart(make())).warnings).toEqual([]);
  });

  it('gives the same bytes again, whatever was drawn in between', async () => {
    const first = await renderChart(make(), '1');
    await renderChart(
      chartOf(samples['response']?.('wide') ?? { absent: 'no sample', table: first.table }),
      '9',
    );
    expect((await renderChart(make(), '1')).svg).toBe(first.svg);
  });

  it('leaves the chart it was given untouched', async () => {
    const chart = make();
    const before = structuredClone(chart);
    await renderChart(chart);
    expect(chart).toEqual(before);
    const keys = chart.spec.datasets ?? {};
    for (const rows of Object.values(keys).flat()) expect(Object.getOwnPropertySymbols(rows)).toEqual([]);
  });

  it('is one image with a name and a description, and no other roles', async () => {
    const { svg, title, description } = await renderChart(make());
    expect(svg.match(/role="/g)).toHaveLength(1);
    expect(svg).toMatch(/^<svg [^>]*role="img" aria-labelledby="(c[0-9a-f]{8})-t \1-d"/);
    expect(svg.match(/aria-/g)).toHaveLength(1);
    expect(textOf(svg, 'title')).toBe(title);
    expect(textOf(svg, 'desc')).toBe(description);
  });

  it('refers only to ids that it defines, each once', async () => {
    const { svg } = await renderChart(make());
    const ids = idsIn(svg);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, used] of svg.matchAll(/url\(#([^)]+)\)/g)) expect(ids).toContain(used);
  });

  it('holds no number that is not finite, no inline style and no colour outside of the theme', async () => {
    const { svg } = await renderChart(make());
    expect(svg).not.toMatch(/NaN|Infinity|undefined|null|style=/);
    const colours = [...svg.matchAll(/(?:fill|stroke)="([^"]+)"/g)].map(([, value = '']) => value);
    expect(colours.length).toBeGreaterThan(3);
    for (const value of colours) expect(value).toMatch(/^(none|var\(--chart-[\w-]+,#\w{6}\))$/);
  });

  it('stays under 20 kB', async () => {
    expect((await renderChart(make())).svg.length).toBeLessThan(20_000);
  });
});

function textOf(svg: string, name: string): string {
  const text = new RegExp(`<${name}[^>]*>([^<]*)</${name}>`).exec(svg)?.[1] ?? '';
  return text.replace(/&#(\d+);/g, (_, code) => String.fromCharCode(Number(code)));
}

it('the same chart placed twice with two keys shares no id', async () => {
  const chart = chartOf(
    samples['response']?.('wide') ?? { absent: 'no sample', table: { columns: [], rows: [] } },
  );
  const [first, second] = [
    idsIn((await renderChart(chart, '1')).svg),
    idsIn((await renderChart(chart, '2')).svg),
  ];
  expect(first.length).toBeGreaterThan(2);
  expect(first.filter((id) => second.includes(id))).toEqual([]);
});

it('a key with characters that an id cannot hold still gives valid ids', async () => {
  const { svg } = await renderChart(
    chartOf(samples['load-line']?.('wide') ?? { absent: '', table: { columns: [], rows: [] } }),
    'a b"<',
  );
  for (const id of idsIn(svg)) expect(id).toMatch(/^c[\w-]+$/);
});

it('markup in a name is text in the drawing', async () => {
  const chart: Chart = chartOf(harmonicSpectrum({ ...spectrumData(240), channel: '<b>&"out"' }));
  const { svg } = await renderChart(chart);
  expect(svg).not.toContain('<b>');
  expect(textOf(svg, 'desc')).toContain('<b>&"out"');
});

// The budget of a spectrum on a page: 65 536 lines must not weigh more than a drawing can show.
it('a spectrum of 65536 lines stays under 25 kB', async () => {
  const { svg } = await renderChart(chartOf(harmonicSpectrum(spectrumData(65_536))));
  expect(svg.length).toBeLessThan(25_000);
  expect(svg.length).toBeGreaterThan(8000);
});
