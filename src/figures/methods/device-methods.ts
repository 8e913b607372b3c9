import type { Method } from './methods.ts';

/** Sections of the methods page about what stands in for a tube: connections, curves, measured and typed values. */
export const deviceMethods: readonly Method[] = [
  {
    id: 'distributed-load',
    title: 'Distributed load',
    text: [
      'The screen is fed from a tap of the primary and follows the plate by the share of the turns between supply and tap. Its signal current flows through those turns too, so that by ampere-turns the load sees the plate’s current and that share of the screen’s. At 0 % this is the pentode, at 100 % the triode connection. The screen stands at the plate’s voltage at rest unless another is stated; the drop in the winding between them is left out.',
      'Tubes in parallel carry their currents together; ratings are judged for each. The tap is given as a share of turns: as a share of the impedance it is the square of that.',
    ],
    formulas: [
      {
        tex: 'U_{G2}=U_{G2,0}+x\\,(U_P-U_{P,0}),\\qquad I_L=I_P+x\\,I_{G2}',
        where: 'x is the share of turns, 0 marks the point of rest, and I_L is what the load sees',
      },
    ],
    sources: [
      'D. Hafler and H. I. Keroes, Audio Engineering, November 1951 (from memory)',
      'Ampere-turns of an ideal tapped winding (derived)',
    ],
  },
  {
    id: 'measured-current',
    title: 'Measured current',
    text: [
      'Tubes of one type differ, and a model describes an average one. A current that was measured at rest is compared with that of the model at the measured voltages; a voltage that was not measured is taken from the cathode resistor or from the model’s point of rest. Only where the stage asks for it are all currents multiplied by the quotient, which then stands on the page. One point says nothing of whether the curves have the same shape. Outside 0.5 to 2 the page warns that the model does not describe the tube.',
    ],
    formulas: [
      { tex: 'q=\\frac{I_{\\mathrm{measured}}}{I_{\\mathrm{model}}(U_P,U_{G2},U_G)}', where: 'each tube' },
    ],
    sources: ['Definition; the bounds are a choice of this software'],
  },
  {
    id: 'traced-curves',
    title: 'Traced plate curves',
    text: [
      'Between the points of a curve, and between curves at one plate voltage, the current is a cubic whose slopes are limited so that it never leaves the range of its neighbours: it has no bumps that the trace does not have. A curve that begins above 0 V is led to no current at 0 V; a current below zero, down to a hundredth of the largest, counts as zero. Outside the curves nothing is extrapolated: the swing ends where it would leave them, and a figure beyond has no value. The screen stands at the voltage of the trace.',
      'The published model of the type is compared with the trace at all points of at least 5 % of the largest current: the difference as root mean square and at worst, and the one factor on its current that leaves the least sum of squares.',
    ],
    formulas: [
      {
        tex: '|m_k|\\le 3\\min\\!\\left(|d_{k-1}|,|d_k|\\right),\\qquad m_k=0\\ \\text{where}\\ d_{k-1}d_k\\le 0',
        where: 'm is the slope at a point and d are the secants on either side',
      },
      {
        tex: 'q=\\frac{\\sum I_k\\hat I_k}{\\sum\\hat I_k^2}',
        where: 'I is traced and Î is the model’s current',
      },
    ],
    sources: [
      'F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal. 17:238 (1980)',
      'Least squares with one unknown (derived)',
    ],
  },
  {
    id: 'typed-values',
    title: 'Typed small-signal values',
    text: [
      'Two of amplification factor, plate resistance and transconductance give the third. They hold at the operating point they were read at and say nothing of large signals, so the stage has its gain and no more. Values of a data book are rounded: a product that misses the amplification factor by more than 5 % is a warning.',
    ],
    formulas: [
      {
        tex: '\\mu=g_m r_p,\\qquad A=\\frac{\\mu R_L}{r_p+R_L}',
        where: 'gain without sign, cathode bypassed',
      },
    ],
    sources: ['Equivalent circuit of a triode stage'],
  },
];
