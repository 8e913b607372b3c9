import { describe, expect, test } from 'vitest';
import { leftOutText, predictedAtPower, predictedPowers, predictedText } from '../../src/figures/stages.ts';
import type { PowerStage } from '../../src/load/index.ts';
import { figureOf } from './measured.ts';

/** One watt for one volt of drive, up to four watts: a second of 1 % and a third of 0.1 % there, by the power series. */
const stage: PowerStage = (() => {
  const at = (driveV: number) => {
    const ratios = [0.01 * driveV, 0.001 * driveV ** 2];
    return {
      driveV,
      powerW: driveV ** 2,
      harmonics: ratios.map((ratio, k) => ({ order: k + 2, ratio, sign: 1 as const })),
      thdRatio: Math.hypot(...ratios),
    };
  };
  return { full: at(2), at };
})();

const bounded = (id: string, value: number, half: number) =>
  figureOf(id, value, { low: value - half, high: value + half });

describe('distortion at the power that was measured', () => {
  test('stands beside that of the model at the drive which gives it', () => {
    const figures = [figureOf('thd', 0.02), figureOf('harmonic-2', 0.01), figureOf('harmonic-3', 0.001)];
    const rows = predictedAtPower(stage, { powerW: 2.25, figures });
    const models = rows.map(({ model }) => model.value ?? 0);
    // At 1.5 V by the closed form; the drive is found to a millionth.
    for (const [k, value] of [Math.hypot(0.015, 0.00225), 0.015, 0.00225].entries()) {
      expect(Math.abs((models[k] ?? 0) / value - 1)).toBeLessThan(1e-5);
    }
    expect(rows[1]?.decibels).toBeCloseTo(20 * Math.log10(1 / 1.5), 4);
  });

  test('is told apart where the model lies outside of the interval', () => {
    const verdictOf = (half: number, value = 0.01) =>
      predictedAtPower(stage, { powerW: 1, figures: [bounded('harmonic-2', value, half)] })[0]?.verdict;
    expect(verdictOf(0.001)).toBe('cannot be told apart');
    expect(verdictOf(0.001, 0.012)).toBe('higher');
    expect(verdictOf(0.001, 0.008)).toBe('lower');
  });

  test('has no model above the model’s largest power, and says so', () => {
    const [row] = predictedAtPower(stage, { powerW: 5, figures: [figureOf('thd', 0.02)] });
    expect(row?.model.value).toBeNull();
    expect(row?.decibels).toBeNull();
    expect(row && predictedText(row).replaceAll('\u00a0', ' ')).toBe(
      'The model reaches 4.00 W, which is less than the 5.00 W measured.',
    );
  });

  test('without an interval decides nothing', () => {
    const [row] = predictedAtPower(stage, { powerW: 1, figures: [figureOf('thd', 0.02)] });
    expect(row && predictedText(row)).toBe('no interval to judge by');
  });
});

describe('powers of a level sweep', () => {
  const watts = { unit: 'W' };
  const figures = [
    figureOf('power-at-1-percent', 1.1, { ...watts, low: 1.05, high: 1.15 }),
    figureOf('power-at-10-percent', null, { ...watts, absent: 'Distortion does not rise so far.' }),
    figureOf('clipping-onset', 8, { ...watts, low: 7.9, high: 8.1 }),
    figureOf('largest-power', 9, watts),
  ];

  test('stand beside those at which the model’s distortion rises through the same ratios', () => {
    const [atOne, atTen, clipping, ...others] = predictedPowers({ stage, fullW: 4 }, figures);
    // 0.01² = (0.01 v)² + (0.001 v²)² at v² = 50 (√1.04 − 1) (quadratic formula)
    expect(atOne?.model.value).toBeCloseTo(50 * (Math.sqrt(1.04) - 1), 4);
    expect(atOne?.verdict).toBe('higher');
    expect(atTen && predictedText(atTen)).toBe('Distortion does not rise so far.');
    expect(clipping?.model.value).toBe(4);
    expect(clipping?.decibels).toBeCloseTo(10 * Math.log10(2), 9);
    expect(others).toEqual([]);
  });

  test('of a model that ends below a ratio say where it ends', () => {
    const three = figureOf('power-at-3-percent', 3, watts);
    const [row] = predictedPowers({ stage, fullW: 4 }, [three]);
    expect(row && predictedText(row).replaceAll('\u00a0', ' ')).toBe('The model ends at 4.00 W with 2.04 %.');
  });

  test('of a stage without harmonics compare its largest power alone', () => {
    const rows = predictedPowers({ stage: null, fullW: 4 }, figures);
    expect(rows.map(({ measured }) => measured.id)).toEqual(['clipping-onset']);
  });
});

describe('what the model leaves out', () => {
  const tube = { topology: 'single-ended', driven: true, transformer: true, feedbackDb: null } as const;

  test('names driver, transformer and feedback', () => {
    const text = leftOutText(tube).join(' ');
    expect(text).toMatch(/stages before it/);
    expect(text).toMatch(/inductances and its core/);
    expect(text).toMatch(/Feedback around the whole, if there is any/);
  });

  test('says by how much feedback lowers the gain', () => {
    const text = leftOutText({ ...tube, transformer: false, feedbackDb: 12 }).join(' ');
    expect(text.replaceAll('\u00a0', ' ')).toMatch(/The 12.0 dB of feedback/);
    expect(text).toMatch(/taken to be perfect: its losses/);
  });

  test('is the distortion of a transistor stage as a whole', () => {
    const text = leftOutText({ ...tube, topology: 'follower-pair' }).join(' ');
    expect(text).toMatch(/no distortion/);
    expect(text).not.toMatch(/transformer/);
  });
});
