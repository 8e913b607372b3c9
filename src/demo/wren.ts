import { type Complex, complex, over, plus, scaled, times, together } from './complex.ts';
import { currents, type PentodeStage, pentodeAtRest, plateCurrentFor, plateResistance } from './pentode.ts';
import { stimulusFor } from './solve.ts';
import { cosineTone, filtered, rmsOf, shaped, type Tone } from './tone.ts';

/** Position of the switch across the cathode resistor's capacitor. */
export type Cathode = 'bypassed' | 'unbypassed';

const stage: PentodeStage = {
  pentode: {
    space: { mu: 8.7, exponent: 1.4, perveance: 1.62e-3, softV: 4 },
    screenV: 250,
    kneeV: 18,
    meetingV: 1700,
    screenShare: 0.08,
  },
  plateV: 250,
  loadOhm: 2500,
  biasOhm: 160,
};
const rest = pentodeAtRest(stage);
const atCathode: Record<Cathode, number> = { bypassed: 0, unbypassed: stage.biasOhm };

const transformer = {
  primaryH: 11,
  leakageH: 0.03,
  windingF: 350e-12,
  secondaryOhm: 0.45,
  turns: Math.sqrt(2500 / 8),
  passed: 0.94,
  primaryOhm: 40,
  coreOhm: 200e3,
};

/** Plate and cathode current of Wren's output tube at its screen voltage, in amperes. */
export const wrenTube = (gridV: number, plateV: number) => currents(stage, gridV, plateV);

/** Tube, winding capacitance and core in parallel across the primary. */
function acrossPrimary(cathode: Cathode, hz: number): Complex {
  const turn = 2 * Math.PI * hz;
  return together(
    complex(plateResistance(stage, rest, atCathode[cathode])),
    complex(0, turn * transformer.primaryH),
    complex(0, -1 / (turn * transformer.windingF)),
  );
}

const leakage = (hz: number) => complex(0, 2 * Math.PI * hz * transformer.leakageH);

/** What a loudspeaker sees looking back into the amplifier, in ohms. */
export function wrenImpedance(cathode: Cathode, hz: number): Complex {
  const primary = plus(acrossPrimary(cathode, hz), leakage(hz));
  return plus(complex(transformer.secondaryOhm), scaled(primary, 1 / transformer.turns ** 2));
}

/** Impedance of the transformer's primary on its own, with the secondary open or shorted, in ohms. */
export function wrenPrimary(secondary: 'open' | 'shorted', hz: number): Complex {
  const turn = 2 * Math.PI * hz;
  const winding = complex(0, -1 / (turn * transformer.windingF));
  const core = [complex(0, turn * transformer.primaryH), complex(transformer.coreOhm)];
  const short = plus(leakage(hz), complex(transformer.secondaryOhm * transformer.turns ** 2));
  const inside = secondary === 'open' ? together(...core, winding) : together(...core, winding, short);
  return plus(complex(transformer.primaryOhm), inside);
}

/** Voltage at a load for a current of one ampere through the tube. */
export function wrenTransfer(cathode: Cathode, hz: number, load: Complex): Complex {
  if (hz === 0) return complex(0);
  const seen = scaled(plus(load, complex(transformer.secondaryOhm)), transformer.turns ** 2);
  const path = plus(seen, leakage(hz));
  const atPrimary = together(acrossPrimary(cathode, hz), path);
  const share = over(scaled(load, transformer.turns * transformer.passed), path);
  return times(atPrimary, share);
}

/** What is measured at the output tube's grid and at the load. */
export interface Driven {
  grid: Tone;
  speaker: Tone;
}

/** Wren with 8 Ω at its terminals, a pure tone of `gridRms` volts at the output tube's grid. */
export function wren(cathode: Cathode, frequencyHz: number, gridRms: number): Driven {
  const grid = cosineTone(frequencyHz, gridRms * Math.SQRT2);
  const plate = shaped(grid, plateCurrentFor(stage, rest, atCathode[cathode]));
  return { grid, speaker: filtered(plate, (hz) => wrenTransfer(cathode, hz, complex(8))) };
}

/** The same at a stated fundamental voltage at the load. */
export function wrenAt(cathode: Cathode, frequencyHz: number, speakerRms: number): Driven {
  const gain = 0.8;
  const reach = (wantedRms: number) => rmsOf(wren(cathode, frequencyHz, wantedRms / gain).speaker, 1);
  return wren(cathode, frequencyHz, stimulusFor(speakerRms, reach) / gain);
}
