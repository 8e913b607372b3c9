/**
 * Aspect ratios of level against logarithmic frequency: so many decibels are as long as one decade.
 * @source IEC 60263:2020, 4.1
 */
export const levelAspects: readonly number[] = [10, 20, 25, 50];

/**
 * Aspect ratios of a percentage on a logarithmic axis against logarithmic frequency, decades per decade.
 * @source IEC 60263:2020, 4.2
 */
export const decadeAspects: readonly number[] = [0.5, 1, 1.25, 2.5];

interface Proportions {
  /** Permitted ratios, in units of the vertical axis per decade of frequency. */
  aspects: readonly number[];
  /** What the vertical axis must span at least, in its own unit (decibels or decades). */
  span: number;
  /** Pixels of one decade of frequency. */
  decadeLength: number;
  /** The height one would like. */
  height: number;
}

/** A plot of a standard aspect ratio. */
interface Proportioned {
  /** The ratio taken. */
  aspect: number;
  /** Pixels of one decibel, or one decade, of the vertical axis. */
  unitLength: number;
  /** What the axis spans: `span`, more where that left the plot too flat, less where it made it too tall. */
  span: number;
}

const flattest = 0.75;
const tallest = 2.2;

/** Chooses the standard aspect ratio whose plot comes nearest to a height, showing all of `span` if it can. */
export function proportion({ aspects, span, decadeLength, height }: Proportions): Proportioned {
  const tried = aspects.map((aspect) => {
    const unitLength = decadeLength / aspect;
    const shown = Math.min(Math.max(span, (flattest * height) / unitLength), (tallest * height) / unitLength);
    return {
      aspect,
      unitLength,
      span: shown,
      waste: Math.max(shown / span, span / shown),
      error: misfit(shown * unitLength, height),
    };
  });
  const [first, ...others] = tried;
  if (first === undefined) return { aspect: 1, unitLength: decadeLength, span };
  const best = others.reduce((a, b) => (b.error * b.waste < a.error * a.waste ? b : a), first);
  return { aspect: best.aspect, unitLength: best.unitLength, span: best.span };
}

function misfit(actual: number, wanted: number): number {
  return 0.2 + Math.abs(Math.log(actual / wanted));
}
