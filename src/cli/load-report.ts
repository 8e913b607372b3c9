import type { LimitRow, LoadSheet, StageSheet, SupplySheet } from '../load/index.ts';
import { printNumber, quantityText } from '../quantity/index.ts';
import { alignRows } from './rows.ts';

/** A load sheet for reading in a terminal. */
export function loadReport({ stages, supply, peakPlateV }: LoadSheet): string {
  const peak =
    peakPlateV === null
      ? []
      : [
          `At full drive a plate swings to near twice the supply, ${quantityText(peakPlateV, 'V')} with the mains 10 % high.`,
        ];
  return [...stages.map(stageReport), ...(supply ? [supplyReport(supply)] : []), ...peak].join('\n\n');
}

function stageReport(stage: StageSheet): string {
  const blocks = [
    `Stage ${stage.id}: ${stage.device} as ${stage.connection}, ${stage.topology}`,
    ...block('At rest', pointRows(stage)),
    ...block('Limits at rest', stage.limits.map(limitRow)),
    ...block('At the load', loadRows(stage)),
    ...block('Loads that the rules give', candidateRows(stage)),
    ...stage.explanation.map((sentence) => `  ${sentence}`),
    ...Object.values(stage.absent).map((reason) => `  Absent: ${reason}`),
  ];
  return blocks.join('\n');
}

function supplyReport(supply: SupplySheet): string {
  return ['Supply', ...supply.explanation.map((sentence) => `  ${sentence}`)].join('\n');
}

const block = (title: string, rows: string[][]) =>
  rows.length === 0 ? [] : ['', `  ${title}`, ...alignRows(rows)];

function pointRows({ operatingPoint: point }: StageSheet): string[][] {
  if (!point) return [];
  const rows = [
    ['plate', quantityText(point.plateV, 'V'), quantityText(point.plateA, 'A')],
    ['grid', quantityText(point.gridV, 'V')],
    ['transconductance', quantityText(point.gmS, 'S')],
  ];
  if (point.screenV !== null && point.screenA !== null) {
    rows.splice(1, 0, ['screen', quantityText(point.screenV, 'V'), quantityText(point.screenA, 'A')]);
  }
  if (point.rpOhm !== null) rows.push(['plate resistance', quantityText(point.rpOhm, 'Ω')]);
  if (point.mu !== null) rows.push(['amplification factor', printNumber(point.mu)]);
  return rows;
}

function limitRow({ name, value, limit, unit, share, over, absent }: LimitRow): string[] {
  if (limit === null || share === null) return [name, quantityText(value, unit), absent ?? ''];
  const mark = over ? 'over the limit' : '';
  return [name, quantityText(value, unit), `of ${quantityText(limit, unit)}`, percent(share), mark];
}

function loadRows({ atLoad }: StageSheet): string[][] {
  if (!atLoad) return [];
  const { loadOhm, powerW, driveV, limitedBy, efficiency, thdRatio, harmonics } = atLoad;
  return [
    ['load', quantityText(loadOhm, 'Ω')],
    ['power', quantityText(powerW, 'W')],
    ['grid swing', `${quantityText(driveV, 'V')} peak`, `set by ${limitedBy}`],
    ['efficiency', percent(efficiency)],
    ['THD', percent(thdRatio)],
    ...harmonics.map(({ order, ratio }) => [`harmonic ${order}`, percent(ratio)]),
  ];
}

function candidateRows({ candidates }: StageSheet): string[][] {
  return candidates.map(({ method, loadOhm, powerW, secondRatio, thirdRatio, status }) => [
    method,
    loadOhm === null ? 'none' : quantityText(loadOhm, 'Ω'),
    powerW === null ? '' : quantityText(powerW, 'W'),
    secondRatio === null ? '' : `2nd ${percent(secondRatio)}`,
    thirdRatio === null ? '' : `3rd ${percent(thirdRatio)}`,
    status,
  ]);
}

const percent = (ratio: number) => `${printNumber(100 * ratio)}\u00a0%`;
