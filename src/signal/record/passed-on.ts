import { angleDeg, modulus, over, plus, polar, scaledBy, times } from '../fit/complex.ts';
import { thdInterval } from '../statistics/thd-interval.ts';
import type { ChannelSummary, Fundamental, Harmonic, Interval } from '../types.ts';
import { type PhasorCurves, phasorAt, phasorCurves } from './phasor-curve.ts';
import { wrapDegrees } from './wrap-degrees.ts';

/** Gain of a circuit against frequency: a level at held drive or a ratio, with its phase in degrees. */
export interface SweptGain {
  frequencyHz: Float64Array;
  level: Float64Array;
  phaseDeg: Float64Array;
}

/** What a circuit added to one harmonic, re the response's fundamental. */
export interface AddedHarmonic extends Interval {
  order: number;
  frequencyHz: number;
  /** Of what was added, less n times that of the response's fundamental; degrees, (−180, 180]. */
  relativePhaseDeg: number;
}

/** What is left of a response's harmonics when those that it got with its stimulus are taken off. */
export interface Subtraction {
  stimulus: string;
  response: string;
  harmonics: AddedHarmonic[];
  /** Root sum of squares of all of them; null where none could be found. */
  total: Interval | null;
  /** Orders without: beyond the sweep, or held back in either channel. */
  leftOut: number[];
}

/**
 * A response's harmonics less the stimulus's own, each carried through the circuit's gain and phase at its frequency:
 * r_n − s_n · G(nf)/|G(f)| · e^(−jn·arg G(f)), all relative to the fundamental of their channel. The circuit passes a
 * small harmonic on as the sweep passes a small tone, in whose place a large fundamental has changed nothing. Both
 * channels' noise is in the intervals; the sweep counts as exact. Null where either channel has no fundamental or the
 * sweep does not reach it.
 * @source linear superposition; JCGM 100:2008, 5.1.2, for the uncertainty of each component.
 */
export function subtractPassedOn(
  stimulus: ChannelSummary,
  response: ChannelSummary,
  sweep: SweptGain,
): Subtraction | null {
  const [from, to] = [stimulus.fundamental, response.fundamental];
  const curves = phasorCurves(sweep);
  if (!from || !to || !phasorAt(curves, to.frequencyHz, true)) return null;
  const freedom = Math.min(from.freedom, to.freedom);
  const found = response.harmonics.map((harmonic) => ({
    order: harmonic.order,
    added: added(harmonic, stimulus.harmonics, { from, to, curves, freedom }),
  }));
  const harmonics = found.flatMap(({ added: one }) => one ?? []);
  return {
    ...{ stimulus: stimulus.name, response: response.name },
    harmonics: harmonics.map(({ uncertainty: _, ...harmonic }) => harmonic),
    total: harmonics.length === 0 ? null : totalOf(harmonics, to, freedom),
    leftOut: found.filter(({ added: one }) => one === null).map(({ order }) => order),
  };
}

interface Passing {
  from: Fundamental;
  to: Fundamental;
  curves: PhasorCurves;
  freedom: number;
}

const relative = ({ rms, rmsUncertainty }: Fundamental) => rmsUncertainty / rms;

function added(
  harmonic: Harmonic,
  stimuli: readonly Harmonic[],
  { from, to, curves, freedom }: Passing,
): (AddedHarmonic & { uncertainty: number }) | null {
  const { order, frequencyHz } = harmonic;
  const own = stimuli.find((one) => one.order === order);
  const [base, gain] = [to.frequencyHz, frequencyHz].map((hertz) => phasorAt(curves, hertz, true));
  if (!own || !base || !gain || harmonic.foldedOrders || own.foldedOrders) return null;
  const passing = over(gain, polar(modulus(base), order * angleDeg(base)));
  const passed = times(polar(own.ratio, own.relativePhaseDeg), passing);
  const rest = plus(polar(harmonic.ratio, harmonic.relativePhaseDeg), scaledBy(passed, -1));
  const uncertainty = Math.hypot(
    harmonic.uncertainty,
    own.uncertainty * modulus(passing),
    order * relative(to) * harmonic.ratio,
    order * relative(from) * modulus(passed),
  );
  const ratio = modulus(rest);
  const alone = { ratio, uncertainty, freedom };
  return {
    ...{ order, frequencyHz, ratio, uncertainty },
    ...thdInterval({ harmonics: [alone], fundamentalUncertainty: relative(to), freedom }),
    relativePhaseDeg: wrapDegrees(angleDeg(rest)),
  };
}

function totalOf(
  harmonics: readonly { ratio: number; uncertainty: number }[],
  to: Fundamental,
  freedom: number,
): Interval {
  const ratio = Math.hypot(...harmonics.map((one) => one.ratio));
  return { ratio, ...thdInterval({ harmonics, fundamentalUncertainty: relative(to), freedom }) };
}
