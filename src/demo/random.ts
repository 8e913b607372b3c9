const modulus = 2147483647;
const multiplier = 48271;

/**
 * A repeatable source of uniform numbers between 0 and 1, both excluded; one seed gives one sequence on every
 * machine, as each product stays below 2^53 and is therefore exact.
 * @source Park and Miller, Communications of the ACM 31(10) (1988), p. 1192, with the multiplier 48271 of
 * Park, Miller and Stockmeyer, Communications of the ACM 36(7) (1993), p. 108.
 */
export function uniformSource(seed: number): () => number {
  let state = (Math.abs(Math.trunc(seed)) % (modulus - 1)) + 1;
  return () => {
    state = (state * multiplier) % modulus;
    return state / modulus;
  };
}

/**
 * Normal deviates of mean 0 and standard deviation 1, one for each call.
 * @source Box and Muller, Annals of Mathematical Statistics 29(2) (1958), p. 610.
 */
export function normalSource(seed: number): () => number {
  const uniform = uniformSource(seed);
  return () => {
    const radius = Math.sqrt(-2 * Math.log(uniform()));
    return radius * Math.cos(2 * Math.PI * uniform());
  };
}
