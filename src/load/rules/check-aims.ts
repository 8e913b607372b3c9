import { faultsOf } from '../stage/check-description.ts';
import type { LoadFault, TubeStageDescription } from '../types.ts';
import { distortionOutOfRange, noLoadToChoose } from './aim-messages.ts';
import type { StatedAims } from './stated-rules.ts';

/** Faults of what an amplifier is stated to do; paths lead from the stage. */
export function aimFaults({ powerW, distortionRatio }: StatedAims): LoadFault[] {
  const isRatio = distortionRatio === null || (distortionRatio >= 1e-4 && distortionRatio <= 1);
  return [
    ...faultsOf([{ path: ['statedPower'], value: powerW, unit: 'W', range: [1e-3, 10e3] }]),
    ...(isRatio ? [] : [distortionOutOfRange()]),
  ];
}

/** Faults of what a tube stage is stated to do; one without a load to choose cannot be asked for it. */
export function tubeAimFaults({
  topology,
  statedPowerW = null,
  statedDistortionRatio = null,
}: TubeStageDescription): LoadFault[] {
  const faults = aimFaults({ powerW: statedPowerW, distortionRatio: statedDistortionRatio });
  if (topology === 'single-ended') return faults;
  const asked = [
    ...(statedPowerW === null ? [] : ['statedPower']),
    ...(statedDistortionRatio === null ? [] : ['statedDistortion']),
  ];
  return [...faults, ...asked.map(noLoadToChoose)];
}
