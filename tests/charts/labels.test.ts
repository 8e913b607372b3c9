import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lineHeight, placeLabels } from '../../src/charts/end-labels.ts';
import { harmonicsAgainstPower } from '../../src/charts/index.ts';
import { placeLoadMarks } from '../../src/charts/load-marks.ts';
import { textWidth, wrapText } from '../../src/charts/text-width.ts';
import { chartOf, sceneOf } from './support.ts';

describe('textWidth(text, size)', () => {
  // IBM Plex Sans Regular, units of 1/1000 em: 1 600, space 236, k 527, H 707, z 464.
  it('adds the advance widths of the font', () => {
    expect(textWidth('1 kHz', 1000)).toBe(600 + 236 + 527 + 707 + 464);
  });

  it('gives every digit the same width', () => {
    expect(new Set([...'0123456789'].map((digit) => textWidth(digit, 13)))).toEqual(new Set([7.8]));
  });

  it('counts an unknown character as wide', () => {
    expect(textWidth('\u4e00', 1000)).toBe(700);
  });
});

describe('wrapText(text, size, most)', () => {
  it('breaks at spaces into lines no wider than the room', () => {
    const lines = wrapText('triode connection at 300 V', 13, 84);
    expect(lines.join(' ')).toBe('triode connection at 300 V');
    for (const line of lines) expect(textWidth(line, 13)).toBeLessThanOrEqual(84);
  });

  it('cuts a word that is too wide with an ellipsis', () => {
    const [line = ''] = wrapText('transformerless', 13, 50);
    expect(line).toMatch(/^transf.*…$/);
    expect(textWidth(line, 13)).toBeLessThanOrEqual(50);
  });
});

describe('placeLabels(anchors, most, height)', () => {
  const place = (ys: readonly number[]) =>
    placeLabels(
      ys.map((y, i) => ({ text: `line ${i}`, x: 0, y, colour: 'ink' })),
      100,
      200,
    );

  it('leaves labels at the ends of their lines where they are apart', () => {
    expect(place([10, 60, 150]).map(({ labelY }) => labelY)).toEqual([10, 60, 150]);
  });

  it('keeps the order of the lines and never lets labels touch, as many as fit', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 200, noNaN: true }), { maxLength: 12 }), (ys) => {
        const placed = place(ys);
        for (const [i, { y, labelY }] of placed.entries()) {
          const next = placed[i + 1];
          expect(labelY).toBeGreaterThanOrEqual(-1e-9);
          expect(labelY).toBeLessThanOrEqual(200 + 1e-9);
          if (next === undefined) continue;
          expect(next.y).toBeGreaterThanOrEqual(y);
          expect(next.labelY - labelY).toBeGreaterThanOrEqual(lineHeight - 1e-9);
        }
      }),
      { seed: 20260101 },
    );
  });
});

describe('placeLoadMarks(marks, axis)', () => {
  const axis = { kind: 'log', domain: [1000, 10_000], length: 300 } as const;
  const mark = (label: string, loadOhm: number) => ({ label, loadOhm, chosen: false });

  it('puts labels that would meet in rows above each other', () => {
    const names = ['one rule', 'another rule', 'a third rule'];
    const { placed, rows } = placeLoadMarks(
      names.map((name, k) => mark(name, 2000 + 100 * k)),
      axis,
    );
    expect(rows).toBe(2);
    expect(placed.map(({ row }) => row).sort()).toEqual([0, 0, 1]);
  });

  it('parts the labels of two near rules to both sides', () => {
    const { placed, rows } = placeLoadMarks([mark('one rule', 2000), mark('another rule', 2100)], axis);
    expect(rows).toBe(1);
    expect(placed.map(({ side, lines }) => [side, ...lines])).toEqual([
      ['left', 'one rule'],
      ['right', 'another rule'],
    ]);
  });

  it('gives marks that look like one a common label with each name once, the chosen one its own', () => {
    const marks = [mark('rule', 3000), mark('law', 3010), mark('law', 3020)];
    const { placed } = placeLoadMarks([...marks, { ...mark('chosen', 3015), chosen: true }], axis);
    expect(placed.map(({ lines }) => lines)).toContainEqual(['rule · law']);
    expect(placed.map(({ lines }) => lines)).toContainEqual(['chosen']);
    expect(placed.flatMap(({ rules }) => rules)).toHaveLength(4);
  });

  it('breaks a long name at its spaces rather than cutting it', () => {
    const name = 'the output transformer of the first amplifier on this bench';
    const { placed } = placeLoadMarks([mark(name, 9000)], axis);
    const [first] = placed;
    expect(first?.lines.join(' ')).toBe(name);
    expect(Math.max(...(first?.lines ?? []).map((line) => textWidth(line, 13)))).toBeLessThanOrEqual(300);
  });

  it('uses one row for labels far apart, and leaves out loads outside of the axis', () => {
    const { placed, rows } = placeLoadMarks(
      [mark('low', 1200), mark('high', 5000), mark('outside', 20_000)],
      axis,
    );
    expect(rows).toBe(1);
    expect(placed.map(({ lines }) => lines)).toEqual([['high'], ['low']]);
  });

  it('never puts one label over another, however near the loads are', () => {
    const loads = fc.array(fc.double({ min: 1000, max: 10_000, noNaN: true }), {
      minLength: 2,
      maxLength: 12,
    });
    fc.assert(
      fc.property(loads, (ohms) => {
        const { placed } = placeLoadMarks(
          ohms.map((ohm, i) => mark(`rule ${i}`, ohm)),
          axis,
        );
        for (const [i, one] of placed.entries()) {
          for (const other of placed.slice(i + 1)) {
            const rows = one.row < other.row + other.lines.length && other.row < one.row + one.lines.length;
            const meet = rows && one.left < other.right && one.right > other.left;
            expect(meet, `${one.lines} over ${other.lines}`).toBe(false);
          }
        }
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});

describe('numbers of a vertical axis', () => {
  const powerW = [0.01, 0.1, 1];
  const long = {
    channel: 'output',
    powerW,
    orders: [{ order: 2, ratio: powerW.map((watt) => 2e-7 * watt) }],
  };

  it.each(['wide', 'narrow'] as const)(
    'as long as 0.0000002 stay inside a %s drawing of the usual width',
    async (size) => {
      const chart = chartOf(harmonicsAgainstPower(long, size));
      const padding = chart.spec.padding as Record<'left' | 'right', number>;
      const { texts } = await sceneOf(chart);
      expect(texts.map(({ text }) => text)).toContain('0.000001');
      for (const { left, text } of texts) expect(left, text).toBeGreaterThanOrEqual(-padding.left);
      expect(Number(chart.spec.width) + padding.left + padding.right).toBe(size === 'wide' ? 720 : 360);
    },
  );
});
