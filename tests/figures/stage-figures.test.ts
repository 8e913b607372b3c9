import { expect, test } from 'vitest';
import { definitionOf } from '../../src/figures/index.ts';
import { stageFigures } from '../../src/figures/stages.ts';
import { openJournal } from '../../src/journal/index.ts';
import { claim, decisionWith, measuredFolder } from '../support/claims.ts';
import { versionWith } from '../support/journal.ts';

const stages = `stages:
  - { id: output, topology: single-ended, device: 300B, connection: triode, plate: 300 V, bias: { grid: -61 V }, load: 3400 Ω }
`;

/** The version with these stages, and a decision that claims something of them. */
async function sheetWith(claims: string) {
  const decision = decisionWith(`state: open\nevidence:\n${claims}`);
  const folder = measuredFolder({
    'amplifiers/tern/v1.md': versionWith(stages),
    'decisions/0001-a.md': decision,
  });
  return await openJournal(folder);
}

test('a stage of a load sheet gives its power, distortion and point of rest, as the sheet has them', async () => {
  const { journal } = await sheetWith(claim());
  const [version] = journal?.versions ?? [];
  const [stage] = version?.sheet?.stages ?? [];
  if (stage?.topology !== 'single-ended') throw new Error('no stage');
  const figures = stageFigures([stage], 'v1.md');
  const value = (id: string) => figures.find((figure) => figure.id === id)?.value;
  expect(value('power')).toBe(stage.atLoad?.powerW);
  expect(value('power')).toBeGreaterThan(1);
  expect(value('thd')).toBe(stage.atLoad?.thdRatio);
  expect(value('harmonic-2')).toBe(stage.atLoad?.harmonics.find(({ order }) => order === 2)?.ratio);
  expect(value('plate-voltage')).toBe(300);
  expect(value('plate-current')).toBe(stage.operatingPoint?.plateA);
  for (const { id, subject, unit } of figures) {
    expect(subject).toBe('output');
    expect(definitionOf(id)?.unit).toBe(unit);
  }
});

test('a claim can be about a stage of a load sheet, whose figures are exact', async () => {
  const about = (keys: string) =>
    `  - says: Enough.\n    figure: power\n    of: amplifiers/tern/v1#output\n    ${keys}\n`;
  const { journal } = await sheetWith(
    about('against: 1 W\n    relation: higher\n    by: 3 dB') + about('against: 1 kW\n    relation: higher'),
  );
  expect(journal?.decisions[0]?.evidence.map(({ judgement }) => judgement.outcome)).toEqual([
    'holds',
    'does not hold',
  ]);
});

test('a stage that is not there, or without such a figure, is refused with what there is', async () => {
  const { problems } = await sheetWith(
    '  - { says: A, figure: power, of: amplifiers/tern/v1#outptu, against: 1 W, relation: higher }\n' +
      '  - { says: B, figure: powre, of: amplifiers/tern/v1#output, against: 1 W, relation: higher }\n',
  );
  const mine = problems.filter(({ file }) => file.startsWith('decisions/'));
  expect(mine.map(({ line, column, hint }) => [line, column, hint])).toEqual([
    [8, 35, 'Did you mean output?'],
    [9, 24, 'Did you mean power?'],
  ]);
});

test.each([
  [
    'transistors',
    'transistor-output',
    'topology: follower-pair, load: 8 Ω, emitterResistor: 0.1 Ω, biasCurrent: 150 mA, lossVoltage: 2 V',
    'rails: 18 V, current: 170 mA',
  ],
  [
    'tubes',
    'push-pull',
    'topology: push-pull, device: EL34, connection: triode, bias: { grid: -28 V }, load: 8 kΩ',
    'plate: 400 V',
  ],
])('a pair of %s gives the power up to which both sides conduct', async (_kind, method, stage, supply) => {
  const keys = `stages: [ { id: output, ${stage} } ]\nsupply: { ${supply} }\n`;
  const folder = measuredFolder({ 'amplifiers/tern/v1.md': versionWith(keys) });
  const { journal } = await openJournal(folder);
  const [output] = journal?.versions[0]?.sheet?.stages ?? [];
  const figures = stageFigures(output ? [output] : [], 'v1.md');
  const classA = figures.find(({ id }) => id === 'class-a-power');
  expect(classA?.value).toBeGreaterThan(0.1);
  // 2 I₀² R with 150 mA and 8 Ω, to the rounding of the arithmetic.
  if (method === 'transistor-output') expect(classA?.value).toBeCloseTo(0.36, 12);
  expect(figures.every(({ provenance }) => provenance.method === method)).toBe(true);
});
