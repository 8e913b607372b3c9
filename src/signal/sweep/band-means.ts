import { type FrequencyBand, fractionalOctaves } from './fractional-octaves.ts';
import { type Curve, valueAt } from './interpolate.ts';

/** Means of a distortion ratio over a stretch of the logarithmic frequency axis. */
export interface RatioMeans {
  /** Root of the mean square: what the band's distortion energy amounts to. */
  energy: number;
  /** Mean of the logarithm, as the eye takes it from a logarithmic chart; null where a reading is zero. */
  geometric: number | null;
}

/** The means of one column over one band. */
export interface BandMean extends RatioMeans {
  band: FrequencyBand;
  /** Readings of the column within the band, its edges included. */
  readings: number;
}

/** A band that has no mean. */
export interface BandLeftOut {
  band: FrequencyBand;
  because: 'partly outside' | 'no reading';
}

/** The means of one distortion column over every band that it covers. */
export interface BandMeans {
  /** Null for the total. */
  order: number | null;
  bands: BandMean[];
  leftOut: BandLeftOut[];
}

/**
 * Means of a distortion column over octave and third-octave bands. Only bands that lie wholly between the first and
 * the last reading and hold at least one have a mean; others that the sweep touches are listed with the reason.
 */
export function bandMeans(order: number | null, curve: Curve): BandMeans {
  const means: BandMeans = { order, bands: [], leftOut: [] };
  const [first = 0] = curve.axis;
  const last = curve.axis.at(-1) ?? 0;
  for (const band of [...fractionalOctaves(1), ...fractionalOctaves(3)]) {
    if (band.highHz <= first || band.lowHz >= last) continue;
    const readings = curve.axis.filter((hertz) => hertz >= band.lowHz && hertz <= band.highHz).length;
    const found = readings > 0 ? ratioMeans(curve, [band.lowHz, band.highHz]) : null;
    if (found) means.bands.push({ band, readings, ...found });
    else means.leftOut.push({ band, because: readings > 0 ? 'partly outside' : 'no reading' });
  }
  return means;
}

/**
 * Energy and geometric mean of a curve over a range, both over the logarithm of frequency and exact for runs that are
 * straight on log-log paper. Null where the curve does not reach both ends: nothing is extrapolated.
 * @source integrals of r² and ln r for r = exp(a + b·u), u = ln f (derived).
 */
export function ratioMeans(curve: Curve, [lowHz, highHz]: readonly [number, number]): RatioMeans | null {
  const [low, high] = [valueAt(curve, lowHz), valueAt(curve, highHz)];
  if (low === null || high === null || !(lowHz < highHz)) return null;
  const inside = Array.from(curve.axis, (at, i) => ({ at, value: curve.values[i] ?? 0 })).filter(
    ({ at }) => at > lowHz && at < highHz,
  );
  const points = [{ at: lowHz, value: low }, ...inside, { at: highHz, value: high }];
  let [squares, logarithms] = [0, 0];
  points.slice(1).forEach((to, i) => {
    const from = points[i] ?? to;
    const width = Math.log(to.at / from.at);
    squares += width * meanSquare(from.value, to.value);
    logarithms += (width * (Math.log(from.value) + Math.log(to.value))) / 2;
  });
  const whole = Math.log(highHz / lowHz);
  const geometric = Math.exp(logarithms / whole);
  const hasZero = points.some(({ value }) => value === 0);
  return { energy: Math.sqrt(squares / whole), geometric: hasZero ? null : geometric };
}

/** Mean of the square along a run that is straight in the logarithm, or in the ratio itself next to a zero. */
function meanSquare(from: number, to: number): number {
  if (from === 0 || to === 0) return (from * from + from * to + to * to) / 3;
  const slope = Math.log(to / from);
  return Math.abs(slope) < 1e-6 ? from * to : ((to - from) * (to + from)) / (2 * slope);
}
