import { findRoot } from '../solving/solve.ts';
import type { Bias, LoadFault, MeasuredComparison, MeasuredPoint, Rest, StageDevice } from '../types.ts';
import { insideOf, marginOf } from './connections.ts';
import { farFromModel, nothingToCompare } from './device-messages.ts';

/** Outside these factors the model does not describe the tube. */
const nearest = 0.5;
const farthest = 2;
/** A model that draws less than this is not compared with a measurement. */
const leastCurrentA = 1e-6;

/**
 * A measured current beside that of the model or the traced curves at the measured voltages; a voltage that was
 * not measured is that at rest, or for the grid what the measured current drops in the cathode resistor.
 */
export function compareMeasured(
  measured: MeasuredPoint,
  device: StageDevice,
  { rest, bias }: { rest: Rest; bias: Bias },
): { comparison: MeasuredComparison | null; faults: LoadFault[] } {
  const plateV = measured.plateV ?? rest.plateV;
  const screenV = device.screenAt(plateV);
  const gridV = gridAt(measured, device, { rest, bias });
  const at = { plateV, screenV, gridV };
  const modelA = insideOf(device.resting, at).plateA / device.count;
  if (!(modelA > leastCurrentA) || marginOf(device.resting, at) < 0) {
    return { comparison: null, faults: [nothingToCompare()] };
  }
  const factor = measured.plateA / modelA;
  const { plateA, rescale } = measured;
  return {
    comparison: { plateA, modelA, factor, rescaled: rescale, at: { plateV, gridV } },
    faults: factor < nearest || factor > farthest ? [farFromModel(factor)] : [],
  };
}

function gridAt(
  { plateA, cathodeV }: MeasuredPoint,
  device: StageDevice,
  { rest, bias }: { rest: Rest; bias: Bias },
): number {
  if (cathodeV !== null) return -cathodeV;
  return bias.kind === 'cathode-resistor'
    ? acrossResistor(plateA, device, { rest, ohm: bias.ohm })
    : rest.gridV;
}

/** The grid's voltage where the measured current and the screen's share, as modelled there, flow in the resistor. */
function acrossResistor(
  plateA: number,
  { count, resting }: StageDevice,
  { rest, ohm }: { rest: Rest; ohm: number },
): number {
  const excess = (gridV: number) => {
    const inside = insideOf(resting, { ...rest, gridV });
    const share = inside.plateA > 0 ? inside.screenA / inside.plateA : 0;
    return gridV + ohm * count * plateA * (1 + share);
  };
  return findRoot(excess, { low: -2 * ohm * count * plateA, high: 0 }) ?? -ohm * count * plateA;
}
