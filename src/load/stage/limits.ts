import { insideOf } from '../device/connections.ts';
import { electrodesOf } from '../device/device.ts';
import { hasScreenCurrent } from '../device/traced-family.ts';
import { noRating } from '../messages.ts';
import type {
  Bias,
  ElectrodeCurrents,
  LimitRow,
  RatedTube,
  Rating,
  Ratings,
  Rest,
  RestingStage,
  StageDevice,
  TubeType,
} from '../types.ts';

/**
 * A tube at rest against the ratings of its type, one row for each quantity; a rating that is not known
 * gives a row that says so. Screen rows only where there is a screen, with its own share of the current also
 * when it is strapped to the plate.
 */
export function limitsAtRest(
  tube: TubeType,
  rest: Rest,
  { bias, strapped }: { bias: Bias['kind']; strapped: boolean },
): LimitRow[] {
  const at = strapped ? { ...rest, screenV: rest.plateV } : rest;
  const screen = tube.construction === 'pentode';
  return rowsOf(tube, { ...insideOf(electrodesOf(tube), at), plateV: rest.plateV }, { bias, screen });
}

/** The same for each of a stage's tubes; without screen rows where its screen current was not traced. */
export function limitsOfTubes(
  { rated, count, curves }: StageDevice,
  { device, rest }: Pick<RestingStage, 'device' | 'rest'>,
  bias: Bias['kind'],
): LimitRow[] {
  const { plateA, screenA, screenV } = insideOf(device, rest);
  const each = { plateA: plateA / count, screenA: screenA / count, screenV, plateV: rest.plateV };
  const screen = rated.construction === 'pentode' && !(curves && !hasScreenCurrent(curves));
  return rowsOf(rated, each, { bias, screen });
}

function rowsOf(
  { type, ratings }: RatedTube,
  { plateV, plateA, screenV, screenA }: ElectrodeCurrents & { plateV: number },
  { bias, screen }: { bias: Bias['kind']; screen: boolean },
): LimitRow[] {
  const row = rowFor(type);
  const plateRows = [
    row('plate dissipation', plateV * plateA, 'W', ratings.plateDissipation),
    row('plate voltage', plateV, 'V', ratings.plateVoltage),
  ];
  const screenRows = [
    row('screen dissipation', screenV * screenA, 'W', ratings.screenDissipation),
    row('screen voltage', screenV, 'V', ratings.screenVoltage),
  ];
  const cathode = row('cathode current', plateA + screenA, 'A', cathodeRating(ratings, bias));
  return [...plateRows, ...(screen ? screenRows : []), cathode];
}

/** The rating of the cathode current that holds for a bias. */
export function cathodeRating(ratings: Ratings, bias: Bias['kind']): Rating | undefined {
  const fixed = bias === 'cathode-resistor' ? undefined : ratings.cathodeCurrentFixedBias;
  return fixed ?? ratings.cathodeCurrent;
}

/** A row of the limits of a type. */
export const rowFor =
  (type: string) =>
  (name: string, value: number, unit: LimitRow['unit'], rating: Rating | undefined): LimitRow =>
    rating
      ? {
          name,
          value,
          unit,
          limit: rating.value,
          share: value / rating.value,
          source: rating.source,
          status: rating.status,
          over: value > rating.value,
        }
      : {
          name,
          value,
          unit,
          limit: null,
          share: null,
          source: null,
          status: null,
          over: null,
          absent: noRating(type, name),
        };
