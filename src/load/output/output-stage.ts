import type { TubeStageResult } from '../stage/tube-stage-sheet.ts';
import type {
  CoreSheet,
  LimitRow,
  LoadFault,
  OutputDescription,
  OutputSheet,
  RealLoad,
  RestingStage,
  StageDescription,
  StageResult,
  TubeStageDescription,
  TubeStageSheet,
} from '../types.ts';
import { checkOutput } from './check-output.ts';
import { explainOutput } from './output-explanation.ts';
import * as messages from './output-messages.ts';
import {
  coreSheet,
  highCorners,
  loadThroughTransformer,
  lowCorners,
  turnsInUse,
  windingEfficiency,
} from './output-transformer.ts';
import { realLoad, tubeOnTransformer } from './real-load.ts';
import { reflectedImpedance } from './transformer.ts';

/** A stage with the load that its output transformer makes of the loudspeaker; any other stage as it is. */
export function throughTransformer<D extends StageDescription>(description: D): D {
  if (!('output' in description) || !description.output) return description;
  if (checkOutput(description).length > 0) return { ...description, output: null };
  const { output } = description;
  const { primaryOhm } = turnsInUse(output.transformer, output.primaryShare);
  const loadOhm = loadThroughTransformer(output);
  if (description.topology === 'push-pull') {
    const halfOhm = primaryOhm === null ? null : primaryOhm / 2;
    return { ...description, loadOhm, windingOhm: description.windingOhm ?? halfOhm };
  }
  return { ...description, loadOhm, plateResistorOhm: description.plateResistorOhm ?? primaryOhm };
}

/** Adds to a stage's sheet what its transformer and loudspeaker do. */
export function withOutput(
  result: TubeStageResult,
  description: TubeStageDescription,
): StageResult<TubeStageSheet> {
  const { output } = description;
  const { sheet, problems, stage } = result;
  if (!output) return result;
  if (!stage) {
    return { sheet: { ...sheet, absent: { ...sheet.absent, output: messages.noOutput() } }, problems };
  }
  const { plateA } = stage.rest;
  const { atLoad } = sheet;
  const found = outputFigures(output, {
    directA: plateA,
    plateOhm: plateResistance(sheet, stage),
    powerW: atLoad?.powerW ?? null,
    onReal: () => atLoad && realLoad(tubeOnTransformer(stage, atLoad.driveV), output),
  });
  return {
    ...result,
    sheet: {
      ...sheet,
      output: found.output,
      limits: [...sheet.limits, ...directLimit(output, plateA)],
      explanation: [...sheet.explanation, ...explainOutput(found.output, plateA)],
      absent: { ...sheet.absent, ...found.absent },
    },
    problems: [...problems, ...warningsOf(output, plateA)],
  };
}

/** What the figures of a transformer take of the stage on it. */
export interface BehindTransformer {
  /** Direct current that magnetises the core, in the whole primary. */
  directA: number;
  /** Of the source, across the whole primary; null where it is not known. */
  plateOhm: number | null;
  /** Full power into the load. */
  powerW: number | null;
  /** Full drive into the loudspeaker over frequency; asked for where its load is no resistance. */
  onReal(): RealLoad | null;
}

/** What a transformer and a loudspeaker make of a stage, and the reasons of the figures that are null. */
export function outputFigures(
  output: OutputDescription,
  { directA, plateOhm, powerW, onReal }: BehindTransformer,
): { output: OutputSheet; absent: Record<string, string> } {
  const { transformer, primaryShare, speakerOhm } = output;
  const turns = turnsInUse(transformer, primaryShare);
  const { primaryOhm, turnsRatio } = turns;
  const { secondaryOhm } = transformer;
  const sourceOhm = plateOhm === null ? null : plateOhm + (primaryOhm ?? 0);
  const loadOhm = loadThroughTransformer(output);
  const efficiency =
    primaryOhm === null || secondaryOhm === null
      ? null
      : windingEfficiency({ turnsRatio, speakerOhm, primaryOhm, secondaryOhm });
  const reflectedOhm = reflectedImpedance(turnsRatio, speakerOhm);
  // Windings that are not stated take nothing; the loss then says that it is not known.
  const speakerW = powerW === null ? null : (powerW * reflectedOhm) / loadOhm;
  const core = coreOf(output, { directA, speakerW });
  const varies = turns.primaryH !== null || turns.leakageH !== null || output.sweep !== null;
  const figures: OutputSheet = {
    transformer: transformer.name,
    primaryShare,
    turnsRatio,
    speakerOhm,
    reflectedOhm,
    loadOhm,
    efficiency,
    lossDb: efficiency === null ? null : -10 * Math.log10(efficiency),
    speakerW,
    outputOhm: sourceOhm === null ? null : sourceOhm / turnsRatio ** 2 + (secondaryOhm ?? 0),
    ...cornersOf(turns, { sourceOhm, secondaryLoadOhm: loadOhm - (primaryOhm ?? 0) }),
    core: core !== 'unknown' && core !== 'full' ? core : null,
    realLoad: varies ? onReal() : null,
  };
  return { output: figures, absent: absentOf(figures, { core, varies, plateOhm, turns }) };
}

