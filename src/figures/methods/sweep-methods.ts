import type { Method } from './methods.ts';

/** Sections of the methods page about figures that rest on more than one place of a sweep. */
export const sweepMethods: readonly Method[] = [
  {
    id: 'distortion-rise',
    title: 'Where distortion rises towards the ends of the band',
    text: [
      'The middle of the band is the range from 400 Hz to 2 kHz, and THD there is its geometric mean over the logarithm of frequency. The low-frequency rise is the frequency below which everything measured has more than twice that. The frequencies of 1, 3 and 10 % are found in the same way from either end: seen from the end of the sweep, they are the first place at which THD has come down to that value. Between two readings both axes are logarithmic. A sweep whose last reading is already below the value gives none.',
      'The factor of two and the limits of the middle are choices of this journal’s software, not of a standard. A transformer’s magnetising current is one cause of such a rise, a coupling capacitor’s load another; the figure does not tell which.',
    ],
    formulas: [
      {
        tex: '\\bar r=\\exp\\frac{1}{\\ln(f_2/f_1)}\\int_{f_1}^{f_2}\\ln r(f)\\,\\frac{\\mathrm df}{f}',
        where: 'geometric mean from f₁ = 400 Hz to f₂ = 2 kHz',
      },
    ],
    sources: ['Definition (derived); no standard is known for it'],
  },
  {
    id: 'band-means',
    title: 'Distortion by octave and third-octave bands',
    text: [
      'Each distortion column is averaged over bands of an octave and of a third of an octave, with mid-band frequencies that are exact powers of ten and names that are the nominal ones. Between two readings the ratio runs straight on log-log paper, and the means are the exact integrals of that line over the logarithm of frequency. A band that reaches beyond the first or the last reading is left out, and so is a band without a reading within it; the page names them.',
      'The energy mean squares before it averages, so the worst part of a band weighs most. The geometric mean is what the eye takes from a logarithmic chart. They differ where distortion changes steeply within a band.',
      'Contested: an octave as a ratio of 10^0.3, as here, or of exactly 2. Older editions of the standard allow both; the frequencies differ by 0.2 % an octave.',
    ],
    formulas: [
      {
        tex: 'f_n = 1000\\cdot 10^{n/10}\\ \\mathrm{Hz},\\qquad f_n\\cdot 10^{\\pm 1/20}',
        where: 'third octaves and their edges; every third is an octave, with edges at 10^±0.15',
      },
      {
        tex: 'r_E=\\sqrt{\\frac{1}{\\ln(f_2/f_1)}\\int_{f_1}^{f_2}r^2\\,\\frac{\\mathrm df}{f}}',
        where: 'energy mean',
      },
    ],
    sources: ['IEC 61260-1:2014 (from memory)', 'ISO 266:1997, preferred frequencies (abstract)'],
  },
  {
    id: 'distortion-law',
    title: 'Slope of distortion against level',
    text: [
      'On log-log paper a distortion that comes from one term of the transfer curve is a straight line: the nth harmonic re the fundamental rises by n − 1 decibels for each decibel of level. The longest run of readings is sought that one line fits with a scatter of half a decibel at most, over 8 dB of level at least, and whose ends do not bend off the line. Noise, which falls by one decibel for each decibel of level, is no such run. The interval of the slope comes from the scatter about the line.',
      'An order is called clean where n − 1 lies within 0.1 dB/dB of the interval. That allowance, the scatter and the length are choices of this software. The interval knows nothing of the choice of the run, so it is somewhat too narrow.',
      'Where single harmonics were read beside THD, their sum of squares is compared with its square. The longest run of readings in which they lack a twentieth of it or less is where THD is of these orders. What it holds beyond them at low power is noise or orders that were not read; at the upper end, where clipping begins, it is higher orders.',
    ],
    formulas: [
      {
        tex: '1-\\frac{\\sum_n h_n^2}{\\mathrm{THD}^2}\\le 0.05',
        where: 'THD made up by the harmonics read',
      },
      { tex: '\\frac{H_n}{H_1}\\propto A^{\\,n-1}', where: 'for a term of order n and a small amplitude A' },
      {
        tex: 'y=x+k_2x^2+k_3x^3:\\quad \\frac{H_2}{H_1}\\approx\\frac{k_2A}{2},\\quad \\frac{H_3}{H_1}\\approx\\frac{k_3A^2}{4}',
        where: 'second and third',
      },
    ],
    sources: [
      'Expansion of powers of a cosine (derived)',
      'JCGM 100:2008, H.3, for the line and its uncertainty',
    ],
  },
  {
    id: 'clipping-onset',
    title: 'Onset of clipping; fall of the gain',
    text: [
      'The laws of distortion at lower power foretell what THD would be at a higher one: its own line, or the root sum of squares of the harmonics’ lines where that is more, so that a third harmonic that overtakes the second is not taken for clipping. The onset is the power from which THD stays more than 1.5 times above what is foretold, up to the end of the sweep.',
      'Where the input was recorded, the gain says the same in another way: its fall is the output power from which it stays half a decibel below its median between a thousandth and a tenth of the largest power. An amplifier that compresses gently loses gain long before it clips.',
      'There is no agreed definition of the onset. Factor and fall are choices of this software, and the rated power of a standard is the power at a stated distortion.',
    ],
    formulas: [
      {
        tex: 'r(P)>1.5\\,\\max\\!\\Big(L(P),\\ \\sqrt{\\textstyle\\sum_n L_n(P)^2}\\Big)',
        where: 'L is the line of THD, Lₙ that of harmonic n',
      },
    ],
    sources: ['Definition (derived); held against the closed form of an ideal clipper'],
  },
  {
    id: 'rated-impedance',
    title: 'Rated impedance that a sweep supports',
    text: [
      'The largest of 4, 6, 8 and 16 Ω of which the smallest modulus of the sweep is at least 80 %. It is what the sweep would support, not what a maker promises, and it holds for the swept band only.',
    ],
    formulas: [{ tex: '\\min|Z|\\ge 0.8\\,Z_{\\mathrm{rated}}', where: 'within the swept band' }],
    sources: [
      'IEC 60268-5, 16.1 (from memory)',
      'Visaton, dictionary, “Impedance curve”: 80 % of the rated value',
    ],
  },
  {
    id: 'resonance',
    title: 'Resonance of a loudspeaker',
    text: [
      'The lowest hill of the modulus that stands out by 2 dB on both sides, up to 1 kHz. Where phase was measured, the resonance is where it falls through zero within the hill. Otherwise it is the top of a parabola through the highest reading and its neighbours. A vented box has two hills; this is the lower one.',
    ],
    formulas: [
      {
        tex: 'Z=R_e+\\frac{R_p}{1+\\mathrm jQ\\left(\\frac{f}{f_0}-\\frac{f_0}{f}\\right)}',
        where: 'one resonance at f₀: largest and real there',
      },
    ],
    sources: ['Circuit theory (derived)'],
  },
  {
    id: 'inductance',
    title: 'Primary and leakage inductance',
    text: [
      'With the secondary open, the primary of a transformer is its inductance over some octaves; with the secondary shorted, what remains is the leakage. The inductance is read over the longest stretch, an octave at least, in which the modulus rises in proportion to frequency, within 7 % of the first power, and in which the phase, where it was measured, is at least 80°. With phase it is the mean reactance, without it the mean modulus, which a winding’s resistance makes a little too large; its capacitance raises both towards the upper end. Where no such stretch exists there is no figure.',
      'The inductance of an iron core depends on level, frequency and direct current. It belongs to the level that the log states, and a log that states none is told so.',
    ],
    formulas: [
      { tex: 'L=\\frac{\\operatorname{Im}Z}{2\\pi f}', where: 'mean of the logarithm over the stretch' },
    ],
    sources: ['Circuit theory (derived)'],
  },
  {
    id: 'output-impedance',
    title: 'Output impedance from two loads; damping factor',
    text: [
      'The same drive into two loads gives two levels, and from them the impedance of the source. With phase the calculation is done with phasors. Without it the result is the resistance that would explain the levels, which falls short of a reactive impedance, often by far: 0.1 Ω in series with 1 Ω of reactance reads 0.28 Ω from levels into 8 Ω and 4 Ω.',
      'What both readings have in common, such as an error of gain, cancels. What differs between them does not: the smaller of output impedance and loads decides how much of it arrives. The 95 % interval takes the stated reading accuracy as a limit of error with an even spread, independent for the two readings; the phase is taken as exact.',
      'The damping factor is the rated load over the modulus of the output impedance at 1 kHz. It says little about damping once the loudspeaker’s own resistance is in the loop.',
    ],
    formulas: [
      { tex: 'Z_o=\\frac{V_1-V_2}{\\dfrac{V_2}{R_2}-\\dfrac{V_1}{R_1}}', where: 'V₁ at R₁, V₂ at R₂' },
      {
        tex: 'u(Z_o)=\\left|\\frac{1/R_2-1/R_1}{(1/R_2-\\rho/R_1)^2}\\right||\\rho|\\sqrt2\\,\\frac{a}{\\sqrt3}',
        where: 'ρ = V₁/V₂, a the stated accuracy of a reading',
      },
    ],
    sources: [
      'Circuit theory (derived)',
      'IEC 60268-3, damping factor (from memory)',
      'JCGM 100:2008, 4.3.7',
    ],
  },
  {
    id: 'loudspeaker-response',
    title: 'What an output impedance does at a loudspeaker',
    text: [
      'The change of the response when the loudspeaker takes the place of the rated load, a resistance, at the same drive: 0 dB at 1 kHz, at the frequencies of both sweeps within the range that they share. The response that the amplifier has into its rated load comes on top. With the phase of both sweeps it is exact for a linear amplifier; without, both count as resistances.',
    ],
    formulas: [
      {
        tex: 'E(f)=20\\lg\\left|\\frac{Z_L}{Z_L+Z_o}\\cdot\\frac{R+Z_o}{R}\\right|-(\\text{the same at }1\\,\\mathrm{kHz})',
        where: 'L stands for the loudspeaker, o for the output, R is the rated load',
      },
    ],
    sources: ['Voltage divider; circuit theory (derived)'],
  },
];
