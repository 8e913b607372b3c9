import type { LoadFault, StageContext } from '../types.ts';
import type { FollowerStage } from './follower-cycle.ts';
import { nothingLeft, railMissing } from './follower-messages.ts';
import type { FollowerDescription } from './follower-types.ts';

/**
 * The stage with its rails. A single supply of twice the voltage, split by the output capacitor, is a rail of
 * half of it on each side with half the source resistance. The stated voltage of the amplifier's supply holds
 * at its stated current; otherwise a stated voltage is that at rest.
 */
export function followerStage(
  description: FollowerDescription,
  context: StageContext,
): { stage: FollowerStage } | { fault: LoadFault } {
  const { railV, count, outputCapacitorF, emitterOhm, lossV, sinkOhm } = description;
  const supply = context.supply;
  const share = outputCapacitorF === null ? 1 : 0.5;
  const whole = railV ?? supply?.plateV ?? null;
  if (whole === null) return { fault: railMissing(outputCapacitorF !== null) };
  const nominalV = share * whole;
  const sagOhm = share * (supply?.sourceResistanceOhm ?? 0);
  const atA = railV === null ? (supply?.currentA ?? null) : null;
  const restA = count * (description.biasA ?? 0) || sinkCurrent(sinkOhm, { nominalV, sagOhm, atA });
  const stage = {
    pair: description.topology === 'follower-pair',
    count,
    restA,
    sinkOhm,
    emitterOhm,
    lossV,
    railAt: (averageA: number) => nominalV - sagOhm * (averageA - (atA ?? restA)),
  };
  const left = stage.railAt(restA) - lossV - (emitterOhm * restA) / count;
  return left > 0 ? { stage } : { fault: nothingLeft(stage.railAt(restA), lossV) };
}

/** What the sink resistor draws at rest from a rail that its current lowers; 0 without one. */
function sinkCurrent(
  sinkOhm: number | null,
  { nominalV, sagOhm, atA }: { nominalV: number; sagOhm: number; atA: number | null },
): number {
  if (sinkOhm === null) return 0;
  return atA === null ? nominalV / sinkOhm : (nominalV + sagOhm * atA) / (sinkOhm + sagOhm);
}
