import type { ModelFit, TubeLibrary, TubeStageDescription } from '../types.ts';
import { deviceOf } from './device.ts';
import { fitOfModel } from './model-fit.ts';

/** The model of the named type, connected as the curves were traced, against them; null where either is missing. */
export function modelAgainstCurves(
  { device, connection, curves, screenV }: TubeStageDescription,
  tubes: TubeLibrary,
): ModelFit | null {
  const tube = Object.hasOwn(tubes, device) ? tubes[device] : undefined;
  return tube && curves ? fitOfModel(deviceOf(tube, connection), curves, screenV ?? 0) : null;
}
