import type {
  FollowerDescription,
  FollowerState,
  Temperatures,
  ThermalPath,
  ThermalSheet,
} from './follower-types.ts';

/** Case temperature at which transistors are rated. */
const ratedCaseC = 25;

/** A thermal path whose every value is known. */
export interface KnownPath extends Omit<ThermalPath, 'junctionToCase' | 'devices'> {
  junctionToCase: number;
  junctionToCaseBasis: 'stated' | 'from the rated power';
  devices: number;
}

/**
 * Thermal resistance from junction to case of a device that is rated `ratedW` with its case at 25 °C.
 * @source definition of the derating line; FOSSEE companion 1223, example 8.3: 20 W, 175 °C give 7.5 K/W
 */
export function resistanceFromRating(ratedW: number, maxJunctionC: number): number {
  return (maxJunctionC - ratedCaseC) / ratedW;
}

/** The path with junction to case from the rating where it is not stated; null where neither is there. */
export function knownPath({ thermal, ratings, topology, count }: FollowerDescription): KnownPath | null {
  if (!thermal) return null;
  const ratedW = ratings?.powerW ?? null;
  const derived = ratedW === null ? null : resistanceFromRating(ratedW, thermal.maxJunctionC);
  const junctionToCase = thermal.junctionToCase ?? derived;
  if (junctionToCase === null || junctionToCase < 0) return null;
  return {
    ...thermal,
    junctionToCase,
    junctionToCaseBasis: thermal.junctionToCase === null ? 'from the rated power' : 'stated',
    devices: thermal.devices ?? (topology === 'follower-pair' ? 2 * count : count),
  };
}

/**
 * Steady temperatures with `deviceW` in each transistor: every resistance raises its hot side by its share of
 * the heat, and the sink carries that of all that is on it.
 * @source thermal resistances in series, as Ohm's law; worked chains in shared/checks/load.json
 */
export function temperatures(path: KnownPath, deviceW: number): Temperatures {
  const sinkC = path.ambientC + path.sinkToAmbient * (path.devices * deviceW + path.otherW);
  const caseC = sinkC + path.caseToSink * deviceW;
  return { sinkC, caseC, junctionC: caseC + path.junctionToCase * deviceW };
}

/** Dissipation of each transistor that brings the junction to its stated maximum; 0 where none is left. */
function mostDissipation(path: KnownPath): number {
  const left = path.maxJunctionC - path.ambientC - path.sinkToAmbient * path.otherW;
  const each = path.junctionToCase + path.caseToSink + path.devices * path.sinkToAmbient;
  return Math.max(0, left / each);
}

/** Thermal resistance of the sink that holds the junction at its stated maximum; null where none can. */
export function requiredSink(path: KnownPath, deviceW: number): number | null {
  const left = path.maxJunctionC - path.ambientC - (path.junctionToCase + path.caseToSink) * deviceW;
  const heatW = path.devices * deviceW + path.otherW;
  return left > 0 && heatW > 0 && Number.isFinite(left / heatW) ? left / heatW : null;
}

/** Temperatures at rest, at the worst output and at the largest sine, and what the worst asks of the sink. */
export function thermalSheet(
  path: KnownPath,
  { rest, worst, largest }: Record<'rest' | 'worst' | 'largest', FollowerState>,
): ThermalSheet {
  const { junctionToCase, junctionToCaseBasis, maxJunctionC, ambientC, devices } = path;
  return {
    junctionToCase,
    junctionToCaseBasis,
    maxJunctionC,
    ambientC,
    devices,
    rest: temperatures(path, rest.deviceW),
    worst: temperatures(path, worst.deviceW),
    largest: temperatures(path, largest.deviceW),
    mostDeviceW: mostDissipation(path),
    requiredSink: requiredSink(path, worst.deviceW),
  };
}
