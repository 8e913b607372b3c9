import { type Bracket, findRoot } from './solve.ts';

const mostSteps = 8;
/** Of the bracket's width: where to begin, and when a step is none any more. */
const firstStep = 1e-3;
const smallest = 1e-13;

/**
 * Root of a continuous function inside a bracket, looked for by secants from a guess; where they leave the
 * bracket or are slow, the whole of it is searched. Null where its ends have the same sign.
 * @source secant method
 */
export function rootNear(f: (x: number) => number, guess: number, bracket: Bracket): number | null {
  const width = bracket.high - bracket.low;
  let before = { x: guess, y: f(guess) };
  let x = guess + Math.sign(before.y) * firstStep * width;
  for (let step = 0; step < mostSteps; step++) {
    if (!(x > bracket.low && x < bracket.high)) break;
    const y = f(x);
    const change = (y * (x - before.x)) / (y - before.y);
    if (y === 0 || Math.abs(change) < smallest * width) return x;
    before = { x, y };
    x -= change;
  }
  return findRoot(f, bracket);
}
