/** What an amplifier's output carries besides the signal, in volts rms. */
export interface Unrest {
  /** White noise, as its rms value in a band of 20 kHz. */
  whiteV: number;
  /** Noise whose power falls as one over the frequency, from 1 Hz to 16 kHz. */
  flickerV: number;
  /** Mains hum: frequency of each line and its level. */
  hum: readonly { frequencyHz: number; rmsV: number }[];
}

/** Corner frequencies four to one apart, from below the first line of a record to the top of the audio band. */
const corners = [1, 4, 16, 64, 256, 1024, 4096, 16384];

/**
 * Noise whose power falls as one over the frequency: a sum of first-order processes of equal power with
 * corners spread evenly over the decades.
 * @source van der Ziel, Physica 16(4) (1950), p. 359 (a spread of relaxation times).
 */
function flickerNoise(rateHz: number, rmsV: number, normal: () => number): () => number {
  const share = rmsV / Math.sqrt(corners.length);
  const keep = corners.map((cornerHz) => Math.exp((-2 * Math.PI * cornerHz) / rateHz));
  const state = corners.map(() => share * normal());
  return () => {
    let sum = 0;
    keep.forEach((k, i) => {
      const next = k * (state[i] ?? 0) + share * Math.sqrt(1 - k * k) * normal();
      state[i] = next;
      sum += next;
    });
    return sum;
  };
}

/** One value of hum and noise for each of `count` samples at `rateHz`. */
export function unrestOf(unrest: Unrest, count: number, rateHz: number, normal: () => number): Float64Array {
  const flicker = flickerNoise(rateHz, unrest.flickerV, normal);
  const phases = unrest.hum.map(() => normal());
  const white = unrest.whiteV * Math.sqrt(rateHz / 2 / 20e3);
  return Float64Array.from({ length: count }, (_, i) => {
    const hum = unrest.hum.reduce((sum, { frequencyHz, rmsV }, line) => {
      const phase = (2 * Math.PI * frequencyHz * i) / rateHz + (phases[line] ?? 0);
      return sum + Math.SQRT2 * rmsV * Math.sin(phase);
    }, 0);
    return hum + flicker() + white * normal();
  });
}
