import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { type Chart, impedance, renderChart } from '../../src/charts/index.ts';
import { cardMarkup, plainColours } from '../../src/site/card-drawing.ts';
import { cardPicture, forgetOtherCards } from '../../src/site/card-picture.ts';
import { temporaryFolder } from '../support/journal.ts';

function chartOf(ohm: number[]): Chart {
  const frequencyHz = ohm.map((_, index) => 20 * 2 ** index);
  const chart = impedance({ channels: [{ name: 'loudspeaker', frequencyHz, ohm }] }, 'narrow');
  if ('absent' in chart) throw new Error(chart.absent);
  return chart;
}

const chart = chartOf([7, 30, 12, 7, 8, 15, 22, 30]);

test('a card has no custom property left, as nothing outside a page defines them', async () => {
  const markup = cardMarkup(await renderChart(chart), { site: 'Notes', title: 'A loudspeaker' });
  expect(plainColours('<path stroke="var(--chart-ink,#1d1b16)"/>')).toBe('<path stroke="#1d1b16"/>');
  expect(markup).not.toContain('var(');
  expect(markup).toContain('A loudspeaker');
  expect(markup).toContain(chart.text.title.split(' ')[0]);
});

test('a title longer than its room ends in an ellipsis, and markup in it stays text', async () => {
  const title = `One & <two> ${'of many words in a row '.repeat(20)}`;
  const markup = cardMarkup(await renderChart(chart), { site: 'Notes', title });
  expect(markup).toMatch(/ …<\/text>/);
  expect(markup).toContain('One &#38; &#60;two&#62;');
  expect(markup.match(/font-size="42"/g)).toHaveLength(4);
});

test('a card is drawn once for what is in it, at the size of link previews, and kept while a page has it', async () => {
  const folder = temporaryFolder();
  const journal = { folder, title: 'Notes' };
  const drawn = await cardPicture({ page: 'logs/a', title: 'A', chart }, journal);
  const { format, width, height } = await sharp(drawn).metadata();
  expect({ format, width, height }).toEqual({ format: 'png', width: 1200, height: 630 });
  const kept = join(folder, '.quiescent/cards');
  const [file = ''] = readdirSync(kept);
  writeFileSync(join(kept, file), 'kept');
  const text = async (title: string, of: Chart) =>
    (await cardPicture({ page: 'logs/a', title, chart: of }, journal)).toString();
  expect(await text('A', chart)).toBe('kept');
  expect(await text('B', chart)).not.toBe('kept');
  expect(await text('A', chartOf([7, 30, 12, 7, 8, 15, 22, 31]))).not.toBe('kept');
  expect(readdirSync(kept)).toHaveLength(3);
  await forgetOtherCards([{ page: 'logs/a', title: 'A', chart }], journal);
  expect(readdirSync(kept)).toEqual([file]);
});
