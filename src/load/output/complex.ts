/** A complex number; of a phasor, the amplitude at the crest of the drive. */
export interface Complex {
  re: number;
  im: number;
}

export const real = (re: number): Complex => ({ re, im: 0 });
export const plus = (a: Complex, b: Complex): Complex => ({ re: a.re + b.re, im: a.im + b.im });
export const times = (a: Complex, b: Complex): Complex => ({
  re: a.re * b.re - a.im * b.im,
  im: a.re * b.im + a.im * b.re,
});
export const modulus = ({ re, im }: Complex): number => Math.hypot(re, im);
export const degrees = ({ re, im }: Complex): number => (Math.atan2(im, re) * 180) / Math.PI;
export const polar = (size: number, deg: number): Complex => ({
  re: size * Math.cos((deg * Math.PI) / 180),
  im: size * Math.sin((deg * Math.PI) / 180),
});

export function over(a: Complex, b: Complex): Complex {
  const size = b.re * b.re + b.im * b.im;
  return { re: (a.re * b.re + a.im * b.im) / size, im: (a.im * b.re - a.re * b.im) / size };
}
