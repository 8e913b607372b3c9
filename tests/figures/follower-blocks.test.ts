import { expect, test } from 'vitest';
import { outputPowerOf } from '../../src/figures/index.ts';
import { stageBlocks, stageHeadline } from '../../src/figures/stages.ts';
import { classA, classAB, followerOf, path } from '../load/follower-support.ts';

const plain = (value: unknown) => JSON.stringify(value).replaceAll('\u00a0', ' ');

test('a pair is named with its parallel transistors and its supply', () => {
  expect(stageHeadline(followerOf({ count: 3 }, classAB).sheet)).toBe(
    'complementary pair of followers, 3 in parallel, split supply',
  );
});

test('temperatures are whole degrees of sink, case and junction', () => {
  const { sheet } = followerOf({ biasA: 0, thermal: { ...path, ambientC: -20 } }, classAB);
  const blocks = stageBlocks(sheet, null);
  const temperatures = blocks.find(({ title }) => title === 'Temperatures');
  expect(temperatures?.method).toBe('thermal-path');
  // 2.2 K/W times two transistors of 18²/(8·π²) W, less a little in the emitter resistors: 17.8 K.
  expect(plain(temperatures?.facts[0])).toMatch(/"−20 °C at rest, −2 °C at worst"/);
});

test('a path that no sink can serve says so', () => {
  const { sheet } = followerOf({ thermal: { ...path, junctionToCase: 60 } }, classAB);
  expect(plain(stageBlocks(sheet, null))).toContain('none can');
  expect(sheet.explanation.join(' ')).toContain('No sink holds the junction');
});

test('a single follower says that it is hottest without a signal, and where its swing ends', () => {
  const text = followerOf({}, classA).sheet.explanation.join(' ').replaceAll('\u00a0', ' ');
  expect(text).toContain('hottest without a signal, with 30.0 W'); // 20 V times 1.5 A
  expect(text).toContain('ends where the current at rest is used up, at 12.0 V peak'); // 1.5 A into 8 Ω
});

test('the output of an amplifier is that of its transistor stage', () => {
  const { sheet } = followerOf({}, classAB);
  expect(outputPowerOf({ stages: [sheet] })).toBe(sheet.largest?.outputW);
  expect(outputPowerOf({ stages: [] })).toBeNull();
});

test('a stage with an error has no blocks', () => {
  expect(stageBlocks(followerOf({ loadOhm: -1 }, classAB).sheet, null)).toEqual([]);
});
