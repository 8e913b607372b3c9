import type { Method } from './methods.ts';

/** Methods of the further figures of sampled waveforms. */
export const waveformMethods: readonly Method[] = [
  {
    id: 'even-odd',
    title: 'Even and odd harmonics',
    text: [
      'The same root sum of squares as THD, over the even and over the odd orders apart, with the interval that THD has. A curve that treats both halves of the wave alike makes odd harmonics only; even ones come from a difference between the halves.',
    ],
    formulas: [
      {
        tex: 'd_\\mathrm{even}=\\sqrt{\\sum_{n=2,4,\\dots} h_n^2},\\qquad d_\\mathrm{odd}=\\sqrt{\\sum_{n=3,5,\\dots} h_n^2},\\qquad \\mathrm{THD}^2=d_\\mathrm{even}^2+d_\\mathrm{odd}^2',
        where: 'h is a harmonic over the fundamental',
      },
    ],
    sources: ['Symmetry of Fourier series: f(t + T/2) = −f(t) holds odd orders only', 'Interval as for THD'],
  },
  {
    id: 'crest-factor',
    title: 'Crest factor',
    text: [
      'The largest distance of any sample from the direct part over the rms value about it. A sine has √2, a square wave 1. Noise and spikes raise it, clipping lowers it; it rests on one sample and is given without an interval.',
    ],
    formulas: [
      {
        tex: 'k=\\frac{\\max_k |y_k-C|}{\\sqrt{\\frac1N\\sum_k (y_k-C)^2}}',
        where: 'C is the direct part of the fit',
      },
    ],
    sources: ['Definition: peak value over rms value'],
  },
  {
    id: 'transfer',
    title: 'Gain and phase between two channels',
    text: [
      'The fundamental of the response over that of the stimulus, and the difference of their phases, from the two fits. Phases are compared in the middle of the record, where the phase of a fit does not depend on its frequency. The uncertainty is that of both fits together, with the noise of the two channels taken as independent.',
      'The channels count as sampled at the same instants. A recorder that takes them one after the other adds a phase that grows with frequency, and the calibration of its two inputs is in the gain; neither is in the interval.',
    ],
    formulas: [
      {
        tex: 'G=\\frac{A_2}{A_1},\\qquad \\varphi=\\varphi_2-\\varphi_1,\\qquad u(\\varphi)=\\frac{u(G)}{G}=\\sqrt{\\left(\\frac{u(A_1)}{A_1}\\right)^2+\\left(\\frac{u(A_2)}{A_2}\\right)^2}',
        where: 'amplitudes and phases of stimulus 1 and response 2',
      },
    ],
    sources: [
      'IEEE Std 1057, four-parameter sine fit (from memory), for each channel',
      'JCGM 100:2008, 5.1.2',
    ],
  },
  {
    id: 'added-distortion',
    title: 'Distortion added: a bound, or a difference',
    text: [
      'A stimulus with harmonics of its own passes them on, and the harmonics of the response are those and what the circuit added. In which phase they meet is not known from one record: that would need the gain and phase of the circuit at every order. If it passes a harmonic on as strongly as the fundamental, what it added lies between the difference and the sum of the two levels. Noise widens the bounds.',
      'This is no subtraction, and the two bounds are not a confidence interval. Where the circuit’s gain at the harmonics differs from that at the fundamental, the bounds move with it.',
      'Where the log names a frequency sweep of the circuit with phase, the subtraction is made: each harmonic of the stimulus is carried through gain and phase at its frequency, read between the points of the sweep, and taken off that of the response as a vector. What is left is what the circuit added, order by order and as a root sum of squares. Noise of both channels is in the intervals, with that of the two fundamentals’ phases times the order; what is stated about the instrument counts for both channels. The sweep counts as exact, so that an error of 1 % or of 0.6° in it leaves 1 % of what was passed on. It must be that of a small tone: a sweep taken at a level that bends the circuit does not hold.',
    ],
    formulas: [
      {
        tex: 'a_n=h_{2,n}-h_{1,n}\\,\\frac{G(nf)}{|G(f)|}\\,e^{-\\mathrm{j}n\\arg G(f)},\\qquad u(a_n)^2=u(h_{2,n})^2+\\left|\\tfrac{G(nf)}{G(f)}\\right|^2u(h_{1,n})^2+n^2\\left(|h_{2,n}|^2u_2^2+|p_n|^2u_1^2\\right)',
        where:
          'h relative to the fundamental of its channel in level and phase, G the swept gain, p what was passed on, u₁ and u₂ the relative uncertainties of the fundamentals',
      },
      {
        tex: '\\bigl|\\,|h_{2,n}|-|h_{1,n}|\\,\\bigr| \\;\\le\\; |a_n| \\;\\le\\; |h_{2,n}|+|h_{1,n}|',
        where: 'harmonic n of response, stimulus, and added, each over its fundamental',
      },
    ],
    sources: ['Triangle inequality, for each harmonic and for the root sum of squares of all'],
  },
  {
    id: 'output-power',
    title: 'Output power',
    text: [
      'The power in the declared load, which counts as a resistance: that of the fundamental alone, and that of everything but the direct part. A loudspeaker is no resistance; the figure then says what a resistor of that value would take.',
    ],
    formulas: [
      { tex: 'P=\\frac{U^2}{R}\\quad\\text{or}\\quad P=I^2R', where: 'rms values, declared load R' },
    ],
    sources: ['Joule’s law'],
  },
  {
    id: 'hum',
    title: 'Hum',
    text: [
      'The lines at the mains frequency and up to ten multiples. The frequency itself is searched within 1 % of the nominal one, since ten multiples of a small error are a large one; then all lines are fitted together with the direct part, the fundamental and its harmonics, so that none leaks into another. Where no line stands clear of the noise the nominal frequency is used.',
      'A multiple less than one cycle per record away from a harmonic cannot be told from it and is left to it; the table says which. Telling the lines from each other and from the noise between them takes four cycles of the mains at least: 80 ms at 50 Hz. The mains frequency counts as steady over the record.',
      'Each line has the interval of a harmonic, and the sum that of THD: on noise alone they reach zero.',
    ],
    formulas: [
      {
        tex: 'U_\\mathrm{hum}=\\sqrt{\\sum_{k\\le 10} U_k^2}',
        where: 'rms values of the lines that are not left to harmonics',
      },
    ],
    sources: [
      'B. G. Quinn and P. J. Thomson, Biometrika 78:65 (1991), for lines at multiples of one frequency (from memory)',
      'EN 50160 for the tolerance of the mains frequency (from memory)',
    ],
  },
  {
    id: 'band-noise',
    title: 'Noise in the band, weighted and not',
    text: [
      'What is left in the stated band when direct part, harmonics and hum are taken off, as rms; hum none of whose lines stands clear of the noise stays in it. The power that noise had at the lines taken off went with them and is put back from its density around. Harmonics above the highest counted order are in it.',
      'Curve A is the analytic form of IEC 61672-1. The curve of ITU-R BS.468 is its table, joined by cubics in decibels over the logarithm of frequency, with 6 dB an octave below the first row. That recommendation also asks for a detector that answers to peaks; the figure here is an rms value, which reads lower on crackling noise. Figures compare only where curve, detector and band agree.',
      'The interval answers for the length of the record: a short one holds few independent parts of the noise.',
    ],
    formulas: [
      {
        tex: 'A(f)=\\frac{f_4^2 f^4}{(f^2+f_1^2)\\sqrt{(f^2+f_2^2)(f^2+f_3^2)}\\,(f^2+f_4^2)}',
        where: 'f₁ = 20.60 Hz, f₂ = 107.7 Hz, f₃ = 737.9 Hz, f₄ = 12194 Hz, then over A(1 kHz)',
      },
      {
        tex: 'U^2=\\sum_{l} w(f_l)\\,\\frac{2|R_l|^2}{N^2}',
        where: 'lines of the residual within the band, w the weighting of powers',
      },
    ],
    sources: [
      'IEC 61672-1, Annex E (from memory); checked against a published table of 34 frequencies',
      'Recommendation ITU-R BS.468-4, table 1, as quoted in public files',
      'Parseval’s theorem',
    ],
  },
  {
    id: 'signal-to-noise',
    title: 'Signal-to-noise ratio',
    text: [
      'A level over the noise in the band, in decibels. The level is the rated output where the version measured states ratedPower and ratedLoad, and the fundamental of the record itself otherwise; the figure says which. Hum is not in the noise here: it stands by itself. Ratios published elsewhere often include it.',
    ],
    formulas: [
      {
        tex: '\\mathrm{S/N}=20\\lg\\frac{U_\\mathrm{ref}}{U_\\mathrm{noise}},\\qquad U_\\mathrm{ref}=\\sqrt{P_\\mathrm{rated}R_\\mathrm{rated}}',
        where: 'rms values',
      },
    ],
    sources: ['IEC 60268-3 (from memory)'],
  },
  {
    id: 'noise-density',
    title: 'Noise density on a chart',
    text: [
      'The noise in a band of one hertz against frequency, for the eye; figures never come from it. Direct part, fundamental and harmonics are taken off by the fit first, hum stays in. The record is cut into segments that overlap by half, each is weighted by a Hann window, and the powers are averaged. A line, as of hum, has no density: its height depends on the length of the segments.',
    ],
    formulas: [
      {
        tex: 'S(f)=\\frac{2}{f_s\\sum_k w_k^2}\\,\\overline{|X(f)|^2},\\qquad \\sqrt{S}=\\sigma\\sqrt{2/f_s}\\ \\text{for white noise}',
        where: 'rate fₛ, window w, mean over the segments',
      },
    ],
    sources: [
      'P. D. Welch, IEEE Trans. Audio Electroacoust. 15:70 (1967) (from memory)',
      'G. Heinzel, A. Rüdiger, R. Schilling, Spectrum and spectral density estimation by the DFT (2002)',
    ],
  },
  {
    id: 'folding',
    title: 'Orders above half the sampling rate',
    text: [
      'Sampling shows a line above half the rate at its distance from the nearest multiple of the rate, unless a filter ahead of the converter keeps it out. The orders asked for are followed there. One that lands within one cycle per record of a fitted line cannot be told from it: that harmonic, and the sums it is part of, are withheld. One that lands elsewhere counts as noise and is mentioned. An instrument whose stated bandwidth ends below half the rate lets nothing fold.',
    ],
    formulas: [
      { tex: "f'=\\left|\\,nf_1-f_s\\,\\mathrm{round}(nf_1/f_s)\\right|", where: 'where order n appears' },
    ],
    sources: ['Sampling theorem'],
  },
];
