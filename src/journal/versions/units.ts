import { allDefinitions, definitionOf } from '../../figures/index.ts';
import { nearestNames, type Problem, problemAt } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import type { UnitData, VersionData } from '../schemas/index.ts';
import type { CaptureRecord, Prose, Unit, UnitOutcome, UnitRow } from '../types.ts';
import { captureFaults, capturesOfUnit } from './unit-captures.ts';
import { unitMessages as messages } from './unit-messages.ts';
import { unitRows } from './unit-rows.ts';

type RawUnit = RawRecord<UnitData>;

/** The folder of the amplifier that a unit's record stands in. */
export const amplifierOfUnit = (id: string): string => id.replace(/\/units\/[^/]+$/, '');

/** Checks that no two units of an amplifier have one serial number, and that limits name figures that exist. */
export function checkUnits(
  units: readonly RawUnit[],
  versions: readonly RawRecord<VersionData>[],
): Problem[] {
  return [...units.flatMap((unit) => serialFaults(unit, units)), ...versions.flatMap(limitFaults)];
}

function serialFaults({ id, data, yaml }: RawUnit, units: readonly RawUnit[]): Problem[] {
  const serial = data.serial.toLowerCase();
  const first = units.find(
    (other) =>
      amplifierOfUnit(other.id) === amplifierOfUnit(id) && other.data.serial.toLowerCase() === serial,
  );
  if (!first || first.id === id) return [];
  return [problemAt(yaml.placeOf(['serial']), messages.serialTwice(data.serial, first.id))];
}

function limitFaults({ data, yaml }: RawRecord<VersionData>): Problem[] {
  return data.limits.flatMap(({ figure }, index) => {
    if (figure === undefined || definitionOf(figure)) return [];
    const near = nearestNames(
      figure,
      allDefinitions().map(({ id }) => id),
    );
    return [problemAt(yaml.placeOf(['limits', index, 'figure']), messages.unknownFigure(figure, near))];
  });
}

/** What units are joined with. */
interface UnitContext {
  versions: readonly RawRecord<VersionData>[];
  captures: readonly CaptureRecord[];
  proseOf(record: RawRecord<unknown>): Prose;
}

/** Holds what was read on each unit against the limits of its version. */
export function resolveUnits(
  records: readonly RawUnit[],
  { versions, captures, proseOf }: UnitContext,
): { units: Unit[]; problems: Problem[] } {
  const named = records.map((record) => ({
    ...{ record, serial: record.data.serial },
    captures: capturesOfUnit(record, captures),
  }));
  const resolved = named.map((one, index) => {
    const { id, file, data } = one.record;
    const version = versions.find((other) => other.id === data.version);
    const limits = version?.data.limits ?? [];
    const { rows, problems } = unitRows({ record: one.record, limits, captures: one.captures });
    const unit: Unit = {
      ...{ id, file, data, prose: proseOf(one.record), amplifier: amplifierOfUnit(id), rows },
      ...{ taken: one.captures.map(({ capture, channel }) => ({ capture, channel })) },
      outcome: outcomeOf(rows),
    };
    return {
      unit,
      // Without its version nothing can be said about limits, and the reference has been told.
      problems: version
        ? [...captureFaults(one.record, one.captures, named.slice(0, index)), ...problems]
        : [],
    };
  });
  return {
    units: resolved.map(({ unit }) => unit),
    problems: resolved.flatMap(({ problems }) => problems),
  };
}

/** What the rows that count say together: the gravest of them. */
function outcomeOf(rows: readonly UnitRow[]): UnitOutcome {
  const verdicts = rows.filter(({ counts }) => counts).map(({ verdict }) => verdict);
  const judged = verdicts.filter((verdict) => verdict !== 'no limit');
  if (judged.length === 0) return 'no limits';
  return (['outside', 'cannot be told', 'not read'] as const).find((one) => judged.includes(one)) ?? 'within';
}
