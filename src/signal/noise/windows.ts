/** Windows by name; all are sums of cosines, in the periodic form that spectra need. */
export type WindowName =
  | 'rectangular'
  | 'Hann'
  | 'Hamming'
  | 'Blackman'
  | 'Blackman-Harris 92 dB'
  | 'HFT90D'
  | 'HFT95'
  | 'HFT144D'
  | 'HFT248D';

/**
 * A cosine-sum window: w(n) = Σ (−1)^k·a_k·cos(2πkn/N), n = 0 … N−1.
 */
export interface CosineWindow {
  name: WindowName;
  coefficients: readonly number[];
  /** Mean of the window over its length: what a sine's line is multiplied by. */
  coherentGain: number;
  /** Equivalent noise bandwidth in bins of one over the record's length. */
  enbwBins: number;
}

/**
 * Coefficients a0, a1, …
 * @source Hann, Hamming, Blackman, Blackman-Harris: F. J. Harris, Proc. IEEE 66:51 (1978), as distributed with scipy;
 * the HFT flat tops: G. Heinzel, A. Rüdiger, R. Schilling, "Spectrum and spectral density estimation by the DFT",
 * Max-Planck-Institut für Gravitationsphysik, 15 February 2002.
 */
const coefficients: Readonly<Record<WindowName, readonly number[]>> = {
  rectangular: [1],
  Hann: [0.5, 0.5],
  Hamming: [0.54, 0.46],
  Blackman: [0.42, 0.5, 0.08],
  'Blackman-Harris 92 dB': [0.35875, 0.48829, 0.14128, 0.01168],
  HFT90D: scaled([1, 1.942604, 1.340318, 0.440811, 0.043097]),
  HFT95: scaled([1, 1.9383379, 1.3045202, 0.402827, 0.0350665]),
  HFT144D: scaled([1, 1.96760033, 1.57983607, 0.81123644, 0.22583558, 0.02773848, 0.0009036]),
  HFT248D: scaled([
    1, 1.985844164102, 1.791176438506, 1.282075284005, 0.667777530266, 0.240160796576, 0.056656381764,
    0.008134974479, 0.00062454465, 0.000019808998, 0.000000132974,
  ]),
};

/** Names of all windows. */
export const windowNames = Object.keys(coefficients) as WindowName[];

/** The flat tops are published with a0 = 1; divided by their sum they peak at 1 like the others. */
function scaled(published: readonly number[]): number[] {
  const peak = published.reduce((sum, a) => sum + a, 0);
  return published.map((a) => a / peak);
}

/**
 * A window by its name. Coherent gain is a0 and ENBW is 1 + Σ a_k²/(2·a0²), both exact once N exceeds twice the
 * number of cosines.
 */
export function cosineWindow(name: WindowName): CosineWindow {
  const own = coefficients[name];
  const [coherentGain = 1, ...others] = own;
  const enbwBins = 1 + others.reduce((sum, a) => sum + a * a, 0) / (2 * coherentGain * coherentGain);
  return { name, coefficients: own, coherentGain, enbwBins };
}

/** The window's values for a record of `length` samples, periodic form. */
export function windowValues({ coefficients: own }: CosineWindow, length: number): Float64Array {
  const values = new Float64Array(length);
  for (let n = 0; n <= length >> 1; n++) {
    const value = alternatingSum(own, Math.cos((2 * Math.PI * n) / length));
    values[n] = value;
    if (n > 0) values[length - n] = value;
  }
  return values;
}

/**
 * Σ (−1)^k·a_k·cos(kθ) from cos θ.
 * @source C. W. Clenshaw, Mathematical Tables and Other Aids to Computation 9:118 (1955).
 */
function alternatingSum(own: readonly number[], cosine: number): number {
  const x = -cosine;
  let later = 0;
  let latest = 0;
  for (let k = own.length - 1; k > 0; k--) {
    const next = (own[k] ?? 0) + 2 * x * latest - later;
    later = latest;
    latest = next;
  }
  return (own[0] ?? 0) + x * latest - later;
}
