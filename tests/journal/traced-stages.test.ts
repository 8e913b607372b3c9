import { mkdirSync, symlinkSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { openJournal, openLoadFile } from '../../src/journal/index.ts';
import { type Files, problemText, smallJournal, versionWith, writeFiles } from '../support/journal.ts';

const stage = (curves: string, more = '') => `stages:
  - id: output
    topology: single-ended
    device: 300B
    connection: triode
    plate: 300 V
    bias: { grid: -60 V }
    load: 3 kΩ
    curves: ${curves}
${more}`;

/** Straight lines, in the units a tracer writes. */
const table = (header = 'plate voltage (V),grid voltage (V),plate current (mA)') => {
  const rows = [-120, -90, -60, -30, 0].flatMap((grid) =>
    [0, 150, 300, 450, 600].map(
      (plate) => `${plate},${grid},${Math.max(0, (plate + 4 * grid) / 1).toFixed(1)}`,
    ),
  );
  return `${header}\n${rows.join('\n')}\n`;
};

async function opened(files: Files, file = 'stage.yaml') {
  const { sheet, problems } = await openLoadFile(writeFiles(files), file);
  const [first] = sheet?.stages ?? [];
  const output = first?.topology === 'single-ended' ? first : null;
  return { output, problems: problems.map((problem) => problemText(problem).replaceAll('\u00a0', ' ')) };
}

describe('traced curves beside a description', () => {
  test('take the place of the model', async () => {
    const { output, problems } = await opened({ 'stage.yaml': stage('family.csv'), 'family.csv': table() });
    expect(problems).toEqual([]);
    expect(output).toMatchObject({ curvesFrom: 'family.csv', modelSource: null });
    // 300 V less four times 60 V, in milliamperes: a traced point.
    expect(output?.operatingPoint?.plateA).toBeCloseTo(0.06, 12);
    expect(output?.modelFit?.points).toBeGreaterThan(0);
  });

  test('in a version record of a journal too, by a path inside the journal', async () => {
    const folder = writeFiles({
      ...smallJournal,
      'amplifiers/tern/v2.md': versionWith(stage('../../static/family.csv')),
      'static/family.csv': table(),
    });
    const { journal, problems } = await openJournal(folder);
    expect(problems.map(problemText).filter((text) => text.includes('v2.md'))).toEqual([]);
    const [sheet] = journal?.amplifiers[0]?.versions.find(({ id }) => id.endsWith('v2'))?.sheet?.stages ?? [];
    expect(sheet).toMatchObject({ curvesFrom: '../../static/family.csv' });
  });

  test('with screen current and other names of the electrodes', async () => {
    const rows = [-20, -10, 0].flatMap((grid) =>
      [0, 100, 400].map((plate) => `${plate},${grid},${plate / 8 + 2 * grid + 40},4`),
    );
    const { output, problems } = await opened({
      'stage.yaml': stage('f.csv')
        .replace('300B', 'EL34')
        .replace('triode', 'pentode')
        .replace('-60 V', '-10 V\n    screen: 250 V')
        .replace('{ grid: -10 V\n    screen: 250 V }', '{ grid: -10 V }\n    screen: 250 V'),
      'f.csv': `Va (V),Vg1 (V),Ia (mA),Ig2 (mA)\n${rows.join('\n')}\n`,
    });
    expect(problems).toEqual([]);
    expect(output?.operatingPoint?.screenA).toBeCloseTo(0.004, 12);
  });
});

describe('faults stand where they are', () => {
  test.each([
    ['missing.csv', 'stage.yaml:9:13 error curves-missing'],
    ['../outside.csv', 'stage.yaml:9:13 error outside-journal'],
    ['/etc/hostname', 'stage.yaml:9:13 error outside-journal'],
    ['folder', 'stage.yaml:9:13 error unreadable'],
    ['link.csv', 'stage.yaml:9:13 error outside-journal'],
    ['no-grid.csv', 'no-grid.csv:2:1 error curves-column'],
    ['two-plates.csv', 'two-plates.csv:2:1 error curves-column'],
    ['text.csv', 'text.csv:'],
  ])('%s', async (file, expected) => {
    const folder = writeFiles({
      'inside/stage.yaml': stage(file),
      'inside/no-grid.csv': table('plate voltage (V),supply (V),plate current (mA)'),
      'inside/two-plates.csv': table('plate voltage (V),anode voltage (V),plate current (mA)'),
      'inside/text.csv': 'nothing to see\n',
      'outside.csv': table(),
    });
    mkdirSync(path.join(folder, 'inside/folder'));
    symlinkSync(path.join(folder, 'outside.csv'), path.join(folder, 'inside/link.csv'));
    const { sheet, problems } = await openLoadFile(path.join(folder, 'inside'), 'stage.yaml');
    const texts = problems.map(problemText);
    expect(texts[0]).toContain(expected);
    expect(sheet?.stages[0]).toMatchObject({ operatingPoint: null });
    // Told once: the sheet does not complain of the curves again.
    expect(texts.filter((text) => text.includes('load/traced-curves'))).toEqual([]);
  });

  test('a column that is not used is named', async () => {
    const wide = table('plate voltage (V),grid voltage (V),plate current (mA)')
      .split('\n')
      .map((row, index) => (row === '' ? row : `${row},${index === 0 ? 'heater voltage (V)' : '6.3'}`))
      .join('\n');
    const { problems } = await opened({ 'stage.yaml': stage('f.csv'), 'f.csv': wide });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(
      /f\.csv:2:1 warning curves-column\n {2}Not used of the traced curves: heater-voltage/,
    );
  });

  test.each([
    ['tapTurns: 43 V', 'stage.yaml:10:15'],
    ['count: two', 'stage.yaml:10:12'],
    ['measured: { plateCurrent: 60 V }', 'stage.yaml:10:31'],
    ['measured: { rescale: true }', 'stage.yaml:10:'],
    ['smallSignal: { mu: -20 }', 'stage.yaml:10:24'],
    ['gridLeak: 470 kV', 'stage.yaml:10:15'],
  ])('%s', async (line, place) => {
    const { problems } = await opened({ 'stage.yaml': stage('f.csv', `    ${line}\n`), 'f.csv': table() });
    expect(problems[0]).toContain(place);
  });
});
