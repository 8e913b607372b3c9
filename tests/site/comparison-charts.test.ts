import { expect, test } from 'vitest';
import { comparisonCharts } from '../../src/site/comparison-charts.ts';
import { comparisonWith, openCompared } from '../support/comparisons.ts';
import { type Files, log } from '../support/journal.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

async function titles(...opened: Parameters<typeof openCompared>) {
  const { compared } = await openCompared(...opened);
  const charts = compared?.pairs.flatMap(comparisonCharts) ?? [];
  return charts.map(({ wide }) => plain('absent' in wide ? wide.absent : wide.text.title));
}

test('a chart of a comparison has what its curve allows to be said as its title', async () => {
  const found = await titles();
  expect(found).toHaveLength(3);
  expect(found[0]).toMatch(/^Total distortion against frequency at 1\.00 W: below 200 Hz .* at 20\.0 kHz$/);
  expect(found[2]).toMatch(/^Total distortion against output power at 1 kHz: from .* New part is lower/);
});

test('responses stand in one chart where both were swept without holding the level', async () => {
  const response = (corner: number) =>
    `${[
      'f (Hz),load (V)',
      ...Array.from({ length: 31 }, (_, i) => {
        const hertz = 10 * 10 ** (i / 8);
        return `${hertz.toFixed(2)},${(1 / Math.hypot(1, corner / hertz)).toFixed(5)}`;
      }),
    ].join('\n')}\n`;
  const files: Files = {
    'logs/second/index.md': log(`captures:
  - { file: wide.csv, title: Wide, kind: frequency-sweep, load: 8 Ω }
  - { file: narrow.csv, title: Narrow, kind: frequency-sweep, load: 8 Ω }
`),
    'logs/second/wide.csv': response(5),
    'logs/second/narrow.csv': response(40),
  };
  const record = comparisonWith(`alternatives:
  - { id: old, title: Old part, captures: [ logs/second/narrow ] }
  - { id: new, title: New part, captures: [ logs/second/wide ] }
`);
  const [only, ...others] = await titles(record, files);
  // A first-order corner is 0.5 dB down at 2.863 times its frequency: 114.5 Hz and 14.3 Hz; the next points of the sweep.
  expect(only).toBe('Flat within 0.5 dB: Old part from 120 Hz to 56 kHz and New part from 15 Hz to 56 kHz');
  expect(others).toEqual([]);
});
