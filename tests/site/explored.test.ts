import { beforeAll, describe, expect, test } from 'vitest';
import type { CaptureRecord, Journal } from '../../src/journal/types.ts';
import { exploredIn } from '../../src/overlay/explored/index.ts';
import { capturedCurves } from '../../src/site/explored-captures.ts';
import { curvesOfCapture, exploredPages } from '../../src/site/explored-pages.ts';
import { curvesOf } from '../../src/site/overlay.ts';
import { demoJournal } from '../support/demo-journal.ts';

let journal: Journal;
beforeAll(async () => {
  journal = await demoJournal();
});

function captureOf(end: string): CaptureRecord {
  const captures = journal.logs.flatMap((log) => log.captures);
  const found = captures.find(({ id }) => id.endsWith(end));
  if (!found) throw new Error(`No capture ${end}`);
  return found;
}

describe('a chart of a capture', () => {
  const linesOf = (end: string, kind: Parameters<typeof capturedCurves>[1]) => {
    const capture = captureOf(end);
    const source = capturedCurves(capture, kind, null);
    const chart = source && exploredIn(curvesOf(capture), source);
    return { source, chart, lines: chart?.panels[0]?.lines.map(({ name }) => name) };
  };

  test('finds its curves among those that are published for overlays', () => {
    const { source, lines } = linesOf('heron-v1-distortion-1w', 'harmonics');
    expect(source?.file).toBe('/overlay/curves/2026-03-14-does-it-hold/heron-v1-distortion-1w.json');
    expect(lines).toEqual(['H2', 'H3']);
  });

  test('is re what the static chart is: a fundamental of 0 dB', () => {
    const { chart, lines } = linesOf('heron-v2-1khz-1w', 'spectrum');
    const levels = chart?.panels[0]?.lines[0]?.runs.flatMap(({ y }) => y) ?? [];
    // The highest line is at most 0.2 dB low by this window, as the chart's caption says; levels have two decimals.
    expect(Math.max(...levels)).toBeGreaterThan(-0.22);
    expect(Math.max(...levels)).toBeLessThan(0.02);
    expect(lines).toEqual(['load', 'noise floor']);
    expect(chart?.marks?.map(({ name }) => name)).toContain('H3');
  });

  test('of a response is 0 dB at its reference', () => {
    const sweeps = journal.logs
      .flatMap((log) => log.captures)
      .filter(({ analysis }) => {
        return analysis.kind === 'frequency-sweep' && analysis.sweeps.some(({ channel }) => !channel.thd);
      });
    const charts = sweeps.flatMap((capture) => {
      const source = capturedCurves(capture, 'response', null);
      return source ? (exploredIn(curvesOf(capture), source) ?? []) : [];
    });
    expect(charts.length).toBeGreaterThan(0);
    for (const chart of charts) {
      expect(chart.panels[0]?.unit).toBe('dB re 1\u00a0kHz');
      const [run] = chart.panels[0]?.lines[0]?.runs ?? [];
      const near = run?.x.findIndex((hertz) => hertz >= 1000) ?? -1;
      // The reading next to 1 kHz of a sweep that is flat there.
      expect(Math.abs(run?.y[near] ?? Number.NaN)).toBeLessThan(0.1);
    }
  });

  test('of a level that was held has its curves beside its page', () => {
    const capture = captureOf('heron-v1-distortion-1w');
    const source = curvesOfCapture(capture, 'response', null);
    expect(source).toEqual({ file: `/${capture.id}/curves.json`, chart: 'response' });
    const page = exploredPages(journal).find((one) => one.page === capture.id);
    expect(page?.charts['response']?.panels[0]?.lines.map(({ name }) => name)).toEqual(['load']);
  });

  test('of single samples has none', () => {
    expect(curvesOfCapture(captureOf('heron-v2-1khz-1w'), 'excerpt', null)).toBeNull();
  });
});

test('versions and comparisons have the curves of their charts, with no more digits than are published', () => {
  const pages = exploredPages(journal);
  const version = pages.find(({ page }) => page === 'amplifiers/heron/v2');
  expect(Object.keys(version?.charts ?? {}).some((name) => name.endsWith('-sweep'))).toBe(true);
  const comparison = pages.find(({ page }) => page === 'comparisons/heron-drivers');
  const [first] = Object.values(comparison?.charts ?? {});
  expect(first?.panels[0]?.lines).toHaveLength(2);
  for (const line of first?.panels[0]?.lines ?? []) {
    const numbers = line.runs.flatMap(({ x, y }) => [...x, ...y]);
    expect(numbers.every((number) => Number(number.toPrecision(6)) === number)).toBe(true);
  }
});