/** As the load sees the tube: with the cathode resistor where it is not bypassed. */
function plateResistance({ operatingPoint }: TubeStageSheet, { cathode }: RestingStage): number | null {
  const { rpOhm = null, mu = null } = operatingPoint ?? {};
  if (rpOhm === null || mu === null) return null;
  return cathode && !cathode.bypassed ? rpOhm + (mu + 1) * cathode.ohm : rpOhm;
}

function cornersOf(
  { primaryH, leakageH }: ReturnType<typeof turnsInUse>,
  { sourceOhm, secondaryLoadOhm }: { sourceOhm: number | null; secondaryLoadOhm: number },
): Pick<OutputSheet, 'low' | 'high'> {
  const parallel = sourceOhm === null ? secondaryLoadOhm : 1 / (1 / sourceOhm + 1 / secondaryLoadOhm);
  return {
    low: primaryH === null ? [] : lowCorners(parallel, primaryH),
    high: leakageH === null || sourceOhm === null ? [] : highCorners(sourceOhm + secondaryLoadOhm, leakageH),
  };
}

type Core = CoreSheet | 'unknown' | 'full';

function coreOf(
  { transformer, primaryShare, speakerOhm }: OutputDescription,
  { directA, speakerW }: { directA: number; speakerW: number | null },
): Core {
  const { nominalOhm, primaryH, ratedPower, ratedDirectA, secondaryOhm, turnsRatio } = transformer;
  if (nominalOhm === null || primaryH === null || !ratedPower || ratedDirectA === null || speakerW === null) {
    return 'unknown';
  }
  const overReflected = 1 + (secondaryOhm ?? 0) / speakerOhm;
  const rating = { turnsRatio, nominalOhm, primaryH, ratedPower, ratedDirectA };
  return coreSheet(rating, { primaryShare, directA, overReflected, speakerOhm, speakerW }) ?? 'full';
}

function absentOf(
  { efficiency, speakerW, realLoad: real }: OutputSheet,
  {
    core,
    varies,
    plateOhm,
    turns,
  }: { core: Core; varies: boolean; plateOhm: number | null; turns: ReturnType<typeof turnsInUse> },
): Record<string, string> {
  const reasons: [string, string | null][] = [
    ['insertionLoss', efficiency === null ? messages.noWindingResistance() : null],
    ['speakerPower', speakerW === null ? messages.noFullPower() : null],
    ['lowEnd', turns.primaryH === null ? messages.noPrimaryInductance() : null],
    ['highEnd', turns.leakageH === null ? messages.noLeakage() : null],
    ['source', plateOhm === null ? messages.noSource() : null],
    ['core', core === 'unknown' ? messages.noCoreRating() : core === 'full' ? messages.coreFull() : null],
    ['realLoad', varies || real ? null : messages.noRealLoad()],
  ];
  return Object.fromEntries(reasons.flatMap(([key, reason]) => (reason === null ? [] : [[key, reason]])));
}

function directLimit({ transformer }: OutputDescription, directA: number): LimitRow[] {
  const limit = transformer.ratedDirectA;
  if (limit === null) return [];
  return [
    {
      name: 'direct current in the winding',
      value: directA,
      unit: 'A',
      limit,
      share: directA / limit,
      source: `as stated of ${transformer.name}`,
      status: 'seen',
      over: directA > limit,
    },
  ];
}

function warningsOf({ transformer }: OutputDescription, directA: number): LoadFault[] {
  const { ratedDirectA, name } = transformer;
  return ratedDirectA !== null && directA > ratedDirectA
    ? [messages.overRatedDirect(name, directA, ratedDirectA)]
    : [];
}
