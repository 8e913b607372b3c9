import { type Complex, complex, magnitude, minus, over, plus, scaled } from './complex.ts';
import { filtered, periodOf, type Tone, toneOf } from './tone.ts';
import { heldBelowZero, plateConductance, type RestingPoint, spaceCurrent, type TubeLaw } from './tubes.ts';

/** A single-ended triode with its output transformer, seen from the primary. */
export interface OutputStage {
  tube: TubeLaw;
  rest: RestingPoint;
  loadOhm: number;
  primaryH: number;
  leakageH: number;
  /** Flux linkage of the direct current, and the one at which the core's curvature matters, volt seconds. */
  standingFlux: number;
  bendingFlux: number;
  /** Volts at the speaker for a volt across the loaded primary. */
  ratio: number;
}

/** Signal voltage at the speaker for a voltage at the grid, load and core taken at every harmonic. */
export function atSpeaker(stage: OutputStage, grid: Tone): Tone {
  const primary = primarySwing(stage, grid);
  const afterLeakage = (hz: number) =>
    over(complex(stage.loadOhm), complex(stage.loadOhm, 2 * Math.PI * hz * stage.leakageH));
  const speaker = filtered(primary, afterLeakage);
  return { ...speaker, lines: speaker.lines.map((line) => scaled(line, stage.ratio)) };
}

/**
 * Plate swing at which the currents of tube, load and core balance at every harmonic. What is not
 * proportional in tube and core is put on the right-hand side and solved again until nothing moves.
 * @source Nakhla and Vlach, IEEE Transactions on Circuits and Systems 23(2) (1976), p. 85: harmonic balance.
 */
function primarySwing(stage: OutputStage, grid: Tone): Tone {
  const conductance = plateConductance(stage.tube, stage.rest);
  const gridV = periodOf(grid).map((v) => heldBelowZero(stage.rest.gridV + v, 0.6));
  let swing: Tone = { ...grid, lines: grid.lines.map(() => complex(0)) };
  for (let i = 0; i < 60; i++) {
    const remainder = unproportional(stage, conductance, gridV, swing);
    const lines = remainder.lines.map((line, n) =>
      n === 0 ? complex(0) : over(scaled(line, -1), proportional(stage, conductance, n * grid.frequencyHz)),
    );
    const moved = Math.max(...lines.map((line, n) => magnitude(minus(line, swing.lines[n] ?? line))));
    swing = { ...swing, lines };
    if (moved < 1e-9) break;
  }
  return swing;
}

/** Admittance of tube, reflected load behind the leakage inductance, and core. */
function proportional(stage: OutputStage, conductance: number, hz: number): Complex {
  const turn = 2 * Math.PI * hz;
  const load = over(complex(1), complex(stage.loadOhm, turn * stage.leakageH));
  return plus(plus(complex(conductance), load), over(complex(1), complex(0, turn * stage.primaryH)));
}

/** Current of tube and core beyond the part proportional to the plate swing. */
function unproportional(stage: OutputStage, conductance: number, gridV: Float64Array, swing: Tone): Tone {
  const flux = periodOf(filtered(swing, perTurn));
  const current = periodOf(swing).map((v, i) => {
    const tubeA = spaceCurrent(stage.tube, gridV[i] ?? 0, stage.rest.plateV + v) - stage.rest.plateA;
    return tubeA - conductance * v + coreCurrent(stage, flux[i] ?? 0);
  });
  return toneOf(swing.frequencyHz, current);
}

/** Integration in time; the mean stays 0. */
const perTurn = (hz: number) => (hz === 0 ? complex(0) : complex(0, -1 / (2 * Math.PI * hz)));

/** Magnetising current beyond the inductance's own: a cubic about the flux of the direct current. */
function coreCurrent(stage: OutputStage, flux: number): number {
  const total = stage.standingFlux + flux;
  return (total ** 3 - stage.standingFlux ** 3) / (stage.primaryH * stage.bendingFlux ** 2);
}
