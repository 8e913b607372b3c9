import { findRoot } from '../solving/solve.ts';
import { type FollowerCycle, type FollowerStage, followerCycle } from './follower-cycle.ts';
import type { FollowerLoad, FollowerState } from './follower-types.ts';

const coarseSteps = 32;
const fineSteps = 30;
/** Share of a bracket that stays after a step of the search by the golden section. */
const golden = (Math.sqrt(5) - 1) / 2;

const roomOf = (stage: FollowerStage, { headroomV, currentRoomV }: FollowerCycle) =>
  stage.pair ? headroomV : Math.min(headroomV, currentRoomV);

/**
 * Peak of the largest sine before the rail, sagged by its own current, or the current at rest ends it; null
 * where nothing is left even at rest.
 */
export function largestPeak(stage: FollowerStage, load: FollowerLoad): number | null {
  const room = (peakV: number) => roomOf(stage, followerCycle(stage, load, peakV));
  const restV = followerCycle(stage, load, 0).state.railV;
  return room(0) > 0 && restV > 0 ? findRoot(room, { low: 0, high: restV }, 1e-9) : null;
}

/** What ends the largest sine. */
export function outputLimit({ headroomV, currentRoomV }: FollowerCycle, pair: boolean): 'supply' | 'cut-off' {
  return !pair && currentRoomV < headroomV ? 'cut-off' : 'supply';
}

/** The state at which each transistor dissipates most, over sines from none to the largest. */
export function worstState(stage: FollowerStage, load: FollowerLoad, mostV: number): FollowerState {
  const states = statesUpTo(stage, load, mostV, coarseSteps);
  const best = states.reduce((most, state, index) => (heat(state) > heat(states[most]) ? index : most), 0);
  const step = mostV / coarseSteps;
  const refined = peakBetween(stage, load, Math.max(0, best - 1) * step, Math.min(mostV, (best + 1) * step));
  const coarse = states[best] ?? refined;
  return heat(refined) > heat(coarse) ? refined : coarse;
}

const heat = (state: FollowerState | undefined) => state?.deviceW ?? Number.NEGATIVE_INFINITY;

/** States at evenly spaced peaks from rest to the largest. */
export function statesUpTo(
  stage: FollowerStage,
  load: FollowerLoad,
  mostV: number,
  count: number,
): FollowerState[] {
  return Array.from({ length: count + 1 }, (_, k) => stateAt(stage, load, (k / count) * mostV));
}

/** The state for one peak. */
export function stateAt(stage: FollowerStage, load: FollowerLoad, peakV: number): FollowerState {
  return followerCycle(stage, load, peakV).state;
}

/** Golden-section search for the largest dissipation between two peaks. */
function peakBetween(stage: FollowerStage, load: FollowerLoad, fromV: number, toV: number): FollowerState {
  let [low, high] = [fromV, toV];
  let left = stateAt(stage, load, high - golden * (high - low));
  let right = stateAt(stage, load, low + golden * (high - low));
  for (let step = 0; step < fineSteps && high > low; step++) {
    if (left.deviceW >= right.deviceW) {
      high = right.outputPeakV;
      right = left;
      left = stateAt(stage, load, high - golden * (high - low));
    } else {
      low = left.outputPeakV;
      left = right;
      right = stateAt(stage, load, low + golden * (high - low));
    }
  }
  return left.deviceW >= right.deviceW ? left : right;
}
