import {
  type LoadFault,
  type LoadSheet,
  loadResult,
  type StageContext,
  type StageDescription,
  type StageDiagram,
  type SupplyDescription,
  type TubeLibrary,
} from '../../load/index.ts';
import { type Problem, problemAt } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import type { ChainData, StageData, SupplyData, VersionData } from '../schemas/index.ts';
import { chainDescription, type JournalSettings, supplyDescription, supplyPath } from '../schemas/index.ts';
import type { YamlReading } from '../yaml.ts';
import { withScreenTaps } from './screen-tap.ts';
import { type OutputContext, withOutputs } from './stage-output.ts';
import { describeStages, isToldAlready, type SheetOrigin } from './traced-stages.ts';
import { withOffers } from './transformer-offers.ts';

/** What a load sheet is computed from, in a version record or a stand-alone file. */
export interface SheetSource {
  stages: readonly StageData[];
  supply?: SupplyData | undefined;
  chain?: ChainData | undefined;
  ratedLoad?: number | undefined;
}

/** Stages as the load room takes them, and what they are computed from besides. */
export interface DescribedStages {
  stages: StageDescription[];
  context: StageContext;
}

/** A load sheet with its charts' data; faults stand at their keys. */
export interface SheetResult {
  sheet: LoadSheet | null;
  diagrams: (StageDiagram | null)[];
  /** Null where there is no sheet. */
  described: DescribedStages | null;
  problems: Problem[];
}

/** The load sheet of a version; null where the record gives neither stages nor supply. */
export function versionSheet(
  { data, yaml, file }: RawRecord<VersionData>,
  { root, mains, outputs }: Pick<JournalSettings, 'mains'> & { root: string; outputs: OutputContext },
  tubes: TubeLibrary,
): SheetResult {
  return computeSheet(data, yaml, { root, file, mainsHz: mains, outputs }, tubes);
}

export function computeSheet(
  { stages, supply, chain, ratedLoad }: SheetSource,
  yaml: YamlReading,
  { mainsHz, outputs, ...origin }: SheetOrigin & { mainsHz: number; outputs: OutputContext },
  tubes: TubeLibrary,
): SheetResult {
  if (stages.length === 0 && !supply && !chain) {
    return { sheet: null, diagrams: [], described: null, problems: [] };
  }
  const described = describeStages(stages, yaml, origin);
  const loaded = withOutputs(described.descriptions, stages, { outputs, yaml, ratedLoad: ratedLoad ?? null });
  const tapped = withScreenTaps(loaded.descriptions, stages, { outputs, yaml });
  const descriptions = withOffers(tapped.descriptions, stages, { outputs, ratedLoad: ratedLoad ?? null });
  const source: SupplyDescription | null = supply ? supplyDescription({ mains: mainsHz, ...supply }) : null;
  const context: StageContext = { supply: source, tubes };
  const { sheet, diagrams } = loadResult(
    descriptions,
    source,
    tubes,
    chain ? chainDescription(chain, ratedLoad ?? null) : null,
  );
  return {
    sheet,
    diagrams,
    described: { stages: descriptions, context },
    problems: [
      ...described.problems,
      ...loaded.problems,
      ...tapped.problems,
      ...sheet.problems
        .filter((fault) => !isToldAlready(fault, descriptions))
        .map((fault) => problemAt(yaml.placeOf(pathOf(fault, supply)), fault)),
    ],
  };
}

function pathOf({ path }: LoadFault, supply: SupplyData | undefined): (string | number)[] {
  const [room, ...rest] = path;
  return room === 'supply' && supply ? ['supply', ...supplyPath(supply, rest)] : path;
}
