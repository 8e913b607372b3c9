import type { Method } from './methods.ts';

/** Sections of the methods page about transistor output stages. */
export const followerMethods: readonly Method[] = [
  {
    id: 'transistor-output',
    title: 'Transistor output stages',
    text: [
      'A follower passes the load current on from a rail, and what the rail has and the output has not falls across the transistor. A cycle of a sine is followed in 360 instants: the current of each side, the voltage across it, their product. Averages over the cycle give the power from the rails, in the load, in the transistors and in the emitter resistors; they add up.',
      'A complementary pair shares the load current. While both sides conduct, each takes half of its change; where the crest passes twice the current at rest, one side stops and the other has it all. That is the handover of two sides with equal, constant slopes. Real junctions fade instead, so that they hand over more softly and dissipate a little more: held against exponential junctions behind 0.1 Ω, the worst average dissipation is 3 % off at 150 mA, and less at 40 mA. With no current at rest the figures are those of class B in textbooks, with much they are those of class A.',
      'A single follower draws its current at rest through a current source or a resistor, and stops conducting where the load takes all of it. A single supply with an output capacitor works as two rails of half its voltage.',
      'The largest sine ends where the rail, less the stated loss, the emitter resistor and the sag, is reached. The stated loss holds saturation, junction and driver; it is the maker’s value. The rails sag by the source resistance times the average current, re the current at which their voltage is stated. Efficiency is power in the load over power from the rails as sagged.',
      'Each transistor’s average dissipation is computed from no output to the largest and its maximum searched. In class B it lies at 64 % of the rail. A loudspeaker is not a resistor: where voltage and current stand 45° apart the transistor has more voltage across it at the crest of its current, and the maximum is 1.41 times that of a resistor of the same impedance as long as the swing reaches it.',
    ],
    formulas: [
      {
        tex: 'i_1=\\begin{cases}I_0+\\tfrac12 i_L & |i_L|<2I_0\\\\ i_L & i_L\\ge 2I_0\\\\ 0 & i_L\\le -2I_0\\end{cases}\\qquad i_2=i_1-i_L',
        where: 'currents of the two sides of a pair; I₀ is that at rest, of all transistors of a side',
      },
      {
        tex: 'P_T=\\frac1{2\\pi}\\int_0^{2\\pi}\\left(U-u_o-R_E\\,i_1\\right)i_1\\,d\\theta',
        where: 'U is the rail at the average current',
      },
      {
        tex: 'P_{A}=2I_0^2R_L,\\qquad P_{T,\\max}=\\frac{U^2}{\\pi^2R_L},\\qquad \\eta=\\frac\\pi4\\,\\frac{\\hat u}{U},\\qquad f=\\frac1{2\\pi R_LC}',
        where:
          'end of class A, and class B without loss or emitter resistors: worst dissipation of each side, efficiency; low corner of an output capacitor',
      },
    ],
    sources: [
      'Node equation and mean values of the period (derived)',
      'R. L. Boylestad and L. Nashelsky, Electronic Devices and Circuit Theory, class B examples 12.8 and 12.9, for the closed forms that the integral is held against',
    ],
  },
  {
    id: 'thermal-path',
    title: 'Heat from junction to air',
    text: [
      'Thermal resistances in series are added like resistors. The sink carries the heat of all transistors on it and what else is stated; each transistor heats its own insulator and its own junction. The temperatures are steady: those of a sine that lasts for as long as the sink takes to warm, in still conditions and at the stated temperature of the air, which inside a case is that of the case.',
      'The required sink is the one that holds the junction at its stated maximum at the worst output. A junction temperature is said to be below or above that maximum, and nothing else is concluded from it. Where junction to case is not stated it is derived from the rated power, which makers state for a case of 25 °C.',
      'Whether a surface may be touched depends on its material and the time of contact, and is for the standard of the finished equipment.',
    ],
    formulas: [
      {
        tex: 'T_S=T_A+\\theta_{SA}\\left(nP+P_x\\right),\\qquad T_C=T_S+\\theta_{CS}P,\\qquad T_J=T_C+\\theta_{JC}P',
        where: 'n transistors of dissipation P and other heat Pₓ on one sink',
      },
      {
        tex: '\\theta_{JC}=\\frac{T_{J,\\max}-25\\,^\\circ\\mathrm C}{P_\\mathrm{rated}}',
        where: 'from the rated power',
      },
    ],
    sources: [
      'Thermal resistances in series: R. L. Boylestad and L. Nashelsky, chapter 12, and M. H. Rashid, Power Electronics, example 4.4, whose numbers it is held against',
    ],
  },
];
