import { describe, expect, test } from 'vitest';
import { deviceOf, gridStepsFor, plateCurrent, plateCurves } from '../../src/load/index.ts';
import { pentode, resistanceCoupled, singleEnded, stageDiagram, tube } from './support.ts';

describe('plate curves', () => {
  const curves = plateCurves(tube('300B'), 'triode', { gridSteps: [0, -20, -40], plateVMax: 450 });

  test('one for each grid voltage, from 0 V to the largest plate voltage, by the model', () => {
    expect(curves.map(({ gridV }) => gridV)).toEqual([0, -20, -40]);
    for (const { gridV, points } of curves) {
      expect(points[0]).toEqual({ plateV: 0, plateA: 0 });
      expect(points.at(-1)?.plateV).toBe(450);
      for (const { plateV, plateA } of points) {
        expect(plateA).toBe(plateCurrent(tube('300B'), 'triode', { plateV, screenV: 0, gridV }));
      }
    }
  });

  test('lie one below the other as the grid goes down', () => {
    const ends = curves.map(({ points }) => points.at(-1)?.plateA ?? 0);
    expect(ends).toEqual([...ends].sort((a, b) => b - a));
  });
});

describe('grid steps', () => {
  test.each([
    [-61, 20],
    [-13.5, 5],
    [-1.6, 0.5],
    [-250, 50],
  ])('a bias of %d V takes steps of %d V from 0 V to about twice the bias', (bias, step) => {
    const steps = gridStepsFor(bias);
    expect(steps[0]).toBe(0);
    expect(steps[1]).toBe(-step);
    expect(steps.length).toBeGreaterThanOrEqual(5);
    expect(steps.length).toBeLessThanOrEqual(11);
    expect(Math.abs((steps.at(-1) ?? 0) - 2 * bias)).toBeLessThan(step + 1e-9);
  });
});

describe('the diagram of a stage', () => {
  test('has a load line through the point of rest with the slope of the load', () => {
    const diagram = stageDiagram(singleEnded);
    const [cold, hot] = diagram?.line ?? [];
    const rest = diagram?.rest;
    if (!cold || !hot || !rest) throw new Error('no load line');
    expect(cold.plateA).toBe(0);
    expect(hot.plateV).toBe(0);
    expect((cold.plateV - hot.plateV) / (hot.plateA - cold.plateA)).toBeCloseTo(3400, 8); // rounding
    expect((cold.plateV - rest.plateV) / rest.plateA).toBeCloseTo(3400, 8);
  });

  test('has a swing from 0 V at the grid to its trough, inside the curves', () => {
    const diagram = stageDiagram(singleEnded);
    const crest = diagram?.swing?.[0];
    const trough = diagram?.swing?.at(-1);
    if (!crest || !trough) throw new Error('no swing');
    const zero = deviceOf(tube('300B'), 'triode').plateCurrent({
      plateV: crest.plateV,
      screenV: 0,
      gridV: 0,
    });
    expect(crest.plateA).toBeCloseTo(zero, 9); // solver tolerance
    expect(trough.plateV).toBeGreaterThan(crest.plateV);
    expect(trough.plateV).toBeLessThan(diagram?.curves[0]?.points.at(-1)?.plateV ?? 0);
  });

  test('of a pentode uses its screen voltage', () => {
    const curve = stageDiagram(pentode)?.curves[0];
    const point = curve?.points.at(-1);
    if (!point) throw new Error('no curve');
    expect(point.plateA).toBe(plateCurrent(tube('EL34'), 'pentode', { ...point, screenV: 265, gridV: 0 }));
  });

  test('without a load has curves and rest alone; without a point of rest there is none', () => {
    const bare = stageDiagram({ ...singleEnded, loadOhm: null });
    expect(bare).toMatchObject({ line: null, swing: null });
    expect(bare?.curves.length).toBeGreaterThan(3);
    expect(stageDiagram(resistanceCoupled)).toBeNull();
  });
});
