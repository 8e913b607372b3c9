import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';

const { journal } = await openJournal(join(import.meta.dirname, '../../content'));
const versions = journal?.amplifiers.flatMap((amplifier) => amplifier.versions) ?? [];
const sheetOf = (id: string) => versions.find((version) => version.id === `amplifiers/${id}`)?.sheet ?? null;

function tubeOutput(id: string) {
  const stage = sheetOf(id)?.stages.find((one) => one.id === 'output');
  if (stage?.topology !== 'single-ended') throw new Error(`${id} has no single-ended output stage`);
  return stage;
}

test("the rules of load ask Linnet's pair for loads from 5.55 kΩ to 11.6 kΩ, as its page says", () => {
  const pair = sheetOf('linnet/v1')?.stages.find((one) => one.topology === 'push-pull');
  if (pair?.topology !== 'push-pull') throw new Error('Linnet has no push-pull stage');
  const loads = pair.candidates.flatMap(({ loadOhm }) => loadOhm ?? []);
  // To the three digits that the page prints.
  expect(Math.min(...loads)).toBeCloseTo(5550, -1);
  expect(Math.max(...loads) / 100).toBeCloseTo(116, 0);
});

test("Linnet's splitter has balanced sides and drive to spare for its output pair", () => {
  const sheet = sheetOf('linnet/v1');
  const splitter = sheet?.stages.find((one) => one.topology === 'split-load');
  if (splitter?.topology !== 'split-load') throw new Error('Linnet has no splitter');
  // The page prints 1.000: three decimals.
  expect(splitter.balance?.ratio).toBeCloseTo(1, 3);
  expect(sheet?.chain?.firstToRunOut).toBe('output');
  // 1.9 dB and 1.55 V in the prose, to the digits printed.
  expect(sheet?.chain?.links.find(({ stage }) => stage === 'splitter')?.headroomDb).toBeCloseTo(1.9, 1);
  expect(sheet?.chain?.sensitivityVrms).toBeCloseTo(1.55, 2);
});

test("the curves traced from Wren's tube give the current that was read, where the model expects more", () => {
  const cathodeA = (id: string) => {
    const rest = tubeOutput(id).operatingPoint;
    return (rest?.plateA ?? 0) + (rest?.screenA ?? 0);
  };
  // 82 mA were read with a meter that shows whole milliamperes.
  expect(1000 * cathodeA('wren/v2')).toBeCloseTo(82, 0);
  expect(1000 * cathodeA('wren/v1')).toBeCloseTo(90, 0);
  expect(tubeOutput('wren/v2').curvesFrom).toBe('wren-output-curves.csv');
});

test.each(['heron/v1', 'heron/v2'])(
  "%s sees the 2.5 kΩ that its transformer's captures were made with",
  (id) => {
    // 16.88² · 8.35 Ω + 120 Ω is 2499.2 Ω by hand; half a per mille for the digits of the record.
    expect(Math.abs((tubeOutput(id).output?.loadOhm ?? 0) / 2500 - 1)).toBeLessThan(5e-4);
  },
);
