import { stageBlocks, stageHeadline } from '../figures/index.ts';
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
    `Stage ${stage.id}: ${stageHeadline(stage)}`,
    ...stageBlocks(stage, null).flatMap(({ title, facts }) =>
      block(
        title,
        facts.map(({ name, value }) => [name, value]),
      ),
    ),
    ...block('Limits at rest', stage.limits.map(limitRow)),
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

function limitRow({ name, value, limit, unit, share, over, absent }: LimitRow): string[] {
  if (limit === null || share === null) return [name, quantityText(value, unit), absent ?? ''];
  const mark = over ? 'over the limit' : '';
  return [name, quantityText(value, unit), `of ${quantityText(limit, unit)}`, percent(share), mark];
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
