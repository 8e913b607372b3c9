import { cosineAmplitudes, harmonicRatios, totalDistortion } from '../solving/harmonics-of-period.ts';
import { settledCycle } from '../solving/settle.ts';
import { findRoot } from '../solving/solve.ts';
import { driveLimit } from '../stage/drive-limit.ts';
import type {
  Balance,
  CathodeFollowerDescription,
  Device,
  GridFeed,
  Harmonic,
  LoadFault,
  Rest,
  SplitLoadDescription,
  SplitterDrive,
  StageOutput,
} from '../types.ts';
import { noSplitterPoint, noSwing } from './splitter-messages.ts';

type OneTubeDescription = CathodeFollowerDescription | SplitLoadDescription;

/** Resistances of a tube with a load in its cathode, 0 for a plate at the supply. */
export interface CathodeCircuit {
  plateOhm: number;
  /** The bias resistor included. */
  cathodeOhm: number;
  /** The same for signals, each with its grid leak. */
  plateLoadOhm: number;
  cathodeLoadOhm: number;
}

export interface TriodeSlopes {
  mu: number;
  rpOhm: number;
}

export const parallel = (ohm: number, leakOhm: number | null) =>
  leakOhm === null ? ohm : (ohm * leakOhm) / (ohm + leakOhm);

const biasOhm = (grid: GridFeed) => (grid.kind === 'tap' ? grid.ohm : 0);

/** The circuit of a described cathode follower or split-load stage. */
export function cathodeCircuit(description: OneTubeDescription): CathodeCircuit {
  const { grid, cathodeResistorOhm, nextGridLeakOhm, otherGridLeakOhm } = description;
  const cathodeOhm = cathodeResistorOhm + biasOhm(grid);
  if (description.topology === 'cathode-follower') {
    return {
      plateOhm: 0,
      cathodeOhm,
      plateLoadOhm: 0,
      cathodeLoadOhm: parallel(cathodeOhm, nextGridLeakOhm),
    };
  }
  const plateOhm = description.plateResistorOhm;
  return {
    plateOhm,
    cathodeOhm,
    plateLoadOhm: parallel(plateOhm, nextGridLeakOhm),
    cathodeLoadOhm: parallel(cathodeOhm, otherGridLeakOhm ?? nextGridLeakOhm),
  };
}

/**
 * Point of rest of one tube between plate and cathode resistor.
 * @source Kirchhoff's laws with the device's current
 */
export function cathodeLoadedRest(
  device: Device,
  { plateOhm, cathodeOhm }: CathodeCircuit,
  { supplyV, grid }: { supplyV: number; grid: GridFeed },
): { rest: Rest } | { fault: LoadFault } {
  const electrodes = (plateA: number) => ({
    plateV: supplyV - (plateOhm + cathodeOhm) * plateA,
    screenV: 0,
    gridV: grid.kind === 'tap' ? -grid.ohm * plateA : grid.gridV - cathodeOhm * plateA,
  });
  const excess = (plateA: number) => device.plateCurrent(electrodes(plateA)) - plateA;
  const plateA = findRoot(excess, { low: 0, high: supplyV / (plateOhm + cathodeOhm) });
  return plateA === null
    ? { fault: noSplitterPoint() }
    : { rest: { ...electrodes(plateA), plateA, screenA: 0 } };
}

/**
 * Gains mu·Z/(rp + Zp + (mu + 1)·Zk) with Z the load of each output; at the cathode the tube's own resistance is
 * (rp + Zp)/(mu + 1), at the plate rp + (mu + 1)·Zk, each beside its resistor. Loaded alike on both sides, a
 * split-load stage of equal resistors shows rp·R/(rp + (mu + 2)·R) at each.
 * @source equivalent circuit of a triode (algebra)
 */
