import type { Figure } from './types.ts';

/** Figures that only a capture's own page shows; a log shows the others. */
const onlyInFull = [
  /^(dc|rms|crest-factor|even-harmonics|odd-harmonics|fundamental-power|noise-a-weighted|noise-itu468)$/,
  /^(signal-to-noise|added-distortion|low-edge|high-edge)-/,
  /^harmonic-([6-9]|\d\d)(-|$)/,
  /^intermodulation-(.*[345]f[12]|2f[12]-(plus|minus)-2f[12])/,
];

/** The figures of a capture that a log's summary shows: those that a reader asks for first. */
export function briefFigures(figures: readonly Figure[]): Figure[] {
  return figures.filter(({ id }) => !onlyInFull.some((pattern) => pattern.test(id)));
}
