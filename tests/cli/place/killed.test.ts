import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { setTimeout } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { mendSwap } from '../../../src/cli/place/swap.ts';
import { plainEnvironment } from '../../support/command.ts';
import { log, smallJournal, temporaryFolder, toneCsv, writeFiles } from '../../support/journal.ts';
import { treeOf } from '../../support/tree.ts';

const titles = ['Morning notes', 'Evening notes'];
const kills = 50;

interface Bench {
  journal: string;
  out: string;
}

function bench(): Bench {
  const journal = writeFiles({
    ...smallJournal,
    'logs/first/index.md': log('captures:\n  - { file: tone.csv, title: Tone }\n', 'A root: $\\sqrt{x}$.\n'),
    'logs/first/tone.csv': toneCsv(),
  });
  return { journal, out: join(temporaryFolder(), 'site') };
}

/** Begins to build one edition of the journal; answers with how it can be ended, and with its end. */
function begun(edition: number, { journal, out }: Bench) {
  writeFiles({ 'journal.yaml': `title: ${titles[edition]}\nauthor: The bench\n` }, journal);
  const args = ['src/cli/main.ts', 'build', '--journal', journal, '--out', out];
  return spawn(process.execPath, args, { env: plainEnvironment(), stdio: 'ignore' });
}

/** Builds an edition to its end: the site, and how long that took in milliseconds. */
async function whole(edition: number, on: Bench): Promise<{ site: Record<string, string>; ms: number }> {
  const started = performance.now();
  const [code] = await once(begun(edition, on), 'exit');
  expect(code).toBe(0);
  return { site: treeOf(on.out), ms: performance.now() - started };
}

/** Numbers from 0 to 1, one in each of so many equal parts, shuffled; the same ones each time (mulberry32). */
function places(count: number): number[] {
  let state = 20_261_125;
  const random = () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const drawn = Array.from({ length: count }, (_, i) => ({ at: (i + random()) / count, order: random() }));
  return drawn.sort((a, b) => a.order - b.order).map(({ at }) => at);
}

test('killed at fifty moments, a build leaves a whole site, the old or the new one, and the next build succeeds', async () => {
  const on = bench();
  const editions = [await whole(0, on), await whole(1, on)];
  const sites = editions.map(({ site }) => site);
  expect(sites[0]).not.toEqual(sites[1]);
  let [shown, lengthMs, interrupted] = [1, editions[1]?.ms ?? 0, 0];
  for (const [i, place] of places(kills).entries()) {
    const build = begun(1 - shown, on);
    const ended = once(build, 'exit');
    await Promise.race([ended, setTimeout(place * lengthMs)]);
    build.kill('SIGKILL');
    const [, signal] = await ended;
    if (signal === 'SIGKILL') interrupted++;
    await mendSwap(on.out);
    const left = treeOf(on.out);
    shown = sites.findIndex((site) => JSON.stringify(site) === JSON.stringify(left));
    expect(shown, `the site after kill ${i} at ${place}`).not.toBe(-1);
    if (i % 10 < 9) continue;
    const next = await whole(1 - shown, on);
    expect(next.site).toEqual(sites[1 - shown]);
    [shown, lengthMs] = [1 - shown, next.ms];
  }
  expect(interrupted).toBeGreaterThan(kills / 4);
}, 1_200_000);
