import FFT from 'fft.js';

/** A transform of one power-of-two size with its working space; both cost more to make than one transform. */
interface Plan {
  fft: FFT;
  size: number;
  /** `size` complex pairs each; what they hold is of no use after the transform that used them. */
  first: Float64Array;
  second: Float64Array;
}

const plans: Plan[] = [];
const mostPlans = 3;

/** The plans used last are kept, as the channels of a record share their lengths. */
function planFor(size: number): Plan {
  const known = plans.find((plan) => plan.size === size);
  if (known !== undefined) return known;
  const pairs = () => new Float64Array(2 * size);
  const plan = { fft: new FFT(size), size, first: pairs(), second: pairs() };
  plans.unshift(plan);
  plans.length = Math.min(plans.length, mostPlans);
  return plan;
}

/** The power of two that a record of `length` samples is filled up to, at least `finer` times as long. */
export function transformSize(length: number, finer = 1): number {
  return 2 ** Math.ceil(Math.log2(Math.max(4, length * finer)));
}

/**
 * Powers |Σ x·exp(−2πi·l·n/size)|²/N of the lines l = 0 … size/2 of a record of N samples filled up with zeros to
 * `size`, a power of two.
 */
export function paddedPower(values: Float64Array, size: number): Float64Array {
  const { fft, first, second } = planFor(size);
  first.set(values);
  first.fill(0, values.length);
  fft.realTransform(second, first);
  return powersOf(second, size / 2 + 1, values.length);
}

/**
 * Powers |Σ x·exp(−2πi·l·n/N)|²/N of the lines l = 0 … N/2 of a record of any length N: its own lines, not those of a
 * longer one.
 *
 * @source chirp transform: L. I. Bluestein, IEEE Trans. Audio Electroacoust. 18:451 (1970), from memory.
 */
export function exactPower(values: Float64Array): Float64Array {
  const { length } = values;
  const size = transformSize(length, 2);
  const { chirp, spectrum } = chirpFor(length, size);
  const { fft, first, second } = planFor(size);
  for (let n = 0; n < length; n++) {
    first[2 * n] = (values[n] ?? 0) * (chirp[2 * n] ?? 0);
    first[2 * n + 1] = (values[n] ?? 0) * (chirp[2 * n + 1] ?? 0);
  }
  first.fill(0, 2 * length);
  fft.transform(second, first);
  multiply(second, spectrum);
  fft.inverseTransform(first, second);
  return powersOf(first, (length >> 1) + 1, length);
}

/** exp(−πi·n²/N) as pairs, and the transform of its conjugate wrapped round a length that keeps its ends apart. */
interface Chirp {
  length: number;
  chirp: Float64Array;
  spectrum: Float64Array;
}

let lastChirp: Chirp | null = null;

function chirpFor(length: number, size: number): Chirp {
  if (lastChirp?.length === length) return lastChirp;
  const chirp = new Float64Array(2 * length);
  const wrapped = new Float64Array(2 * size);
  for (let n = 0; n < length; n++) {
    const angle = (Math.PI * ((n * n) % (2 * length))) / length;
    const [real, imaginary] = [Math.cos(angle), Math.sin(angle)];
    chirp[2 * n] = real;
    chirp[2 * n + 1] = -imaginary;
    for (const at of n === 0 ? [0] : [n, size - n]) {
      wrapped[2 * at] = real;
      wrapped[2 * at + 1] = imaginary;
    }
  }
  const spectrum = new Float64Array(2 * size);
  planFor(size).fft.transform(spectrum, wrapped);
  lastChirp = { length, chirp, spectrum };
  return lastChirp;
}

/** Multiplies complex pairs in place. */
function multiply(into: Float64Array, by: Float64Array): void {
  for (let i = 0; i < into.length; i += 2) {
    const real = into[i] ?? 0;
    const imaginary = into[i + 1] ?? 0;
    const byReal = by[i] ?? 0;
    const byImaginary = by[i + 1] ?? 0;
    into[i] = real * byReal - imaginary * byImaginary;
    into[i + 1] = real * byImaginary + imaginary * byReal;
  }
}

function powersOf(pairs: Float64Array, lines: number, length: number): Float64Array {
  const power = new Float64Array(lines);
  for (let line = 0; line < lines; line++) {
    const real = pairs[2 * line] ?? 0;
    const imaginary = pairs[2 * line + 1] ?? 0;
    power[line] = (real * real + imaginary * imaginary) / length;
  }
  return power;
}
