import type { Method } from './methods.ts';

/** Sections of the methods page about output transformers and loads that are no resistors. */
export const outputMethods: readonly Method[] = [
  {
    id: 'output-transformer',
    title: 'Output transformer',
    text: [
      'The load at the plate is the loudspeaker and the secondary’s resistance times the square of the turns ratio, with the primary’s resistance in series. The share of the loudspeaker in it is the efficiency of the windings; the loss in the iron is not known and not in it.',
      'At the low end the primary inductance, measured with the secondary open, lies across source and load in parallel. At the high end the leakage, measured with the secondary shorted, lies in series with both. Each is a circuit of the first order, so that one factor leads from any loss to its frequency. Capacitance of the windings is left out.',
      'Of a part of the primary’s turns, load, inductance and leakage go with the square of the turns. The source resistance does not, so the low end rises.',
      'Flux goes with voltage over frequency. The largest flux linkage is taken from the ratings: that of the rated power at its frequency together with the rated direct current. The direct current at hand comes off it first, and a sine has what is left. Of a pair only the difference of its currents at rest counts, in half of the turns; where no direct current is rated, the core is taken as made for none.',
      'Behind a pair the source is both sides in series, each with its plate resistance at rest.',
    ],
    formulas: [
      {
        tex: 'R_L=R_p+n^2(R_s+R),\\qquad \\eta=\\frac{n^2R}{R_L}',
        where: 'n is the turns ratio, R the loudspeaker',
      },
      {
        tex: 'f_{low}=\\frac{R_i\\parallel R_L}{2\\pi L_p\\sqrt{10^{a/10}-1}},\\qquad f_{high}=\\frac{R_i+R_L}{2\\pi L_s}\\sqrt{10^{a/10}-1}',
        where: 'a is the loss in decibels, Rᵢ the plate resistance and winding',
      },
      {
        tex: '\\frac{\\sqrt2\\,E}{2\\pi f}\\le\\frac{\\sqrt2\\,E_0}{2\\pi f_0}+L_p(I_0-I)',
        where: 'E₀ at f₀ and I₀ are those of the ratings',
      },
    ],
    sources: [
      'Equivalent circuit of a transformer, Faraday’s law (derived)',
      'Radio Designer’s Handbook, 4th edition, chapter 5, tabulates the factors of the low end (from memory)',
    ],
  },
  {
    id: 'real-load',
    title: 'Loads that are no resistors',
    text: [
      'With inductances or a loudspeaker the load line becomes an ellipse, or a bent one. A steady period of 128 instants is solved: currents follow from the tube in time, voltages from the load order by order up to the twelfth, and both agree to a billionth of the current at rest. The drive is that of full power into the rated load. Power is that of the fundamental in the loudspeaker, distortion that of its voltage. Of a pair the combined current meets a quarter of the impedance from plate to plate across each half of the primary.',
      'Between the points of a loudspeaker’s sweep modulus and phase are interpolated over the logarithm of frequency; beyond its ends the last point holds. A sweep without phase is taken as a resistance.',
    ],
    formulas: [{ tex: 'U_k=-Z(k\\omega)\\,I_k', where: 'voltage and current of order k' }],
    sources: ['Harmonic balance by Newton’s method (derived)'],
  },
];
