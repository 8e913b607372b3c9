import type { FrequencySweep } from '../types.ts';
import { type BandMeans, bandMeans } from './band-means.ts';
import { type DistortionEdges, distortionEdges } from './distortion-edges.ts';
import { sweepCurves } from './frequency-sweep.ts';

/** What a frequency sweep's distortion columns say beyond single frequencies. */
export interface FrequencySweepDetails {
  /** Null without a usable column of total harmonic distortion. */
  edges: DistortionEdges | null;
  /** One entry for the total and each harmonic that was measured. */
  bandMeans: BandMeans[];
}

/** Where distortion rises towards the ends of the band, and its means over octaves and third octaves. */
export function frequencySweepDetails(sweep: FrequencySweep): FrequencySweepDetails {
  const { thd, harmonics } = sweepCurves(sweep);
  const columns = [{ order: null, curve: thd }, ...harmonics];
  return {
    edges: thd && distortionEdges(thd),
    bandMeans: columns.flatMap(({ order, curve }) => (curve ? [bandMeans(order, curve)] : [])),
  };
}
