import { findRoot } from '../solving/solve.ts';
import type { Balance, Device, GridFeed, LoadFault, LongTailedDescription, Rest, Tail } from '../types.ts';
import { parallel, type TriodeSlopes, withoutLeak } from './one-tube-splitter.ts';
import { floatingTap, noSplitterPoint, tailWantsMore } from './splitter-messages.ts';

/** Two tubes with joined cathodes at rest. */
export interface PairAtRest {
  driven: Rest;
  other: Rest;
  cathodeV: number;
}

interface PairCircuit {
  device: Device;
  supplyV: number;
  plateOhm: number;
  otherPlateOhm: number;
}

/** Resistance under the joined cathodes for signals; infinite for a current source. */
export const tailOhm = (tail: Tail, grid: GridFeed) =>
  tail.kind === 'current' ? Number.POSITIVE_INFINITY : tail.ohm + (grid.kind === 'tap' ? grid.ohm : 0);

/** Loads of the two plates for signals, the driven one's first. */
export function plateLoads(description: LongTailedDescription): [number, number] {
  const { plateResistorOhm, otherPlateResistorOhm, nextGridLeakOhm, otherGridLeakOhm } = description;
  return [
    parallel(plateResistorOhm, nextGridLeakOhm),
    parallel(otherPlateResistorOhm, otherGridLeakOhm ?? nextGridLeakOhm),
  ];
}

/**
 * Point of rest of a long-tailed pair.
 * @source Kirchhoff's laws with the device's current
 */
export function pairAtRest(
  description: LongTailedDescription,
  device: Device,
  supplyV: number,
): PairAtRest | { fault: LoadFault } {
  const { tail, grid, plateResistorOhm, otherPlateResistorOhm } = description;
  const circuit = { device, supplyV, plateOhm: plateResistorOhm, otherPlateOhm: otherPlateResistorOhm };
  if (tail.kind === 'resistor') return onTailResistor(circuit, tail, grid);
  return grid.kind === 'tap' ? { fault: floatingTap() } : onCurrent(circuit, tail.totalA, grid.gridV);
}

function onTailResistor(
  circuit: PairCircuit,
  tail: Extract<Tail, { kind: 'resistor' }>,
  grid: GridFeed,
): PairAtRest | { fault: LoadFault } {
  const ohm = tailOhm(tail, grid);
  const at = (totalA: number) => {
    const cathodeV = tail.returnV + ohm * totalA;
    return pairAt(circuit, cathodeV, grid.kind === 'tap' ? -grid.ohm * totalA : grid.gridV - cathodeV);
  };
  const excess = (totalA: number) => totalOf(at(totalA)) - totalA;
  const totalA = findRoot(excess, { low: 0, high: (circuit.supplyV - tail.returnV) / ohm });
  return totalA === null ? { fault: noSplitterPoint() } : at(totalA);
}

function onCurrent(circuit: PairCircuit, totalA: number, gridV: number): PairAtRest | { fault: LoadFault } {
  const at = (cathodeV: number) => pairAt(circuit, cathodeV, gridV - cathodeV);
  const most = totalOf(at(gridV));
  if (most < totalA) return { fault: tailWantsMore(totalA, most) };
  const high = Math.max(circuit.supplyV, gridV + 1);
  const cathodeV = findRoot((volts) => totalOf(at(volts)) - totalA, { low: gridV, high });
  return cathodeV === null ? { fault: noSplitterPoint() } : at(cathodeV);
}

const totalOf = ({ driven, other }: PairAtRest) => driven.plateA + other.plateA;

function pairAt({ device, supplyV, plateOhm, otherPlateOhm }: PairCircuit, cathodeV: number, gridV: number) {
  const through = (ohm: number) => behindResistor(device, { availableV: supplyV - cathodeV, ohm, gridV });
  return { driven: through(plateOhm), other: through(otherPlateOhm), cathodeV };
}

/** A tube whose plate is fed through a resistance, for a known grid voltage. */
export function behindResistor(
  device: Device,
  { availableV, ohm, gridV }: { availableV: number; ohm: number; gridV: number },
): Rest {
  const at = (plateA: number) => ({ plateV: availableV - ohm * plateA, screenV: 0, gridV });
  const excess = (plateA: number) => device.plateCurrent(at(plateA)) - plateA;
  const high = Math.max(0, availableV / ohm);
  // Where a device still draws more at 0 V the resistor decides.
  const plateA = availableV > 0 ? (findRoot(excess, { low: 0, high }) ?? high) : 0;
  return { ...at(plateA), plateA, screenA: 0 };
}

/** Small-signal gains of a pair, the driven side's first, and the output impedance of each side. */
export interface PairGains {
  gains: [number, number];
  outputOhms: [number, number];
}

/**
 * With y = 1/(rp + Z) of each tube and R the tail, one volt at the driven grid makes the currents
 * mu₁y₁(1/R + (mu₂+1)y₂)/S and mu₁y₁(mu₂+1)y₂/S, S = 1/R + (mu₁+1)y₁ + (mu₂+1)y₂; each times its load is the gain.
 * At a plate the tube shows rp + (mu + 1)·(R ‖ (rp + Z)/(mu + 1) of the other) beside its resistor.
 * @source equivalent circuit of two triodes (algebra)
 */
export function pairGains(
  slopes: readonly [TriodeSlopes, TriodeSlopes],
  loads: readonly [number, number],
  resistors: readonly [number, number],
  tail: number,
): PairGains {
  const [first, second] = slopes;
  const seenIn = ({ mu, rpOhm }: TriodeSlopes, loadOhm: number) => (rpOhm + loadOhm) / (mu + 1);
  const atFirst = 1 / seenIn(first, loads[0]);
  const atSecond = 1 / seenIn(second, loads[1]);
  const drive = first.mu / (first.rpOhm + loads[0]) / (1 / tail + atFirst + atSecond);
  const outputOhm = ({ mu, rpOhm }: TriodeSlopes, other: number, resistorOhm: number) =>
    parallel(rpOhm + (mu + 1) / (1 / tail + other), resistorOhm);
  return {
    gains: [loads[0] * drive * (1 / tail + atSecond), loads[1] * drive * atSecond],
    outputOhms: [outputOhm(first, atSecond, resistors[0]), outputOhm(second, atFirst, resistors[1])],
  };
}

/**
 * The other plate over the driven one, and the load at the other plate that makes them equal:
 * Z₁·(R(mu₂+1) + rp₂)/(R(mu₂+1) − Z₁).
 * @source gains of the pair set equal (algebra)
 */
export function pairBalance(
  { gains }: PairGains,
  { mu, rpOhm }: TriodeSlopes,
  { drivenLoadOhm, otherLeakOhm, tail }: { drivenLoadOhm: number; otherLeakOhm: number | null; tail: number },
): Balance {
  const ratio = gains[1] / gains[0];
  const lifted = tail * (mu + 1);
  const equalLoadOhm =
    tail === Number.POSITIVE_INFINITY
      ? drivenLoadOhm
      : (drivenLoadOhm * (lifted + rpOhm)) / (lifted - drivenLoadOhm);
  return {
    ratio,
    db: 20 * Math.log10(ratio),
    equalOhm: equalLoadOhm > 0 ? withoutLeak(equalLoadOhm, otherLeakOhm) : null,
    adjusted: 'other plate',
  };
}
