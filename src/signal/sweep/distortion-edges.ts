import { ratioMeans } from './band-means.ts';
import { type Curve, placeOf } from './interpolate.ts';

/** Where distortion passes a level for good towards one end of a sweep, or why there is no such place. */
export interface DistortionEdge {
  ratio: number;
  side: 'low' | 'high';
  /** Everything measured beyond this frequency lies above the ratio; null where there is no such frequency. */
  atHz: number | null;
  absence: 'end below' | 'always above' | null;
  /** The reading at the sweep's end on this side. */
  end: { ratio: number; atHz: number };
}

/** The middle of the band, and how far distortion has risen where it is said to begin to rise. */
export const midBand: { rangeHz: [number, number]; onsetFactor: number } = {
  rangeHz: [400, 2000],
  onsetFactor: 2,
};

const stated = [0.01, 0.03, 0.1];

export interface DistortionEdges {
  /** Geometric mean of THD over the middle of the band; null where the sweep does not cover it. */
  midBandRatio: number | null;
  /** Where THD passes twice its mid-band value towards low frequencies. */
  onset: DistortionEdge | null;
  /** Where THD passes 1, 3 and 10 % towards either end. */
  crossings: DistortionEdge[];
}

/** Where total harmonic distortion rises towards the two ends of a sweep. */
export function distortionEdges(thd: Curve): DistortionEdges {
  const midBandRatio = ratioMeans(thd, midBand.rangeHz)?.geometric ?? null;
  return {
    midBandRatio,
    onset: midBandRatio === null ? null : edgeOf(thd, midBand.onsetFactor * midBandRatio, 'low'),
    crossings: (['low', 'high'] as const).flatMap((side) => stated.map((ratio) => edgeOf(thd, ratio, side))),
  };
}

/** The first place, seen from one end of the sweep, where distortion comes down to a ratio. */
function edgeOf({ axis, values }: Curve, ratio: number, side: 'low' | 'high'): DistortionEdge {
  const points = Array.from(axis, (at, i) => ({ at, value: values[i] ?? 0 }));
  if (side === 'high') points.reverse();
  const [first] = points;
  const end = { ratio: first?.value ?? 0, atHz: first?.at ?? 0 };
  const next = points.findIndex(({ value }) => value <= ratio);
  const [above, below] = [points[next - 1], points[next]];
  if (next === 0) return { ratio, side, atHz: null, absence: 'end below', end };
  if (!above || !below) return { ratio, side, atHz: null, absence: 'always above', end };
  return { ratio, side, atHz: crossing(above, below, ratio), absence: null, end };
}

type At = { at: number; value: number };

function crossing(above: At, below: At, ratio: number): number {
  const scale = below.value > 0 ? Math.log : (value: number) => value;
  return placeOf(
    scale(ratio),
    { axis: above.at, value: scale(above.value) },
    { axis: below.at, value: scale(below.value) },
  );
}
