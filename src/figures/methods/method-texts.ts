import { chainMethods } from './chain-methods.ts';
import { claimMethods } from './claim-methods.ts';
import { comparisonMethods } from './comparison-methods.ts';
import { deviceMethods } from './device-methods.ts';
import { followerMethods } from './follower-methods.ts';
import { hearingMethods } from './hearing-methods.ts';
import { instrumentMethods } from './instrument-methods.ts';
import { listeningMethods } from './listening-methods.ts';
import type { Method } from './methods.ts';
import { outputMethods } from './output-methods.ts';
import { overlayMethods } from './overlay-methods.ts';
import { predictedMethods } from './predicted-methods.ts';
import { pushPullMethods } from './push-pull-methods.ts';
import { repeatMethods } from './repeat-methods.ts';
import { supplyMethods } from './supply-methods.ts';
import { sweepMethods } from './sweep-methods.ts';
import { twoToneMethods } from './two-tone-methods.ts';
import { unitMethods } from './unit-methods.ts';
import { waveformMethods } from './waveform-methods.ts';

const waveforms: readonly Method[] = [
  {
    id: 'reading',
    title: 'Reading a capture',
    text: [
      'The reader looks for the block of numbers in a text file and says how it took it: encoding, delimiter, decimal mark, header, units, and every line that is not data. A unit in the header outranks a line above the data; a declaration in the log outranks both. Where two readings remain possible it asks instead of choosing.',
      'Time stamps are often printed with five digits. They are taken as a uniform rate when the distance of every stamp from the uniform grid is explained by its own rounding; the largest distance is stated. A missing sample or a step backwards is an error at its line.',
      'Every number becomes an SI value. Levels become rms values: a peak value of a sine is divided by the square root of two, a level in decibels is taken from its reference.',
    ],
    formulas: [
      {
        tex: 'U = U_0 \\cdot 10^{L/20}',
        where: 'U₀ is 1 V for dBV, √0.6 V for dBu, the declared value otherwise',
      },
    ],
    sources: [
      'RFC 4180 for comma-separated values, where a file follows it',
      'SI Brochure, 9th edition, for units and prefixes',
    ],
  },
  {
    id: 'sine-fit',
    title: 'Fundamental: frequency, level, direct part',
    text: [
      'The strongest line of the windowed spectrum is where the search begins. A sine of free frequency is then fitted by least squares, and after it the whole family at once: direct part, fundamental and harmonics at exact multiples of one frequency, which all of them help to find. The record needs no whole number of cycles.',
      'The standard uncertainty of the frequency is the Cramér-Rao bound with the noise that is really found near the fundamental; strong tones and slopes further off count with the weight that the estimate gives them. It takes no credit from the harmonics. Level is printed as rms.',
      'Intervals are the standard uncertainty times Student’s t for the number of spectral lines that the noise was read from. Simulated on 5,000 records of each kind they hold the truth in 95 % within what chance allows for white noise, for 8-bit codes with noise of a third of a step, and beside harmonics that are not counted. They are wider than need be, and hold in up to 96 % (1/f noise), 98.5 % (8-bit codes without noise) and 99 % (hum, or a tone near the fundamental). With harmonics of 10 % and more the frequency is better known than its interval says, which then holds in some 97 %.',
    ],
    formulas: [
      {
        tex: 'y_k = C + \\sum_{n=1}^{H} \\left( A_n \\cos n\\omega t_k + B_n \\sin n\\omega t_k \\right)',
        where: 'A, B, C and ω minimise the sum of squared residuals',
      },
      {
        tex: '\\operatorname{var}\\omega = \\frac{24\\,\\sigma^2}{A^2 N (N^2-1)}',
        where: 'white noise of variance σ² on a sine of amplitude A in N samples, ω in radians per sample',
      },
    ],
    sources: [
      'IEEE Std 1057, four-parameter sine fit (steps from memory)',
      'D. C. Rife and R. R. Boorstyn, IEEE Trans. Inform. Theory 20:591 (1974)',
      'P. Händel, IEEE Trans. Instrum. Meas. 49:1189 (2000)',
    ],
  },
  {
    id: 'harmonics',
    title: 'Harmonics',
    text: [
      'Each harmonic is the level at a whole multiple of the fundamental over the fundamental. Its uncertainty comes from what the residual holds near its own frequency, so hum, noise that rises towards low frequencies, and the steps of a coarse converter each count where they are. Only for white noise is it the same for every order.',
      'A harmonic is called detected when its power exceeds that of the noise at its place by more than chance gives in the stated share of records, over all orders together. On 5,000 simulated records of noise alone that happens in 5 % at most. One that is not detected is shown with its interval, which mostly reaches to zero.',
      'The interval is that of THD for one order: it begins at exactly zero where noise alone explains the reading. Simulated, it holds the truth of clear harmonics in 95 % within what chance allows, of faint and absent ones in 97 % and more; of clear ones in up to 97 % in 1/f noise of few cycles, 98.5 % in 8-bit codes without noise and 99 % beside a tone. A tone within one cycle per record of a harmonic cannot be told from it, and no interval allows for that.',
      'The relative phase of order n is its phase less n times that of the fundamental, so it does not depend on where the record begins.',
    ],
    formulas: [
      { tex: 'h_n = \\frac{\\sqrt{A_n^2+B_n^2}}{\\sqrt{A_1^2+B_1^2}}', where: 'amplitudes of the joint fit' },
      {
        tex: 'u(A_n) = \\sqrt{\\frac{2\\,S(f_n)}{N}}',
        where: 'S is the residual’s density |R|²/N near the harmonic, σ² for white noise',
      },
      {
        tex: 'S(f_n) = (1-w)\\,\\tilde S + \\sum_{|x|\\ge 1} \\frac{S_x}{2\\pi^2x^2}',
        where:
          'S̃ is the local median over ln 2; lines x cycles per record away count with the weight of the estimate, w together',
      },
      { tex: '\\varphi_{n,\\mathrm{rel}} = \\varphi_n - n\\varphi_1', where: 'phases of cosines' },
    ],
    sources: [
      'P. Bloomfield, Fourier Analysis of Time Series, 2nd ed., ch. 9',
      'U. Grenander and M. Rosenblatt, Statistical Analysis of Stationary Time Series (1957), ch. 7, from memory, for the weights',
      'P. J. Brockwell and R. A. Davis, Time Series: Theory and Methods, 2nd ed., theorem 10.3.2',
    ],
  },
  {
    id: 'noise',
    title: 'Residual noise',
    text: [
      'What is left when direct part, fundamental and counted harmonics are taken off, as rms over the whole band of the record. Harmonics above the highest counted order, hum and converter steps are in it; it is noise only in the sense of not being explained.',
    ],
    formulas: [{ tex: 'r = \\sqrt{\\frac{1}{N}\\sum_k (y_k-\\hat y_k)^2}', where: 'ŷ is the joint fit' }],
    sources: ['Parseval’s theorem for the discrete Fourier transform'],
  },
  {
    id: 'thd',
    title: 'THD',
    text: [
      'Total harmonic distortion is given over the fundamental (the F form), with the orders counted stated beside it. Other texts divide by the total instead (the R form), or count other orders; figures compare only where both agree. The form over the fundamental may exceed one.',
      'Noise adds to every fitted harmonic, so the root sum of squares of a clean signal is not zero. The interval answers for the true value: it holds every distortion for which the measured sum is not among the unlikely 5 %. On noise alone it reaches zero. The printed value is the raw one and may lie above its own interval.',
      'Simulated on 5,000 records of each kind it holds the truth in 95 % within what chance allows, in white noise, 8-bit codes with noise and beside harmonics that are not counted; in up to 97 % in 1/f noise of few cycles and beside a tone, 98.5 % in 8-bit codes without noise. Near zero it is wider than need be and holds in 97 to 99.6 %, because it never promises less than noise lets be seen.',
    ],
    formulas: [
      {
        tex: '\\mathrm{THD_F} = \\frac{\\sqrt{\\sum_{n=2}^{H} V_n^2}}{V_1}',
        where: 'rms values; H is the highest order counted',
      },
      {
        tex: '\\mathrm{THD_R} = \\frac{\\mathrm{THD_F}}{\\sqrt{1+\\mathrm{THD_F}^2}}',
        where: 'the other form, from this one',
      },
      {
        tex: "Q = \\sum_n h_n^2 \\;\\sim\\; \\sum_n u_n^2\\, \\chi'^2_2\\!\\left(\\frac{c_n^2}{u_n^2}\\right)",
        where: 'the measured sum for true harmonics c and uncertainties u',
      },
    ],
    sources: [
      'IEC 62257-1 glossary after IEC 61000-2-2 (F form)',
      'J. P. Imhof, Biometrika 48:419 (1961)',
      'E. B. Wilson and M. M. Hilferty, Proc. Natl. Acad. Sci. 17:684 (1931)',
      'E. Paulson, Ann. Math. Statist. 13:233 (1942), from memory, for noise that is itself an estimate',
      'G. Cowan et al., arXiv:1105.3166 (2011), for the upper end',
    ],
  },
  {
    id: 'thd-plus-noise',
    title: 'THD+N',
    text: [
      'Everything in the stated band but direct part and fundamental, over the fundamental. The band is part of the figure: a wider one holds more noise. A band edge that the record cannot support is replaced by the nearest that it can, and the page says so.',
    ],
    formulas: [
      {
        tex: '\\mathrm{THD{+}N} = \\frac{\\sqrt{\\sum_{n} V_n^2 + N^2}}{V_1}',
        where: 'harmonics and noise within the band',
      },
    ],
    sources: ['Common to audio standards such as AES17, which divides by the total (from memory)'],
  },
  {
    id: 'sinad',
    title: 'SINAD',
    text: [
      'The fundamental over everything else in the band of THD+N, in decibels; with that form of THD+N it is the same number turned over.',
    ],
    formulas: [
      { tex: '\\mathrm{SINAD} = 20\\lg\\frac{V_1}{\\sqrt{\\sum_n V_n^2 + N^2}}', where: 'within the band' },
    ],
    sources: ['IEEE Std 1241 (from memory)'],
  },
  {
    id: 'spectrum',
    title: 'Spectrum on a chart',
    text: [
      'The line chart of a spectrum serves the eye; figures never come from it. Its window keeps strong lines from spreading (side lobes 92 dB down) at the price of broader lines. Levels come from the fit and not from the drawing, so that no flat top is needed: lines are half a cycle per record apart or less, and a sine between two of them reads 0.2 dB low at most, which stands below each chart. The band below it is the noise in one line: a longer record has narrower lines and a lower floor for the same noise.',
      'A long spectrum is thinned for drawing by keeping the highest and the lowest line of each column of pixels, so that no peak is lost.',
    ],
    formulas: [
      {
        tex: 'w_k = 0.35875 - 0.48829\\cos\\tfrac{2\\pi k}{N} + 0.14128\\cos\\tfrac{4\\pi k}{N} - 0.01168\\cos\\tfrac{6\\pi k}{N}',
        where: 'equivalent noise bandwidth 2.004 lines',
      },
      {
        tex: 'L(x) = -20\\lg\\frac{\\sum_k \\tfrac{a_k}{2}\\left[\\operatorname{sinc}(x-k)+\\operatorname{sinc}(x+k)\\right]}{a_0}',
        where: 'loss of a sine x cycles per record beside a line; a the coefficients of the window',
      },
    ],
    sources: ['F. J. Harris, Proc. IEEE 66:51 (1978), four-term window of 92 dB'],
  },
  {
    id: 'clipping',
    title: 'Clipping',
    text: [
      'A record clips when a tenth of its cycles have flat tops: runs at the extreme level half as long again as a smooth top could stay there, and level from end to end within the noise. The repeated codes at the peaks of a clean sine from a coarse converter do not count.',
    ],
    formulas: [],
    sources: ['Geometry of a parabola between evenly spaced levels (derived)'],
  },
];

