import { quantityText } from '../../quantity/index.ts';
import { hasScreenCurrent } from '../device/traced-family.ts';
import { overRating, overRatingAtDrive } from '../messages.ts';
import type { Bias, LimitMoment, LimitRow, LoadFault, StageDevice } from '../types.ts';
import { cathodeRating, rowFor } from './limits.ts';

/** Averages of one tube over a cycle of a steady sine, at its own electrodes. */
export interface TubeSignalMeans {
  plateW: number;
  screenW: number;
  cathodeA: number;
}

/** A tube with signal against the ratings that count averages. */
export function limitsWithSignal(
  { rated, curves }: Pick<StageDevice, 'rated' | 'curves'>,
  { plateW, screenW, cathodeA }: TubeSignalMeans,
  { bias, when }: { bias: Bias['kind']; when: LimitMoment },
): LimitRow[] {
  const { type, ratings, construction } = rated;
  const row = rowFor(type);
  const screen = construction === 'pentode' && !(curves && !hasScreenCurrent(curves));
  const rows = [
    row('plate dissipation', plateW, 'W', ratings.plateDissipation),
    ...(screen ? [row('screen dissipation', screenW, 'W', ratings.screenDissipation)] : []),
    row('cathode current', cathodeA, 'A', cathodeRating(ratings, bias)),
  ];
  return rows.map((one) => ({ ...one, when }));
}

/** Rows of a tube at rest, marked as such. */
export const atRestRows = (rows: readonly LimitRow[]): LimitRow[] =>
  rows.map((row) => ({ ...row, when: 'at rest' }));

/** A warning for each row above its rating. */
export function ratingWarnings(device: string, limits: readonly LimitRow[]): LoadFault[] {
  return limits.flatMap(({ over, name, value, limit, unit, when }) => {
    if (!over || limit === null) return [];
    const [here, rating] = [quantityText(value, unit), quantityText(limit, unit)];
    return when === undefined || when === 'at rest'
      ? [overRating(device, name, here, rating)]
      : [overRatingAtDrive(device, `${name} ${when}`, here, rating)];
  });
}
