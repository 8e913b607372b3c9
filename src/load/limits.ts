import { electrodesOf } from './device.ts';
import { noRating } from './messages.ts';
import type { Bias, LimitRow, Rating, Rest, TubeType } from './types.ts';

/**
 * The stage at rest against the ratings of its tube, one row for each quantity; a rating that is not known
 * gives a row that says so. Screen rows only where there is a screen, with its own share of the current also
 * when it is strapped to the plate.
 */
export function limitsAtRest(
  tube: TubeType,
  rest: Rest,
  { bias, strapped }: { bias: Bias['kind']; strapped: boolean },
): LimitRow[] {
  const at = strapped ? { ...rest, screenV: rest.plateV } : rest;
  const electrodes = electrodesOf(tube);
  const plateA = electrodes.plateCurrent(at);
  const screenA = electrodes.screenCurrent(at);
  const { ratings } = tube;
  const row = rowFor(tube.type);
  const plate = [
    row('plate dissipation', rest.plateV * plateA, 'W', ratings.plateDissipation),
    row('plate voltage', rest.plateV, 'V', ratings.plateVoltage),
  ];
  const screen = [
    row('screen dissipation', at.screenV * screenA, 'W', ratings.screenDissipation),
    row('screen voltage', at.screenV, 'V', ratings.screenVoltage),
  ];
  const cathode = row('cathode current', plateA + screenA, 'A', cathodeRating(tube, bias));
  return [...plate, ...(tube.construction === 'pentode' ? screen : []), cathode];
}

function cathodeRating({ ratings }: TubeType, bias: Bias['kind']): Rating | undefined {
  const fixed = bias === 'cathode-resistor' ? undefined : ratings.cathodeCurrentFixedBias;
  return fixed ?? ratings.cathodeCurrent;
}

const rowFor =
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
