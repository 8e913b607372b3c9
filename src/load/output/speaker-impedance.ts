import type { OutputDescription, SpeakerSweep } from '../types.ts';
import { type Complex, over, plus, polar, real, times } from './complex.ts';
import type { TurnsInUse } from './output-transformer.ts';

/**
 * Impedance of a loudspeaker between the points of its sweep: modulus on logarithmic axes, phase linear over the
 * logarithm of frequency. Beyond its ends the last point holds.
 */
export function speakerImpedance({ frequencyHz, ohm, phaseDeg }: SpeakerSweep, hz: number): Complex {
  const last = frequencyHz.length - 1;
  const above = frequencyHz.findIndex((one) => one >= hz);
  const high = above < 0 ? last : above;
  const low = above <= 0 ? high : high - 1;
  const [from, to] = [frequencyHz[low] ?? 1, frequencyHz[high] ?? 1];
  const share = from === to ? 0 : Math.log(hz / from) / Math.log(to / from);
  const between = (values: readonly number[], log: boolean) => {
    const [a, b] = [values[low] ?? 0, values[high] ?? 0];
    return log ? a * (b / a) ** share : a + share * (b - a);
  };
  return polar(between(ohm, true), phaseDeg === null ? 0 : between(phaseDeg, false));
}

/** Impedance at the plate, the loudspeaker's voltage per ampere into the primary, and its own impedance, at one frequency. */
export interface SeenFromPlate {
  plateOhm: Complex;
  transferOhm: Complex;
  speakerOhm: Complex;
}

/**
 * The loudspeaker through its transformer: leakage and primary resistance in series, primary inductance across the
 * reflected secondary. Inductances that are not stated are left out.
 * @source equivalent circuit of a transformer referred to its primary, without capacitances and iron loss
 */
export function seenFromPlate(
  { transformer, speakerOhm, sweep }: OutputDescription,
  turns: TurnsInUse,
  hz: number,
): SeenFromPlate {
  const omega = 2 * Math.PI * hz;
  const speaker = sweep ? speakerImpedance(sweep, hz) : real(speakerOhm);
  const secondary = plus(speaker, real(transformer.secondaryOhm ?? 0));
  const reflected = times(real(turns.turnsRatio ** 2), secondary);
  const shunt = { re: 0, im: omega * (turns.primaryH ?? 0) };
  const across = turns.primaryH === null ? reflected : over(times(reflected, shunt), plus(reflected, shunt));
  const series = { re: turns.primaryOhm ?? 0, im: omega * (turns.leakageH ?? 0) };
  const ratio = over(speaker, times(real(turns.turnsRatio), secondary));
  return { plateOhm: plus(series, across), transferOhm: times(across, ratio), speakerOhm: speaker };
}
