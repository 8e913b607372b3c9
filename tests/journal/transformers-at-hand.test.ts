import { describe, expect, test } from 'vitest';
import { openJournal, openLoadFile } from '../../src/journal/index.ts';
import type { Candidate, LoadSheet } from '../../src/load/index.ts';
import { type Files, log, problemsOf, smallJournal, versionWith, writeFiles } from '../support/journal.ts';

const part = (title: string, keys: string) => `---\ntitle: ${title}\nkind: transformer\n${keys}---\n`;
const gapped = 'ratedDirectCurrent: 80 mA\n';
const parts: Files = {
  'parts/one.md': part('Gapped', `primary: 2.5 kΩ\nsecondary: 8 Ω\n${gapped}`),
  'parts/two.md': part('For pairs', 'primary: 6.6 kΩ\nsecondary: 8 Ω\nuse: push-pull\nscreenTap: 43 %\n'),
  'parts/three.md': part('Untold', 'turnsRatio: 25\nprimaryResistance: 100 Ω\n'),
  'parts/four.md': part(
    'Tapped',
    `use: single-ended\ntaps: [ { name: 4 Ω, turnsRatio: 30 }, { name: 8 Ω, turnsRatio: 21 } ]\n`,
  ),
  'parts/tube.md': '---\ntitle: A tube\nkind: tube\n---\n',
};
const triode =
  'id: output, topology: single-ended, device: 300B, connection: triode, plate: 300 V, bias: { grid: -61 V }';
const pair =
  'id: output, topology: push-pull, device: EL34, plate: 350 V, bias: { cathodeResistor: 240 Ω }, load: 6.6 kΩ';
const stages = (...of: string[]) => `stages:\n${of.map((one) => `  - { ${one} }\n`).join('')}`;

function offered(sheet: LoadSheet | null | undefined): Candidate[] {
  const [stage] = sheet?.stages ?? [];
  return (stage && 'candidates' in stage ? stage.candidates : []).filter((one) => one.part !== null);
}

async function offeredTo(frontmatter: string, files: Files = {}): Promise<Candidate[]> {
  const all = { ...smallJournal, ...parts, ...files, 'amplifiers/tern/v1.md': versionWith(frontmatter) };
  const { journal, problems } = await openJournal(writeFiles(all));
  expect(problems.filter(({ severity }) => severity !== 'warning')).toEqual([]);
  return offered(journal?.versions[0]?.sheet);
}

const byPart = (candidates: readonly Candidate[]) =>
  Object.fromEntries(candidates.map(({ part: id, loadOhm }) => [id, Math.round(loadOhm ?? 0)]));

describe('the transformers of a journal stand among the loads of a stage', () => {
  test('those for single-ended stages and those of no stated use, onto the rated load', async () => {
    const found = await offeredTo(`ratedLoad: 8 Ω\n${stages(`${triode}, load: 3 kΩ`)}`);
    expect(byPart(found)).toEqual({
      'parts/one': 2500,
      'parts/three': 25 ** 2 * 8 + 100,
      'parts/four': 21 ** 2 * 8,
    });
    expect(found.map(({ short }) => short)).toContain('Tapped, 8 Ω tap');
    expect(found.find(({ part: id }) => id === 'parts/three')?.basis).toContain('does not say what use');
  });

  test('those for pairs in a pair', async () => {
    const found = await offeredTo(
      `ratedLoad: 8 Ω\n${stages(`${pair}, connection: distributed-load, tapTurns: 43 %`)}`,
    );
    expect(byPart(found)).toEqual({ 'parts/two': 6600, 'parts/three': 5100 });
  });

  test('onto what the stage has on its secondary, with the tap made for it', async () => {
    const found = await offeredTo(
      `ratedLoad: 8 Ω\n${stages(`${triode}, transformer: parts/one, speaker: 4 Ω`)}`,
    );
    expect(byPart(found)).toMatchObject({ 'parts/one': 1250, 'parts/four': 30 ** 2 * 4 });
  });

  test('onto their own nominal load where no other is known', async () => {
    const found = await offeredTo(stages(`${triode}, load: 3 kΩ`));
    expect(byPart(found)).toMatchObject({ 'parts/one': 2500 });
    expect(found.find(({ part: id }) => id === 'parts/three')).toMatchObject({
      loadOhm: null,
      basis: 'neither a loudspeaker nor the load that it is made for is stated',
    });
  });

  test('the own one with the tap and the turns in use', async () => {
    const found = await offeredTo(
      stages(`${triode}, transformer: parts/four, tap: 4 Ω, primaryTurns: 50 %, speaker: 8 Ω`),
    );
    expect(byPart(found)).toMatchObject({ 'parts/four': 15 ** 2 * 8, 'parts/one': 2500 });
  });

  test('a measured loudspeaker at its least and at 1 kHz', async () => {
    const rows = [20, 60, 200, 1000, 5000].map((hz) => `${hz},${hz === 200 ? 6 : hz === 1000 ? 9 : 20}`);
    const found = await offeredTo(
      `ratedLoad: 8 Ω\n${stages(`${triode}, transformer: parts/one, speaker: logs/first/box`)}`,
      {
        'logs/first/box.csv': `frequency (Hz),impedance (ohm)\n${rows.join('\n')}\n`,
        'logs/first/index.md': log('captures: [ { file: box.csv, title: Box, impedanceOf: loudspeaker } ]\n'),
      },
    );
    const ratio = 2500 / 8;
    expect(found.filter(({ part: id }) => id === 'parts/one').map(({ short }) => short)).toEqual([
      'Gapped, least',
      'Gapped, 1\u00a0kHz',
    ]);
    const [least, at] = found.filter(({ part: id }) => id === 'parts/one').map(({ loadOhm }) => loadOhm);
    expect(least).toBeCloseTo(6 * ratio, 6); // arithmetic
    expect(at).toBeCloseTo(9 * ratio, 6);
  });
});

