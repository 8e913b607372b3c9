import type { ChannelSummary } from '../types.ts';

/** Power into a declared load. */
export interface OutputPower {
  loadOhm: number;
  /** Of the fundamental alone, with its standard deviation; null without a fundamental. */
  fundamentalW: number | null;
  fundamentalUncertaintyW: number | null;
  /** Of everything but the direct part. */
  totalW: number;
}

/**
 * Power that a channel in volts across a load, or in amperes through it, stands for. Null for other units and for a
 * record without rms. The load counts as a resistance.
 * @source Joule's law: P = U²/R = I²·R.
 */
export function outputPower(
  channel: Pick<ChannelSummary, 'unit' | 'rms' | 'dc' | 'noiseRms' | 'fundamental' | 'harmonics'>,
  loadOhm: number,
): OutputPower | null {
  const { unit, fundamental } = channel;
  const perSquare = unit === 'V' ? 1 / loadOhm : unit === 'A' ? loadOhm : null;
  const square = variationOf(channel);
  if (perSquare === null || square === null) return null;
  return {
    loadOhm,
    fundamentalW: fundamental && fundamental.rms ** 2 * perSquare,
    fundamentalUncertaintyW: fundamental && 2 * fundamental.rms * fundamental.rmsUncertainty * perSquare,
    totalW: square * perSquare,
  };
}

/**
 * Mean square of everything but the direct part: of the fitted sines and of what they leave, so that a broken cycle at
 * the end of the record does not count; of the samples where nothing is fitted.
 */
function variationOf({
  rms,
  dc,
  noiseRms,
  fundamental,
  harmonics,
}: Pick<ChannelSummary, 'rms' | 'dc' | 'noiseRms' | 'fundamental' | 'harmonics'>): number | null {
  if (fundamental && noiseRms !== null) {
    const ratios = harmonics.reduce((sum, { ratio }) => sum + ratio * ratio, 1);
    return fundamental.rms ** 2 * ratios + noiseRms ** 2;
  }
  return rms === null || dc === null ? null : Math.max(0, rms ** 2 - dc ** 2);
}
