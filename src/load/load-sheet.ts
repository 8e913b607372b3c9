import { checkSupply } from './check-description.ts';
import { driveFor } from './large-signal.ts';
import { noBleeder, overRatedCapacitor } from './messages.ts';
import { peakPlateVoltage } from './peak-plate.ts';
import { type PlateDiagram, plateDiagram } from './plate-curves.ts';
import { resolveStage, signalLoad } from './resting-stage.ts';
import { stageSheet } from './stage-sheet.ts';
import { supplySheet } from './supply.ts';
import type {
  LoadFault,
  LoadSheet,
  StageContext,
  StageDescription,
  SupplyDescription,
  SupplySheet,
  TubeLibrary,
} from './types.ts';

/**
 * The load sheet of an amplifier's stages and supply. Every fault of the description is in `problems` with
 * the path of its value; a stage with an error has a sheet of nulls with the reason. Nothing throws.
 */
export function loadSheet(
  stages: readonly StageDescription[],
  supply: SupplyDescription | null,
  tubes: TubeLibrary,
): LoadSheet {
  const supplyFaults = supply ? under(['supply'], checkSupply(supply)) : [];
  const usable = supplyFaults.length === 0 ? supply : null;
  const results = stages.map((stage) => stageSheet(stage, { supply: usable, tubes }));
  const sheet = usable && supplySheet(usable);
  return {
    stages: results.map((result) => result.sheet),
    supply: sheet,
    peakPlateV: peakPlateVoltage(stages, usable),
    problems: [
      ...supplyFaults,
      ...(usable && sheet ? under(['supply'], supplyWarnings(usable, sheet)) : []),
      ...results.flatMap(({ problems }, index) => under(['stages', index], problems)),
    ],
  };
}

/** Curves, load line and swing of a stage for its chart; null where the stage has no operating point. */
export function stageDiagram(description: StageDescription, context: StageContext): PlateDiagram | null {
  const resolved = resolveStage(description, context);
  if ('faults' in resolved) return null;
  const { tube, stage } = resolved;
  const loadOhm = signalLoad(description);
  const drive = loadOhm === null ? null : driveFor(stage, loadOhm, description.driveV);
  const at = loadOhm === null || drive === null ? null : { loadOhm, driveV: drive.driveV };
  return plateDiagram(tube, description.connection, stage, at);
}

const under = (start: LoadFault['path'], faults: readonly LoadFault[]): LoadFault[] =>
  faults.map((fault) => ({ ...fault, path: [...start, ...fault.path] }));

function supplyWarnings({ capacitors }: SupplyDescription, { highestV }: SupplySheet): LoadFault[] {
  const overRated = capacitors.flatMap(({ ratedV }, index) =>
    ratedV !== null && highestV !== null && highestV > ratedV
      ? [overRatedCapacitor(['capacitors', index, 'ratedVoltage'], ratedV, highestV)]
      : [],
  );
  const bleeders = capacitors.some(({ bleederOhm }) => bleederOhm !== null);
  return capacitors.length > 0 && !bleeders ? [...overRated, noBleeder()] : overRated;
}
