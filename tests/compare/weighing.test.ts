import { describe, expect, test } from 'vitest';
import { exactly, levelTrim, pointsOf, trimText, weigh } from '../../src/compare/index.ts';

const beats = (values: readonly number[]) => (one: number, other: number) =>
  Math.sign((values[one] ?? 0) - (values[other] ?? 0));

describe('pointsOf', () => {
  test('gives the share of the others that each one beats, and half for those that are equal', () => {
    expect(pointsOf(2, beats([1, 2]))).toEqual([0, 1]);
    expect(pointsOf(2, beats([1, 1]))).toEqual([0.5, 0.5]);
    expect(pointsOf(3, beats([5, 7, 7]))).toEqual([0, 0.75, 0.75]);
  });
});

describe('weigh', () => {
  const criteria = [
    { title: 'Distortion', weight: 3, points: [0, 1] },
    { title: 'Price', weight: 2, points: [1, 0] },
    { title: 'Listening', weight: 1, points: [0.5, 0.5] },
  ];

  test('adds weighed points, and says at which weight of each criterion the ranking changes', () => {
    const found = weigh(criteria);
    // 3 + 0.5 of 6 against 2 + 0.5 of 6: the lead is one.
    expect(found?.totals.map((total) => total * 6)).toEqual([2.5, 3.5]);
    expect(found).toMatchObject({ order: [1, 0], isTied: false });
    expect(found?.moves.map(({ changesAt, rival }) => [changesAt, rival])).toEqual([
      [2, 0],
      [3, 0],
      [null, null],
    ]);
  });

  test('draws level exactly at the weight that it names', () => {
    for (const [index, move] of (weigh(criteria)?.moves ?? []).entries()) {
      if (move.changesAt === null) continue;
      const moved = criteria.map((one, i) => (i === index ? { ...one, weight: move.changesAt ?? 0 } : one));
      expect(weigh(moved)?.isTied).toBe(true);
    }
  });

  test('names the nearest rival of several, and no weight below zero', () => {
    const found = weigh([
      { title: 'One', weight: 4, points: [1, 0.5, 0] },
      { title: 'Two', weight: 1, points: [0, 0.5, 1] },
    ]);
    // The lead is 1.5 on the second and 3 on the third; one of "Two" gives each of them back at a weight of 4.
    expect(found?.moves.map(({ changesAt, rival }) => [changesAt, rival])).toEqual([
      [1, 1],
      [4, 1],
    ]);
    expect(weigh([{ title: 'One', weight: 4, points: [1, 0] }])?.moves[0]?.changesAt).toBe(0);
  });

  test('ranks nothing without a weight', () => {
    expect(weigh([])).toBeNull();
    expect(weigh([{ title: 'One', weight: 0, points: [1, 0] }])).toBeNull();
  });
});

describe('levelTrim', () => {
  const gain = (value: number | null) =>
    exactly({
      ...{ id: 'gain-at-fundamental', value, unit: 'dB', conditions: {} },
      provenance: { file: 'a.csv', sha256: null, lines: null, method: 'transfer', settings: {} },
    });
  const plain = (text: string | undefined) => text?.replaceAll('\u00a0', ' ');
  const textOf = (first: number, second: number) => {
    const trim = levelTrim(gain(first), gain(second));
    return plain(trim ? trimText(trim, ['A', 'B']) : undefined);
  };

  test('turns the louder one down, at the speaker and as a volume setting', () => {
    // 6.0206 dB is a ratio of two.
    expect(levelTrim(gain(20), gain(26.0206))).toMatchObject({ louder: 'second' });
    expect(levelTrim(gain(20), gain(26.0206))?.share).toBeCloseTo(0.5, 6);
    expect(textOf(20, 26.0206)).toMatch(
      /^At the same input B is 6\.02 dB louder at the speaker than A\. Equal at the speaker: B turned down by 6\.02 dB, which is a volume control that passes 50\.0 % of the voltage on\. The gains are 20/,
    );
    expect(textOf(21, 20.5)).toMatch(/^At the same input A is 0\.50 dB louder/);
  });

  test('leaves what nobody can set, and says nothing without a gain', () => {
    expect(textOf(20, 20.01)).toMatch(/^At the same input both are equally loud within 0\.05 dB/);
    expect(levelTrim(gain(null), gain(20))).toBeNull();
  });
});
