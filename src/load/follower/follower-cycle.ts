import type { FollowerLoad, FollowerState } from './follower-types.ts';

/** A follower with everything its behaviour depends on, apart from load and output. */
export interface FollowerStage {
  pair: boolean;
  count: number;
  /** In all transistors of one side at rest; with a sink resistor at the rail of `railAt`. */
  restA: number;
  sinkOhm: number | null;
  emitterOhm: number;
  lossV: number;
  /** From the output at rest to the rail, for an average current from it. */
  railAt: (averageA: number) => number;
}

/** A state and what is left until it clips; negative where it would. */
export interface FollowerCycle {
  state: FollowerState;
  headroomV: number;
  /** Least current of the upper transistors times the load; only followers stop where it reaches zero. */
  currentRoomV: number;
}

/** Instants of a cycle, a multiple of four so that both halves and both crests are met alike. */
const steps = 360;

const waves = Array.from({ length: steps }, (_, k) => Math.sin((2 * Math.PI * k) / steps));
const quadrature = Array.from({ length: steps }, (_, k) => Math.cos((2 * Math.PI * k) / steps));

/**
 * Current of the upper side of a pair for a load current. While both sides conduct they share its change
 * alike, so that their sum stays at twice the current at rest; beyond twice that current one side has it all.
 * @source node equation at the output with equal, constant slopes of both sides (derived)
 */
export function upperCurrent(restA: number, loadA: number): number {
  if (loadA >= 2 * restA) return loadA;
  return loadA <= -2 * restA ? 0 : restA + loadA / 2;
}

/** One cycle of a sine of `peakV` at the output, the averages of which set the sag of the rails. */
export function followerCycle(stage: FollowerStage, load: FollowerLoad, peakV: number): FollowerCycle {
  const loadA = loadCurrents(load, peakV);
  const averageA = averageCurrent(stage, loadA);
  const railV = stage.railAt(averageA);
  const sums = { load: 0, upper: 0, lower: 0, emitter: 0, current: 0, most: 0, crest: 0 };
  let headroomV = Number.POSITIVE_INFINITY;
  let leastA = Number.POSITIVE_INFINITY;
  for (let k = 0; k < steps; k++) {
    const outV = peakV * (waves[k] ?? 0);
    const [upperA, lowerA] = branchCurrents(stage, railV, outV, loadA[k] ?? 0);
    const dropV = (stage.emitterOhm * upperA) / stage.count;
    const acrossV = railV - outV - dropV;
    const lowerDropV = stage.pair ? (stage.emitterOhm * lowerA) / stage.count : 0;
    sums.current += upperA + lowerA;
    sums.load += outV * (loadA[k] ?? 0);
    sums.upper += acrossV * upperA;
    sums.lower += (railV + outV - lowerDropV) * lowerA;
    sums.emitter += dropV * upperA + lowerDropV * lowerA;
    sums.most = Math.max(sums.most, acrossV * upperA);
    sums.crest = Math.max(sums.crest, upperA);
    headroomV = Math.min(headroomV, acrossV - stage.lossV);
    leastA = Math.min(leastA, upperA);
  }
  const state = stateOf(stage, { peakV, railV, averageA }, sums);
  return { state, headroomV, currentRoomV: leastA * load.ohm };
}

type Sums = Record<'load' | 'upper' | 'lower' | 'emitter' | 'current' | 'most' | 'crest', number>;

function stateOf(
  { count }: FollowerStage,
  { peakV, railV, averageA }: { peakV: number; railV: number; averageA: number },
  sums: Sums,
): FollowerState {
  const supplyW = (railV * sums.current) / steps;
  const loadW = Math.max(0, sums.load / steps);
  const upperW = sums.upper / steps;
  return {
    outputPeakV: peakV,
    outputW: loadW,
    railV,
    averageA,
    efficiency: supplyW > 0 ? loadW / supplyW : 0,
    deviceW: upperW / count,
    peakDeviceW: sums.most / count,
    peakDeviceA: sums.crest / count,
    balance: { supplyW, loadW, upperW, lowerW: sums.lower / steps, emitterW: sums.emitter / steps },
  };
}

function loadCurrents({ ohm, angleDeg }: FollowerLoad, peakV: number): number[] {
  const angle = (angleDeg * Math.PI) / 180;
  const inPhaseA = (peakV * Math.cos(angle)) / ohm;
  const acrossA = (peakV * Math.sin(angle)) / ohm;
  return waves.map((wave, k) => inPhaseA * wave - acrossA * (quadrature[k] ?? 0));
}

/** The output of a follower has no direct part, so that only a pair draws more with signal. */
function averageCurrent({ pair, restA }: FollowerStage, loadA: readonly number[]): number {
  if (!pair) return restA;
  return loadA.reduce((sum, current) => sum + upperCurrent(restA, current), 0) / steps;
}

function branchCurrents(
  { pair, restA, sinkOhm }: FollowerStage,
  railV: number,
  outV: number,
  loadA: number,
): [number, number] {
  if (pair) {
    const upperA = upperCurrent(restA, loadA);
    return [upperA, upperA - loadA];
  }
  const lowerA = sinkOhm === null ? restA : (railV + outV) / sinkOhm;
  return [lowerA + loadA, lowerA];
}
