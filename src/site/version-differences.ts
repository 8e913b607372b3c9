import type { Version } from '../journal/types.ts';
import type { LoadSheet, StageSheet, TubeStageSheet } from '../load/index.ts';
import { printNumber, quantityText } from '../quantity/index.ts';
import { followerValues } from './follower-values.ts';
import { pushPullValues } from './push-pull-values.ts';
import { splitterValues } from './splitter-values.ts';

/** One thing that two versions do not have in common, printed. */
export interface Difference {
  what: string;
  before: string;
  after: string;
}

type Printed = Readonly<Record<string, string>>;

/** What differs between a version and the one it follows: stages, operating points, supply and parts. */
export function versionDifferences(version: Version, followed: Version): Difference[] {
  const before = describe(followed);
  const after = describe(version);
  return [...new Set([...Object.keys(before), ...Object.keys(after)])]
    .filter((what) => before[what] !== after[what])
    .map((what) => ({ what, before: before[what] ?? 'none', after: after[what] ?? 'none' }));
}

function describe({ bill, sheet }: Version): Printed {
  const parts = bill.lines.map(({ part, value }) => [part, value ?? 'as listed'] as const);
  return { ...(sheet ? sheetValues(sheet) : {}), ...Object.fromEntries(parts) };
}

function sheetValues({ stages, supply }: LoadSheet): Printed {
  const ofStages = stages.flatMap((stage) => Object.entries(stageValues(stage)));
  const ofSupply: [string, string][] = supply
    ? [
        ['supply, highest voltage', text(supply.highestV, 'V')],
        ['supply, stored energy', text(supply.storedEnergyJ, 'J')],
        [
          'supply, time to 60 V',
          supply.timeTo60VoltsS === null ? 'never by itself' : text(supply.timeTo60VoltsS, 's'),
        ],
      ]
    : [];
  return Object.fromEntries([...ofStages, ...ofSupply]);
}

function stageValues(sheet: StageSheet): Printed {
  return Object.fromEntries(valuesOf(sheet).map(([name, value]) => [`${sheet.id}, ${name}`, value]));
}

function valuesOf(sheet: StageSheet): [string, string][] {
  switch (sheet.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return tubeValues(sheet);
    case 'push-pull':
      return pushPullValues(sheet);
    case 'cathode-follower':
    case 'split-load':
    case 'long-tailed':
      return splitterValues(sheet);
    case 'follower':
    case 'follower-pair':
      return followerValues(sheet);
  }
}

function tubeValues({
  device,
  connection,
  operatingPoint: point,
  atLoad,
  gain,
}: TubeStageSheet): [string, string][] {
  const values: [string, string][] = [['tube', `${device} as ${connection}`]];
  if (point) {
    values.push(['plate voltage', text(point.plateV, 'V')], ['plate current', text(point.plateA, 'A')]);
    values.push(['grid voltage', text(point.gridV, 'V')]);
  }
  if (gain) values.push(['gain', printNumber(gain.bypassed)]);
  if (atLoad) {
    values.push(['load', text(atLoad.loadOhm, 'Ω')], ['power', text(atLoad.powerW, 'W')]);
    values.push(['THD by the model', `${printNumber(100 * atLoad.thdRatio)}\u00a0%`]);
  }
  return values;
}

const text = (value: number | null, unit: string) =>
  value === null ? 'not known' : quantityText(value, unit);
