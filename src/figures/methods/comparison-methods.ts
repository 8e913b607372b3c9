import type { Method } from './methods.ts';

/** How alternatives are compared along their curves, and how criteria are weighed. */
export const comparisonMethods: readonly Method[] = [
  {
    id: 'comparisons',
    title: 'Comparisons: where the order of two alternatives changes',
    text: [
      'Curves of distortion are compared over frequency at equal output power and at equal input voltage, and over level against output power and against input voltage, each as far as the captures go. Distortion is read between frequencies and between levels, straight on logarithmic axes, and nowhere beyond them; levels within 0.1 dB count as equal, and what that may do to a harmonic joins its bound. Several sweeps of one alternative at one level count as their geometric mean, which is how exchanged channels cancel.',
      'A sweep states no uncertainty, so it is taken from the sweep: from how far four neighbouring readings at a time lie off any parabola on logarithmic axes. A place has the usual scatter of the whole curve, without its largest fifth, or that of its neighbourhood where this is larger; a sharp bend counts as scatter. The usual scatter is a share of the reading and, where that fits clearly better, a constant part besides, as noise adds more to small readings. What the journal states of the instrument comes on top in full. A drift that neighbours share is not seen, nor how a sweep would come out when everything is set up anew: a finding is one of these captures.',
      'Everything that is looked at in a comparison has its interval widened so that all of them hold together: of m readings each gets a chance of 0.05/m. Two alternatives are told apart at a place where the difference of the logarithms is larger than both scatters allow together, and larger than all that both instruments may be off by. A stretch is a run of such places, in one order, over a third of an octave at least, or over two decibels of level. Of 1,000 constructed pairs that do not differ none gave a finding where the noise was even, and 10 where it was twenty times as large at one end of the curve.',
      'The order changes between two stretches of opposite order. The crossing is read between the readings on either side of it; it lies between the last place of the one order and the first of the other. Where only one order is told there is no crossing, however the lines run. The headline is total distortion at 1 kHz, or at 1 W where there is no frequency sweep; the means over bands are those of the logarithm over the logarithm of frequency, over what both sweeps cover of a band and an octave at least.',
      'The level difference is that of the gains at one output power, 1 W where both level sweeps reach it.',
    ],
    formulas: [
      {
        tex: 'r_i = \\frac{\\sum_j w_j \\ln y_{i+j}}{\\sqrt{\\sum_j w_j^2}},\\qquad w_j = \\prod_{k \\neq j} \\frac{1}{x_{i+j} - x_{i+k}}',
        where: 'x the logarithm of the axis, j and k from 0 to 3; r has the scatter of one reading',
      },
      {
        tex: '\\left|\\ln \\frac{y_A}{y_B}\\right| > \\sqrt{(t_A s_A)^2 + (t_B s_B)^2}',
        where:
          't exceeded with a chance of 0.05/m by a Student variable; s the scatter; without the bounds of the instruments',
      },
      {
        tex: 'x_0 = x_1 \\left(\\frac{x_2}{x_1}\\right)^{d_1/(d_1-d_2)}',
        where: 'd = ln(y_A/y_B) on both sides of the crossing',
      },
    ],
    sources: [
      'O. J. Dunn, J. Amer. Statist. Assoc. 56:52 (1961), for intervals that hold together by Bonferroni’s inequality (from memory)',
      'H. Goldstein and M. J. R. Healy, J. Roy. Statist. Soc. A 158:175 (1995), for intervals that are apart where two values differ (from memory)',
      'H. Dette, A. Munk and T. Wagner, J. Roy. Statist. Soc. B 60:751 (1998), for scatter from differences of neighbours (from memory)',
      'D. M. Rocke and S. Lorenzato, Technometrics 37:176 (1995), for scatter with a share and a constant part, and S. S. Wilks, Ann. Math. Statist. 9:60 (1938), for choosing between them (from memory)',
    ],
  },
  {
    id: 'criteria',
    title: 'Comparisons: criteria and their weights',
    text: [
      'A criterion orders the alternatives: figures by what may be said of their difference, a listening session by a preference that chance alone explains in no more than 5 % of sessions, prices of one currency by their amount, and anything else as the maker says. An alternative gets the share of the others that it is better than; what is equal, or cannot be told apart, counts one half. How much better it is does not enter: that is what the weights are for.',
      'The points are weighed and added. As the lead of the first alternative is linear in every weight, the weight at which another one draws level is exact: it is stated for each criterion with all the others as they are.',
    ],
    formulas: [
      {
        tex: 'w_c^{*} = w_c - \\frac{\\sum_k w_k (p_{k1} - p_{k2})}{p_{c1} - p_{c2}}',
        where: 'w weights, p points of the first alternative and of a rival; no such weight below zero',
      },
    ],
    sources: ['Weighted sum and its linear sensitivity (derived)'],
  },
];
