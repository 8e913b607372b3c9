import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { along, below } from '../../src/charts/axis.ts';
import { markSymbol, type SpectrumMark } from '../../src/charts/harmonic-marks.ts';
import type { Panel } from '../../src/charts/layers.ts';
import { markLabels } from '../../src/charts/mark-labels.ts';
import { textWidth } from '../../src/charts/text-width.ts';
import { fontSize } from '../../src/charts/theme.ts';

/** The plot of a spectrum on a phone. */
const panel = {
  x: { kind: 'log', domain: [10, 100_000], length: 255 },
  y: { kind: 'linear', domain: [-130, 10], length: 180 },
  top: 0,
} as const;

const markOf = (label: string, levelDb: number, detected: boolean): SpectrumMark => ({
  ...{ label, frequencyHz: 1000 * Number(label), levelDb, detected },
  symbol: markSymbol(detected),
});

/** The fundamental, and harmonics from the second on at random levels. */
const marks = fc
  .array(fc.tuple(fc.double({ min: -125, max: -1, noNaN: true }), fc.boolean()), { maxLength: 24 })
  .map((levels) => [
    markOf('1', 0, true),
    ...levels.map(([levelDb, detected], i) => markOf(`${i + 2}`, levelDb, detected)),
  ]);

interface Label {
  text: string;
  px: number;
  py: number;
}

const labelsOf = (shown: readonly SpectrumMark[], plot: Panel = panel): Label[] =>
  markLabels(shown, plot).map(({ text, px, py }) => ({
    ...{ text: [text].flat().join(''), px: Number(px), py: Number(py) },
  }));

/** Figures of the chart's font are at most ten pixels tall, a symbol eight across. */
const [figureHeight, symbolSize] = [10, 8];

const halfWidth = (text: string) => textWidth(text, fontSize) / 2;

const meet = (one: Label, other: Label, room = 0) =>
  Math.abs(one.px - other.px) < halfWidth(one.text) + halfWidth(other.text) + room &&
  Math.abs(one.py - other.py) < figureHeight + room;

const hides = ({ text, px, py }: Label, { frequencyHz, levelDb }: SpectrumMark) =>
  Math.abs(px - along(panel.x, frequencyHz)) < halfWidth(text) + symbolSize / 2 &&
  Math.abs(py - below(panel.y, levelDb)) < (figureHeight + symbolSize) / 2;

const always = { seed: 20261125, numRuns: 500 };

describe('markLabels(marks, panel)', () => {
  it('never puts one label over another, nor outside of the plot to the left, right or below', () => {
    fc.assert(
      fc.property(marks, (shown) => {
        const labels = labelsOf(shown);
        for (const [i, label] of labels.entries()) {
          expect(labels.slice(i + 1).filter((other) => meet(label, other))).toEqual([]);
          expect(label.px - halfWidth(label.text)).toBeGreaterThanOrEqual(0);
          expect(label.px + halfWidth(label.text)).toBeLessThanOrEqual(panel.x.length);
          expect(label.py + figureHeight / 2).toBeLessThanOrEqual(panel.y.length);
        }
      }),
      always,
    );
  });

  it('leaves a line above the noise without a label only where others above the noise have theirs', () => {
    const cramped = { ...panel, x: { ...panel.x, length: 90 }, y: { ...panel.y, length: 60 } };
    let omitted = 0;
    fc.assert(
      fc.property(marks, (shown) => {
        const clear = shown.filter(({ detected }) => detected);
        const labels = labelsOf(shown, cramped);
        const ofClear = labels.filter(({ text }) => clear.some(({ label }) => label === text));
        for (const { label: text, frequencyHz, levelDb } of clear) {
          if (ofClear.some((drawn) => drawn.text === text)) continue;
          omitted++;
          const last = cramped.x.length - halfWidth(text);
          const px = Math.min(last, along(cramped.x, frequencyHz));
          const above = { text, px, py: below(cramped.y, levelDb) - 13 };
          // Labels keep a pixel free on each side, and a row is two pixels taller than its figures.
          const inTheWay = ofClear.filter((drawn) => meet(above, drawn, 2.1));
          expect(inTheWay, text).not.toEqual([]);
        }
      }),
      always,
    );
    expect(omitted).toBeGreaterThan(0);
  });

  it('names a line that could as well be noise beside its symbol, and hides no symbol by it', () => {
    fc.assert(
      fc.property(marks, (shown) => {
        for (const label of labelsOf(shown)) {
          const mark = shown.find(({ label: text }) => text === label.text);
          if (mark === undefined || mark.detected) continue;
          const across = Math.abs(label.px - along(panel.x, mark.frequencyHz)) - halfWidth(label.text);
          expect(across).toBeLessThan(symbolSize);
          expect(Math.abs(label.py - below(panel.y, mark.levelDb))).toBeLessThan(fontSize + 0.001);
          expect(shown.filter((other) => hides(label, other))).toEqual([]);
        }
      }),
      always,
    );
  });

  it('names a line above the noise where one that could be noise stands earlier in its way', () => {
    const labels = labelsOf([markOf('8', -100, false), markOf('9', -100, true)]).map(({ text }) => text);
    expect(labels[0]).toBe('9');
  });
});
