import type { LimitRow } from '../types.ts';
import { noTransistorRating } from './follower-messages.ts';
import type { FollowerDescription, FollowerState, ThermalSheet } from './follower-types.ts';

/** A limit with the key of its rating in the record, for the warning where it is passed. */
export interface KeyedLimit {
  row: LimitRow;
  path: (string | number)[];
}

/**
 * The stage against what the maker states of its transistors: across one, off load with the mains 10 % high,
 * the whole supply; crest of the current at the largest sine; average dissipation and junction at the worst.
 */
export function followerLimits(
  { ratings, thermal: path }: FollowerDescription,
  of: { highestV: number; largest: FollowerState; worst: FollowerState; thermal: ThermalSheet | null },
): KeyedLimit[] {
  const source = ratings?.source ?? null;
  const rated = (
    name: string,
    unit: 'V' | 'A' | 'W',
    values: [number, number | null | undefined],
    key: string,
  ) => ({
    row: rowOf({ name, unit, value: values[0], limit: values[1] ?? null, source }),
    path: ['ratings', key],
  });
  const rows: KeyedLimit[] = [
    rated(
      'voltage across a transistor with the whole supply, off load',
      'V',
      [of.highestV, ratings?.voltageV],
      'voltage',
    ),
    rated(
      'crest of the current in a transistor at the largest sine',
      'A',
      [of.largest.peakDeviceA, ratings?.currentA],
      'current',
    ),
    rated(
      'dissipation of a transistor at the worst output',
      'W',
      [of.worst.deviceW, ratings?.powerW],
      'power',
    ),
  ];
  if (!of.thermal || !path) return rows;
  const junction = rowOf({
    name: 'junction temperature at the worst output',
    unit: '°C',
    value: of.thermal.worst.junctionC,
    limit: path.maxJunctionC,
    source: source ?? 'as stated with the way of the heat',
  });
  return [...rows, { row: junction, path: ['thermal', 'maxJunction'] }];
}

interface Stated {
  name: string;
  unit: LimitRow['unit'];
  value: number;
  limit: number | null;
  source: string | null;
}

function rowOf({ name, unit, value, limit, source }: Stated): LimitRow {
  const here = { name, value, unit };
  if (limit === null || source === null) {
    const nothing = { limit: null, share: null, source: null, status: null, over: null };
    return { ...here, ...nothing, absent: noTransistorRating() };
  }
  const share = unit === '°C' && (limit <= 0 || value < 0) ? null : value / limit;
  return { ...here, limit, share, source, status: 'seen', over: value > limit };
}
