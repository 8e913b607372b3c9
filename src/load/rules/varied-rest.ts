import { restOnDevice } from '../device/rest-on-device.ts';
import { stageDevice } from '../device/stage-device.ts';
import type { Device, DeviceChoice, Rest, TubeLibrary } from '../types.ts';

/** Which condition of a point of rest is 10 % up. */
export type Varied = 'voltage' | 'current';

/** The condition that is up. */
const up = 1.1;

/**
 * The point of rest of a stage's tubes with plate and screen voltage 10 % up at the same current, or with 10 % more
 * current at the same voltages: the bias is what makes it so. `factor` is that of the tubes' currents over the model's.
 * A screen voltage that traced curves hold stays. Null where there is no such point.
 * @source point of rest solved anew
 */
export function variedRest(
  choice: DeviceChoice,
  { library, rest, factor }: { library: TubeLibrary; rest: Rest; factor: number },
  varied: Varied,
): { rest: Rest; device: Device } | null {
  const volts = varied === 'voltage' ? up : 1;
  const found = stageDevice({ ...choice, screenV: screenOf(choice, rest, volts) }, library, factor);
  if ('faults' in found) return null;
  const plateA = (rest.plateA * (varied === 'current' ? up : 1)) / found.device.count;
  const at = restOnDevice(found.device, {
    feed: { kind: 'plate', plateV: rest.plateV * volts },
    bias: { kind: 'current', plateA },
  });
  return 'fault' in at || !(at.rest.gridV < 0) ? null : at;
}

/** A screen on a resistor counts as held where it is. */
function screenOf({ connection, screenV }: DeviceChoice, rest: Rest, volts: number): number | null {
  const statedV = connection === 'pentode' ? rest.screenV : screenV;
  return statedV === null ? null : statedV * volts;
}

/** The resistor that gives a point of rest its bias. */
export const biasResistor = ({ gridV, plateA, screenA }: Rest): number => -gridV / (plateA + screenA);
