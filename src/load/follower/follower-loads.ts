import type { FollowerStage } from './follower-cycle.ts';
import { largestPeak, stateAt, worstState } from './follower-output.ts';
import type { FollowerLoad, FollowerLoadRow, FollowerSweepRow } from './follower-types.ts';
import { type KnownPath, requiredSink, temperatures } from './thermal.ts';

const stepsPerOctave = 4;
const octaves = 2;
/** Angle between voltage and current that the curves against load take for a loudspeaker at its worst. */
const reactiveDeg = 45;

/** What a load makes of the stage; null where nothing is left for a signal. */
export function loadRow(
  stage: FollowerStage,
  load: FollowerLoad,
  path: KnownPath | null,
): FollowerLoadRow | null {
  const mostV = largestPeak(stage, load);
  if (mostV === null) return null;
  const { deviceW, outputW } = worstState(stage, load, mostV);
  return {
    ...load,
    largestW: stateAt(stage, load, mostV).outputW,
    worstDeviceW: deviceW,
    worstAtW: outputW,
    junctionC: path && temperatures(path, deviceW).junctionC,
    requiredSink: path && requiredSink(path, deviceW),
  };
}

/** Loads from a quarter to four times the middle one, four to the octave, the middle one among them. */
export function sweepFollower(stage: FollowerStage, middleOhm: number): FollowerSweepRow[] {
  const steps = 2 * octaves * stepsPerOctave;
  return Array.from({ length: steps + 1 }, (_, k) => middleOhm * 2 ** (k / stepsPerOctave - octaves)).flatMap(
    (loadOhm) => {
      const resistive = loadRow(stage, { ohm: loadOhm, angleDeg: 0 }, null);
      const reactive = loadRow(stage, { ohm: loadOhm, angleDeg: reactiveDeg }, null);
      if (!resistive || !reactive) return [];
      const { largestW, worstDeviceW: resistiveW } = resistive;
      return [{ loadOhm, largestW, resistiveW, reactiveW: reactive.worstDeviceW }];
    },
  );
}
