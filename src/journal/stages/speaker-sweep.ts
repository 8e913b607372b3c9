import type { SpeakerSweep } from '../../load/index.ts';
import type { CaptureRecord } from '../types.ts';

/** A loudspeaker's sweep, and the largest rated impedance that it supports. */
interface MeasuredSpeaker {
  sweep: SpeakerSweep;
  ratedOhm: number | null;
}

/**
 * The impedance sweep of a loudspeaker in a capture, by ascending frequency; null where the capture is something
 * else. Readings that are not above zero are left out; a sweep without phase at every reading counts as one without.
 */
export function measuredSpeaker({
  analysis,
  data,
}: Pick<CaptureRecord, 'analysis' | 'data'>): MeasuredSpeaker | null {
  const first = analysis.kind === 'impedance-sweep' ? analysis.sweeps[0] : undefined;
  if (analysis.kind !== 'impedance-sweep' || !first || (data.impedanceOf ?? 'loudspeaker') !== 'loudspeaker')
    return null;
  const { level, phase } = first.channel;
  const points = Array.from(analysis.axis.values, (hz, row) => ({
    hz,
    ohm: level?.values[row] ?? 0,
    deg: phase?.values[row] ?? Number.NaN,
  }))
    .filter(({ hz, ohm }) => hz > 0 && ohm > 0 && Number.isFinite(hz) && Number.isFinite(ohm))
    .sort((a, b) => a.hz - b.hz);
  const phaseDeg = points.map(({ deg }) => deg);
  return {
    sweep: {
      name: data.title,
      frequencyHz: points.map(({ hz }) => hz),
      ohm: points.map(({ ohm }) => ohm),
      phaseDeg: phaseDeg.every(Number.isFinite) ? phaseDeg : null,
    },
    ratedOhm: first.summary.ratedOhm,
  };
}
