import type { Method } from './methods.ts';

/** How what is stated about an instrument enters the intervals. */
export const instrumentMethods: readonly Method[] = [
  {
    id: 'instrument',
    title: 'Instrument',
    text: [
      'Where a log names the instrument of a capture, what the journal states about it enters the intervals: the limit of its gain error, the error of its clock, its bandwidth, the step of its converter, and its own distortion. Where it names none, or states nothing, an interval holds noise alone. The clock is in every frequency that was measured in samples; where nothing is stated about it, such a frequency says so. Places in a sweep have no interval, as what is uncertain there is how the curve runs between two points. Phases between the channels of one record do not feel the clock.',
      'A limit of error counts as an even spread between its bounds. A level or an impedance follows the gain, a power its square. A gain between two channels has the error of either, taken as independent even in one instrument, since nothing says that the channels err alike. Ratios of one channel do not feel the gain; signal-to-noise feels it where the signal is the rated output.',
      'The bandwidth is where a reading may be 3 dB low. Below it no flat low-pass loses more than one of first order, and what that would take from a level, from a harmonic against its fundamental, or from a sum of harmonics is a limit of error, counted to both sides. Of THD+N it counts for the harmonics; noise figures are those of the band that the instrument passes, and hum lies far below. Between two channels of one instrument it cancels. Harmonics beyond the bandwidth say so. In THD of a sweep, whose harmonics are not known one by one, it is not counted.',
      'The step of the converter, twice the largest input over two to the power of the bits, is not added to figures of a waveform: its rounding is in the noise of the record and would count twice. The direct part and the rows of a sweep show no such noise, and have half a step as a limit of error. Where the samples themselves show a smaller step that fits, the instrument stood on a smaller range and that step counts. A scale above 1 is taken for a probe ahead of the instrument, which enlarges step and range.',
      'Its own distortion is a line of the same frequency and of unknown phase: it adds to a harmonic or takes away from it. The stated ratio is taken as a bound for every single harmonic, for their sums, for THD and for THD+N. Between stated frequencies it runs straight over the logarithm of frequency; beyond the ends it is held; where the frequency of a level sweep is not among its conditions, the largest counts. A figure at or below it says so, whether or not it stands above the noise. It may be of any order, so that in a weighted sum it counts as if all of it were of the highest one. A bound of the distortion added between two channels is widened by that of both. In tables the same holds for each harmonic and each line of hum, and charts of sweeps draw the interval as a band.',
      'For two tones, each line is bounded by what a curve with a single term of that order makes of both tones, if it gives a sine of the same peak the stated distortion. A real instrument may have several terms whose parts cancel at one level; then this is an estimate.',
      'Noise and instrument are combined as the root of the sum of squares, each side of an uneven interval by itself, with Student’s t for the effective degrees of freedom where a fitted level has few. An interval is never wider than the noise’s own half and all that the instrument can be off by. For errors that are mostly a limit it therefore ends at that limit, and holds more than 95 %. A figure without an interval from noise gets that of the instrument alone. A power at which distortion is stated is taken as exact. Averaging repeats lowers the part of noise, not that of the instrument.',
    ],
    formulas: [
      { tex: 'u=\\frac{a}{\\sqrt 3}', where: 'limit of error ± a, evenly spread' },
      {
        tex: 'u=\\frac{r}{\\sqrt 2},\\qquad u=\\frac{w_N\\,r}{\\sqrt 2},\\qquad u=r',
        where:
          'own distortion r in unknown phase: in a ratio, in a sum with the weight w of the highest order N, and in what was added between two channels',
      },
      {
        tex: 'a=|x|\\left(\\sqrt{\\frac{1+(nf/B)^2}{1+(f/B)^2}}-1\\right)',
        where: 'harmonic x of order n with a bandwidth B; a level by the root of its own frequency alone',
      },
      {
        tex: 'q=\\frac{2U_{\\mathrm{max}}}{2^b},\\qquad u=\\frac{q}{\\sqrt{12}}',
        where: 'step of a converter of b bits',
      },
      {
        tex: 'r_{pq}=r\\,\\frac{A}{A_2}\\,\\frac{n!}{p!\\,q!}\\left(\\frac{A_1}{A}\\right)^p\\left(\\frac{A_2}{A}\\right)^q',
        where: 'own line at ±p·f₁ ± q·f₂ over the upper tone, with n = p + q and A = A₁ + A₂',
      },
      {
        tex: 'u_c^2=u_A^2+u_B^2,\\qquad \\nu_{\\mathrm{eff}}=\\nu_A\\,\\frac{u_c^4}{u_A^4}',
        where: 'noise A with its degrees of freedom, instrument B with infinitely many',
      },
      {
        tex: 'U=\\min\\bigl(t_{95}(\\nu_{\\mathrm{eff}})\\,u_c,\\ U_A+a\\bigr)',
        where: 'half of the interval; U_A that of noise alone, a all limits together',
      },
    ],
    sources: [
      'JCGM 100:2008, 4.3.7 (even spread), 5.1.2 (root sum of squares), G.4.1 (effective degrees of freedom, Welch and Satterthwaite), from memory',
      'JCGM 101:2008, 6.4.6 (arcsine distribution), from memory',
      'First-order and Butterworth low-passes: |H|² = 1/(1 + (f/B)^2k) (from memory)',
      'Triangle inequality, for the limit; binomial theorem, for two tones',
    ],
  },
];
