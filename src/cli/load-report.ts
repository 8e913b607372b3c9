import {
  candidateRow,
  candidatesOf,
  chainFacts,
  chainRows,
  limitName,
  limitsTitle,
  missingMoves,
  moveRows,
  stageBlocks,
  stageHeadline,
  supplyBlocks,
} from '../figures/stages.ts';
import type { ChainSheet, LimitRow, LoadSheet, StageSheet, SupplySheet, Threshold } from '../load/index.ts';
import { printNumber, quantityText } from '../quantity/index.ts';
import { alignRows } from './rows.ts';

/** A load sheet for reading in a terminal. */
export function loadReport({ stages, chain, supply, peakPlateV }: LoadSheet): string {
  const peak =
    peakPlateV === null
      ? []
      : [
          `At full drive a plate swings to near twice the supply, ${quantityText(peakPlateV, 'V')} with the mains 10 % high.`,
        ];
  return [
    ...stages.map(stageReport),
    ...(chain ? [chainReport(chain)] : []),
    ...(supply ? [supplyReport(supply)] : []),
    ...peak,
  ].join('\n\n');
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
    ...block(limitsTitle(stage), stage.limits.map(limitRow)),
    ...block('Loads that the rules give', candidateRows(stage)),
    ...moveLines(stage),
    ...stage.explanation.map((sentence) => `  ${sentence}`),
    ...[...new Set(Object.values(stage.absent))].map((reason) => `  Absent: ${reason}`),
  ];
  return blocks.join('\n');
}

function chainReport(chain: ChainSheet): string {
  const titles = ['At', 'input', 'gain', 'output', 'can give', 'headroom'];
  const rows = chainRows(chain).map(({ at, input, gain, output, largest, headroom }) => [
    at,
    input,
    gain,
    output,
    largest,
    headroom,
  ]);
  return [
    'Gain budget',
    ...block(
      'As a whole',
      chainFacts(chain).map(({ name, value }) => [name, value]),
    ),
    ...block('Levels from source to speaker, rms, at full output of the last stage', [titles, ...rows]),
    ...chain.explanation.map((sentence) => `  ${sentence}`),
    ...Object.values(chain.absent).map((reason) => `  Absent: ${reason}`),
  ].join('\n');
}

function supplyReport(supply: SupplySheet): string {
  return [
    'Supply',
    ...supplyBlocks(supply).flatMap(({ title, facts }) =>
      block(
        title,
        facts.map(({ name, value }) => [name, value]),
      ),
    ),
    ...block('Against limits that standards name', supply.thresholds.map(thresholdRow)),
    ...supply.explanation.map((sentence) => `  ${sentence}`),
    ...[...new Set(Object.values(supply.absent))]
      .filter((reason) => !supply.explanation.includes(reason))
      .map((reason) => `  Absent: ${reason}`),
  ].join('\n');
}

function thresholdRow({ name, value, limit, unit, above, source }: Threshold): string[] {
  const here = value === null ? 'never by itself' : quantityText(value, unit);
  return [name, here, `${above ? 'above' : 'below'} ${quantityText(limit, unit)}`, source];
}

const block = (title: string, rows: string[][]) =>
  rows.length === 0 ? [] : ['', `  ${title}`, ...alignRows(rows)];

function limitRow(row: LimitRow): string[] {
  const { value, limit, unit, share, over, absent } = row;
  const name = limitName(row);
  if (limit === null || share === null) return [name, quantityText(value, unit), absent ?? ''];
  const mark = over ? 'over the limit' : '';
  return [name, quantityText(value, unit), `of ${quantityText(limit, unit)}`, percent(share), mark];
}

function candidateRows(stage: StageSheet): string[][] {
  return candidatesOf(stage)
    .map(candidateRow)
    .map(({ method, load, power, besideMost, thd, second, third, status }) => [
      ...[method, load, power, besideMost],
      ...(power === '' ? ['', '', ''] : [`THD ${thd}`, `2nd ${second}`, `3rd ${third}`]),
      status,
    ]);
}

function moveLines(stage: StageSheet): string[] {
  const candidates = candidatesOf(stage);
  const rows = moveRows(candidates).map(({ method, voltage, current }) => [method, voltage, current]);
  if (rows.length === 0) return [];
  return [
    ...block('How far the rules move', [['', '10\u00a0% more voltage', '10\u00a0% more current'], ...rows]),
    ...missingMoves(candidates).map((reason) => `    ${reason}`),
  ];
}

const percent = (ratio: number) => `${printNumber(100 * ratio)}\u00a0%`;
