/** The zero between `low` and `high` of a function that falls through it, by halving the interval. */
export function zeroOfFalling(law: (x: number) => number, low: number, high: number): number {
  let [from, to] = [low, high];
  for (let i = 0; i < 60; i++) {
    const middle = (from + to) / 2;
    if (law(middle) > 0) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}

/** The stimulus at which `response`, close to proportional, reaches `wanted`. */
export function stimulusFor(wanted: number, response: (stimulus: number) => number): number {
  let stimulus = wanted;
  for (let i = 0; i < 8; i++) stimulus *= wanted / response(stimulus);
  return stimulus;
}
