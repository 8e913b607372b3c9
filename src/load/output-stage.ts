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
import { realLoad } from './real-load.ts';
import { resolveStage } from './resting-stage.ts';
import { reflectedImpedance } from './transformer.ts';
import type {
  CoreSheet,
  LimitRow,
  LoadFault,
  OutputDescription,
  OutputSheet,
  RestingStage,
  StageContext,
  StageDescription,
  StageResult,
  TubeStageDescription,
  TubeStageSheet,
} from './types.ts';

/** A stage with the load that its output transformer makes of the loudspeaker; any other stage as it is. */
export function throughTransformer<D extends StageDescription>(description: D): D {
  if (!('output' in description) || !description.output) return description;
  if (checkOutput(description).length > 0) return { ...description, output: null };
  const { output, plateResistorOhm } = description;
  const { primaryOhm } = turnsInUse(output.transformer, output.primaryShare);
  return {
    ...description,
    loadOhm: loadThroughTransformer(output),
    plateResistorOhm: plateResistorOhm ?? primaryOhm,
  };
}

/** Adds to a stage's sheet what its transformer and loudspeaker do. */
export function withOutput(
  result: StageResult<TubeStageSheet>,
  description: TubeStageDescription,
  context: StageContext,
): StageResult<TubeStageSheet> {
  const { output } = description;
  const { sheet, problems } = result;
  if (!output) return result;
  const resolved = sheet.operatingPoint ? resolveStage(description, context) : null;
  if (!resolved || 'faults' in resolved) {
    return { sheet: { ...sheet, absent: { ...sheet.absent, output: messages.noOutput() } }, problems };
  }
  const { stage } = resolved;
  const { plateA } = stage.rest;
  const found = figuresOf(output, sheet, stage);
  return {
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

function figuresOf(output: OutputDescription, sheet: TubeStageSheet, stage: RestingStage) {
  const { transformer, primaryShare, speakerOhm } = output;
  const turns = turnsInUse(transformer, primaryShare);
  const { primaryOhm, turnsRatio } = turns;
  const { secondaryOhm } = transformer;
  const plateOhm = plateResistance(sheet, stage);
  const sourceOhm = plateOhm === null ? null : plateOhm + (primaryOhm ?? 0);
  const loadOhm = loadThroughTransformer(output);
  const efficiency =
    primaryOhm === null || secondaryOhm === null
      ? null
      : windingEfficiency({ turnsRatio, speakerOhm, primaryOhm, secondaryOhm });
  const reflectedOhm = reflectedImpedance(turnsRatio, speakerOhm);
  const powerW = sheet.atLoad?.powerW ?? null;
  // Windings that are not stated take nothing; the loss then says that it is not known.
  const speakerW = powerW === null ? null : (powerW * reflectedOhm) / loadOhm;
  const core = coreOf(output, { directA: stage.rest.plateA, speakerW });
  const varies = turns.primaryH !== null || turns.leakageH !== null || output.sweep !== null;
  const onReal = varies && sheet.atLoad ? realLoad(stage, output, sheet.atLoad.driveV) : null;
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
    realLoad: onReal,
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
