/** A band of frequencies; its middle is exact, its name the nominal one. */
export interface FrequencyBand {
  /** Octave is 1, third octave 3. */
  fraction: 1 | 3;
  /** Nominal mid-band frequency, hertz. */
  nominalHz: number;
  midHz: number;
  lowHz: number;
  highHz: number;
}

/** Third-octave band numbers of 10 Hz and 100 kHz. */
const [lowest, highest] = [10, 50];
const nominals = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];

/**
 * Octave or third-octave bands with mid-band frequencies from 10 Hz to 100 kHz, in ascending order. Mid-band
 * frequencies are powers of ten, 1000·10^(n/10) for third octaves and every third of them for octaves; neighbours
 * share their edges.
 * @source mid-band frequencies and edges: IEC 61260-1:2014, base-ten system, from memory; formula as printed in an
 * appendix of the Dutch CROW; nominal frequencies: ISO 266:1997, from memory.
 */
export function fractionalOctaves(fraction: 1 | 3): FrequencyBand[] {
  const numbers = Array.from({ length: highest - lowest + 1 }, (_, i) => lowest + i);
  const half = 0.15 / fraction;
  return numbers
    .filter((number) => fraction === 3 || number % 3 === 0)
    .map((number) => {
      const exponent = number / 10;
      return {
        fraction,
        nominalHz: Number(((nominals[number % 10] ?? 1) * 10 ** Math.floor(exponent)).toPrecision(3)),
        midHz: 10 ** exponent,
        lowHz: 10 ** (exponent - half),
        highHz: 10 ** (exponent + half),
      };
    });
}
