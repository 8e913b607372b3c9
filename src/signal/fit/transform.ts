import FFT from 'fft.js';
import { remembered } from './remembered.ts';

/** A complex transform of so many points, a power of two from four on, with its working space. */
interface Plan {
  fft: FFT;
  /** Complex pairs, one for each point; what they hold is of no use after the transform that used them. */
  first: Float64Array;
  second: Float64Array;
}

/** A transform and its space cost more to make than one transform takes, and records share their lengths. */
const planFor = remembered((points: number): Plan => {
  const pairs = () => new Float64Array(2 * points);
  return { fft: new FFT(points), first: pairs(), second: pairs() };
}, 3);

/** exp(−πi·k/points) as pairs, k = 0 … points/2. */
const halfTurns = remembered((points: number): Float64Array => {
  const turns = new Float64Array(points + 2);
  for (let k = 0; 2 * k <= points; k++) {
    turns[2 * k] = Math.cos((Math.PI * k) / points);
    turns[2 * k + 1] = -Math.sin((Math.PI * k) / points);
  }
  return turns;
}, 3);

/** The power of two that a record of `length` samples is filled up to, at least `finer` times as long. */
export function transformSize(length: number, finer = 1): number {
  return 2 ** Math.ceil(Math.log2(Math.max(4, length * finer)));
}

/** Fewest samples of a real transform, which has half as many points. */
const smallest = 8;

/**
 * Powers |Σ x·exp(−2πi·l·n/size)|²/N of the lines l = 0 … size/2 of a record of N samples filled up with zeros to
 * `size`, a power of two.
 *
 * @source real samples taken in pairs for complex ones, and their lines told apart by symmetry: J. W. Cooley, P. A. W.
 * Lewis, P. D. Welch, J. Sound Vib. 12:315 (1970), from memory.
 */
export function paddedPower(values: Float64Array, size: number): Float64Array {
  return paddedPowerOf((into) => into.set(values), values.length, size);
}

/** The same of a record of `length` samples that is written straight into the transform's space. */
export function paddedPowerOf(
  write: (into: Float64Array) => void,
  length: number,
  size: number,
): Float64Array {
  if (size < smallest) return everySecond(paddedPowerOf(write, length, 2 * size));
  const points = size / 2;
  const { fft, first, second } = planFor(points);
  write(first.subarray(0, length));
  first.fill(0, length);
  fft.transform(second, first);
  return powersOfReal(second, halfTurns(points), length);
}

/** The lines of a record filled up to half the length. */
function everySecond(power: Float64Array): Float64Array {
  const lines = new Float64Array((power.length + 1) >> 1);
  for (let line = 0; line < lines.length; line++) lines[line] = power[2 * line] ?? 0;
  return lines;
}

/** Powers of the lines of real samples from the transform of their pairs: lines k and points − k come together. */
function powersOfReal(pairs: Float64Array, turns: Float64Array, length: number): Float64Array {
  const points = pairs.length / 2;
  const power = new Float64Array(points + 1);
  const scale = 1 / (4 * length);
  for (let k = 0; 2 * k <= points; k++) {
    const here = 2 * k;
    const there = 2 * ((points - k) % points);
    const a = pairs[here] ?? 0;
    const b = pairs[here + 1] ?? 0;
    const c = pairs[there] ?? 0;
    const d = pairs[there + 1] ?? 0;
    // Twice the transforms of the even samples and, turned, of the odd ones.
    const turnReal = turns[here] ?? 0;
    const turnImaginary = turns[here + 1] ?? 0;
    const real = (b + d) * turnReal - (c - a) * turnImaginary;
    const imaginary = (b + d) * turnImaginary + (c - a) * turnReal;
    const evenReal = a + c;
    const evenImaginary = b - d;
    power[k] = ((evenReal + real) ** 2 + (evenImaginary + imaginary) ** 2) * scale;
    power[points - k] = ((evenReal - real) ** 2 + (evenImaginary - imaginary) ** 2) * scale;
  }
  return power;
}

/**
 * Powers |Σ x·exp(−2πi·l·n/N)|²/N of the lines l = 0 … N/2 of a record of any length N: its own lines, not those of a
 * longer one.
 */
export function exactPower(values: Float64Array): Float64Array {
  const { length } = values;
  if (length % 2 === 0) {
    return powersOfReal(exactTransform(values, length / 2), halfTurns(length / 2), length);
  }
  const pairs = new Float64Array(2 * length);
  for (let n = 0; n < length; n++) pairs[2 * n] = values[n] ?? 0;
  return powersOf(exactTransform(pairs, length), (length >> 1) + 1, length);
}

/**
 * The transform of any number of complex pairs; it stands in a space that the next transform uses again.
 *
 * @source chirp transform: L. I. Bluestein, IEEE Trans. Audio Electroacoust. 18:451 (1970), from memory.
 */
function exactTransform(pairs: Float64Array, points: number): Float64Array {
  const size = transformSize(points, 2);
  const { chirp, spectrum } = chirpFor(points, size);
  const { fft, first, second } = planFor(size);
  first.set(pairs);
  first.fill(0, pairs.length);
  multiply(first, chirp);
  fft.transform(second, first);
  multiply(second, spectrum);
  fft.inverseTransform(first, second);
  const found = first.subarray(0, 2 * points);
  multiply(found, chirp);
  return found;
}

/** exp(−πi·n²/N) as pairs, and the transform of its conjugate wrapped round a length that keeps its ends apart. */
interface Chirp {
  chirp: Float64Array;
  spectrum: Float64Array;
}

const chirpFor = remembered((length: number, size: number): Chirp => {
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
  return { chirp, spectrum };
}, 1);

/** Multiplies complex pairs in place, as far as there are factors. */
function multiply(into: Float64Array, by: Float64Array): void {
  for (let i = 0; i < by.length; i += 2) {
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
