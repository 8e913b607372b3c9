import type { Figure } from '../types.ts';
import { isContested } from '../waveform/contested.ts';
import { type Instrument, instrumentText } from './instrument.ts';
import { isBeyondBand } from './instrument-band.ts';
import { instrumentError, type MeasuredChannel } from './instrument-errors.ts';
import { noiseDeviation, widened } from './instrument-interval.ts';
import { isOwn } from './instrument-own.ts';

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

/** What the instrument acts on in a figure, or in a line of a table that is none. */
type Measurable = Pick<Figure, 'id' | 'unit' | 'value'> &
  Partial<Pick<Figure, 'low' | 'high' | 'systematic' | 'random' | 'remark' | 'subject'>>;

/** One figure, or line of a table, with the uncertainty of the instrument that took it. */
export function measuredFigure<F extends Measurable>(figure: F, { instrument, channels }: Measurement): F {
  const channel = channels.get(figure.subject ?? '');
  const { value } = figure;
  if (!channel || value === null) return figure;
  const measured = { figure: { ...figure, value }, instrument, channel };
  const said = remarked(figure, [
    ...(isOwn(measured) ? [isContested(figure) ? ownWeighted : own] : []),
    ...(isBeyondBand(measured) ? ['beyond the instrument’s band'] : []),
  ]);
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

const isSigned = ({ id, unit }: Measurable) => id === 'dc' || unit === 'dB';

/** Student's t stands behind the intervals of levels of fitted sines alone. */
function freedomOf(id: string, { freedom, gainFreedom, twoTone }: MeasuredChannel): number {
  if (id === 'gain-at-fundamental') return gainFreedom;
  if (/^lower-tone-/.test(id)) return twoTone?.tones?.lower.freedom ?? freedom;
  if (/^upper-tone-/.test(id)) return twoTone?.tones?.upper.freedom ?? freedom;
  return /^fundamental-(frequency|level|power)$/.test(id) ? freedom : Number.POSITIVE_INFINITY;
}

/** What is said of a ratio that the instrument alone could have given. */
const own = 'at or below the instrument’s own distortion';
const ownWeighted = 'at or below the instrument’s own distortion, if all of it were of the highest order';

function remarked<F extends Measurable>(figure: F, said: readonly string[]): F {
  if (said.length === 0) return figure;
  return { ...figure, remark: [...(figure.remark === undefined ? [] : [figure.remark]), ...said].join(', ') };
}
