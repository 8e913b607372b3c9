/** What stands wherever captures of an invented journal are shown. */
export const inventedText =
  'The amplifiers, captures and readings of this journal are invented, to show what the generator does.';
