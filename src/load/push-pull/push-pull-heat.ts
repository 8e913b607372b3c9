import { insideOf } from '../device/connections.ts';
import { meanOfHalf } from '../solving/half-period.ts';
import type { TubeSignalMeans } from '../stage/limits-with-signal.ts';
import type { PairCycle } from './push-pull-cycle.ts';
import type { PairAtRest } from './push-pull-stage.ts';

/** Averages of each tube of one side over a cycle, at its own electrodes. */
function tubeMeans(pair: PairAtRest, { half }: PairCycle, index: 0 | 1, count: number): TubeSignalMeans {
  const inside = half.map(({ sides }) => {
    const at = sides[index];
    const { plateA, screenA, screenV } = insideOf(pair.sides[index], at);
    return { plateW: plateA * at.plateV, screenW: screenA * screenV, cathodeA: plateA + screenA };
  });
  const mean = (key: keyof TubeSignalMeans) => meanOfHalf(inside, (one) => one[key]) / count;
  return { plateW: mean('plateW'), screenW: mean('screenW'), cathodeA: mean('cathodeA') };
}

/** The same of the side whose plates are the warmer ones. */
export function warmerTube(pair: PairAtRest, cycle: PairCycle, count: number): TubeSignalMeans {
  const first = tubeMeans(pair, cycle, 0, count);
  if (pair.alike) return first;
  const second = tubeMeans(pair, cycle, 1, count);
  return second.plateW > first.plateW ? second : first;
}
