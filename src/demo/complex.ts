/** A phasor or an impedance. */
export interface Complex {
  re: number;
  im: number;
}

export const complex = (re: number, im = 0): Complex => ({ re, im });

export const plus = (a: Complex, b: Complex): Complex => complex(a.re + b.re, a.im + b.im);

export const minus = (a: Complex, b: Complex): Complex => complex(a.re - b.re, a.im - b.im);

export const times = (a: Complex, b: Complex): Complex =>
  complex(a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re);

export const scaled = (a: Complex, factor: number): Complex => complex(a.re * factor, a.im * factor);

export const over = (a: Complex, b: Complex): Complex =>
  scaled(times(a, complex(b.re, -b.im)), 1 / (b.re * b.re + b.im * b.im));

export const magnitude = (a: Complex): number => Math.hypot(a.re, a.im);

export const angleDeg = (a: Complex): number => (Math.atan2(a.im, a.re) * 180) / Math.PI;

/** Impedances, or admittances, in parallel or in series: whichever of the two adds as reciprocals. */
export const together = (...parts: readonly Complex[]): Complex =>
  over(
    complex(1),
    parts.map((part) => over(complex(1), part)).reduce((sum, part) => plus(sum, part), complex(0)),
  );
