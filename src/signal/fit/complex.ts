/** A phasor or an impedance. */
export interface Complex {
  re: number;
  im: number;
}

export const times = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});

export const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });

export const scaledBy = (a: Complex, factor: number): Complex => ({ re: a.re * factor, im: a.im * factor });

/** Not finite where `b` is zero. */
export function over(a: Complex, b: Complex): Complex {
  const square = b.re * b.re + b.im * b.im;
  return scaledBy(times(a, { re: b.re, im: -b.im }), 1 / square);
}

export const modulus = ({ re, im }: Complex): number => Math.hypot(re, im);

export const angleDeg = ({ re, im }: Complex): number => (180 / Math.PI) * Math.atan2(im, re);

export function polar(size: number, degrees: number): Complex {
  const angle = (Math.PI / 180) * degrees;
  return { re: size * Math.cos(angle), im: size * Math.sin(angle) };
}
