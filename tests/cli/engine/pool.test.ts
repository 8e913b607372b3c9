import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterEach, describe, expect, test } from 'vitest';
import { impedance } from '../../../src/charts/index.ts';
import { perform } from '../../../src/cli/engine/jobs.ts';
import { type WorkerPool, workerPool } from '../../../src/cli/engine/pool.ts';
import { unpacked } from '../../../src/journal/analysis/packed-result.ts';
import { toneCsv } from '../../support/journal.ts';

let pool: WorkerPool | null = null;

afterEach(() => pool?.close());

const request = { file: 'tone.csv', declaration: {}, settings: {} };
const bytes = Buffer.from(toneCsv());

function chartText(title: string): string {
  const channels = [{ name: 'a', frequencyHz: [20, 100, 1000, 10_000], ohm: [8, 20, 8, 12] }];
  const chart = impedance({ channels }, 'wide');
  if ('absent' in chart) throw new Error(chart.absent);
  return JSON.stringify({ spec: chart.spec, text: { ...chart.text, title } });
}

describe('threads', () => {
  test('answer what this thread would, each asker with its own', async () => {
    pool = workerPool(2);
    const titles = ['one', 'two', 'three', 'four', 'five', 'six', 'seven'];
    const drawn = await Promise.all(titles.map((title) => pool?.run('draw', chartText(title))));
    const here = await Promise.all(titles.map((title) => perform('draw', chartText(title))));
    expect(drawn).toEqual(here);
    expect(new Set(drawn.map((drawing) => drawing?.key)).size).toBe(titles.length);
  });

  test('analyse a capture to the same bytes as this thread', async () => {
    pool = workerPool(1);
    const there = await pool.run('analyse', { bytes, request });
    const here = await perform('analyse', { bytes, request });
    expect(Buffer.from(there.result).equals(here.result)).toBe(true);
    expect(Buffer.from(there.samples ?? []).equals(here.samples ?? Buffer.from('none'))).toBe(true);
    expect(unpacked(there.result, () => []).analysed?.analysis.kind).toBe('waveform');
  });

  test('tell the one who asked of a failure, and go on with other work', async () => {
    pool = workerPool(1);
    const failed = pool.run('draw', 'no JSON');
    const other = pool.run('draw', chartText('a chart'));
    await expect(failed).rejects.toThrow('JSON');
    expect((await other).markup).toContain('a chart');
  });

  test('fail what is under way when they are ended', async () => {
    pool = workerPool(1);
    const work = pool.run('draw', chartText('a chart'));
    const outcome = expect(work).rejects.toThrow('ended before its work was done');
    await pool.close();
    await outcome;
  });

  test('do not keep a process from ending', () => {
    const module = pathToFileURL(path.resolve('src/cli/engine/pool.ts')).href;
    const code = `const { workerPool } = await import('${module}');
      const pool = workerPool(2);
      const { key } = await pool.run('draw', ${JSON.stringify(chartText('a chart'))});
      console.log(key);`;
    const { status, stdout } = spawnSync(process.execPath, ['--input-type=module', '--eval', code], {
      encoding: 'utf8',
    });
    expect(stdout).toMatch(/^c[0-9a-f]{8}\n$/);
    expect(status).toBe(0);
  });
});
