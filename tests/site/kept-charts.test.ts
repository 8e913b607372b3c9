import { afterEach, expect, test } from 'vitest';
import { drawChart } from '../../src/charts/draw.ts';
import { keptSiteResults } from '../../src/cli/engine/kept-site-results.ts';
import { openJournal } from '../../src/journal/index.ts';
import { openStore } from '../../src/journal/store/result-store.ts';
import type { CaptureRecord } from '../../src/journal/types.ts';
import { chartedDigest } from '../../src/site/charted-capture.ts';
import { drawChartsBy, renderChart } from '../../src/site/drawing.ts';
import { curvesOf } from '../../src/site/overlay.ts';
import { overlayCurves } from '../../src/site/overlay-curves.ts';
import { shownChart } from '../../src/site/shown-chart.ts';
import { log, smallJournal, temporaryFolder, toneCsv, writeFiles } from '../support/journal.ts';

const sweep = 'f (Hz),load (V),THD (%)\n20,2,0.5\n200,2,0.2\n2000,2,0.1\n20000,2,0.4\n';

const declared = `captures:
  - { file: tone.csv, title: Tone, instrument: card }
  - { file: sweep.csv, title: Sweep, kind: frequency-sweep, load: 8 Ω, instrument: card }
`;

const stated = `${smallJournal['journal.yaml']}instruments:
  - { id: card, name: A sound card, ownDistortion: 0.02 % }
`;

/** The two captures of a new journal: a waveform and a sweep of distortion. */
async function captures(keys = declared, settings = stated): Promise<[CaptureRecord, CaptureRecord]> {
  const folder = writeFiles({
    ...smallJournal,
    'journal.yaml': settings,
    'logs/first/index.md': log(keys),
    'logs/first/tone.csv': toneCsv(),
    'logs/first/sweep.csv': sweep,
  });
  const { journal, problems } = await openJournal(folder);
  const [tone, swept] = journal?.logs[0]?.captures ?? [];
  if (!tone || !swept) throw new Error(JSON.stringify(problems));
  return [tone, swept];
}

/** Keeps results in a folder, and counts what is drawn. */
function keeping(folder = temporaryFolder()) {
  const counts = { drawn: 0, kept: 0, computed: 0 };
  const results = keptSiteResults(openStore({ folder }), (origin) => {
    counts[origin] += 1;
  });
  const draw: typeof drawChart = (chart) => {
    counts.drawn += 1;
    return drawChart(chart);
  };
  drawChartsBy({ draw, results });
  return { folder, counts, settled: results.settled };
}

afterEach(() => drawChartsBy(null));

async function markup(capture: CaptureRecord, kind: 'spectrum' | 'thd'): Promise<string> {
  const chart = await shownChart({ capture, kind, channel: null });
  if (!chart || 'absent' in chart.wide || 'absent' in chart.narrow) throw new Error('no chart');
  const sides = await Promise.all([renderChart(chart.wide, 'w'), renderChart(chart.narrow, 'n')]);
  return JSON.stringify([chart.caption, ...sides]);
}

test('a chart that is kept is neither designed nor drawn again, and is the same on its page', async () => {
  const [tone, swept] = await captures();
  const alone = [await markup(tone, 'spectrum'), await markup(swept, 'thd')];
  const first = keeping();
  expect([await markup(tone, 'spectrum'), await markup(swept, 'thd')]).toEqual(alone);
  await first.settled();
  expect(first.counts).toEqual({ drawn: 4, kept: 0, computed: 2 });
  const next = keeping(first.folder);
  const again = await captures();
  expect([await markup(again[0], 'spectrum'), await markup(again[1], 'thd')]).toEqual(alone);
  expect(next.counts).toEqual({ drawn: 0, kept: 2, computed: 0 });
});

test('a chart that two pages ask for at a time is drawn once', async () => {
  const [tone] = await captures();
  const { counts } = keeping();
  const [one, other] = await Promise.all([markup(tone, 'spectrum'), markup(tone, 'spectrum')]);
  expect(one).toBe(other);
  expect(counts).toEqual({ drawn: 2, kept: 0, computed: 1 });
});

test('curves that are kept are the ones that would be made', async () => {
  const first = keeping();
  for (const capture of await captures()) curvesOf(capture);
  await first.settled();
  const next = keeping(first.folder);
  for (const capture of await captures()) expect(curvesOf(capture)).toEqual(overlayCurves(capture));
  expect(next.counts).toEqual({ drawn: 0, kept: 2, computed: 0 });
});

test('a digest asks for no samples', async () => {
  const [tone] = await captures();
  if (tone.analysis.kind !== 'waveform') throw new Error(tone.kind);
  const unread = tone.analysis.channels.map((channel) =>
    Object.defineProperty({ ...channel }, 'values', {
      get: () => {
        throw new Error('Samples were fetched.');
      },
    }),
  );
  const copy: CaptureRecord = { ...tone, analysis: { ...tone.analysis, channels: unread } };
  expect(chartedDigest(copy)).toBe(chartedDigest(tone));
});

test('a digest follows all that charts show of a capture, and nothing else of its record', async () => {
  const digests = async (...changed: Parameters<typeof captures>) =>
    (await captures(...changed)).map(chartedDigest).join(' ');
  const before = await digests();
  expect(
    await digests(declared.replace('instrument: card }\n  - ', 'instrument: card, why: Hum }\n  - ')),
  ).toBe(before);
  const changes: Parameters<typeof captures>[] = [
    [declared.replace('title: Tone', 'title: Louder')],
    [declared.replace('Tone, ', 'Tone, harmonics: 5, ')],
    [declared.replace('load: 8 Ω, instrument: card', 'load: 8 Ω')],
    [declared, stated.replace('0.02 %', '0.03 %')],
  ];
  const others = await Promise.all(changes.map((change) => digests(...change)));
  expect(new Set([before, ...others]).size).toBe(changes.length + 1);
  const [tone, swept] = await captures();
  const copies = [
    { ...tone, sha256: 'another' },
    { ...tone, declaration: { ...tone.declaration, delimiter: ';' as const } },
    withReading(swept, 3),
    withReading(swept, Number.NaN),
    withReading(swept, Number.POSITIVE_INFINITY),
  ];
  const all = [tone, swept, ...copies].map(chartedDigest);
  expect(new Set(all).size).toBe(all.length);
});

/** A sweep with another reading on its axis. */
function withReading(capture: CaptureRecord, value: number): CaptureRecord {
  const { analysis } = capture;
  if (analysis.kind !== 'frequency-sweep') throw new Error(capture.kind);
  const axis = { ...analysis.axis, values: analysis.axis.values.with(0, value) };
  return { ...capture, analysis: { ...analysis, axis } };
}
