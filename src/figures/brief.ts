import type { Figure } from './types.ts';

/** Figures that only a capture's own page shows; a log shows the others. */
const onlyInFull =
  /^(dc|rms|crest-factor|even-harmonics|odd-harmonics|fundamental-power|noise-a-weighted|noise-itu468|signal-to-noise-.*|added-distortion-.*|(low|high)-edge-.*|harmonic-([6-9]|\d\d)(-.*)?)$/;

/** The figures of a capture that a log's summary shows: those that a reader asks for first. */
export function briefFigures(figures: readonly Figure[]): Figure[] {
  return figures.filter(({ id }) => !onlyInFull.test(id));
}
