/** Logs to one amplifier; the second half of them is about its second version. */
export const logsPerAmplifier = 20;

/** Where one log of a synthetic journal belongs. */
export interface Place {
  /** From 0, the oldest first. */
  ordinal: number;
  /** `logs/2018-01-01-run-0001`. */
  id: string;
  date: string;
  amplifier: string;
  version: string;
}

const firstDay = Date.UTC(2018, 0, 1);
const daysApart = 3;
const day = 86_400_000;

const padded = (number: number) => String(number).padStart(4, '0');

/** Every third day a log, so that a thousand of them end in 2026. */
export function placeOf(ordinal: number): Place {
  const date = dateOf(ordinal);
  const amplifier = amplifierId(Math.floor(ordinal / logsPerAmplifier));
  const version = ordinal % logsPerAmplifier < logsPerAmplifier / 2 ? 'v1' : 'v2';
  return {
    ...{ ordinal, date, amplifier },
    id: `logs/${date}-run-${padded(ordinal + 1)}`,
    version: `${amplifier}/${version}`,
  };
}

export const dateOf = (ordinal: number) =>
  new Date(firstDay + ordinal * daysApart * day).toISOString().slice(0, 10);

export const numberOf = (ordinal: number) => padded(ordinal + 1);

export const amplifierId = (group: number) => `amplifiers/synthetic-${padded(group + 1)}`;
