import type { Method } from './methods.ts';

/** How what a model predicts is set beside what was measured. */
export const predictedMethods: readonly Method[] = [
  {
    id: 'predicted-measured',
    title: 'Predicted against measured',
    text: [
      'The drive of the modelled stage is changed until the fundamental in its load has the power that was measured; its harmonics there stand beside the measured ones. Powers at 1, 3 and 10 % are those at which the model’s total distortion rises through that ratio for the last time before full drive. The onset of clipping stands beside the power at full drive, which ends at zero grid voltage, cut-off, saturation or the supply.',
      'Only captures into the model’s load are taken, within a tenth of it, and at 200 Hz to 5 kHz, where neither a transformer’s inductances nor an amplifier’s ends count. The bounds are this program’s own. Conditions that the record of the stage does not know, such as a switch, are printed and not judged.',
      'Measured lower or higher means that the model’s value lies outside of the measured interval. The model has no interval of its own: tubes of one type differ, and it leaves out what drives the stage and what follows it. Its total distortion counts orders 2 to 7, the measured one those that the capture gives.',
      'A difference says where to look, not which of the two is wrong. If the second harmonic alone differs, the stage before may add or cancel it; if all of them rise at low power, that is the noise of the capture.',
    ],
    formulas: [
      {
        tex: 'd=20\\log_{10}\\frac{h_{\\text{measured}}}{h_{\\text{model}}},\\qquad d_P=10\\log_{10}\\frac{P_{\\text{measured}}}{P_{\\text{model}}}',
        where: 'the difference in decibels of a ratio and of a power',
      },
    ],
    sources: ['Load line and Fourier series of the stage, as in “At the load” (derived)'],
  },
];
