import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import type { RepeatedFigure } from '../../src/figures/index.ts';
import { openJournal } from '../../src/journal/index.ts';
import type { KeyFigure, Repeats } from '../../src/journal/types.ts';

let repeats: Repeats | undefined;
let keyFigures: KeyFigure[] = [];

beforeAll(async () => {
  const { journal } = await openJournal(join(import.meta.dirname, '../../content'));
  const log = journal?.logs.find(({ id }) => id === 'logs/2026-07-18-more-idle-current');
  repeats = log?.repeats[0];
  keyFigures = log?.keyFigures ?? [];
});

function find(id: string): RepeatedFigure {
  const found = repeats?.repeated.find(({ figure }) => figure.id === id);
  if (!found) throw new Error(`no mean of ${id}`);
  return found;
}

test('the demo journal repeats one condition five times, in captures of 4,096 rows', () => {
  expect(repeats?.captures.map(({ capture }) => capture.table.rows)).toEqual([4096, 4096, 4096, 4096, 4096]);
});

test('connecting anew scatters the level and the low harmonics by more than the noise of a record', () => {
  for (const id of ['fundamental-level', 'harmonic-2', 'harmonic-3']) {
    expect([id, find(id).scattersMore]).toEqual([id, true]);
  }
  // The generator draws gains with a standard deviation of 0.12 %; five of them estimate it to a factor of 2.
  const { standardDeviation, figure } = find('fundamental-level');
  expect(standardDeviation / (figure.value ?? 0)).toBeGreaterThan(0.0006);
  expect(standardDeviation / (figure.value ?? 0)).toBeLessThan(0.0024);
});

test('connecting anew leaves the noise in the band as it is', () => {
  expect(find('band-noise').scattersMore).toBe(false);
});

test('hum, for which the records are too short, is listed with the reason at each capture', () => {
  const hum = repeats?.unrepeated.find(({ id }) => id === 'hum');
  expect(hum?.lacking).toHaveLength(5);
  expect(hum?.lacking[0]?.reason).toMatch(/four of its cycles, 80\sms/);
});

test('the log puts the mean THD at its top', () => {
  expect(keyFigures.map(({ figure }) => figure)).toContain(find('thd').figure);
});
