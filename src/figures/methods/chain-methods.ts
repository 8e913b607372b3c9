import type { Method } from './methods.ts';

/** Sections of the methods page about small-signal stages and the chain that they form. */
export const chainMethods: readonly Method[] = [
  {
    id: 'coupling',
    title: 'Output impedance and low corners',
    text: [
      'What a stage shows its load is its plate resistance beside the plate resistor; an unbypassed cathode resistor counts µ + 1 times. Coupling capacitor and next grid leak, with this resistance before them, make one corner.',
      'A bypass capacitor of limited size makes a step, not a corner: far below it the gain is that of an unbypassed stage, far above it that of a bypassed one. Where the whole step is less than 3 dB there is no −3 dB frequency, and the lower of the two frequencies, which is often quoted, says little.',
      'A screen fed through a resistor has its voltage solved with the bias. For signals its capacitor holds it; the drop of the screen voltage with drive is not in the figures.',
    ],
    formulas: [
      {
        tex: 'R_o=R_P\\parallel\\bigl(r_p+(\\mu+1)R_K\\bigr),\\qquad f_C=\\frac1{2\\pi C\\,(R_o+R_G)}',
        where: 'R_K only where it is not bypassed; next grid leak R_G',
      },
      {
        tex: 'f_1=\\frac1{2\\pi R_KC_K},\\qquad \\frac{f_2}{f_1}=\\frac{r_p+R_L+(\\mu+1)R_K}{r_p+R_L},\\qquad f_{-3}=\\sqrt{f_2^2-2f_1^2}',
        where: 'step of the bypass capacitor; the ratio is its depth',
      },
      { tex: 'U_{G2}=U_B-I_{G2}R_{G2}-U_K', where: 'screen to cathode' },
    ],
    sources: [
      'Equivalent circuit of a triode stage (algebra)',
      'A published EF86 tutorial (pentodepress.com) for the worked bypass capacitor that the tests follow',
    ],
  },
  {
    id: 'followers-splitters',
    title: 'Cathode followers and phase splitters',
    text: [
      'Gains and source impedances follow from the slopes at rest and the resistors, the next stage’s grid leaks across them. Where a grid leak returns to the lower end of a bias resistor, that resistor is in the signal’s way and counts with the cathode’s.',
      'A split-load stage has two answers for its source impedance. With one side loaded alone the cathode is a low impedance and the plate a high one. Loaded alike on both sides, which one current cannot help, each side is the same low impedance, close to 1/gm. Two output tubes below grid current load it alike; one that draws grid current does not.',
      'In a long-tailed pair the current that the tail takes is missing at the second plate. The balance needs a large tail, or a larger resistor at the second plate; the one stated makes the two gains equal with the slopes of this point of rest.',
      'The largest output is reached where a grid meets its cathode, or a tube falls to 1 % of its current at rest; for one tube also where the slope is down to a tenth. Harmonics are projections of each output over a cycle at that drive. In a long-tailed pair the averages are held, and a tube’s mean current is that at rest.',
    ],
    formulas: [
      {
        tex: 'A_K=\\frac{\\mu Z_K}{r_p+Z_P+(\\mu+1)Z_K},\\qquad A_P=\\frac{\\mu Z_P}{r_p+Z_P+(\\mu+1)Z_K}',
        where: 'loads Z at cathode and plate; a follower has no load at the plate',
      },
      {
        tex: 'R_{o,K}=R_K\\parallel\\frac{r_p+Z_P}{\\mu+1},\\qquad R_{o,P}=R_P\\parallel\\bigl(r_p+(\\mu+1)Z_K\\bigr),\\qquad R_{o,\\text{both}}=\\frac{r_pR}{r_p+(\\mu+2)R}',
        where: 'one side loaded alone, and both loaded alike with equal resistors R',
      },
      {
        tex: '\\frac{A_2}{A_1}=\\frac{Z_2(\\mu+1)}{Z_1(\\mu+1)+Z_1(r_p+Z_2)/R_T},\\qquad Z_2=Z_1\\frac{(\\mu+1)R_T+r_p}{(\\mu+1)R_T-Z_1}',
        where:
          'balance of a long-tailed pair on a tail R_T, and the load that makes it 1; slopes are those of the second tube',
      },
    ],
    sources: ['Equivalent circuit of a triode, solved for each circuit (algebra); held against it in tests'],
  },
  {
    id: 'gain-budget',
    title: 'Gain budget',
    text: [
      'The last stage is taken at its largest undisturbed output, or at the drive that the record states. Its drive is what the stage before must give, and so on back to the source; every stage’s gain is the small-signal one into its own load. Headroom is a stage’s largest output over the one wanted of it: the stage with the least runs out first.',
      'Feedback in dB is the ratio of the gain without it to the gain with it; the source must give as much more. Sensitivity is the voltage of the source without load. A transformer that the last stage describes counts with its losses; without one it is ideal, with the turns ratio that makes the load of the speaker unless the record states one.',
      'Two versions play equally loud where their speakers see the same voltage. The trim is the difference of their gains from source to speaker, for small signals; a difference of a few tenths of a decibel already decides a comparison by ear.',
    ],
    formulas: [
      {
        tex: 'A=\\frac{R_i}{R_i+R_s}\\cdot\\frac{A_1A_2\\cdots A_n}{n_t\\,F},\\qquad F=10^{f/20}',
        where: 'input resistance, source resistance, gains of the stages, turns ratio, feedback of f dB',
      },
    ],
    sources: [
      'Voltage divider and product of gains (algebra)',
      'Feedback as the reduction of gain in dB, as the trade states it',
    ],
  },
];
