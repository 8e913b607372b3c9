import type { Method } from './methods.ts';

/** How built units are held against limits, and how a batch spreads. */
export const unitMethods: readonly Method[] = [
  {
    id: 'unit-limits',
    title: 'Units and limits',
    text: [
      'A version states limits: what every unit that is built to it must keep, by the maker’s own judgement. They are of two kinds. A reading is a value that the maker writes into the unit’s record, by a name of the maker’s own. A figure is taken from a capture of the unit.',
      'A reading counts as exact: it is within where it lies between the bounds, both included, and outside otherwise. How well the meter reads is not accounted for, so limits of readings are better set with that in mind. A figure has its 95 % interval. It is within only where all of the interval is, outside only where all of it lies beyond a bound, and in between it cannot be told.',
      'Something read again after work on the unit counts by its last reading; the earlier ones stay on the sheet with what was done. The words say that a value keeps or breaks what the maker stated, and nothing beyond that: a unit that keeps all limits can still be dangerous to touch.',
    ],
    formulas: [
      {
        tex: '\\text{within:}\\quad L \\le x_{\\text{low}},\\; x_{\\text{high}} \\le M \\qquad\\qquad \\text{outside:}\\quad x_{\\text{high}} < L \\;\\text{ or }\\; x_{\\text{low}} > M',
        where: 'L and M are the least and the most, x low and x high the ends of the interval',
      },
    ],
    sources: [
      'JCGM 106:2012, 8.2 (simple acceptance) for readings, 8.3 (guarded acceptance and rejection) for figures with an interval, from memory',
    ],
  },
  {
    id: 'batch-spread',
    title: 'Spread over a batch',
    text: [
      'For each reading and figure, the mean over the units that have it, the standard deviation of one unit, and the lowest and highest unit. What counts is the last value of each unit, so that a unit that was mended stands with what it was mended to. A batch of a few units says little about the next one: with four, the true standard deviation may well be three times as large as the one printed.',
    ],
    formulas: [
      {
        tex: '\\bar x = \\frac{1}{n}\\sum x_i,\\qquad s = \\sqrt{\\frac{1}{n-1}\\sum (x_i-\\bar x)^2}',
        where: 'over n units',
      },
    ],
    sources: [
      'JCGM 100:2008, 4.2.1 and 4.2.2',
      'the range of the standard deviation: χ² with three degrees of freedom, whose 2.5 % point is 0.216',
    ],
  },
];
