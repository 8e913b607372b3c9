import {
  type LoadFault,
  type LoadSheet,
  loadSheet,
  type PlateDiagram,
  type SupplyDescription,
  stageDiagram,
  type TubeLibrary,
} from '../load/index.ts';
import { type Problem, problemAt } from '../problem/index.ts';
import type { RawRecord } from './records.ts';
import type { StageData, SupplyData, VersionData } from './schemas/index.ts';
import { type JournalSettings, stageDescription, supplyDescription, supplyPath } from './schemas/index.ts';
import type { YamlReading } from './yaml.ts';

/** What a load sheet is computed from, in a version record or a stand-alone file. */
export interface SheetSource {
  stages: readonly StageData[];
  supply?: SupplyData | undefined;
}

/** A load sheet with its charts' data; faults stand at their keys. */
export interface SheetResult {
  sheet: LoadSheet | null;
  diagrams: (PlateDiagram | null)[];
  problems: Problem[];
}

/** The load sheet of a version; null where the record gives neither stages nor supply. */
export function versionSheet(
  { data, yaml }: RawRecord<VersionData>,
  { mains }: Pick<JournalSettings, 'mains'>,
  tubes: TubeLibrary,
): SheetResult {
  return computeSheet(data, yaml, mains, tubes);
}

export function computeSheet(
  { stages, supply }: SheetSource,
  yaml: YamlReading,
  mainsHz: number,
  tubes: TubeLibrary,
): SheetResult {
  if (stages.length === 0 && !supply) return { sheet: null, diagrams: [], problems: [] };
  const descriptions = stages.map(stageDescription);
  const source: SupplyDescription | null = supply ? supplyDescription({ mains: mainsHz, ...supply }) : null;
  const sheet = loadSheet(descriptions, source, tubes);
  return {
    sheet,
    diagrams: descriptions.map((stage) => stageDiagram(stage, { supply: source, tubes })),
    problems: sheet.problems.map((fault) => problemAt(yaml.placeOf(pathOf(fault, supply)), fault)),
  };
}

function pathOf({ path }: LoadFault, supply: SupplyData | undefined): (string | number)[] {
  const [room, ...rest] = path;
  return room === 'supply' && supply ? ['supply', ...supplyPath(supply, rest)] : path;
}
