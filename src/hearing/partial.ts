/** A cosine to be played. */
export interface Partial {
  frequencyHz: number;
  /** Peak, where all partials of a sound together have the power of a sine of peak 1. */
  amplitude: number;
  /** Phase at the start, radians. */
  phase: number;
}

/** The same partials with the power of one sine of peak 1, so that different sounds are heard at one rms level. */
export function matched(partials: readonly Partial[]): Partial[] {
  const power = partials.reduce((sum, { amplitude }) => sum + amplitude ** 2, 0);
  return partials.map((partial) => ({ ...partial, amplitude: partial.amplitude / Math.sqrt(power) }));
}
