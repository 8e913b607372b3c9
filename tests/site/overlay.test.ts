import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { captureQuery, capturesWithCurves, overlayCaptures, overlayEntries } from '../../src/site/overlay.ts';
import { type Files, log, smallJournal, version, writeFiles } from '../support/journal.ts';

async function opened(captures: string, files: Files) {
  const folder = writeFiles({
    ...smallJournal,
    'amplifiers/tern/v2.md': version.replace('Tern 1', 'Tern 2'),
    'logs/one/index.md': log(`captures:\n${captures}`),
    ...Object.fromEntries(Object.entries(files).map(([name, text]) => [`logs/one/${name}`, text])),
  });
  const { journal, problems } = await openJournal(folder);
  if (!journal) throw new Error(problems.map(({ message }) => message).join('\n'));
  return journal;
}

const table = (header: string, rows: readonly (readonly number[])[]): string =>
  `${[header, ...rows.map((row) => row.join(','))].join('\n')}\n`;

const decades = [20, 60, 200, 600, 2000, 6000, 20000];

test('a level that was let run is a response in decibels re one volt; one that was held is none', async () => {
  const journal = await opened(
    `  - { file: run.csv, title: Run, kind: frequency-sweep, load: 8 Ω }
  - { file: held.csv, title: Held, kind: frequency-sweep, load: 8 Ω }
`,
    {
      'run.csv': table(
        'f (Hz),load (V)',
        decades.map((hertz) => [hertz, 2]),
      ),
      'held.csv': table(
        'f (Hz),load (V),THD (%)',
        decades.map((hertz) => [hertz, 2, 0.5]),
      ),
    },
  );
  const [run, held] = overlayCaptures(journal).map(({ curves }) => curves);
  expect(run?.map(({ view, unit }) => [view, unit])).toEqual([['response', 'dBV']]);
  // 2 V is 20 lg 2 dBV; six digits are published.
  for (const level of run?.[0]?.y ?? []) expect(level).toBeCloseTo(20 * Math.log10(2), 4);
  expect(held?.map(({ view }) => view)).toEqual(['thd-frequency']);
  expect(held?.[0]?.y).toEqual(decades.map(() => 0.5));
});

test('distortion against level stands over the power into the load: 4 V at 8 Ω are 2 W', async () => {
  const journal = await opened(
    '  - { file: level.csv, title: Level, kind: level-sweep, load: 8 Ω, conditions: { frequency: 1 kHz } }\n',
    {
      'level.csv': table('in (V),out (V),THD (%),H3 (%)', [
        [0.1, 1, 0.1, 0.05],
        [0.2, 2, 0.2, 0.1],
        [0.4, 4, 0.4, 0.2],
      ]),
    },
  );
  const [only] = overlayCaptures(journal);
  expect(only?.curves.map(({ view, x }) => [view, x])).toEqual([
    ['thd-power', [0.125, 0.5, 2]],
    ['harmonic-3-power', [0.125, 0.5, 2]],
  ]);
  expect(only && captureQuery(only.capture)).toBe('?view=thd-power&trace=one/level:out');
});

test('a spectrum keeps its highest lines at their frequencies, with the level of its fundamental', async () => {
  const rate = 48000;
  const samples = Array.from({ length: 8192 }, (_, i) => {
    const turn = (2 * Math.PI * 1000 * i) / rate;
    return [i / rate, Math.SQRT2 * (Math.sin(turn) + 0.01 * Math.sin(2 * turn))];
  });
  const journal = await opened('  - { file: tone.csv, title: Tone, kind: waveform }\n', {
    'tone.csv': table('t (s),out (V)', samples),
  });
  const [curve] = overlayCaptures(journal)[0]?.curves ?? [];
  // 1 V rms is 0 dBV; the fit gives it to a hundredth of a decibel.
  expect(curve?.carrier).toBeCloseTo(0, 2);
  const strongest = (from: number, to: number) => {
    const inside = (curve?.x ?? []).flatMap((hertz, i) =>
      hertz > from && hertz < to ? [{ hertz, level: curve?.y[i] ?? -999 }] : [],
    );
    return inside.reduce((a, b) => (b.level > a.level ? b : a));
  };
  // Lines stand 2.9 Hz apart, and one in the middle between two reads up to 0.2 dB too low.
  expect(Math.abs(strongest(900, 1100).hertz - 1000)).toBeLessThan(2.9);
  expect(Math.abs(strongest(900, 1100).level)).toBeLessThan(0.25);
  expect(Math.abs(strongest(1900, 2100).level + 40)).toBeLessThan(0.25);
  expect(curve?.x.length).toBeLessThan(2100);
});

test('channels of one capture are told apart by name, captures of one title by version, or else by file', async () => {
  const rows = decades.map((hertz) => [hertz, 2, 3]);
  const two = table('f (Hz),first (V),second (V)', rows);
  const one = table(
    'f (Hz),load (V)',
    rows.map((row) => row.slice(0, 2)),
  );
  const of = (number: number) => `version: amplifiers/tern/v${number}`;
  const journal = await opened(
    `  - { file: two.csv, title: Two loads, kind: frequency-sweep, ${of(1)} }
  - { file: a.csv, title: Level, kind: frequency-sweep, ${of(1)} }
  - { file: b.csv, title: Level, kind: frequency-sweep, ${of(2)} }
  - { file: c.csv, title: Again, kind: frequency-sweep, ${of(2)} }
  - { file: d.csv, title: Again, kind: frequency-sweep, ${of(2)} }
`,
    { 'two.csv': two, 'a.csv': one, 'b.csv': one, 'c.csv': one, 'd.csv': one },
  );
  const entries = overlayEntries(journal);
  expect(entries.map(({ title }) => title)).toEqual([
    'Two loads, first',
    'Two loads, second',
    'Level (Tern 1)',
    'Level (Tern 2)',
    'Again (one/c)',
    'Again (one/d)',
  ]);
  expect(entries[0]).toMatchObject({ id: 'one/two:first', amplifier: 'Tern', version: 'Tern 1' });
});

test('captures are looked at for curves each in a turn of its own, so that their samples can be let go of', async () => {
  const names = ['a', 'b', 'c', 'd'];
  const sweep = table(
    'f (Hz),load (V)',
    decades.map((hertz) => [hertz, 2]),
  );
  const journal = await opened(
    names.map((name) => `  - { file: ${name}.csv, title: Sweep ${name}, kind: frequency-sweep }\n`).join(''),
    Object.fromEntries(names.map((name) => [`${name}.csv`, sweep])),
  );
  let turns = 0;
  const count = () => {
    turns += 1;
    next = setImmediate(count);
  };
  let next = setImmediate(count);
  const found = await capturesWithCurves(journal);
  clearImmediate(next);
  expect(found).toEqual(overlayCaptures(journal).map(({ capture }) => capture));
  expect(found.map(({ name }) => name)).toEqual(names);
  expect(turns).toBeGreaterThanOrEqual(names.length - 1);
});
