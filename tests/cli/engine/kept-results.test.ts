import { spawn } from 'node:child_process';
import { cpSync, globSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { writeSyntheticJournal } from '../../support/synthetic/journal.ts';

/** Whole builds in processes of their own, which take a while beside other tests. */
const patienceMs = 600_000;

/** Captures of three logs with four each: more than are analysed without threads. */
const captures = 12;

const folder = mkdtempSync(path.join(tmpdir(), 'quiescent-kept-'));
const journal = path.join(folder, 'journal');

interface Built {
  analysed: number;
  drawn: number;
  /** Charts and curves of captures that were made. */
  made: number;
  /** Texts that were rendered. */
  rendered: number;
  site: Record<string, string>;
}

/** Builds the journal in a new process and tells what it computed and what it wrote. */
async function built(): Promise<Built> {
  const out = path.join(folder, 'site');
  const args = ['src/cli/main.ts', 'build', '--timings', '--journal', journal, '--out', out];
  const child = spawn(process.execPath, args, { env: { ...process.env, NO_COLOR: '1' } });
  let said = '';
  child.stderr.on('data', (data) => {
    said += data;
  });
  const code = await new Promise((resolve) => child.on('close', resolve));
  expect(code, said).toBe(0);
  const [, all = '', analysed = ''] = /(\d+) captures: (\d+) analysed/.exec(said) ?? [];
  const counted = (pattern: RegExp) => Number(pattern.exec(said)?.[1]);
  const drawn = counted(/drawings: (\d+) drawn/);
  const made = counted(/curves of captures: (\d+) made/);
  const rendered = counted(/texts: (\d+) rendered/);
  expect(Number(all)).toBe(captures);
  return { analysed: Number(analysed), drawn, made, rendered, site: filesOf(out) };
}

function filesOf(site: string): Record<string, string> {
  const files = globSync('**/*.*', { cwd: site }).sort();
  return Object.fromEntries(files.map((file) => [file, readFileSync(path.join(site, file), 'base64')]));
}

/** Files that two sites do not have alike. */
const differing = (one: Built['site'], other: Built['site']) =>
  [...new Set([...Object.keys(one), ...Object.keys(other)])].filter((file) => one[file] !== other[file]);

const results = () => globSync('*/*', { cwd: path.join(journal, '.quiescent/results') });
const resultPath = (name: string) => path.join(journal, '.quiescent/results', name);

/** Changes the last digit of a reading in the middle of a waveform. */
function editOneCapture(): void {
  const [file = ''] = globSync('logs/*/*.csv', { cwd: journal }).filter(
    (name) => readFileSync(path.join(journal, name)).length > 100_000,
  );
  const lines = readFileSync(path.join(journal, file), 'utf8').split('\n');
  const at = Math.floor(lines.length / 2);
  lines[at] = (lines[at] ?? '').replace(/\d(?=\r?$)/, (digit) => `${(Number(digit) + 1) % 10}`);
  writeFileSync(path.join(journal, file), lines.join('\n'));
}

const countsOf = ({ analysed, drawn, made, rendered }: Built) => [analysed, drawn, made, rendered];

let cold: Built;

beforeAll(async () => {
  await writeSyntheticJournal(journal, { logs: captures / 4, seed: 1 });
  cold = await built();
}, patienceMs);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test(
  'another process computes nothing again that is kept, and only what was cut short, to the same site',
  async () => {
    expect(cold.analysed).toBe(captures);
    expect(cold.drawn).toBeGreaterThan(captures);
    expect(cold.made).toBeGreaterThan(captures);
    expect(cold.rendered).toBeGreaterThan(3);
    const again = await built();
    expect(countsOf(again)).toEqual([0, 0, 0, 0]);
    expect(differing(again.site, cold.site)).toEqual([]);
    for (const name of results()) truncateSync(resultPath(name), 40);
    const mended = await built();
    expect(countsOf(mended)).toEqual(countsOf(cold));
    expect(differing(mended.site, cold.site)).toEqual([]);
  },
  patienceMs,
);

test(
  'one edited capture is analysed, and nothing is drawn but what shows the edited reading',
  async () => {
    editOneCapture();
    const edited = await built();
    // Its spectrum, its noise density and what three pages set beside a model, each in two widths; the excerpt
    // shows the beginning of the record, and the reading is in its middle.
    expect([edited.analysed, edited.drawn]).toEqual([1, 2 * (1 + 1 + 3)]);
    // Its three charts and its curves, and no text.
    expect([edited.made, edited.rendered]).toEqual([3 + 1, 0]);
    expect(differing(edited.site, cold.site)).not.toEqual([]);
    const copy = path.join(folder, 'fresh');
    cpSync(journal, copy, { recursive: true, filter: (name) => !name.includes('.quiescent') });
    rmSync(journal, { recursive: true });
    cpSync(copy, journal, { recursive: true });
    const fresh = await built();
    expect(differing(fresh.site, edited.site)).toEqual([]);
  },
  patienceMs,
);
