import { findRoot } from '../solving/solve.ts';
import type { Device, Rest, SplitterDrive } from '../types.ts';
import { behindResistor, type PairAtRest } from './long-tailed.ts';
import { type CurrentSwing, currentSwing } from './one-tube-splitter.ts';

/** Cut-off is counted from this share of the current at rest. */
const cutOffShare = 0.01;
/** Steps of half a period. */
const steps = 64;

export interface SwingingPair extends PairAtRest {
  device: Device;
  /** Loads of the plates for signals. */
  loads: readonly [number, number];
  tailOhm: number;
}

interface PairInstant {
  driven: Rest;
  other: Rest;
  riseV: number;
}

/**
 * The largest drive of the driven grid at which neither grid reaches its cathode and neither tube falls below 1 % of
 * its current at rest, and each side's current there; null where the bias leaves no swing. Averages are held.
 * @source currents of both tubes and the tail solved at each phase; Fourier series of the result
 */
export function pairSwing(pair: SwingingPair): { driven: CurrentSwing; other: CurrentSwing } | null {
  const limit = pairLimit(pair);
  if (limit === null) return null;
  const half = Array.from({ length: steps + 1 }, (_, k) =>
    pairInstant(pair, limit.driveV * Math.cos((Math.PI * k) / steps)),
  );
  const driven = currentSwing(
    limit,
    half.map((instant) => instant.driven.plateA),
  );
  const other = currentSwing(
    limit,
    half.map((instant) => instant.other.plateA),
  );
  return driven && other ? { driven, other } : null;
}

function pairLimit(pair: SwingingPair): SplitterDrive | null {
  const most = driveToZeroGrid(pair);
  if (!(most > 0)) return null;
  const limits: SplitterDrive[] = [{ driveV: most, limitedBy: 'grid current' }];
  const crossings: [SplitterDrive['limitedBy'], (driveV: number) => number][] = [
    ['grid current', (driveV) => -pairInstant(pair, -driveV).other.gridV],
    ['cut-off', (driveV) => left(pairInstant(pair, -driveV).driven, pair.driven)],
    ['cut-off', (driveV) => left(pairInstant(pair, driveV).other, pair.other)],
  ];
  for (const [limitedBy, margin] of crossings) {
    const driveV = margin(most) < 0 ? findRoot(margin, { low: 0, high: most }) : null;
    if (driveV !== null) limits.push({ driveV, limitedBy });
  }
  return limits.reduce((least, limit) => (limit.driveV < least.driveV ? limit : least));
}

const left = (now: Rest, rest: Rest) => now.plateA - cutOffShare * rest.plateA;

/** Peak drive at whose crest the driven grid reaches its cathode's voltage. */
function driveToZeroGrid(pair: SwingingPair): number {
  return solved(pair, () => 0).riseV - pair.driven.gridV;
}

/** Both tubes with `inputV` at the driven grid. */
export function pairInstant(pair: SwingingPair, inputV: number): PairInstant {
  return solved(pair, (riseV) => pair.driven.gridV + inputV - riseV);
}

/** The rise of the joined cathodes at which the tail takes what both tubes give. */
function solved(pair: SwingingPair, drivenGrid: (riseV: number) => number): PairInstant {
  const { device, driven, other, loads, tailOhm } = pair;
  const at = (riseV: number): PairInstant => {
    const through = (rest: Rest, ohm: number, gridV: number) =>
      behindResistor(device, { availableV: rest.plateV + ohm * rest.plateA - riseV, ohm, gridV });
    return {
      driven: through(driven, loads[0], drivenGrid(riseV)),
      other: through(other, loads[1], other.gridV - riseV),
      riseV,
    };
  };
  const restA = driven.plateA + other.plateA;
  const excess = (riseV: number) => {
    const now = at(riseV);
    return now.driven.plateA + now.other.plateA - restA - riseV / tailOhm;
  };
  const high = Math.max(driven.plateV + loads[0] * driven.plateA, other.plateV + loads[1] * other.plateA);
  return at(findRoot(excess, { low: -high, high }) ?? 0);
}
