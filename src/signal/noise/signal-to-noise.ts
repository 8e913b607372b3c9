import type { ChannelSummary } from '../types.ts';

/** What an amplifier is rated to deliver. */
export interface RatedOutput {
  powerW: number;
  loadOhm: number;
}

/** A level over the noise in a band, decibels. */
export interface SignalToNoise {
  db: number;
  aWeightedDb: number;
  reference: 'rated output' | 'fundamental';
  referenceRms: number;
}

/**
 * Signal over noise: the rated output where one is stated and the channel is in volts or amperes, the fundamental of
 * the record itself otherwise. Null without either, or without noise.
 * @source signal-to-noise ratio re a stated output: IEC 60268-3, from memory.
 */
export function signalToNoise(
  { unit, fundamental, bandNoise }: Pick<ChannelSummary, 'unit' | 'fundamental' | 'bandNoise'>,
  rated: RatedOutput | null,
): SignalToNoise | null {
  const ratedRms = rated && ratedLevel(rated, unit);
  const referenceRms = ratedRms ?? fundamental?.rms ?? null;
  if (referenceRms === null || bandNoise === null) return null;
  const over = ({ rms }: { rms: number }) => 20 * Math.log10(referenceRms / rms);
  const [db, aWeightedDb] = [over(bandNoise.unweighted), over(bandNoise.aWeighted)];
  if (!Number.isFinite(db) || !Number.isFinite(aWeightedDb)) return null;
  return { db, aWeightedDb, reference: ratedRms === null ? 'fundamental' : 'rated output', referenceRms };
}

function ratedLevel({ powerW, loadOhm }: RatedOutput, unit: string): number | null {
  if (unit === 'V') return Math.sqrt(powerW * loadOhm);
  return unit === 'A' ? Math.sqrt(powerW / loadOhm) : null;
}
