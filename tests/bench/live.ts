import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { Page } from 'playwright-core';
import { type LiveSite, startLive } from '../support/live.ts';
import { capturesOf } from '../support/synthetic/captures.ts';
import { chanceOf } from '../support/synthetic/chance.ts';
import { writeSyntheticJournal } from '../support/synthetic/journal.ts';
import { placeOf } from '../support/synthetic/plan.ts';
import { launchBrowser } from '../support/visit.ts';
import { type Spread, spread } from './signal.ts';

/** Seconds from the last byte of a change to the page that shows it, in a browser that has the page open. */
export interface LiveBench {
  logs: number;
  rounds: number;
  log: Spread;
  capture: Spread;
  added: Spread;
  removed: Spread;
}

const rounds = 5;
const seed = 1;

/** One log, one capture, a log that is added and removed again, on a live site of so many synthetic logs. */
export async function measureLive(logs: number): Promise<LiveBench> {
  const folder = mkdtempSync(join(tmpdir(), 'quiescent-bench-'));
  await writeSyntheticJournal(folder, { logs, seed });
  const live = await startLive(folder);
  const browser = await launchBrowser();
  try {
    await answering(live);
    const page = await browser.newPage({ bypassCSP: true });
    return { logs, rounds, ...(await measureOn(page, live, { folder, logs })) };
  } finally {
    await browser.close();
    await live.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function measureOn(
  page: Page,
  { origin }: LiveSite,
  { folder, logs }: { folder: string; logs: number },
): Promise<Pick<LiveBench, 'log' | 'capture' | 'added' | 'removed'>> {
  const { id } = placeOf(Math.floor(logs / 2));
  const text = readFileSync(join(folder, id, 'index.md'), 'utf8');
  const open = (path: string) => page.goto(`${origin}/${path}/`, { timeout: patienceMs });

  await open(id);
  const log = await timed((round) => {
    const sentence = `Round ${round} of the bench.`;
    writeFileSync(
      join(folder, id, 'index.md'),
      text.replace('Every number of this log is invented.', sentence),
    );
    return shown(page, sentence, true);
  });

  await open(`${id}/tone-1w`);
  const capture = await timed((round) => {
    const [first] = capturesOf(chanceOf(seed + 1 + round, 0));
    if (!first) throw new Error('There is no capture.');
    writeFileSync(join(folder, id, first.name), first.bytes);
    return shown(page, createHash('sha256').update(first.bytes).digest('hex'), true);
  });

  await open('logs');
  const other = `${id}-again`;
  const title = 'A log that was added';
  const [added, removed]: [number[], number[]] = [[], []];
  for (let round = 0; round < rounds; round++) {
    cpSync(join(folder, id), join(folder, other), { recursive: true });
    writeFileSync(join(folder, other, 'index.md'), text.replace(/^title: .*$/m, `title: ${title}`));
    added.push(await shown(page, title, true));
    rmSync(join(folder, other), { recursive: true });
    removed.push(await shown(page, title, false));
  }
  return { log, capture, added: spread(added), removed: spread(removed) };
}

/** Waits until a live site has read its whole journal, which takes longer than the waiting of a test. */
async function answering({ prints, printed }: LiveSite): Promise<void> {
  for (let tries = 0; tries < 20; tries++) if (await prints('The live site is at')) return;
  throw new Error(`The live site does not answer:\n${printed()}`);
}

/** Longer than anything that would still be called live. */
const patienceMs = 120_000;

/** Seconds until the open page holds a text, or no longer. */
async function shown(page: Page, text: string, isThere: boolean): Promise<number> {
  const started = performance.now();
  const holds = `(document.body?.textContent.includes(${JSON.stringify(text)}) ?? false) === ${isThere}`;
  const isWhole = `document.querySelector('main') !== null && ${holds}`;
  await page.waitForFunction(isWhole, null, { polling: 20, timeout: patienceMs });
  return (performance.now() - started) / 1000;
}

async function timed(change: (round: number) => Promise<number>): Promise<Spread> {
  const seconds: number[] = [];
  for (let round = 0; round < rounds; round++) seconds.push(await change(round));
  return spread(seconds);
}
