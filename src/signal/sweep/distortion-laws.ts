import { type PaperPoint, type StraightRun, straightRun } from '../record/straight-run.ts';
import { powerBlend } from './interpolate.ts';

/** A ratio measured at an output power. */
export interface PowerRatio {
  powerW: number;
  ratio: number;
}

/** How one distortion column follows the level over the range where it is straight on log-log paper. */
export interface DistortionLaw {
  /** Null for the total. */
  order: number | null;
  /** Decibels of the ratio re the fundamental per decibel of level; a clean order n has n − 1. Null without a law. */
  slope: number | null;
  slopeLow: number | null;
  slopeHigh: number | null;
  /** True where a clean order n lies within a tenth of a decibel per decibel of the interval. Null for the total. */
  clean: boolean | null;
  /** Output power over which the law holds. */
  rangeW: [number, number] | null;
  /** Which way the column leaves the line above that range; `end` where the sweep ends on it. */
  leaves: 'upwards' | 'downwards' | 'end' | null;
  points: number;
}

/** The straight line of a column as ratio over power, for those who extend it. */
export interface FittedLaw extends DistortionLaw {
  /** The ratio that the line gives at a power, or null where there is no line. */
  ratioAt: ((powerW: number) => number) | null;
  /** Position of the last reading on the line. */
  lastOnLine: number;
}

/** A fall in proportion to the level has a slope of −1; anything that falls half as fast is no law of a distortion. */
const slopes = [-0.5, 8] as const;
/** The range of a law: 8 dB of level, a factor of six in power. */
const wanted = { slope: slopes, scatterDb: 0.5, leastPoints: 6, leastSpanDb: 8 };
const tolerance = 0.1;

/**
 * Fits the law of a distortion column: its longest straight run on log-log paper that does not fall like noise.
 *
 * @source a polynomial term of order n gives an nth harmonic in proportion to the (n − 1)th power of the amplitude
 * re the fundamental: expansion of cosⁿ, any textbook.
 */
export function distortionLaw(order: number | null, readings: readonly PowerRatio[]): FittedLaw {
  const points = onPaper(readings);
  const run = straightRun(
    points.map(({ point }) => point),
    wanted,
  );
  if (!run) return { ...none, order };
  const [from, to] = [points[run.first], points[run.last]];
  const [slopeLow, slopeHigh] = [run.slope - run.slopeHalfWidth, run.slope + run.slopeHalfWidth];
  return {
    order,
    slope: run.slope,
    ...{ slopeLow, slopeHigh },
    clean: order === null ? null : slopeLow - tolerance <= order - 1 && order - 1 <= slopeHigh + tolerance,
    rangeW: [from?.powerW ?? 0, to?.powerW ?? 0],
    leaves: leavingOf(
      points.map(({ point }) => point),
      run,
    ),
    points: run.last - run.first + 1,
    ratioAt: (powerW) => 10 ** ((run.intercept + 10 * run.slope * Math.log10(powerW)) / 20),
    lastOnLine: to?.at ?? 0,
  };
}

const none: FittedLaw = {
  order: null,
  ...{ slope: null, slopeLow: null, slopeHigh: null, clean: null, rangeW: null, leaves: null },
  ...{ points: 0, ratioAt: null, lastOnLine: 0 },
};

interface Placed {
  at: number;
  powerW: number;
  point: PaperPoint;
}

/** Readings in order of drive up to the largest power, as decibels of level and of ratio; zeros have no place. */
function onPaper(readings: readonly PowerRatio[]): Placed[] {
  const placed: Placed[] = [];
  readings.forEach(({ powerW, ratio }, at) => {
    const x = 10 * Math.log10(powerW);
    const rises = x > (placed.at(-1)?.point.x ?? Number.NEGATIVE_INFINITY);
    if (ratio > 0 && rises) placed.push({ at, powerW, point: { x, y: 20 * Math.log10(ratio) } });
  });
  return placed;
}

/** Three quarters of a decibel off the line for good is off the line. */
const offDb = 0.75;

function leavingOf(
  points: readonly PaperPoint[],
  { last, slope, intercept }: StraightRun,
): DistortionLaw['leaves'] {
  const end = points.at(-1);
  if (!end || last >= points.length - 1) return 'end';
  const departure = end.y - intercept - slope * end.x;
  if (Math.abs(departure) < offDb) return 'end';
  return departure > 0 ? 'upwards' : 'downwards';
}

/** How far above the laws of its parts total distortion is where clipping is said to begin. */
const onsetFactor = 1.5;

/** Where total distortion leaves the laws upwards for good, or why there is no such place. */
export interface ClippingOnset {
  powerW: number | null;
  absence: 'no law' | 'stays below' | null;
}

/**
 * The power from which total distortion stays more than `onsetFactor` above what the laws foretell to the end of the
 * sweep. They foretell the total's own law or the root sum of squares of the harmonics' laws, whichever is more: a
 * third harmonic that overtakes the second is no clipping.
 */
export function clippingOnset(
  readings: readonly PowerRatio[],
  total: FittedLaw,
  harmonics: readonly FittedLaw[],
): ClippingOnset {
  if (!total.ratioAt) return { powerW: null, absence: 'no law' };
  const excess = readings.map(({ powerW, ratio }) => {
    const single = harmonics.map(({ ratioAt }) => ratioAt?.(powerW) ?? 0);
    const foretold = Math.max(total.ratioAt?.(powerW) ?? 0, Math.hypot(...single));
    return { powerW, over: ratio / foretold };
  });
  let first = excess.length;
  while (first - 1 > total.lastOnLine && (excess[first - 1]?.over ?? 0) > onsetFactor) first--;
  const [below, above] = [excess[first - 1], excess[first]];
  if (!below || !above) return { powerW: null, absence: 'stays below' };
  const share =
    below.over > 0
      ? Math.log(onsetFactor / below.over) / Math.log(above.over / below.over)
      : onsetFactor / above.over;
  return { powerW: powerBlend(below.powerW, above.powerW, share), absence: null };
}
