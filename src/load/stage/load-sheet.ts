import { chainSheet } from '../chain/chain.ts';
import type { DescribedSheet } from '../chain/chain-link.ts';
import { checkOutput } from '../output/check-output.ts';
import { throughTransformer } from '../output/output-stage.ts';
import { stageSheet } from '../stage-sheet.ts';
import { supplySheet } from '../supply/supply.ts';
import { supplyWithStages } from '../supply/supply-stages.ts';
import { supplyWarnings } from '../supply/supply-warnings.ts';
import type {
  ChainDescription,
  LoadFault,
  LoadSheet,
  StageDescription,
  StageDiagram,
  StageResult,
  SupplyDescription,
  TubeLibrary,
} from '../types.ts';
import { checkSupply } from './check-description.ts';
import { peakPlateVoltage } from './peak-plate.ts';

/** A load sheet with what the charts of each stage draw besides; null for a stage without such a chart. */
export interface LoadResult {
  sheet: LoadSheet;
  diagrams: (StageDiagram | null)[];
}

/**
 * The load sheet of an amplifier's stages and supply. Every fault of the description is in `problems` with
 * the path of its value; a stage with an error has a sheet of nulls with the reason. Nothing throws.
 */
export function loadSheet(
  described: readonly StageDescription[],
  supply: SupplyDescription | null,
  tubes: TubeLibrary,
  chain: ChainDescription | null = null,
): LoadSheet {
  return computed(described, supply, tubes, chain).sheet;
}

/** The same with curves, load line and swing of tube stages and pairs for their charts. */
export function loadResult(
  described: readonly StageDescription[],
  supply: SupplyDescription | null,
  tubes: TubeLibrary,
  chain: ChainDescription | null = null,
): LoadResult {
  const { sheet, results } = computed(described, supply, tubes, chain);
  return { sheet, diagrams: results.map(({ diagram }) => diagram?.() ?? null) };
}

function computed(
  described: readonly StageDescription[],
  supply: SupplyDescription | null,
  tubes: TubeLibrary,
  chain: ChainDescription | null,
): { sheet: LoadSheet; results: StageResult[] } {
  const supplyFaults = supply ? under(['supply'], checkSupply(supply)) : [];
  const usable = supplyFaults.length === 0 ? supply : null;
  const stages = described.map(throughTransformer);
  const results = stages.map((stage) => stageSheet(stage, { supply: usable, tubes }));
  const fed =
    usable &&
    supplyWithStages(supplySheet(usable), { supply: usable, stages: together(stages, results), tubes });
  const way = chain && chainSheet(chain, together(stages, results));
  const sheet: LoadSheet = {
    chain: way?.sheet ?? null,
    stages: results.map((result) => result.sheet),
    supply: fed?.sheet ?? null,
    peakPlateV: peakPlateVoltage(stages, usable),
    problems: [
      ...supplyFaults,
      ...(usable && fed ? under(['supply'], [...supplyWarnings(usable, fed.sheet), ...fed.problems]) : []),
      ...described.flatMap((stage, index) => under(['stages', index], checkOutput(stage))),
      ...results.flatMap(({ problems }, index) => under(['stages', index], problems)),
      ...under(['chain'], way?.problems ?? []),
    ],
  };
  return { sheet, results };
}

const together = (stages: readonly StageDescription[], results: readonly StageResult[]): DescribedSheet[] =>
  stages.flatMap((description, index) => {
    const sheet = results[index]?.sheet;
    return sheet ? [{ description, sheet }] : [];
  });

const under = (start: LoadFault['path'], faults: readonly LoadFault[]): LoadFault[] =>
  faults.map((fault) => ({ ...fault, path: [...start, ...fault.path] }));
