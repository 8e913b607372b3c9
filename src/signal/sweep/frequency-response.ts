import { sweepMessages as messages } from '../messages.ts';
import type { FrequencyResponse, ResponseLimits, Withheld } from '../types.ts';
import { type Curve, extremeOf, placeOf, valueAt } from './interpolate.ts';

export interface ResponseOptions {
  referenceHz: number;
  bandHz: [number, number];
  rangeHz: [number, number] | null;
}

/** Drops below the reference at which the limits are stated, decibels. */
const drops = [1, 3];

/** The response of a sweep of level or gain, with the reason for every figure that it does not reach. */
export function frequencyResponse(
  { level, gainDb }: { level: Curve | null; gainDb: Curve | null },
  { referenceHz, bandHz, rangeHz }: ResponseOptions,
): { response: FrequencyResponse | null; withheld: Withheld[] } {
  const curve = level === null ? gainDb : inDecibels(level);
  if (curve === null || rangeHz === null) return absent(messages.noLevel().message);
  if (curve.axis.length < 2) return absent(messages.tooFewPoints().message);
  const reference = valueAt(curve, referenceHz);
  if (reference === null) return absent(messages.outsideSweep(referenceHz, rangeHz).message);
  const relative = { ...curve, values: curve.values.map((value) => value - reference) };
  const limits = drops.map((dropDb) => limitsOf(relative, referenceHz, dropDb));
  const deviation = deviationOf(relative, bandHz);
  const response = {
    referenceHz,
    referenceLevel: level && valueAt(level, referenceHz),
    referenceGainDb: level === null ? reference : null,
    limits,
    deviation,
  };
  return { response, withheld: [...missingLimits(limits, relative), ...missingDeviation(deviation, bandHz)] };
}

const absent = (reason: string) => ({ response: null, withheld: [{ figure: 'response', reason }] });

function inDecibels({ axis, values }: Curve): Curve {
  return { axis, values: values.map((value) => 20 * Math.log10(value)), between: 'straight' };
}

interface Point {
  axis: number;
  value: number;
}

/** The first places on either side of the reference at which the response has dropped so far. */
function limitsOf(relative: Curve, referenceHz: number, dropDb: number): ResponseLimits {
  const points = Array.from(relative.axis, (axis, i): Point => ({ axis, value: relative.values[i] ?? 0 }));
  const reference = { axis: referenceHz, value: 0 };
  const above = points.filter((point) => point.axis > referenceHz);
  const below = points.filter((point) => point.axis < referenceHz).reverse();
  return {
    dropDb,
    lowerHz: firstDrop([reference, ...below], -dropDb),
    upperHz: firstDrop([reference, ...above], -dropDb),
  };
}

function firstDrop(points: readonly Point[], level: number): number | null {
  const next = points.findIndex((point) => point.value <= level);
  const [before, after] = [points[next - 1], points[next]];
  return before === undefined || after === undefined ? null : placeOf(level, before, after);
}

/** The largest distance from 0 dB among the points within the band and at the band's edges. */
function deviationOf(relative: Curve, [low, high]: [number, number]): FrequencyResponse['deviation'] {
  const { axis, values } = relative;
  const bandHz: [number, number] = [Math.max(low, axis[0] ?? low), Math.min(high, axis.at(-1) ?? high)];
  if (!(bandHz[0] < bandHz[1])) return null;
  const edges = bandHz.map((at) => ({ axis: at, value: valueAt(relative, at) ?? 0 }));
  const inside = Array.from(axis, (at, i): Point => ({ axis: at, value: values[i] ?? 0 }));
  const points = [...edges, ...inside.filter((point) => point.axis > bandHz[0] && point.axis < bandHz[1])];
  const worst = extremeOf(
    { axis: Float64Array.from(points, (p) => p.axis), values: Float64Array.from(points, (p) => p.value) },
    Math.abs,
  );
  return worst && { db: worst.value, atHz: worst.at, bandHz };
}

function missingLimits(limits: readonly ResponseLimits[], { axis }: Curve): Withheld[] {
  return limits.flatMap(({ dropDb, lowerHz, upperHz }) => {
    const missing = (side: 'lower' | 'upper', endHz: number | undefined) => ({
      figure: `${side} limit at −${dropDb} dB`,
      reason: messages.limitNotReached(dropDb, side, endHz ?? 0).message,
    });
    return [
      ...(lowerHz === null ? [missing('lower', axis[0])] : []),
      ...(upperHz === null ? [missing('upper', axis.at(-1))] : []),
    ];
  });
}

function missingDeviation(deviation: FrequencyResponse['deviation'], bandHz: [number, number]): Withheld[] {
  return deviation === null
    ? [{ figure: 'deviation', reason: messages.bandOutsideSweep(bandHz).message }]
    : [];
}
