import { modulus, over, plus } from '../fit/complex.ts';
import { type ImpedanceCurve, impedanceAt } from './output-impedance.ts';

/** What an output impedance does to the level at a loudspeaker that takes the place of the rated load. */
export interface LoudspeakerError {
  /** Reference of 0 dB, hertz. */
  referenceHz: number;
  frequencyHz: Float64Array;
  /** Level at the loudspeaker over that at the rated load, re the same at the reference, decibels. */
  db: Float64Array;
  /** Within the part of 20 Hz to 20 kHz that both curves cover. */
  bandHz: [number, number];
  highest: { db: number; atHz: number };
  lowest: { db: number; atHz: number };
  /** The larger of the two in size, with its sign. */
  largest: { db: number; atHz: number };
  /** False where either curve lacks phase, so that both count as resistances. */
  withPhase: boolean;
}

const referenceHz = 1000;
const band = [20, 20_000] as const;

/**
 * The change of an amplifier's response when a loudspeaker takes the place of its rated load, a resistance R:
 * 20 lg |ZL/(ZL + Zo) · (R + Zo)/R|, 0 dB at 1 kHz. At the frequencies of both curves within the range that they share; null
 * where they do not share 1 kHz.
 * @source voltage divider: circuit theory.
 */
export function loudspeakerError(
  output: ImpedanceCurve,
  loudspeaker: ImpedanceCurve,
  ratedOhm: number,
): LoudspeakerError | null {
  const levelAt = (hertz: number) => {
    const [source, load] = [impedanceAt(output, hertz), impedanceAt(loudspeaker, hertz)];
    if (!source || !load) return null;
    const atLoudspeaker = modulus(over(load, plus(load, source)));
    const atRated = ratedOhm / modulus(plus({ re: ratedOhm, im: 0 }, source));
    const db = 20 * Math.log10(atLoudspeaker / atRated);
    return Number.isFinite(db) ? db : null;
  };
  const reference = levelAt(referenceHz);
  if (reference === null) return null;
  const places = [...new Set([...output.frequencyHz, ...loudspeaker.frequencyHz, referenceHz])]
    .filter((hertz) => hertz >= band[0] && hertz <= band[1])
    .sort((a, b) => a - b);
  const points = places.flatMap((atHz) => {
    const level = levelAt(atHz);
    return level === null ? [] : [{ atHz, db: level - reference }];
  });
  const [first = { db: 0, atHz: referenceHz }] = points;
  const best = (score: (db: number) => number) =>
    points.reduce((found, point) => (score(point.db) > score(found.db) ? point : found), first);
  return {
    referenceHz,
    frequencyHz: Float64Array.from(points, ({ atHz }) => atHz),
    db: Float64Array.from(points, ({ db }) => db),
    bandHz: [first.atHz, points.at(-1)?.atHz ?? first.atHz],
    highest: best((db) => db),
    lowest: best((db) => -db),
    largest: best(Math.abs),
    withPhase: output.phaseDeg !== null && loudspeaker.phaseDeg !== null,
  };
}
