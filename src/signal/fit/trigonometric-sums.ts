/**
 * Sums over N samples at times m = −(N−1)/2 … (N−1)/2, in closed form. The normal equations of a harmonic fit are
 * made of these alone, whatever the data.
 *
 * @source geometric series; the first is the Dirichlet kernel, the others are its derivatives by the angle.
 */
export interface TrigonometricSums {
  /** Σ cos(angle·m) */
  cosine: number;
  /** Σ m·sin(angle·m) */
  firstMoment: number;
  /** Σ m²·cos(angle·m) */
  secondMoment: number;
}

/** The first of the sums alone. */
export function cosineSum(count: number, angle: number): number {
  return angle === 0 ? count : Math.sin((count * angle) / 2) / Math.sin(angle / 2);
}

/** The three sums at one angle in radians per sample; the angle must be 0 or keep clear of multiples of 2π. */
export function trigonometricSums(count: number, angle: number): TrigonometricSums {
  if (angle === 0) {
    return { cosine: count, firstMoment: 0, secondMoment: (count * (count * count - 1)) / 12 };
  }
  const sine = Math.sin(angle / 2);
  const cotangent = Math.cos(angle / 2) / sine;
  const over = Math.sin((count * angle) / 2) / sine;
  const across = Math.cos((count * angle) / 2) / sine;
  const firstMoment = (over * cotangent - count * across) / 2;
  const secondMoment =
    (count * count * over + 2 * count * across * cotangent - over * (1 + 2 * cotangent * cotangent)) / 4;
  return { cosine: over, firstMoment, secondMoment };
}
