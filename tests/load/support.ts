import { readdirSync, readFileSync } from 'node:fs';
import {
  type Device,
  loadResult,
  type PlateDiagram,
  type RestingStage,
  type StageDescription,
  type StageDiagram,
  type StageSheet,
  type SupplyDescription,
  type TubeLibrary,
  type TubeStageDescription,
  type TubeStageSheet,
  type TubeType,
} from '../../src/load/index.ts';

const shared = new URL('../../shared/', import.meta.url);
const json = (path: string): unknown => JSON.parse(readFileSync(new URL(path, shared), 'utf8'));

export const tubes: TubeLibrary = Object.fromEntries(
  readdirSync(new URL('tubes/', shared)).map((file) => {
    const tube = json(`tubes/${file}`) as TubeType;
    return [tube.type, tube];
  }),
);

export function tube(type: string): TubeType {
  const found = tubes[type];
  if (!found) throw new Error(`no tube ${type} in shared/tubes`);
  return found;
}

export interface Check {
  id: string;
  given: Record<string, unknown>;
  expected: Record<string, unknown>;
  source: string;
  status: string;
  note?: string;
}

export const checks = (json('checks/load.json') as { checks: Check[] }).checks;

/** A published check value by id, typed by what the test expects of it. */
export function check<Given, Expected>(id: string): { given: Given; expected: Expected } {
  const found = checks.find((one) => one.id === id);
  if (!found) throw new Error(`no check ${id} in shared/checks/load.json`);
  return { given: found.given as Given, expected: found.expected as Expected };
}

/** The sheet of a stage that must be a tube with a load at its plate. */
export function tubeSheet(sheet: StageSheet | undefined): TubeStageSheet {
  if (sheet?.topology === 'single-ended' || sheet?.topology === 'resistance-coupled') return sheet;
  throw new Error(`no sheet of a tube stage: ${sheet?.topology}`);
}

/** What the chart of a stage draws. */
export function stageDiagram(
  description: TubeStageDescription,
  supply?: SupplyDescription | null,
): PlateDiagram | null;
export function stageDiagram(
  description: StageDescription,
  supply?: SupplyDescription | null,
): StageDiagram | null;
export function stageDiagram(description: StageDescription, supply: SupplyDescription | null = null) {
  return loadResult([description], supply, tubes).diagrams[0] ?? null;
}

/** Relative difference, for tolerances stated as a share. */
export const offBy = (value: number, expected: number) => Math.abs(value / expected - 1);

/** A device that draws a function of plate and grid voltage, and no screen current. */
export const deviceFrom = (current: (plateV: number, gridV: number) => number): Device => ({
  plateCurrent: ({ plateV, gridV }) => Math.max(0, current(plateV, gridV)),
  screenCurrent: () => 0,
});

/** Straight characteristics: the device of every textbook equivalent circuit. */
export const linearTriode = (mu: number, rpOhm: number) =>
  deviceFrom((plateV, gridV) => (plateV + mu * gridV) / rpOhm);

/** Child-Langmuir triode. */
export const spaceChargeTriode = (perveance: number, mu: number) =>
  deviceFrom((plateV, gridV) => perveance * Math.max(0, plateV + mu * gridV) ** 1.5);

/** A stage at rest at given voltages, the cathode at ground unless stated. */
export function stageAt(
  device: Device,
  plateV: number,
  gridV: number,
  more: Partial<Pick<RestingStage, 'feedOhm' | 'cathode'>> & { screenV?: number } = {},
): RestingStage {
  const { feedOhm = 0, cathode = null, screenV = 0 } = more;
  const at = { plateV, screenV, gridV };
  const rest = { ...at, plateA: device.plateCurrent(at), screenA: device.screenCurrent(at) };
  return { device, rest, feedOhm, cathode };
}

export const singleEnded: TubeStageDescription = {
  id: 'output',
  topology: 'single-ended',
  device: '300B',
  connection: 'triode',
  plateV: 300,
  screenV: null,
  bias: { kind: 'grid', gridV: -61 },
  plateResistorOhm: null,
  nextGridLeakOhm: null,
  loadOhm: 3400,
  driveV: null,
};

export const pentode: TubeStageDescription = {
  ...singleEnded,
  device: 'EL34',
  connection: 'pentode',
  plateV: 250,
  screenV: 265,
  bias: { kind: 'grid', gridV: -13.5 },
  loadOhm: 2000,
};

export const resistanceCoupled: TubeStageDescription = {
  ...singleEnded,
  id: 'driver',
  topology: 'resistance-coupled',
  device: '12AX7',
  plateV: null,
  bias: { kind: 'cathode-resistor', ohm: 1500, bypassed: true },
  plateResistorOhm: 100e3,
  loadOhm: null,
};
