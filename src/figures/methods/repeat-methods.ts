import type { Method } from './methods.ts';

/** Methods of repeated captures and of differences between figures. */
export const repeatMethods: readonly Method[] = [
  {
    id: 'repeats',
    title: 'Repeats',
    text: [
      'One record tells how far its own noise goes, and nothing about what the next one would say with the leads taken off and put on again. Repeats do: several captures of one thing, with a statement of what was done anew between them. What is done anew decides what the scatter means.',
      'Each figure that all of them have gets its mean, its experimental standard deviation and, by Student’s t, a 95 % interval of the mean. The mean is taken in the figure’s own unit: ratios as ratios, decibels as decibels, angles around the first one. The powers behind 0 dB and −10 dB have a mean of −2.6 dB, the decibels one of −5 dB; the difference is small where the scatter is.',
      'What an instrument adds to every reading alike is not lowered by repeating. Its 95 % half width and that of the scatter are added as squares. Effective degrees of freedom over both, as in GUM G.4.1, would be narrower, but with few readings they hold the truth too seldom: simulated, in 88 % with two readings and 92 % with three, where this rule holds it in 95 % and more.',
      'Noise adds to every distortion reading, so where noise alone may have made one of the readings, the interval of the mean begins at zero. Where all readings are alike to the last digit there is no interval: they are coarse, and it is not known how well they repeat.',
      'The scatter is compared with what the records’ own noise would give, by the sum of squared deviations at a level of 5 %. If it is larger, what was done anew decides, not the noise. The test is on the cautious side, as a record’s uncertainty is taken from its interval, which is wide rather than narrow.',
    ],
    formulas: [
      {
        tex: '\\bar q=\\frac1n\\sum_k q_k,\\qquad s=\\sqrt{\\frac{1}{n-1}\\sum_k (q_k-\\bar q)^2},\\qquad u_A=\\frac{s}{\\sqrt n}',
        where: 'n readings q',
      },
      {
        tex: '\\bar q\\pm\\sqrt{\\left(t_{95}(n-1)\\,u_A\\right)^2+\\left(1.96\\,u_B\\right)^2}',
        where: 'u_B is the standard uncertainty that the instrument adds',
      },
      {
        tex: '\\frac{(n-1)\\,s^2}{u_r^2}\\;>\\;\\chi^2_{0.95}(n-1)',
        where: 'u_r² is the mean of the squared standard uncertainties of the records',
      },
    ],
    sources: [
      'JCGM 100:2008 (GUM), 4.2, G.3.2 and G.4.1',
      'G. Y. Zou and A. Donner, Stat. Med. 27:1693 (2008) (from memory), for half widths added as squares',
      'NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.8 (from memory), for the test of scatter',
    ],
  },
  {
    id: 'differences',
    title: 'Differences between figures',
    text: [
      'A difference is the second figure less the first, for ratios in decibels as well. What may be said about it depends on what is known about repeating.',
      'Lower or higher: the scatter of captures set up anew is known, and the 95 % interval of the difference leaves out zero. Where only one side was repeated, its scatter is taken to hold for both, and the page says so.',
      'A scatter that was found earlier, and is declared in the log with the number of captures behind it, counts as known too; the page says that it is declared. It then holds as far as the set-up still scatters as it did. What noise the record itself has is never taken to be less. Two declared scatters may come from one series, and count as one estimate with the fewer degrees of freedom.',
      'Different in these captures: neither side was repeated, and the two intervals do not overlap. The records differ by more than their noise, but nobody knows whether the next pair would.',
      'Cannot be told apart: everything else that has two values. This does not say that they are equal. A distortion that noise alone may have made is never told from one whose interval it overlaps. Without intervals and without repeats nothing can be told apart.',
      'No data: one of the two figures does not exist, with the reason.',
      'What the instruments add counts as independent on both sides. For two readings of one level on one instrument this is cautious. Many rows are judged one by one: among twenty differences that are not there, about one will be called lower or higher.',
    ],
    formulas: [
      {
        tex: 'd=q_2-q_1,\\qquad u_A^2=\\frac{s_1^2}{n_1}+\\frac{s_2^2}{n_2},\\qquad d\\pm\\sqrt{\\left(t_{95}(\\nu)\\,u_A\\right)^2+1.96^2\\,(u_{B,1}^2+u_{B,2}^2)}',
        where: 'one s stands on both sides where only one is known',
      },
      {
        tex: '\\nu=\\frac{u_A^4}{\\dfrac{(s_1^2/n_1)^2}{n_1-1}+\\dfrac{(s_2^2/n_2)^2}{n_2-1}}',
        where: 'two scatters; one that holds for both sides has its own degrees of freedom',
      },
    ],
    sources: [
      'JCGM 100:2008 (GUM), G.4.1',
      'B. L. Welch, Biometrika 34:28 (1947) (from memory)',
      'G. Y. Zou and A. Donner, Stat. Med. 27:1693 (2008) (from memory), for half widths added as squares',
    ],
  },
];
