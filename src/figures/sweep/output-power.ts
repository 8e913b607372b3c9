import type { LoadSheet, StageSheet } from '../../load/index.ts';

/** What an amplifier's output stage delivers by its model, in watts; null without one that has a load. */
export function outputPowerOf({ stages }: Pick<LoadSheet, 'stages'>): number | null {
  return stages.map(powerOf).find((powerW) => powerW !== null) ?? null;
}

function powerOf(stage: StageSheet): number | null {
  switch (stage.topology) {
    case 'single-ended':
      return stage.atLoad?.powerW ?? null;
    case 'follower':
    case 'follower-pair':
      return stage.largest?.outputW ?? null;
    default:
      return null;
  }
}