const sweeps: readonly Method[] = [
  {
    id: 'response-limits',
    title: 'Response limits',
    text: [
      'The level at 1 kHz is the reference. A limit is where the level crosses exactly 1 or 3 dB under the reference on the way out from 1 kHz, read on a straight line between decibels and the logarithm of frequency. Where the sweep ends first there is no limit, and the page says where it ended. 3 dB is not quite the half-power point, which lies 3.0103 dB down.',
    ],
    formulas: [{ tex: 'L(f) = 20\\lg\\frac{U(f)}{U(1\\,\\mathrm{kHz})}', where: 'rms levels' }],
    sources: ['Algebra; the half-power point of a first-order filter is 10 lg 2 = 3.0103 dB'],
  },
  {
    id: 'between-points',
    title: 'Between two points of a sweep',
    text: [
      'A value at a stated frequency or power is read on a straight line between the two neighbouring points, with the logarithm of frequency or power along the axis. Nothing is read beyond the ends.',
    ],
    formulas: [
      {
        tex: 'y = y_1 + (y_2-y_1)\\,\\frac{\\lg x-\\lg x_1}{\\lg x_2-\\lg x_1}',
        where: 'between two points',
      },
    ],
    sources: ['Linear interpolation'],
  },
  {
    id: 'power-at-distortion',
    title: 'Power at a stated distortion',
    text: [
      'The output power at the last rise of THD through 1, 3 or 10 %, with both axes logarithmic between the neighbouring points. A sweep that never reaches the distortion gives no figure; what power it did reach is said instead.',
    ],
    formulas: [{ tex: 'P = \\frac{U^2}{R}', where: 'rms output voltage into the declared load' }],
    sources: ['IEC 60268-3 states rated power at a stated distortion (from memory)'],
  },
  {
    id: 'impedance',
    title: 'Impedance',
    text: [
      'The smallest and largest modulus of the sweep, at measured points. The minimum of a loudspeaker is its hardest load; the maximum below a few hundred hertz is its resonance in the cabinet.',
    ],
    formulas: [],
    sources: ['Readings of the sweep itself'],
  },
];

