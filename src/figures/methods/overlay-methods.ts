import type { Method } from './methods.ts';

/** What the overlay page does to curves before it draws them. */
export const overlayMethods: readonly Method[] = [
  {
    id: 'overlay',
    title: 'Overlays: curves of several captures on one pair of axes',
    text: [
      'Curves are published with six digits. Between two readings a curve is straight as it is drawn: over the logarithm of frequency or power, in decibels for levels and in the logarithm for distortion and impedance. Nothing is read outside of a curve’s readings or in its gaps. Of a spectrum the highest and the lowest line in each of 250 columns per decade are kept, so that every peak stays at its frequency.',
      'A chart that is explored reads its lines in the same way, on its own axes: a linear axis in its unit. The spectrum of a capture is then the one that is published for overlays, and a name stands at each of its lines that was told from noise.',
      'Normalised, every curve is in decibels: re its own value at 1 kHz, re its fundamental, or re its mean over the range that all shown curves share, which is that of the decibels over the logarithm of frequency. A difference is taken at the readings of a curve, from the reference as it is read there; where the reference has no readings there is none. Curves of unlike units have no common axis and are never drawn on one: as measured, what is not in the unit of the first curve is left out with the reason.',
      'Intervals are those that the instrument gives to single readings. They are not shown for normalised curves, as much of what the instrument is off by is common to both parts of a ratio; what two captures allow to be said of each other stands on the pages of comparisons.',
    ],
    formulas: [
      {
        tex: 'd(x) = 20 \\lg y(x) - 20 \\lg y_r(x)',
        where:
          'y a curve at one of its readings, y_r the reference at the same place; decibels are subtracted as they are',
      },
      {
        tex: '\\bar L = \\frac{1}{\\ln (f_2/f_1)} \\int_{f_1}^{f_2} L(f)\\,\\mathrm{d}\\ln f',
        where: 'L the level in decibels, from f_1 to f_2; exact for the line as it is drawn',
      },
    ],
    sources: ['Interpolation and means of straight lines (derived)'],
  },
];
