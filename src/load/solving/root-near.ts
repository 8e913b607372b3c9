import { type Bracket, findRoot } from './solve.ts';

const mostSteps = 10;
/** Of the bracket's width: the longest first step without a slope, and a miss that counts as none. */
const firstStep = 1e-3;
const smallest = 1e-13;
/** The last two steps leave a difference of their product times the curvature: of the squared width, what may be left. */
const smallestProduct = 1e-14;

/**
 * Looks for one root after another of functions that differ little, by secants from a guess and the slope of the
 * search before; where they leave the bracket or are slow, the whole of it is searched.
 * @source secant method; its difference shrinks as the product of the last two
 */
export abstract class RootSearch {
  /** Trial and miss stand in fields: handed over, each would be an allocation of its own. */
  protected x = Number.NaN;
  protected miss = Number.NaN;
  #slope = Number.NaN;

  /** Finds `miss` at `x`: it is zero at the root and must change at least as fast as `x`. */
  protected abstract evaluate(): void;

  /** Root between two ends; NaN where the miss has the same sign at both. */
  protected rootNear(guess: number, low: number, high: number): number {
    const width = high - low;
    let x = Math.min(high, Math.max(low, guess));
    this.x = x;
    this.evaluate();
    let miss = this.miss;
    if (Math.abs(miss) <= smallest * width) return x;
    let step = this.#firstStep(miss, width);
    for (let taken = 0; taken < mostSteps; taken++) {
      const next = x - step;
      if (!(next >= low && next <= high)) break;
      if (next === x) return x;
      this.x = next;
      this.evaluate();
      const nextMiss = this.miss;
      const slope = (nextMiss - miss) / (next - x);
      const nextStep = nextMiss / slope;
      const product = Math.abs(nextStep) * Math.max(Math.abs(step), Math.abs(nextStep));
      x = next;
      miss = nextMiss;
      step = nextStep;
      if (product <= smallestProduct * width * width) {
        this.#slope = slope;
        return Math.min(high, Math.max(low, x - step));
      }
    }
    this.#slope = Number.NaN;
    const missAt = (trial: number) => {
      this.x = trial;
      this.evaluate();
      return this.miss;
    };
    return findRoot(missAt, { low, high }) ?? Number.NaN;
  }

  #firstStep(miss: number, width: number): number {
    const slope = this.#slope;
    if (slope < 0 || slope > 0) return miss / slope;
    return -Math.sign(miss) * Math.min(Math.abs(miss), firstStep * width);
  }
}

class FunctionRoot extends RootSearch {
  readonly #f: (x: number) => number;

  constructor(f: (x: number) => number) {
    super();
    this.#f = f;
  }

  find(guess: number, { low, high }: Bracket): number | null {
    const found = this.rootNear(guess, low, high);
    return Number.isNaN(found) ? null : found;
  }

  protected evaluate(): void {
    this.miss = this.#f(this.x);
  }
}

/**
 * Root of a continuous function inside a bracket, looked for near a guess first. The function must change at least as
 * fast as its argument. Null where the ends of the bracket have the same sign.
 */
export const rootNear = (f: (x: number) => number, guess: number, bracket: Bracket): number | null =>
  new FunctionRoot(f).find(guess, bracket);
