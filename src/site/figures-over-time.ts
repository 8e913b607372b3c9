import { definitionOf, figureText, outputPowerOf } from '../figures/index.ts';
import { termsOf } from '../journal/claims/figure-terms.ts';
import type { Amplifier, Log, Version } from '../journal/types.ts';
import { quantityText } from '../quantity/index.ts';
import { conditionsOf } from './alike.ts';
import { roleOf, type Source, sourcesOf } from './measured-differences.ts';

/** A figure of one version, and where it is shown in full. */
export interface VersionValue {
  text: string;
  value: number;
  low?: number;
  high?: number;
  page: string;
  anchor: string;
}

/** One figure over the versions of an amplifier. */
export interface FigureOverTime {
  name: string;
  /** What it was taken from and under which conditions. */
  from: string;
  /** By id of the version; a version without a comparable value has none. */
  values: ReadonlyMap<string, VersionValue>;
}

/**
 * The figures that logs of an amplifier put at their top, over its versions: those that at least two versions have from
 * captures of one kind, instrument, load, level and frequency. The newest capture of a version counts. The load sheet
 * gives two more.
 */
export function figuresOverTime({ id, versions }: Amplifier, logs: readonly Log[]): FigureOverTime[] {
  const own = logs.filter(({ data }) => data.amplifier === id);
  const keys = [...new Set(own.flatMap(({ keyFigures }) => keyFigures.map(({ figure }) => figure.id)))];
  const found = new Map<string, { name: string; from: string; values: Map<string, VersionValue> }>();
  for (const { key, name, from, version, value } of own
    .toReversed()
    .flatMap(sourcesOf)
    .flatMap((source) => valuesOf(source, keys))) {
    const row = found.get(key) ?? { name, from, values: new Map() };
    row.values.set(version, value);
    found.set(key, row);
  }
  const order = (key: string) => keys.indexOf(key.slice(0, key.indexOf('|')));
  const measured = [...found].sort(([a], [b]) => order(a) - order(b)).map(([, row]) => row);
  return [...ofSheets(versions), ...measured.filter(({ values }) => values.size > 1)];
}

interface Found {
  key: string;
  name: string;
  from: string;
  version: string;
  value: VersionValue;
}

function valuesOf(source: Source, keys: readonly string[]): Found[] {
  const { version } = source.capture;
  if (version === null) return [];
  return source.measured.flatMap(({ figure }): Found[] => {
    const { value, low, high } = figure;
    const role = roleOf(source, figure);
    if (value === null || role === 'stimulus' || !keys.includes(figure.id)) return [];
    const bounds = low === undefined || high === undefined ? {} : { low, high };
    return [
      {
        key: [figure.id, role, conditionsOf(source.capture), termsOf(figure, source.capture)].join('|'),
        name: definitionOf(figure.id)?.name ?? figure.id,
        from: conditionsText(source),
        version,
        value: { text: figureText(figure), value, ...bounds, page: source.page, anchor: source.anchor },
      },
    ];
  });
}

/** Kind, level and frequency of a capture in a few words. */
function conditionsText({ capture: { kind, data } }: Source): string {
  const { level, frequency } = data.conditions;
  return [kind.replaceAll('-', ' '), level, frequency].filter(Boolean).join(', ');
}

function ofSheets(versions: readonly Version[]): FigureOverTime[] {
  const column = (name: string, unit: string, from: string, read: (version: Version) => number | null) => ({
    ...{ name, from },
    values: new Map(
      versions.flatMap((version): [string, VersionValue][] => {
        const value = read(version);
        const place = { page: version.id, anchor: 'content' };
        return value === null ? [] : [[version.id, { text: quantityText(value, unit), value, ...place }]];
      }),
    ),
  });
  return [
    column('Highest supply', 'V', 'load sheet', ({ sheet }) => sheet?.supply?.highestV ?? null),
    column('Output power', 'W', 'load sheet', ({ sheet }) => (sheet ? outputPowerOf(sheet) : null)),
  ].filter(({ values }) => values.size > 0);
}
