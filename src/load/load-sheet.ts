import { chainSheet } from './chain.ts';
import type { DescribedSheet } from './chain-link.ts';
import { checkSupply } from './check-description.ts';
import { checkOutput } from './check-output.ts';
import { driveFor } from './large-signal.ts';
import { throughTransformer } from './output-stage.ts';
import { peakPlateVoltage } from './peak-plate.ts';
import { type PlateDiagram, plateDiagram } from './plate-curves.ts';
import { pushPullDiagram } from './push-pull-diagram.ts';
import { resolveStage, signalLoad } from './resting-stage.ts';
import { isTubeStage, stageSheet } from './stage-sheet.ts';
import { supplySheet } from './supply.ts';
import { supplyWithStages } from './supply-stages.ts';
import { supplyWarnings } from './supply-warnings.ts';
import type {
  ChainDescription,
  LoadFault,
  LoadSheet,
  PushPullDiagram,
  StageContext,
  StageDescription,
  StageResult,
  SupplyDescription,
  TubeLibrary,
  TubeStageDescription,
} from './types.ts';

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
  const supplyFaults = supply ? under(['supply'], checkSupply(supply)) : [];
  const usable = supplyFaults.length === 0 ? supply : null;
  const stages = described.map(throughTransformer);
  const results = stages.map((stage) => stageSheet(stage, { supply: usable, tubes }));
  const fed =
    usable &&
    supplyWithStages(supplySheet(usable), { supply: usable, stages: together(stages, results), tubes });
  const way = chain && chainSheet(chain, together(stages, results));
  return {
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
}

const together = (stages: readonly StageDescription[], results: readonly StageResult[]): DescribedSheet[] =>
  stages.flatMap((description, index) => {
    const sheet = results[index]?.sheet;
    return sheet ? [{ description, sheet }] : [];
  });

/** What the charts of a stage draw besides its sheet. */
export type StageDiagram = PlateDiagram | PushPullDiagram;

/** Curves, load line and swing of a tube stage or a pair for its charts; null for others, and without an operating point. */
export function stageDiagram(described: TubeStageDescription, context: StageContext): PlateDiagram | null;
export function stageDiagram(described: StageDescription, context: StageContext): StageDiagram | null;
export function stageDiagram(described: StageDescription, context: StageContext): StageDiagram | null {
  const description = throughTransformer(described);
  if (description.topology === 'push-pull') return pushPullDiagram(description, context);
  if (!isTubeStage(description)) return null;
  const resolved = resolveStage(description, context);
  if ('faults' in resolved) return null;
  const { tubes, stage } = resolved;
  const loadOhm = signalLoad(description);
  const drive = loadOhm === null ? null : driveFor(stage, loadOhm, description.driveV);
  const at = loadOhm === null || drive === null ? null : { loadOhm, driveV: drive.driveV };
  return plateDiagram(stage, tubes.curves, at);
}

const under = (start: LoadFault['path'], faults: readonly LoadFault[]): LoadFault[] =>
  faults.map((fault) => ({ ...fault, path: [...start, ...fault.path] }));
