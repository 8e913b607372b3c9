import { quantityText } from '../quantity/index.ts';
import { atTheEnd, sweepBasis } from './messages.ts';
import { computed, withOutcome } from './proposal.ts';
import { type PairCycle, pairCycle } from './push-pull-cycle.ts';
import { powerOutOfReach } from './push-pull-messages.ts';
import { pairOutput } from './push-pull-signal.ts';
import type { PairAtRest } from './push-pull-stage.ts';
import { loadRow } from './sweep.ts';
import type { Candidate, SweepRow } from './types.ts';

type PowerRow = Omit<SweepRow, 'limitedBy'>;

/** Power goes with about the square of the drive, so that few steps are needed. */
const mostSteps = 12;
const closeTo = 1e-3;

/** The load of least total distortion among those that give a stated power before grid current. */
export function leastAtPower(pair: PairAtRest, loads: readonly number[], powerW: number): Candidate {
  const rows = loads.flatMap((loadOhm) => rowAtPower(pair, loadOhm, powerW) ?? []);
  const best = rows.reduce<PowerRow | null>((a, b) => (a === null || b.thdRatio < a.thdRatio ? b : a), null);
  const edge = best !== null && (best.loadOhm === loads[0] || best.loadOhm === loads.at(-1));
  const power = quantityText(powerW, 'W');
  const named = {
    method: `least total distortion at ${power}`,
    short: `least THD at ${power}`,
  };
  if (best === null || edge) {
    const basis = best === null ? powerOutOfReach() : atTheEnd(best.loadOhm);
    return withOutcome(computed({ ...named, loadOhm: null, basis }), null);
  }
  const [first, last] = [rows[0] ?? best, rows.at(-1) ?? best];
  const basis = `${sweepBasis(rows.length, first.loadOhm, last.loadOhm)}, all at this power`;
  return withOutcome(computed({ ...named, loadOhm: best.loadOhm, basis }), best);
}

/** The pair at the drive that gives a power; null where that takes the grid past 0 V or does not settle. */
function rowAtPower(pair: PairAtRest, loadOhm: number, powerW: number): PowerRow | null {
  let driveV = -pair.rest.gridV / 2;
  let near: PairCycle | null = null;
  for (let step = 0; step < mostSteps && driveV > 0; step++) {
    near = pairCycle(pair, loadOhm, driveV, near);
    const output = near && pairOutput(near);
    if (!near || !output || driveV > 4 * -pair.rest.gridV) return null;
    if (Math.abs(output.powerW / powerW - 1) < closeTo) {
      const beyond = driveV > near.cathodeRiseV - pair.rest.gridV;
      return beyond ? null : loadRow(loadOhm, output);
    }
    driveV *= Math.sqrt(powerW / output.powerW);
  }
  return null;
}