export function cathodeLoadedGains(circuit: CathodeCircuit, { mu, rpOhm }: TriodeSlopes) {
  const { plateOhm, cathodeOhm, plateLoadOhm, cathodeLoadOhm } = circuit;
  const around = rpOhm + plateLoadOhm + (mu + 1) * cathodeLoadOhm;
  const alike = plateOhm > 0 && Math.abs(plateOhm / cathodeOhm - 1) < 1e-3;
  const togetherOhm = alike ? (rpOhm * plateOhm) / (rpOhm + (mu + 2) * plateOhm) : null;
  return {
    plate: {
      gain: (mu * plateLoadOhm) / around,
      outputOhm: parallel(rpOhm + (mu + 1) * cathodeLoadOhm, plateOhm),
      togetherOhm,
    },
    cathode: {
      gain: (mu * cathodeLoadOhm) / around,
      outputOhm: parallel((rpOhm + plateLoadOhm) / (mu + 1), cathodeOhm),
      togetherOhm,
    },
  };
}

/** The largest undisturbed swing of the current, and its harmonics. */
export interface CurrentSwing extends SplitterDrive {
  fundamentalA: number;
  harmonics: Harmonic[];
  thdRatio: number;
}

/**
 * Drive up to grid current, cut-off or saturation, and the plate current's harmonics there, which both outputs share.
 * @source as for a stage with a load at its plate
 */
export function cathodeLoadedSwing(
  device: Device,
  rest: Rest,
  { plateOhm, plateLoadOhm, cathodeLoadOhm }: CathodeCircuit,
): CurrentSwing | { reason: string } {
  const stage = { device, rest, feedOhm: plateOhm, cathode: { ohm: cathodeLoadOhm, bypassed: false } };
  const limit = driveLimit(stage, plateLoadOhm);
  if (limit === null) return { reason: noSwing() };
  const cycle = settledCycle(stage, plateLoadOhm, limit.driveV);
  if (cycle === null) return { reason: noSwing() };
  return (
    currentSwing(
      limit,
      cycle.half.map(({ plateA }) => plateA),
    ) ?? { reason: noSwing() }
  );
}

/** Fundamental and harmonics of half a period of a current. */
export function currentSwing(drive: SplitterDrive, half: readonly number[]): CurrentSwing | null {
  const amplitudes = cosineAmplitudes(half);
  const harmonics = harmonicRatios(amplitudes);
  if (harmonics === null) return null;
  const thdRatio = totalDistortion(harmonics.map(({ ratio }) => ratio));
  return { ...drive, fundamentalA: Math.abs(amplitudes[1] ?? 0), harmonics, thdRatio };
}

/** What an output says of its swing. */
export function swingAt(
  loadOhm: number,
  swing: CurrentSwing | { reason: string },
): Pick<StageOutput, 'largestVrms' | 'harmonics' | 'thdRatio'> {
  if ('reason' in swing) return { largestVrms: null, harmonics: [], thdRatio: null };
  const { fundamentalA, harmonics, thdRatio } = swing;
  return { largestVrms: (fundamentalA * loadOhm) / Math.SQRT2, harmonics, thdRatio };
}

/**
 * Cathode over plate: the same current flows in both, so that their loads alone decide.
 * @source algebra
 */
export function splitLoadBalance(
  { plateLoadOhm, cathodeLoadOhm }: CathodeCircuit,
  plateLeakOhm: number | null,
): Balance {
  const ratio = cathodeLoadOhm / plateLoadOhm;
  return {
    ratio,
    db: 20 * Math.log10(ratio),
    equalOhm: withoutLeak(cathodeLoadOhm, plateLeakOhm),
    adjusted: 'plate',
  };
}

/** The resistor that makes `loadOhm` with the grid leak across it; null where the leak alone is less. */
export function withoutLeak(loadOhm: number, leakOhm: number | null): number | null {
  const ohm = leakOhm === null ? loadOhm : 1 / (1 / loadOhm - 1 / leakOhm);
  return Number.isFinite(ohm) && ohm > 0 ? ohm : null;
}
