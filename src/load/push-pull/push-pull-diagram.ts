import type { PairCycle, PairInstant } from './push-pull-cycle.ts';
import type { PairAtRest } from './push-pull-stage.ts';
import type { PushPullDiagram } from './push-pull-types.ts';

/** Points of one curve; enough for a smooth drawing at any size. */
const points = 101;
/** Swings of the first grid whose combined curves are drawn, as shares of the drive. */
const shares = [1, 0.5, 0, -0.5, -1];

/** Combined curves, path and currents of a pair over a steady cycle. */
export function pushPullDiagram(pair: PairAtRest, cycle: PairCycle): PushPullDiagram {
  const { plateV, screenV, gridV } = cycle.line;
  const [restV, otherV] = plateV;
  const voltages = Array.from({ length: points }, (_, k) => (2 * restV * k) / (points - 1));
  const first = (volts: number, inputV: number) =>
    pair.sides[0].plateCurrent({ plateV: volts, screenV, gridV: gridV + inputV });
  const second = (volts: number, inputV: number) =>
    pair.sides[1].plateCurrent({ plateV: restV + otherV - volts, screenV, gridV: gridV - inputV });
  const curve = (current: (volts: number) => number) => ({ plateV: voltages, plateA: voltages.map(current) });
  return {
    restV,
    combined: shares.map((share) => {
      const inputV = share * cycle.driveV;
      return { inputV, ...curve((volts) => first(volts, inputV) - second(volts, inputV)) };
    }),
    sides: [curve((volts) => first(volts, 0)), curve((volts) => -second(volts, 0))],
    path: cycle.half.map(({ sides: [a, b] }) => ({ plateV: a.plateV, plateA: a.plateA - b.plateA })),
    cycle: wholeCycle(cycle.half),
  };
}

/** The half period and, backwards, the other. */
function wholeCycle(half: readonly PairInstant[]): PushPullDiagram['cycle'] {
  const whole = [...half, ...half.slice(0, -1).reverse()];
  const degrees = whole.map((_, k) => (360 * k) / (whole.length - 1));
  const currents = (index: 0 | 1) => whole.map(({ sides }) => sides[index].plateA);
  return { degrees, firstA: currents(0), secondA: currents(1) };
}
