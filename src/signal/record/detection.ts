/**
 * How many times its noise power a line must reach so that noise alone reaches it with probability `falseAlarm`,
 * the noise power itself being an estimate of `freedom` degrees of freedom.
 *
 * @source Fisher's F with 2 and ν degrees of freedom, whose tail is (1 + 2x/ν)^(−ν/2), solved for x.
 */
export function powerThreshold(falseAlarm: number, freedom: number): number {
  return (freedom / 2) * Math.expm1((-2 / freedom) * Math.log(falseAlarm));
}

/** The false-alarm rate of each of `trials` tests that makes `overall` for all of them together. */
export function rateOfEach(overall: number, trials: number): number {
  return -Math.expm1(Math.log1p(-overall) / Math.max(1, trials));
}
