import { describe, expect, test } from 'vitest';
import { progressOn, progressText } from '../../../src/cli/engine/progress.ts';
import { timings } from '../../../src/cli/engine/timings.ts';
import { watchedWork } from '../../../src/cli/engine/watched-work.ts';

/** A clock that stands until it is set, and an output that keeps what it is told. */
function bench(isTerminal: boolean) {
  const [notices, statuses]: string[][] = [[], []];
  const time = { ms: 0 };
  const output = {
    result: () => undefined,
    notice: (text: string) => void notices?.push(text),
    status: isTerminal ? (text: string) => void statuses?.push(text) : null,
  };
  return { output, notices: notices ?? [], statuses: statuses ?? [], time, clock: () => time.ms };
}

/** Tells of one step of hundred every tenth of a second. */
function work(progress: ReturnType<typeof progressOn>, time: { ms: number }, steps: number): void {
  progress.begin('Captures');
  for (let done = 1; done <= steps; done++) {
    time.ms += 100;
    progress.at(done, steps);
  }
  progress.end();
}

describe('progress', () => {
  test('is not told of work that takes less than three seconds', () => {
    const { output, notices, time, clock } = bench(false);
    work(progressOn(output, clock), time, 29);
    expect(notices).toEqual([]);
  });

  test('is a plain line every five seconds where lines cannot be replaced', () => {
    const { output, notices, time, clock } = bench(false);
    work(progressOn(output, clock), time, 120);
    expect(notices).toEqual(['Captures 50 of 120, about 7 s left', 'Captures 100 of 120, about 2 s left']);
  });

  test('is one line on a terminal, replaced several times a second and taken away in the end', () => {
    const { output, notices, statuses, time, clock } = bench(true);
    work(progressOn(output, clock), time, 40);
    expect(notices).toEqual([]);
    expect(statuses).toEqual([
      ...[30, 32, 34, 36, 38, 40].map((done) =>
        progressText('Captures', { done, total: 40, elapsedMs: 100 * done }),
      ),
      '',
    ]);
  });

  test('says the time left in seconds, beyond two minutes in minutes, and none without a total', () => {
    const at = { done: 10, elapsedMs: 10_000 };
    expect(progressText('Captures', { ...at, total: 19 })).toBe('Captures 10 of 19, about 9 s left');
    expect(progressText('Captures', { ...at, total: 310 })).toBe('Captures 10 of 310, about 5 min left');
    expect(progressText('Charts so far:', { ...at, total: null })).toBe('Charts so far: 10');
  });
});

describe('timings', () => {
  test('give each stage the time until the next, with what is noted of it', () => {
    const { time, clock } = bench(false);
    const times = timings(clock);
    times.begin('records');
    time.ms = 250;
    times.begin('pages');
    time.ms = 12_250;
    expect(times.lines({ pages: '3 drawings' })).toEqual([
      'Where the time went:',
      '  records      0.25 s',
      '  pages       12.00 s  3 drawings',
      '  in all      12.25 s',
    ]);
  });

  test('count what was worked out and what was kept, and are printed only where they are asked for', () => {
    const { output, notices, clock } = bench(false);
    const watched = watchedWork(output, clock);
    watched.begin('captures');
    for (const origin of ['computed', 'kept', 'known'] as const) watched.listener.onResult?.(origin);
    watched.begin('pages');
    for (const origin of ['computed', 'kept', 'kept'] as const) watched.listener.onDrawing?.(origin);
    for (const origin of ['computed', 'kept', 'kept'] as const) watched.listener.onSiteResult?.(origin);
    for (const origin of ['computed', 'kept'] as const) watched.listener.onText?.(origin);
    watched.begin('prose');
    watched.end(false);
    expect(notices).toEqual([]);
    watched.end(true);
    expect(notices.join()).toContain('3 captures: 1 analysed, 2 kept');
    expect(notices.join()).toContain('3 drawings: 1 drawn, 2 kept');
    expect(notices.join()).toContain('3 charts and curves of captures: 1 made, 2 kept');
    expect(notices.join()).toContain('2 texts: 1 rendered, 1 kept');
  });
});
