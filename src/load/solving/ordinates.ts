/** Amplitudes found from a few points of the load line; index is the order, 0 the mean. */
export type OrdinateAmplitudes = readonly number[];

/**
 * Mean, fundamental and second harmonic from the values at the crest, at rest and at the trough of a
 * sine drive. Exact for a transfer curve of the second degree.
 * @source three-ordinate construction of the tube handbooks; algebra
 */
export function threeOrdinates(crest: number, rest: number, trough: number): OrdinateAmplitudes {
  const mean = (crest + trough) / 4 + rest / 2;
  return [mean, (crest - trough) / 2, (crest + trough) / 4 - rest / 2];
}

/**
 * Mean and amplitudes up to the fourth harmonic from the values at 1, ½, 0, −½ and −1 of a sine drive's
 * peak. Exact for a transfer curve of the fourth degree.
 * @source Espley, Proc. IRE 21 (October 1933) 1439; algebra
 */
export function fiveOrdinates(
  crest: number,
  half: number,
  rest: number,
  minusHalf: number,
  trough: number,
): OrdinateAmplitudes {
  const ends = crest + trough;
  const halves = half + minusHalf;
  const endsApart = crest - trough;
  const halvesApart = half - minusHalf;
  return [
    ends / 6 + halves / 3,
    endsApart / 3 + halvesApart / 3,
    ends / 4 - rest / 2,
    endsApart / 6 - halvesApart / 3,
    ends / 12 - halves / 3 + rest / 2,
  ];
}
