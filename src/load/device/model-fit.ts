import type { Device, ModelFit, TracedFamily } from '../types.ts';

/** Relative differences are counted from this share of the largest traced current. */
const countedShare = 0.05;

interface Compared {
  plateV: number;
  gridV: number;
  tracedA: number;
  modelA: number;
}

/**
 * The model of a type against traced curves of a specimen, over the traced points that carry at least 5 % of the
 * largest current: root mean square and largest relative difference, where that is, and the factor on the
 * model's current with the least sum of squared differences in amperes, with the rms difference that is left.
 * Null where the model or the trace draws nothing.
 * @source least squares with one factor: sum of products over sum of squares
 */
export function fitOfModel(model: Device, family: TracedFamily, screenV: number): ModelFit | null {
  const points = comparedPoints(model, family, screenV);
  const squares = points.reduce((sum, { modelA }) => sum + modelA ** 2, 0);
  if (squares === 0) return null;
  const factor = points.reduce((sum, { modelA, tracedA }) => sum + modelA * tracedA, 0) / squares;
  const largest = points.reduce((most, point) =>
    Math.abs(difference(point)) > Math.abs(difference(most)) ? point : most,
  );
  return {
    points: points.length,
    rmsRatio: rms(points.map((point) => difference(point))),
    largestRatio: difference(largest),
    largestAt: { plateV: largest.plateV, gridV: largest.gridV },
    currentFactor: factor,
    rmsRatioWithFactor: rms(points.map((point) => difference(point, factor))),
  };
}

function comparedPoints(model: Device, { curves }: TracedFamily, screenV: number): Compared[] {
  const mostA = curves.flatMap(({ plateA }) => plateA).reduce((most, current) => Math.max(most, current), 0);
  return curves
    .flatMap(({ gridV, plateV, plateA }) =>
      plateV.map((voltage, k) => ({ gridV, plateV: voltage, tracedA: plateA[k] ?? 0 })),
    )
    .filter(({ tracedA }) => tracedA > 0 && tracedA >= countedShare * mostA)
    .map((point) => ({ ...point, modelA: model.plateCurrent({ ...point, screenV }) }));
}

/** Model less trace, over trace. */
const difference = ({ modelA, tracedA }: Compared, factor = 1) => (factor * modelA) / tracedA - 1;

const rms = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length);
