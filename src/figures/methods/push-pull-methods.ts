import type { Method } from './methods.ts';

/** Sections of the methods page about push-pull stages. */
export const pushPullMethods: readonly Method[] = [
  {
    id: 'push-pull',
    title: 'Push-pull stages',
    text: [
      'Two sides drive the halves of a centre-tapped primary against each other. In an ideal transformer the ampere-turns of both halves and of the load add up to nothing, so that the combined current, that of one side less that of the other, meets a quarter of the load from plate to plate across each half. The voltage at which both sides and this load agree is solved at every point of a cycle of a sine; the power is that of the fundamental, and harmonics are projections. While both sides conduct alike, each sees half the load from plate to plate; once one is cut off, the other sees a quarter.',
      'Even harmonics cancel where both sides are alike. With a stated mismatch the currents of the sides stand that share of their mean apart, half of it up and half down; then even harmonics are left, and the difference of the mean currents magnetises the core. It gives no voltage at the load.',
      'A side counts as cut off while it carries less than a hundredth of its crest. The class at a drive is A where no side is ever cut off, B where one is for 45 % of the cycle or more (half of the cycle is the ideal), and AB between. The power up to which both conduct is found by search. The swing ends where the grid reaches 0 V, or in saturation, where one more volt at the grids moves the load voltage by less than a tenth of the mean until there. Hundredth, tenth and 45 % are choices of this software.',
      'The mean current rises with the signal in class AB and B, and efficiency is counted with the current at the stated drive, not with that at rest. Through a common bypassed cathode resistor the rise biases the tubes further; currents, bias and the mean drop in the winding are solved together. This is the steady state: music passes before the capacitor has followed. The plates’ dissipation is computed at 24 drives; in class B it is largest well below full drive.',
      'The transformer is ideal but for the direct-current drop in each half; one of a part record adds its resistances and inductances, with the halves of its primary coupled without leakage between them. The supply does not sag, and both grids get the same undistorted swing. The model’s screen current knows nothing of the plate’s voltage, so that the screens’ dissipation with signal is too low.',
      'Rules of load: of class A on each side, the rules for a single tube with half the load from plate to plate; for triodes and a given swing, plate resistance against half of it or a quarter; the data sheet’s load, at its own voltages and bias; and the best of the computed loads, at full drive or, where the record states a power or a distortion, at that.',
    ],
    formulas: [
      {
        tex: 'u=\\frac{R_{aa}}{4}\\left(i_1-i_2-\\overline{i_1-i_2}\\right),\\qquad u_1=U_1-u,\\quad u_2=U_2+u',
        where: 'u across each half of the primary, U the mean plate voltages, a bar the mean of the cycle',
      },
      {
        tex: 'P=\\frac{2\\hat u_1^2}{R_{aa}},\\qquad \\hat u_1=\\tfrac12\\sqrt{2PR_{aa}}',
        where: 'power, and the swing of each plate for a power',
      },
      {
        tex: '\\bar I=\\frac{2\\hat\\imath}{\\pi},\\qquad P_{\\mathrm{max}}=\\frac{U^2}{\\pi^2 R_{aa}/4}\\ \\text{at}\\ \\hat u=\\frac{2U}{\\pi}',
        where: 'ideal class B: mean current of both sides, and largest dissipation of each',
      },
    ],
    sources: [
      'Ampere-turns of an ideal transformer (derived); the composite characteristic is B. J. Thompson’s, Proc. IRE 21:591 (1933) (from memory)',
      'N. Crowhurst, Basic Audio, vol. 2, for the worked power of two tubes in class A that the tests follow',
    ],
  },
];