describe('a record read on its own', () => {
  const description = stages(`${triode}, load: 3 kΩ`);

  test('has the transformers of the journal around it', async () => {
    const folder = writeFiles({ ...smallJournal, ...parts, 'amplifiers/tern/try.yaml': description });
    const { sheet, problems } = await openLoadFile(folder, 'amplifiers/tern/try.yaml');
    expect(problems).toEqual([]);
    expect(Object.keys(byPart(offered(sheet)))).toEqual(
      expect.arrayContaining(['parts/one', 'parts/three', 'parts/four']),
    );
  });

  test('has none outside of a journal', async () => {
    const { sheet } = await openLoadFile(writeFiles({ ...parts, 'try.yaml': description }), 'try.yaml');
    expect(offered(sheet)).toEqual([]);
  });

  test('is not told of the faults of parts that it does not name', async () => {
    const folder = writeFiles({
      ...smallJournal,
      'parts/bad.md': part('Bad', 'turnsRatio: -1\n'),
      'amplifiers/tern/try.yaml': description,
    });
    expect((await openLoadFile(folder, 'amplifiers/tern/try.yaml')).problems).toEqual([]);
  });
});

describe('the screen tap of a part record', () => {
  const pentodeIn = (keys: string) =>
    versionWith(
      stages(
        `id: output, topology: single-ended, device: EL34, connection: distributed-load, plate: 250 V, bias: { grid: -13.5 V }, transformer: parts/two, speaker: 8 Ω${keys}`,
      ),
    );

  test('is that of a stage in distributed load that states none', async () => {
    const files = { ...smallJournal, ...parts, 'amplifiers/tern/v1.md': pentodeIn('') };
    const { journal, problems } = await openJournal(writeFiles(files));
    expect(problems.filter(({ severity }) => severity !== 'warning')).toEqual([]);
    expect(journal?.versions[0]?.sheet?.stages[0]).toMatchObject({ tapRatio: 0.43 });
  });

  test('contradicted by the stage is a problem at the tap of the stage', async () => {
    const found = await problemsOf({
      ...parts,
      'amplifiers/tern/v1.md': pentodeIn(', tapTurns: 40 %'),
    });
    expect(found).toMatch(/amplifiers\/tern\/v1\.md:7:\d+ error screen-tap/);
    expect(found).toContain(
      'The stage states a screen tap at 40.0\u00a0% of the turns, but that of For pairs is at 43.0\u00a0%.',
    );
  });

  test.each([
    ['the same', ', tapTurns: 43.2 %'],
    ['its own with a part of the turns', ', tapTurns: 60 %, primaryTurns: 70 %'],
  ])('%s is no contradiction', async (_, keys) => {
    const found = await problemsOf({ ...parts, 'amplifiers/tern/v1.md': pentodeIn(keys) });
    expect(found).not.toContain('screen-tap');
  });

  test('with a part of the turns is not taken, so that the stage must state its own', async () => {
    const found = await problemsOf({
      ...parts,
      'amplifiers/tern/v1.md': pentodeIn(', primaryTurns: 70 %'),
    });
    expect(found).toMatch(/amplifiers\/tern\/v1\.md:7:\d+ error/);
    expect(found).toContain('tapTurns');
  });
});
