import type { Method } from './methods.ts';

/** Sections of the methods page about two-tone captures and weighted harmonics. */
export const twoToneMethods: readonly Method[] = [
  {
    id: 'two-tones',
    title: 'Two tones',
    text: [
      'A capture counts as two-tone only where its log says so. The tones are looked for where they are declared, within one per cent; without a declaration the two strongest lines are taken, and nothing is computed where a third line has more than half of the weaker one, where one is more than ten times the other, or where one may be a harmonic of the other. The direct part, both tones and every line at their combinations up to the fifth order are then fitted together by least squares, both frequencies included. The record needs no whole number of cycles of either.',
      'Figures are computed only for the tones that they are made for: modulation distortion for a low tone of three to five times the level, at least eight times lower; difference-frequency distortion for levels within a fourth of each other, at most a ratio of 1.3 apart in frequency. These bounds are choices of this software. Other tones get their lines only.',
    ],
    formulas: [
      {
        tex: 'y_k=C+\\sum_{m,n}\\left(A_{mn}\\cos(m\\omega_1+n\\omega_2)t_k+B_{mn}\\sin(m\\omega_1+n\\omega_2)t_k\\right),\\qquad |m|+|n|\\le 5',
        where:
          'ω₁ and ω₂ are the lower and the upper tone; all unknowns minimise the sum of squared residuals',
      },
    ],
    sources: [
      'IEEE Std 1057, four-parameter sine fit, with two frequencies (steps from memory)',
      'G. H. Golub and V. Pereyra, SIAM J. Numer. Anal. 10:413 (1973), for solving amplitudes and frequencies apart',
    ],
  },
  {
    id: 'intermodulation-lines',
    title: 'Intermodulation lines',
    text: [
      'Each line is the level at one combination of both tones over the upper tone. Its order is the lowest power of a transfer curve that makes it. Uncertainty, interval and detection are those of a harmonic: the noise is read beside the line, and noise alone gets any line of a record marked in the stated share of records. A line that stands less than one cycle per record from one of lower order is not told apart from it and has no level. Lines of the fourth and fifth order are listed where they are detected.',
      'For two equal tones of amplitude A, a curve makes each second-order line twice and each third-order line three times as large, re one tone, as the harmonic of that order of a single tone of amplitude A, while A is small.',
    ],
    formulas: [
      {
        tex: 'h_{mn}=\\frac{\\sqrt{A_{mn}^2+B_{mn}^2}}{\\sqrt{A_{01}^2+B_{01}^2}}',
        where: 'line at m f₁ + n f₂ over the upper tone',
      },
    ],
    sources: ['As for harmonics', 'Product formulas of cosines (derived)'],
  },
  {
    id: 'modulation-distortion',
    title: 'Modulation distortion',
    text: [
      'A low tone of four times the level moves a high one along the transfer curve; how much the high one changes shows in its sidebands. The arithmetic sum of a pair of sidebands is the depth of the amplitude modulation where the pair is in phase; where it comes from a moving phase instead, the sum counts it all the same.',
      'Contested: how the orders are put together. The two sums, one for each order, are a standard’s form. Their root sum of squares is one number for the whole modulation, and the root sum of squares of the four lines is another, 3 dB smaller where sidebands come in equal pairs. All are given and none is called the one.',
    ],
    formulas: [
      {
        tex: 'd_{m2}=\\frac{U_{f_2-f_1}+U_{f_2+f_1}}{U_{f_2}},\\qquad d_{m3}=\\frac{U_{f_2-2f_1}+U_{f_2+2f_1}}{U_{f_2}}',
        where: 'arithmetic sums re the upper tone',
      },
      {
        tex: 'd_m=\\sqrt{d_{m2}^2+d_{m3}^2},\\qquad d_s=\\frac{\\sqrt{U_{f_2-f_1}^2+U_{f_2+f_1}^2+U_{f_2-2f_1}^2+U_{f_2+2f_1}^2}}{U_{f_2}}',
        where: 'both orders, and the four lines',
      },
    ],
    sources: [
      'IEC 60268-3, modulation distortion (from memory)',
      'SMPTE RP 120-1983, as the FADGI glossary quotes it: per cent amplitude modulation by second- and third-order sideband pairs',
      'Interval: JCGM 100:2008, 5.1.3, one input at a time, held against simulation',
    ],
  },
  {
    id: 'difference-frequency-distortion',
    title: 'Difference-frequency distortion',
    text: [
      'Two equal tones close together near the top of the band: their second-order line falls far below them, where it is measured even when their harmonics lie beyond the band, and their third-order lines stand right beside them. A curve that treats both halves of the wave alike makes no second-order line at all, so the third order must be read too.',
      'Contested: the reference. Over the sum of both tones, as a standard has it, the figure is 6.02 dB smaller than over one tone. Two third-order lines may be added or squared: 3.01 dB between equal lines. A figure without its reference and form says little.',
    ],
    formulas: [
      {
        tex: 'd_{d2}=\\frac{U_{f_2-f_1}}{U_{f_1}+U_{f_2}},\\qquad d_{d3}=\\frac{U_{2f_1-f_2}+U_{2f_2-f_1}}{U_{f_1}+U_{f_2}}',
        where: 're the sum of both tones',
      },
      { tex: "d'_{d2}=\\frac{U_{f_2-f_1}}{\\tfrac12(U_{f_1}+U_{f_2})}=2\\,d_{d2}", where: 're one tone' },
      {
        tex: "d'_{d3}=\\frac{\\sqrt{U_{2f_1-f_2}^2+U_{2f_2-f_1}^2}}{U_{f_1}+U_{f_2}}",
        where: 'third order as root sum of squares',
      },
    ],
    sources: [
      'IEC 60268-3, difference-frequency distortion (from memory)',
      'Interval as for modulation distortion',
    ],
  },
  {
    id: 'contested-weightings',
    title: 'Contested weightings of harmonics',
    text: [
      'Two old proposals hold that high orders are heard more easily than low ones. They multiply each harmonic by a weight that grows with its order before the root sum of squares is taken: half the order, or a quarter of its square, so that the second counts as it is, the third 1.5 or 2.25 times and the fifth 2.5 or 6.25 times.',
      'Contested throughout: which weight, whether any single number ranks amplifiers as listeners do, and whether a weight found with one kind of distortion holds for another. Weights enlarge the noise of the high orders as much as their level, so the interval is wider than that of THD. The figures stand apart for these reasons.',
    ],
    formulas: [
      {
        tex: 'd_\\mathrm{RMA}=\\sqrt{\\sum_{n=2}^{H}\\left(\\frac n2 h_n\\right)^2},\\qquad d_\\mathrm{Shorter}=\\sqrt{\\sum_{n=2}^{H}\\left(\\frac{n^2}{4}h_n\\right)^2}',
        where: 'h is a harmonic over the fundamental',
      },
    ],
    sources: [
      'Radio Manufacturers’ Association, Specification for Testing and Expressing Overall Performance of Radio Broadcast Receivers, 1937 (from memory)',
      'D. E. L. Shorter, Electronic Engineering 22:152 (April 1950), weights as quoted elsewhere',
    ],
  },
];
