import type { StageCycle } from '../solving/settle.ts';
import { lineEnds } from '../stage/load-line.ts';
import type { Connection, Device, RestingStage, TracedFamily, TubeType } from '../types.ts';
import { marginOf } from './connections.ts';
import { deviceOf } from './device.ts';

/** Points of one curve; enough for a smooth drawing at any size. */
const pointsPerCurve = 121;

export interface PlateCurve {
  gridV: number;
  points: { plateV: number; plateA: number }[];
}

/** What the plate-curve chart draws of one stage. */
export interface PlateDiagram {
  curves: PlateCurve[];
  rest: { plateV: number; plateA: number };
  /** Null without a load. */
  line: { plateV: number; plateA: number }[] | null;
  /** From the crest of the grid's swing to its trough, rectification included; null without a swing. */
  swing: { plateV: number; plateA: number }[] | null;
}

/** Plate current against plate voltage from 0 V to `plateVMax`, one curve for each grid voltage. */
export function plateCurves(
  tube: TubeType,
  connection: Connection,
  {
    gridSteps,
    plateVMax,
    screenV = 0,
  }: { gridSteps: readonly number[]; plateVMax: number; screenV?: number },
): PlateCurve[] {
  return curvesOf(deviceOf(tube, connection), { gridSteps, plateVMax, screenV });
}

/** Curves of a device, where it is known. */
function curvesOf(
  device: Device,
  { gridSteps, plateVMax, screenV }: { gridSteps: readonly number[]; plateVMax: number; screenV: number },
): PlateCurve[] {
  return gridSteps.map((gridV) => {
    const voltages = Array.from(
      { length: pointsPerCurve },
      // Squared spacing: the knee of a pentode lies in the first tenth of the range.
      (_, k) => plateVMax * (k / (pointsPerCurve - 1)) ** 2,
    );
    const points = voltages
      .map((plateV) => ({ plateV, screenV, gridV }))
      .filter((at) => marginOf(device, at) >= 0)
      .map((at) => ({ plateV: at.plateV, plateA: device.plateCurrent(at) }));
    return { gridV, points };
  });
}

/** Grid voltages from 0 V down to about twice the bias, in steps of 1, 2, 2.5 or 5 times a power of ten. */
export function gridStepsFor(biasV: number): number[] {
  const rough = Math.max(Math.abs(biasV), 0.1) / 5;
  const decade = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 2.5, 5].find((size) => size * decade >= rough) ?? 10) * decade;
  const count = Math.floor((2 * Math.abs(biasV)) / step + 1e-9);
  return Array.from({ length: count + 1 }, (_, k) => (k === 0 ? 0 : -Number((k * step).toPrecision(6))));
}

/** Curves, load line and steady swing of a stage; a traced family gives its own grid voltages. */
export function plateDiagram(
  stage: RestingStage,
  family: TracedFamily | null,
  cycle: StageCycle | null,
): PlateDiagram {
  const { plateV, plateA, gridV, screenV } = stage.rest;
  const line = cycle && lineEnds(stage, cycle.line.loadOhm);
  const gridSteps = family ? family.curves.map((curve) => curve.gridV).reverse() : gridStepsFor(gridV);
  const plateVMax = Math.max(2 * plateV, line?.[0]?.plateV ?? 0);
  return {
    curves: curvesOf(stage.device, { gridSteps, plateVMax, screenV }),
    rest: { plateV, plateA },
    line,
    swing: cycle?.half.map((at) => ({ plateV: at.plateV, plateA: at.plateA })) ?? null,
  };
}