const loads: readonly Method[] = [
  {
    id: 'tube-model',
    title: 'Tube model',
    text: [
      'Plate and screen current come from Koren’s equations with the parameters published for each type. They describe an average specimen: triodes meet their data sheets within some five per cent, some types only within a quarter; screen currents are poor. Grid current is not modelled, so the swing ends where the grid reaches 0 V.',
    ],
    formulas: [
      {
        tex: 'E_1 = \\frac{E_P}{k_P}\\ln\\!\\left(1+\\exp\\!\\left(k_P\\left(\\frac1\\mu+\\frac{E_G}{\\sqrt{k_{VB}+E_P^2}}\\right)\\right)\\right),\\qquad I_P = \\frac{2E_1^{E_x}}{k_{G1}}',
        where: 'triode, for E₁ above zero',
      },
      {
        tex: 'E_1 = \\frac{E_{G2}}{k_P}\\ln\\!\\left(1+\\exp\\!\\left(k_P\\left(\\frac1\\mu+\\frac{E_G}{E_{G2}}\\right)\\right)\\right),\\qquad I_P = \\frac{2E_1^{E_x}}{k_{G1}}\\arctan\\frac{E_P}{k_{VB}}',
        where: 'pentode and beam tetrode',
      },
    ],
    sources: [
      'N. Koren, Glass Audio 8(5):18 (1996), with the parameter table of its errata; pentode form from memory',
    ],
  },
  {
    id: 'operating-point',
    title: 'Operating point',
    text: [
      'The voltages and the current at which tube, bias and supply agree, found between bounds by halving until no digit moves. A cathode resistor carries the screen current as well. Transconductance, plate resistance and amplification factor are slopes of the model at that point, not data-sheet values.',
    ],
    formulas: [
      {
        tex: 'U_P = U_B - I_P R_P - (I_P+I_{G2})R_K,\\qquad U_G = -(I_P+I_{G2})R_K',
        where: 'plate resistor and cathode resistor',
      },
      {
        tex: 'g_m=\\frac{\\partial I_P}{\\partial U_G},\\quad r_p=\\left(\\frac{\\partial I_P}{\\partial U_P}\\right)^{-1},\\quad \\mu=g_m r_p',
        where: 'slopes at rest',
      },
    ],
    sources: ['Steck, Analog and Digital Electronics, ch. 6, for the worked example that the tests follow'],
  },
  {
    id: 'large-signal',
    title: 'At the load',
    text: [
      'For a sine at the grid the plate current is solved along the load line at every point of a cycle; harmonics are projections of that waveform, all orders at once. Power is that of the fundamental in the load. Rectification moves the mean current, and the load line with it. The swing ends at grid current, cut-off or saturation, whichever comes first, unless the record states a drive.',
    ],
    formulas: [
      {
        tex: 'I_n = \\frac{2}{T}\\int_0^T i_P\\cos n\\omega t\\,dt,\\qquad P=\\tfrac12 I_1^2R_L',
        where: 'load resistance R at the plate',
      },
      { tex: 'R_L = n^2 R_2', where: 'turns ratio n, load at the secondary' },
    ],
    sources: [
      'Fourier projection; five ordinates after D. C. Espley, Proc. IRE 21:1439 (1933), as a check (formula from memory)',
    ],
  },
  {
    id: 'load-candidates',
    title: 'Which load',
    text: [
      'Rules of load give different answers because they ask different questions: the most power for a given swing, the most without distortion where the bias is free, the load that uses the whole current at this voltage. Each is shown with what it assumes, what it gives here and what the model makes of it; the computed ones are found in the sweep of loads.',
      'A data sheet prints a load for its own voltages and current. Moved to others, the two conversions in use go opposite ways: by the three-halves-power law, which takes every electrode voltage in one ratio F and lets the current follow, the load falls as the voltage rises; by voltage over current, which keeps the swing on the plate, it rises, at constant dissipation with the square. Rules further apart than 1.2 times are said to be so, with the reason.',
      'Where the record states a power or a distortion, the load of least distortion at that power and the load of most power at that distortion are sought too, the drive being set anew for each load. The power at each load stands beside the largest of the sweep; loads within a sixteenth of an octave of that one count as the same.',
      'Each rule is asked again with plate and screen voltage 10 % up at the same current, and with 10 % more current at the same voltages; the bias follows, and with it the cathode resistor. A formula is taken at the new point of rest. A search tries every fourth load, goes on downhill from the best of them and reads its lowest point from the parabola through three loads; one at a stated power or distortion goes on from where it was. A printed load stays, as it holds for its own voltages and current only. Traced curves belong to one screen voltage, which stays; where they end before the swing does, no move is told.',
      'The transformers of the journal stand among the loads with what they make of the loudspeaker of the stage, the resistance of both windings included; of several taps the one is taken that is made for the load nearest to it. A measured loudspeaker is taken at its least impedance between 20 Hz and 20 kHz and at 1 kHz. A record says what its transformer is made for, or its rated direct current does. The point of rest is that of the stage as it is.',
    ],
    formulas: [
      {
        tex: 'R_L=R_\\mathrm{sheet}\\,F^{-1/2},\\qquad R_L=R_\\mathrm{sheet}\\,F\\,\\frac{I_\\mathrm{sheet}}{I}',
        where:
          'data-sheet load by the three-halves-power law, and by voltage over current; F is the ratio of voltages',
      },
      {
        tex: '\\log R_L=\\log R_0+\\frac{c_--c_+}{2(c_--2c_0+c_+)}\\,\\log\\frac{R_+}{R_0}',
        where:
          'lowest point through three loads a step apart, c being what is to be least: the power with its sign turned, or the square of a distortion',
      },
      {
        tex: 'R_L=\\frac{U_P}{I_P}-2r_p',
        where: 'triode, largest power for this operating point (geometry)',
      },
      {
        tex: 'R_L=r_p,\\qquad R_L=2r_p',
        where: 'largest power for a given swing; largest undistorted power with the bias free',
      },
    ],
    sources: [
      'Geometry of the load line, space-charge law (derived)',
      'Radiotron Designer’s Handbook, 4th ed., ch. 13 (from memory)',
    ],
  },
  {
    id: 'stored-energy',
    title: 'Stored energy',
    text: [
      'All capacitors of the supply, those of the filter included, at the off-load peak voltage with the mains 10 % high and, on the cautious side, the capacitance 20 % above nominal.',
    ],
    formulas: [{ tex: 'W=\\tfrac12 CU^2', where: 'each capacitor' }],
    sources: ['Berkeley Lab electrical safety manual (US DOE), table 2.2.13: 100 V and 10 J'],
  },
  {
    id: 'discharge',
    title: 'Discharge through the bleeder',
    text: [
      'From the highest voltage, with the capacitance 20 % above nominal where the page says so, through the bleeder at its nominal resistance. A bleeder that has failed, or none, leaves the charge where it is: the time is then not long but never.',
      'The bleeder needed is the one resistor across all capacitors, taken as joined, that brings them from the highest voltage to 60 V in 5 s; its power is that at the highest voltage, and so is the power of each bleeder fitted.',
    ],
    formulas: [
      { tex: 't=RC\\ln\\frac{U_0}{U}', where: 'until the voltage has fallen from U₀ to U' },
      { tex: 'R=\\frac{t}{C\\ln(U_0/U)},\\qquad P=\\frac{U_0^2}{R}', where: 'bleeder needed for a time t' },
    ],
    sources: ['IEC 60204-1: 60 V or less within 5 s (as quoted elsewhere)', 'OSHA and NFPA 70E: 50 V'],
  },
];

/** The methods page, section by section. */
export const methods: readonly Method[] = [
  ...waveforms,
  ...waveformMethods,
  ...twoToneMethods,
  ...hearingMethods,
  ...instrumentMethods,
  ...sweeps,
  ...sweepMethods,
  ...repeatMethods,
  ...claimMethods,
  ...comparisonMethods,
  ...overlayMethods,
  ...listeningMethods,
  ...unitMethods,
  ...loads,
  ...pushPullMethods,
  ...deviceMethods,
  ...chainMethods,
  ...outputMethods,
  ...followerMethods,
  ...predictedMethods,
  ...supplyMethods,
];
