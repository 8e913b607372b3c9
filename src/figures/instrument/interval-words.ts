import type { Figure } from '../types.ts';
import { instrumentTerms } from './instrument.ts';
import type { Measurement } from './instrument-figures.ts';

/** Figures of one capture, how it was taken, and whether it holds samples, in which noise shows. */
interface Taken {
  figures: readonly Figure[];
  measurement: Measurement | null;
  isSampled: boolean;
}

/** What the intervals of a capture's figures hold: "intervals are 95 % and hold the noise of the record alone". */
export function intervalContent({ figures, measurement, isSampled }: Taken): string {
  const bounded = figures.filter(({ low }) => low !== undefined);
  const has = (pattern: RegExp) => bounded.some(({ id }) => pattern.test(id));
  const isStated = measurement !== null && instrumentTerms(measurement.instrument).length > 0;
  const held = [
    ...(isSampled
      ? [isStated ? 'the noise of the record where that is known' : 'the noise of the record']
      : []),
    ...(isStated ? ['what is stated about the instrument'] : []),
    ...(has(/-slope$/) ? ['of slopes the scatter about the line'] : []),
    ...(has(/^(output-impedance|damping-factor)-/)
      ? ['of an output impedance what is stated of its readings']
      : []),
  ];
  const [only, ...others] = held;
  if (only === undefined || bounded.length === 0)
    return 'without intervals, as readings of a sweep show no noise';
  const last = others.at(-1);
  const list =
    last === undefined ? `${only} alone` : `${[only, ...others.slice(0, -1)].join(', ')} and ${last}`;
  return `intervals are 95 % and hold ${list}`;
}
