import type { Method } from './methods.ts';

/** How claims are held against figures. */
export const claimMethods: readonly Method[] = [
  {
    id: 'claims',
    title: 'Claims: expectations and evidence',
    text: [
      'A claim says of one figure that it is lower or higher than another, or than a stated value, by a margin if one is stated; or that it is within a margin of it, or equal to it. Expectations are written before measuring, evidence is what a decision rests on. Both are held against the captures whenever the site is built.',
      'The figure that is compared with is moved by the margin first, and its interval and scatter with it; then the two are compared as any two figures are. So a claim of ten decibels holds only where it is ten decibels that the captures show. Decibels of a power count ten to the decade, those of everything else twenty. Per cent are a share of the value compared with, also where the figure itself is printed in per cent.',
      'Holds: the difference that is claimed is shown. Does not hold: the opposite is shown, also where there is a difference but less of it than claimed. Cannot be told apart: the captures do not decide. No data: a figure does not exist, with the reason. Without repeats, shown means shown in these captures.',
      'Within holds where both bounds are told from the figure and it lies between them. Equality is never shown: at best two figures cannot be told apart, and as evidence that counts as borne out as long as both have intervals.',
      'At a frequency or power, a sweep is read between its points, on a straight line on log-log paper, and never beyond its ends; the instrument counts with its error there. Over a band, every point of the sweep and both edges are looked at. A claim holds over it where it holds everywhere, and does not hold where it fails anywhere. Each place is judged by itself, so among forty places one may fail by chance. A mean over a band is judged once: it is that of the logarithm, and its interval holds the scatter of the sweep as comparisons take it, and the instrument.',
      'A figure of a load sheet is exactly what the model gives: it has no interval, and a claim about it says nothing about the amplifier until that is measured.',
    ],
    formulas: [
      {
        tex: 'q < r\\cdot 10^{-m/20},\\qquad q < r\\,(1-s),\\qquad q < r-a',
        where:
          'lower by m decibels, by a share s, by an amount a; q is the figure, r what it is compared with',
      },
    ],
    sources: ['the verdicts of differences between figures, above, with their sources'],
  },
];
