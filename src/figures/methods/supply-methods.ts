import type { Method } from './methods.ts';

/** Sections of the methods page about power supplies. */
export const supplyMethods: readonly Method[] = [
  {
    id: 'ripple',
    title: 'Ripple of the supply',
    text: [
      'Across the reservoir the ripple is taken as a triangle, as if the capacitor were charged in no time and discharged for the rest of it by the stated current. A real rectifier charges for some of the time, so that the figure errs upwards. Full-wave rectification and a bridge charge twice a cycle of the mains, half-wave rectification once, with twice the ripple. The mean stands half the peak-to-peak value below the crests.',
      'The handbooks’ 2.4·I/C and 4.17·I/C, in milliamperes and microfarads, are for 60 Hz and full-wave rectification; at 50 Hz they are 2.89 and 5.0.',
      'Behind the reservoir the whole of the ripple counts as a sine of the ripple frequency, although a filter takes more of its harmonics. The sections are solved together, each loaded by those behind it and by its bleeder; the stages draw a steady current. A choke has its stated inductance at the stated current, and no capacitance of its own.',
      'Choke and capacitor resonate. Where that lies above half the ripple frequency the section takes less than 10 dB and a warning says so. The peak is that of one section with the resistance in series with its choke; what it feeds damps it further.',
    ],
    formulas: [
      {
        tex: 'U_{pp}=\\frac{I}{f_r C},\\qquad U_r=\\frac{U_{pp}}{2\\sqrt3},\\qquad f_r=2f\\ \\text{or}\\ f',
        where: 'at the reservoir; full-wave U_r = I/(4√3·f·C), half-wave I/(2√3·f·C)',
      },
      {
        tex: '\\frac{U_k}{U_{k-1}}=\\left|\\frac{Z_k}{R_k+j\\omega L_k+Z_k}\\right|,\\qquad \\frac1{Z_k}=j\\omega C_k+\\frac1{R_{Bk}}+\\frac1{R_{k+1}+j\\omega L_{k+1}+Z_{k+1}}',
        where: 'each section, from the last to the first',
      },
      {
        tex: 'f_0=\\frac1{2\\pi\\sqrt{LC}},\\qquad Q=\\frac1R\\sqrt{\\frac LC},\\qquad \\frac{Q^2}{\\sqrt{Q^2-\\tfrac14}}',
        where: 'resonance of choke and capacitor and its peak, for Q above 0.71',
      },
    ],
    sources: [
      'Triangular ripple (derived), held against the worked examples of D. R. Patrick and S. W. Fardo, Electrical Power Systems Technology, pp. 196-197',
      'Ladder network and second-order low pass: network theory',
    ],
  },
  {
    id: 'current-drawn',
    title: 'Current drawn and sag',
    text: [
      'The direct currents of all stages at rest, screens included, times the stated number of channels, and those of the bleeders are added and compared with the current that the record states for the supply. More than 25 % off is a warning: a stage is missing, or the stated value is an old one. At full drive an output stage counts with its mean current over the cycle; a driver hardly changes its own.',
      'The stated supply voltage is the one at the stated current. At another current it differs by the difference times the source resistance and the resistances of the filter before the output stage. The output stage is then solved again with the supply that its own current at full drive leaves, until voltage and current agree: the plate loses what the supply loses, the screen the same share, a fixed bias stays. That is the power of a tone that lasts; a short one finds the reservoir still full. The source resistance is a constant here, while that of a rectifier with a capacitor rises as the current falls.',
      'The followers of transistor stages have the sag of their rails in their own figures.',
    ],
    formulas: [
      {
        tex: 'U(I)=U_s+\\left(I_s-I\\right)\\left(R_s+\\textstyle\\sum R_k\\right)',
        where: 'Uₛ and Iₛ as stated; Rₛ the source resistance, R_k those of the filter',
      },
    ],
    sources: ['Ohm’s law; fixed point of supply voltage and mean current (derived)'],
  },
  {
    id: 'supply-hum',
    title: 'Hum from the supply',
    text: [
      'Where the load hangs between supply and plate, the ripple divides between the load and the plate resistance, grid and cathode being at rest. A triode’s low plate resistance therefore lets most of it through. Without a bypass capacitor the cathode resistor counts (mu + 1) times. The level is that of the power in the load over 1 W, so that it holds for any loudspeaker of the rated impedance.',
      'A pentode is told only where its screen has a resistor and capacitor of its own: ripple at the screen counts for more than ripple at the plate. Two like sides of a push-pull stage cancel it; where the record states by how much they differ, the difference is what remains.',
      'Feedback, ripple that reaches the grid through the driver, hum of the heaters and what the mains transformer induces are not in it. The measured hum of a capture holds all of them.',
    ],
    formulas: [
      {
        tex: 'U_L=U_r\\,\\frac{R_L}{R_L+r_p+(\\mu+1)R_k},\\qquad L=10\\lg\\frac{U_L^2}{R_L\\cdot 1\\,\\mathrm W}',
        where: 'single-ended; Rₖ only where it is not bypassed',
      },
      {
        tex: 'U_{aa}=U_r\\,\\frac{2m/r_p}{4/R_{aa}+2/r_p}',
        where: 'push-pull with sides that differ by the share m of their mean',
      },
    ],
    sources: [
      'Equivalent circuit of a stage; node equations of two sides on a centre-tapped primary (derived)',
    ],
  },
  {
    id: 'heaters',
    title: 'Heater currents',
    text: [
      'The currents of the tubes on a winding are added and set against its rating. They come from the record, or from the data of the type where the winding gives the heater’s voltage within 10 %. A heater of 12.6 V with a centre tap takes twice its current at 6.3 V, its halves in parallel. A cold heater takes several times as much for some seconds; that is not in the sum.',
      'No fuse is chosen: its rating and class depend on the mains transformer’s inrush and are for its maker and the local code.',
    ],
    formulas: [{ tex: 'I=\\sum n_k I_k', where: 'tubes on one winding' }],
    sources: ['Data sheets of the types, each named in the data with its status'],
  },
];
