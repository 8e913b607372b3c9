import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { predictedMeasured } from '../../src/site/predicted.ts';
import { predictedChart } from '../../src/site/predicted-chart.ts';
import { type Files, log, smallJournal, versionWith, writeFiles } from '../support/journal.ts';

/** A hundred cycles with a second harmonic of 1 % and a little noise; `peak` volts at `hertz`. */
function tone(peak = 4, hertz = 1000): string {
  const row = (index: number) => {
    const time = index / (50 * hertz);
    const phase = 2 * Math.PI * hertz * time;
    const value = peak * (Math.sin(phase) + 0.01 * Math.cos(2 * phase) + 0.0005 * Math.sin(index ** 2 * 0.7));
    return `${time.toExponential(9)},${value.toFixed(6)}`;
  };
  return `time (s),load (V)\n${Array.from({ length: 5000 }, (_, index) => row(index)).join('\n')}\n`;
}

/** Second and third harmonic that grow with amplitude and power, up to four watts. */
const sweep = `power (W),THD (%),H2 (%),H3 (%)\n${Array.from({ length: 20 }, (_, k) => {
  const watts = 0.004 * 1000 ** (k / 19);
  const [two, three] = [2 * Math.sqrt(watts), 0.5 * watts];
  return [watts, Math.hypot(two, three), two, three].map((value) => value.toPrecision(5)).join(',');
}).join('\n')}\n`;

const stage = (id: string) =>
  `  - { id: ${id}, topology: single-ended, device: 2A3, connection: triode, plate: 250 V, bias: { current: 60 mA }, load: 2.5 kΩ }\n`;
const rated = `ratedLoad: 8 Ω\nstages:\n${stage('output')}`;

/** What is predicted for the version of a journal with these captures. */
async function predicted(version: string, captures: string, more: Files = {}) {
  const files: Files = {
    ...smallJournal,
    'amplifiers/tern/v1.md': versionWith(version),
    'logs/first/index.md': log(`version: amplifiers/tern/v1\n${captures}`),
    'logs/first/tone.csv': tone(),
    'logs/first/sweep.csv': sweep,
    ...more,
  };
  const { journal, problems } = await openJournal(writeFiles(files));
  expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  const [only] = journal?.versions ?? [];
  if (!journal || !only) throw new Error('no version');
  return predictedMeasured(only, journal.logs);
}

const capture = (keys = '') =>
  `  - { file: tone.csv, title: A tone, load: 8 Ω${keys}, conditions: { level: 1 W } }\n`;
const level = '  - { file: sweep.csv, title: A sweep, kind: level-sweep, load: 8 Ω }\n';

type Found = Awaited<ReturnType<typeof predicted>>;

function groupsIn(found: Found) {
  if (!found || !('of' in found)) throw new Error('nothing is compared');
  return found.groups;
}

describe('what is compared', () => {
  test('the newest of five waveforms that differ in no condition, and how many it stands for', async () => {
    const others = ['b', 'c', 'd', 'e'].map((name, index) => ({ name, peak: 4 + 0.01 * index }));
    const files = Object.fromEntries(others.map(({ name, peak }) => [`logs/first/${name}.csv`, tone(peak)]));
    const entries = others.map(({ name }) =>
      capture().replace('tone.csv', `${name}.csv`).replace('A tone', name),
    );
    const found = await predicted(rated, `captures:\n${capture()}${entries.join('')}`, files);
    expect(groupsIn(found).map(({ source }) => source.title)).toEqual(['e']);
    expect(found).toHaveProperty('older', 4);
  });

  test('a waveform at the power it was taken at', async () => {
    const groups = groupsIn(await predicted(rated, `captures:\n${capture()}`));
    expect(groups).toHaveLength(1);
    // 4 V peak into 8 Ω; the noise in the line is a millionth.
    expect(groups[0]?.powerW).toBeCloseTo(1, 4);
    expect(groups[0]?.rows.map(({ measured }) => measured.id)).toEqual(['thd', 'harmonic-2', 'harmonic-3']);
    expect(groups[0]?.rows[1]?.measured.value).toBeCloseTo(0.01, 4);
    expect(groups[0]?.rows[1]?.model.value).toBeGreaterThan(0.005);
  });

  test('a level sweep at its powers and at one watt, with a chart of both', async () => {
    const found = await predicted(rated, `captures:\n${level}`);
    const groups = groupsIn(found);
    expect(groups.map(({ powerW }) => powerW)).toEqual([null, 1]);
    const ids = groups[0]?.rows.map(({ measured }) => measured.id);
    expect(ids).toEqual(expect.arrayContaining(['power-at-1-percent', 'power-at-3-percent']));
    const second = groups[1]?.rows.find(({ measured }) => measured.id === 'harmonic-2');
    expect(second?.measured.value).toBeCloseTo(0.02, 4); // 2 % at 1 W by the file, read between two points
    if (!found || !('of' in found) || !found.of.stage || !found.sweeps[0]) throw new Error('no sweep');
    expect(predictedChart(found.of.stage, found.sweeps[0])?.wide).toHaveProperty('spec');
  });

  test('a load within a tenth of the model’s, and none beyond', async () => {
    const near = capture(', id: near').replace('8 Ω', '7.5 Ω');
    const far = capture(', id: far').replace('8 Ω', '4 Ω');
    const found = await predicted(rated, `captures:\n${near}${far}`);
    expect(groupsIn(found)).toHaveLength(1);
    const reasons = found && 'passedOver' in found ? found.passedOver.map(({ reason }) => reason) : [];
    expect(reasons.map((reason) => reason.replaceAll('\u00a0', ' '))).toEqual([
      'It was taken into 4.00 Ω, and the model’s load is 8.00 Ω.',
    ]);
  });

  test('no tone far from the middle of the band', async () => {
    const found = await predicted(rated, `captures:\n${capture()}`, { 'logs/first/tone.csv': tone(4, 60) });
    expect(groupsIn(found)).toEqual([]);
    expect(found).toHaveProperty('passedOver.0.reason', expect.stringMatching(/middle of the band/));
  });
});

describe('nothing is compared', () => {
  test('where nothing was measured into a load, or no stage delivers power', async () => {
    expect(await predicted(rated, '')).toBeNull();
    expect(await predicted(rated, `captures:\n${capture().replace(', load: 8 Ω', '')}`)).toBeNull();
    expect(await predicted('', `captures:\n${capture()}`)).toBeNull();
  });

  test('where several stages deliver power, and the reason names them', async () => {
    const two = `${rated}${stage('other')}`;
    expect(await predicted(two, `captures:\n${capture()}`)).toEqual({
      absent: expect.stringMatching(/\(output, other\)/),
    });
  });

  test('where the record states no rated load', async () => {
    const unrated = rated.replace('ratedLoad: 8 Ω\n', '');
    expect(await predicted(unrated, `captures:\n${capture()}`)).toEqual({
      absent: expect.stringMatching(/no rated load/),
    });
  });
});
