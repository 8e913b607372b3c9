import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readCapture } from '../../src/capture/index.ts';
import { valuesOf } from './helpers.ts';

const folder = fileURLToPath(new URL('../../../shared/captures/', import.meta.url));
const isThere = existsSync(folder);
if (!isThere) console.log(`${folder} is not here: the real captures are not read in this run.`);

/** Rows and steps as printed in the README beside the captures; first and last rows as they stand in the files. */
const files = [
  {
    file: 'opamp-stage-1khz-300mvpp.csv',
    rateHz: 500_000,
    durationS: 0.005,
    first: [-0.12, -0.44],
    last: lastRow('opamp-stage-1khz-300mvpp.csv'),
  },
  {
    file: 'rc-high-pass-triangle-200hz.csv',
    rateHz: 100_000,
    durationS: 0.025,
    first: [-0.2, -0.056],
    last: lastRow('rc-high-pass-triangle-200hz.csv'),
  },
];

function lastRow(file: string): number[] {
  if (!isThere) return [];
  const line =
    readFileSync(folder + file, 'utf8')
      .trimEnd()
      .split(/\r?\n/)
      .at(-1) ?? '';
  const [, vIn, , vOut] = line.split(',').map(Number);
  return [vIn ?? Number.NaN, vOut ?? Number.NaN];
}

describe.runIf(isThere)('two-channel captures with a time column for each channel', () => {
  it.each(files)('$file', ({ file, rateHz, durationS, first, last }) => {
    const reading = readCapture(readFileSync(folder + file), file);
    expect(reading.problems).toEqual([]);
    expect(reading.capture).toMatchObject({
      kind: 'waveform',
      table: { encoding: 'utf-8', delimiter: ',', decimalMark: '.', firstDataLine: 2, rows: 2500 },
      sampling: { rateHz, durationS, from: 'time column', largestStepError: 0, rounded: false },
      columns: [
        {
          name: 'v_in',
          header: 'v_in',
          position: 2,
          quantity: 'voltage',
          unit: 'V',
          factor: 1,
          role: 'stimulus',
        },
        {
          name: 'v_out',
          header: 'v_out',
          position: 4,
          quantity: 'voltage',
          unit: 'V',
          factor: 1,
          role: 'response',
        },
      ],
    });
    const channels = [valuesOf(reading, 'v_in'), valuesOf(reading, 'v_out')];
    expect(channels.map((values) => values[0])).toEqual(first);
    expect(channels.map((values) => values.at(-1))).toEqual(last);
  });
});
