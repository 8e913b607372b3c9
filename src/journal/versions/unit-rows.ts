import { type Bounds, conformityOf, unitOf } from '../../compare/index.ts';
import { type Figure, figureText } from '../../figures/index.ts';
import { type Fault, type Problem, problemAt } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import { type LimitData, limitKey, readingKey, type StatedLimits, type UnitData } from '../schemas/index.ts';
import type { UnitCapture, UnitRow } from '../types.ts';
import { unitMessages as messages } from './unit-messages.ts';

/** A unit's record with the limits of its version. */
export interface UnitSource {
  record: RawRecord<UnitData>;
  limits: readonly LimitData[];
  captures: readonly UnitCapture[];
}

interface Rows {
  rows: UnitRow[];
  problems: Problem[];
}

/** Every limit with what was read for it, then the readings that the version states no limit for. */
export function unitRows(source: UnitSource): Rows {
  const limited = source.limits.map((limit) =>
    limit.figure === undefined ? ofReadings(limit, source) : ofFigures(limit, limit.figure, source),
  );
  const all = [...limited, ownReadings(source)];
  return { rows: all.flatMap(({ rows }) => rows), problems: all.flatMap(({ problems }) => problems) };
}

const notRead = {
  value: null,
  unit: '',
  text: 'not read',
  date: null,
  done: null,
  capture: null,
  counts: true,
};

type Reading = UnitData['readings'][number] & { index: number };

function ofReadings(limit: LimitData, source: UnitSource): Rows {
  const key = limitKey(limit);
  const found = source.record.data.readings
    .map((one, index) => ({ ...one, index }))
    .filter(({ reading }) => readingKey(reading) === key);
  const common = { key, name: limit.reading ?? '', figure: null };
  if (found.length === 0) {
    return { rows: [{ ...common, ...notRead, limits: limit, verdict: 'not read' }], problems: [] };
  }
  return together(
    found.map((one, place) =>
      readingRow(one, { ...common, limits: limit }, place === found.length - 1, source),
    ),
  );
}

/** Readings of which the version says nothing: with bounds of their own, or with none and a warning. */
function ownReadings(source: UnitSource): Rows {
  const known = source.limits.flatMap(({ reading }) => reading ?? []);
  const keys = known.map(readingKey);
  const all = source.record.data.readings.map((one, index) => ({ ...one, index }));
  const own = all.filter(({ reading }) => !keys.includes(readingKey(reading)));
  return together(
    own.map((one) => {
      const key = readingKey(one.reading);
      const last = own.findLast(({ reading }) => readingKey(reading) === key) === one;
      const row = readingRow(one, { key, name: one.reading, figure: null, limits: {} }, last, source);
      if (one.least || one.most) return row;
      const place = source.record.yaml.placeOf(['readings', one.index, 'reading']);
      return { ...row, problems: [problemAt(place, messages.noLimit(one.reading, known))] };
    }),
  );
}

const together = (all: readonly { row: UnitRow; problems: Problem[] }[]): Rows => ({
  rows: all.map(({ row }) => row),
  problems: all.flatMap(({ problems }) => problems),
});

function readingRow(
  { index, value, date, done, least, most }: Reading,
  common: Pick<UnitRow, 'key' | 'name' | 'figure' | 'limits'>,
  counts: boolean,
  { record }: UnitSource,
): { row: UnitRow; problems: Problem[] } {
  const limits = least || most ? { least, most } : common.limits;
  const bound = limits.least ?? limits.most;
  const row: UnitRow = {
    ...{ ...common, limits, counts, value: value.value, unit: value.unit, text: value.text },
    ...{ date: date ?? null, done: done ?? null, capture: null },
    verdict: bound ? conformityOf(value, boundsOf(limits)) : 'no limit',
  };
  if (!bound || bound.unit === value.unit) return { row, problems: [] };
  const fault: Fault = messages.unit(value.unit, bound.unit);
  return { row, problems: [problemAt(record.yaml.placeOf(['readings', index, 'value']), fault)] };
}

function ofFigures(limit: LimitData, id: string, { captures, record }: UnitSource): Rows {
  const found = captures
    .filter(({ capture }) => limit.kind === undefined || capture.kind === limit.kind)
    .flatMap(({ capture, channel }) =>
      capture.figures
        .filter((figure) => figure.id === id && isOf(figure, channel) && isOf(figure, limit.of ?? null))
        .map((figure) => ({ figure, capture })),
    );
  const common = { key: limitKey(limit), name: limit.of ?? '', figure: id, limits: limit };
  if (found.length === 0) return { rows: [{ ...common, ...notRead, verdict: 'not read' }], problems: [] };
  const last = found.at(-1);
  const rows = found.map(({ figure, capture }): UnitRow => {
    const { value, low, high, unit } = figure;
    const interval = low === undefined || high === undefined ? {} : { low, high };
    return {
      ...{ ...common, value, ...interval, unit, text: figureText(figure), date: null, done: null },
      capture: { id: capture.id, title: capture.data.title },
      counts: figure === last?.figure,
      verdict: conformityOf(figure, boundsOf(limit)),
    };
  });
  return { rows, problems: figureFaults(limit, found, record) };
}

const isOf = ({ subject }: Figure, channel: string | null) => channel === null || subject === channel;

/** Channels of one capture that cannot be told apart, and a figure in another unit than its limit. */
function figureFaults(
  limit: LimitData,
  found: readonly { figure: Figure; capture: UnitCapture['capture'] }[],
  { data, yaml }: RawRecord<UnitData>,
): Problem[] {
  const bound = limit.least ?? limit.most;
  return found.flatMap(({ figure, capture }) => {
    const place = () => yaml.placeOf(['captures', captureIndex(data, capture)]);
    const alike = found.filter((one) => one.capture === capture);
    const channels = alike.flatMap((one) => one.figure.subject ?? []);
    if (alike.length > 1 && alike[0]?.figure === figure) {
      return [problemAt(place(), messages.whichChannel(figure.id, data.serial, channels))];
    }
    const wanted = unitOf(figure);
    return bound && bound.unit !== wanted ? [problemAt(place(), messages.unit(wanted, bound.unit))] : [];
  });
}

const captureIndex = ({ captures }: UnitData, { id, log }: UnitCapture['capture']) =>
  captures.findIndex((written) => [id, log].includes(written.split('#')[0] ?? ''));

const boundsOf = ({ least, most }: StatedLimits): Bounds => ({
  least: least?.value ?? null,
  most: most?.value ?? null,
});
