import { expect, test } from 'vitest';
import { ran } from '../support/output.ts';
import { schemaFaults } from '../support/schemas.ts';

const folder = 'content/logs/2026-08-01-two-tones-at-once';
const equal = `${folder}/slate-40ma-19-20khz.csv`;
const fourToOne = `${folder}/slate-150ma-60hz-7khz.csv`;

type Channel = { tones: unknown; products: { name: string; order: number }[] } & Record<string, unknown>;

/** A copy of a channel in which one property has another name. */
function without(channel: Channel, key: string): unknown {
  const { [key]: value, ...others } = channel;
  return { ...others, [`${key}Renamed`]: value };
}

test.each([
  [equal, 'difference-frequency'],
  [fourToOne, 'modulation'],
])('inspect --json of %s fits its schema, which a renamed property does not', async (file, pattern) => {
  const { code, result } = await ran('inspect', file, '--kind', 'two-tone', '--json');
  expect(code).toBe(0);
  const document = JSON.parse(result) as { channels: [Channel] };
  expect(schemaFaults('inspect', document)).toEqual([]);
  const [channel] = document.channels;
  expect(channel).toMatchObject({ pattern });
  for (const key of ['tones', 'products', 'pattern', 'modulation', 'differenceFrequency', 'withheld']) {
    expect(schemaFaults('inspect', { ...document, channels: [without(channel, key)] })).not.toEqual([]);
  }
});

test('inspect prints the figures with reference and form in their names', async () => {
  const { result } = await ran('inspect', equal, '--kind', 'two-tone');
  expect(result).toMatch(/2nd order \(re sum of tones\) +0\.0016\d?\s%/);
  expect(result).toMatch(/2nd order \(re one tone\) +0\.0032\d?\s%/);
  expect(result).toContain('Line 2f1 − f2 (re upper tone)');
});

test('inspect prints contested weightings of a waveform below its summary, under a heading of their own', async () => {
  const file = 'content/logs/2026-07-04-forty-milliamperes/slate-40ma-1khz-250mw.csv';
  const { result } = await ran('inspect', file);
  const [summary = '', contested = ''] = result.split('\n  Contested weightings\n');
  expect(summary).not.toContain('weighted by');
  expect(contested).toContain('Harmonics weighted by n/2');
  expect(contested).toContain('Harmonics weighted by n²/4');
});
