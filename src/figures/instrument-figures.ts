import { type Instrument, instrumentText } from './instrument.ts';
import { instrumentError, isOwn, type MeasuredChannel } from './instrument-errors.ts';
import { noiseDeviation, widened } from './instrument-interval.ts';
import type { Figure } from './types.ts';

/** The instrument of a capture and the channels that it took, by name. */
export interface Measurement {
  instrument: Instrument;
  channels: ReadonlyMap<string, MeasuredChannel>;
}

/**
 * Figures with the uncertainty of the instrument that took them: their intervals widened, their part of it that repeats
 * do not lower, and the instrument among their settings. Figures that nothing stated about it touches keep their
 * intervals.
 */
export function withInstrument(figures: readonly Figure[], measurement: Measurement): Figure[] {
  return figures.map((figure) => measuredFigure(named(figure, measurement), measurement));
}

function named(figure: Figure, { instrument }: Measurement): Figure {
  const { provenance } = figure;
  const settings = { ...provenance.settings, Instrument: instrumentText(instrument) };
  return { ...figure, provenance: { ...provenance, settings } };
}

function measuredFigure(figure: Figure, { instrument, channels }: Measurement): Figure {
  const channel = channels.get(figure.subject ?? '');
  const { value } = figure;
  if (!channel || value === null) return figure;
  const measured = { figure: { ...figure, value }, instrument, channel };
  const said = isOwn(measured) ? remarked(figure) : figure;
  const error = instrumentError(measured);
  if (error === null) return said;
  const freedom = freedomOf(figure.id, channel);
  const { low, high } = widened({ ...figure, value }, error, freedom);
  const least = value >= 0 && !isSigned(figure) ? 0 : Number.NEGATIVE_INFINITY;
  const random = noiseDeviation(figure, freedom);
  return {
    ...said,
    ...{ low: Math.max(least, low), high, systematic: error.standard },
    ...(random === null ? {} : { random }),
  };
}

const isSigned = ({ id, unit }: Figure) => id === 'dc' || unit === 'dB';

/** Student's t stands behind the intervals of levels of fitted sines alone. */
function freedomOf(id: string, { freedom, gainFreedom, twoTone }: MeasuredChannel): number {
  if (id === 'gain-at-fundamental') return gainFreedom;
  if (id === 'lower-tone-level') return twoTone?.tones?.lower.freedom ?? freedom;
  if (id === 'upper-tone-level') return twoTone?.tones?.upper.freedom ?? freedom;
  return /^fundamental-(level|power)$/.test(id) ? freedom : Number.POSITIVE_INFINITY;
}

function remarked(figure: Figure): Figure {
  const own = 'at or below the instrument’s own distortion';
  return { ...figure, remark: figure.remark === undefined ? own : `${figure.remark}, ${own}` };
}
