import { leftOutText } from '../figures/stages.ts';
import type { CaptureRecord, Log, Version } from '../journal/types.ts';
import {
  type FollowerSheet,
  type PowerStage,
  type PushPullSheet,
  powerStage,
  type StageSheet,
  type TubeStageSheet,
} from '../load/index.ts';
import { parseQuantity, quantityText } from '../quantity/index.ts';
import { newestAlike } from './alike.ts';
import { type Source, sourcesOfVersion } from './measured-differences.ts';
import { groupsOf, type PredictedGroup } from './predicted-groups.ts';

/** A stage that delivers power, by its model. */
export interface PredictedStage {
  sheet: PowerSheet;
  title: string;
  /** What its load is on the side of the loudspeaker. */
  loadOhm: number;
  fullW: number;
  /** Null for a stage whose model has no harmonics. */
  stage: PowerStage | null;
}

/** Predicted against measured for one version. */
export interface Predicted {
  of: PredictedStage;
  groups: PredictedGroup[];
  /** Level sweeps whose harmonics can be drawn with the model's. */
  sweeps: CaptureRecord[];
  /** What the model leaves out. */
  leftOut: string[];
  /** Captures that are not compared, and why. */
  passedOver: { source: Source; reason: string }[];
  /** Captures that a newer one under the very same conditions stands for. */
  older: number;
}

type PowerSheet = TubeStageSheet | PushPullSheet | FollowerSheet;

type Answer = Predicted | { absent: string } | null;

/** Computed once for all that a page of a version shows of it. */
const known = new WeakMap<Version, { logs: readonly Log[]; answer: Answer }>();

/**
 * What the model of a version's output stage says beside what was measured; the reason why not where the two cannot be
 * compared at all; null where there is nothing to compare: no capture into a load, or no stage that delivers power.
 */
export function predictedMeasured(version: Version, logs: readonly Log[]): Answer {
  const found = known.get(version);
  if (found?.logs === logs) return found.answer;
  const answer = answerOf(version, logs);
  known.set(version, { logs, answer });
  return answer;
}

function answerOf(version: Version, logs: readonly Log[]): Answer {
  const sources = sourcesOfVersion(logs, version).filter(({ capture }) => isPowerCapture(capture));
  const stages = (version.sheet?.stages ?? []).filter(isPowerSheet);
  const [only] = stages;
  if (sources.length === 0 || !only) return null;
  if (stages.length > 1) return { absent: severalStages(stages.map((sheet) => titleOf(version, sheet))) };
  const of = stageOf(version, only);
  return 'absent' in of ? of : compared(version, of, sources);
}

const isPowerCapture = ({ kind, data: { load } }: CaptureRecord) =>
  load !== undefined && (kind === 'waveform' || kind === 'level-sweep');

const isPowerSheet = (sheet: StageSheet): sheet is PowerSheet =>
  sheet.topology === 'single-ended' ||
  sheet.topology === 'push-pull' ||
  sheet.topology === 'follower' ||
  sheet.topology === 'follower-pair';

const titleOf = ({ data, sheet }: Version, { id }: StageSheet) => {
  const index = sheet?.stages.findIndex((stage) => stage.id === id) ?? -1;
  return data.stages[index]?.title ?? id;
};

const severalStages = (titles: readonly string[]) =>
  `Several stages deliver power (${titles.join(', ')}), and nothing says which of them a capture is of.`;

function stageOf(version: Version, sheet: PowerSheet): PredictedStage | { absent: string } {
  const index = version.sheet?.stages.indexOf(sheet) ?? -1;
  const description = version.described?.stages[index];
  const stage = description && version.described ? powerStage(description, version.described.context) : null;
  const fullW = 'largest' in sheet ? (sheet.largest?.outputW ?? null) : (stage?.full.powerW ?? null);
  if (fullW === null) return { absent: 'The load sheet gives its output stage no power to compare with.' };
  const loadOhm = loadOf(sheet, version.data.ratedLoad ?? null);
  if (loadOhm === null) {
    return {
      absent: 'The record states no rated load, so it is not known into what the model’s power goes.',
    };
  }
  return { sheet, title: titleOf(version, sheet), loadOhm, fullW, stage };
}

function loadOf(sheet: PowerSheet, ratedOhm: number | null): number | null {
  if ('largest' in sheet) return sheet.loadOhm;
  const output = 'output' in sheet ? sheet.output : undefined;
  return output ? output.speakerOhm : ratedOhm;
}

function compared({ sheet }: Version, of: PredictedStage, sources: readonly Source[]): Predicted {
  const { kept, older } = newestAlike(sources);
  const judged = kept.map((source) => ({ source, reason: reasonAgainst(source.capture, of.loadOhm) }));
  const usable = judged.flatMap(({ source, reason }) => (reason === null ? [source] : []));
  const sweeps = usable.map(({ capture }) => capture).filter(({ kind }) => kind === 'level-sweep');
  return {
    of,
    groups: usable.flatMap((source) => groupsOf(source, of)).filter(({ rows }) => rows.length > 0),
    sweeps: of.stage ? sweeps : [],
    leftOut: leftOutText({
      topology: of.sheet.topology,
      driven: (sheet?.stages.length ?? 0) > 1,
      transformer: 'output' in of.sheet && of.sheet.output !== undefined,
      feedbackDb: sheet?.chain?.feedbackDb ?? null,
    }),
    passedOver: judged.flatMap(({ source, reason }) => (reason === null ? [] : [{ source, reason }])),
    older,
  };
}

/** Loads that differ by less count as one. */
const sameLoad = 0.1;
/** Where neither a transformer's inductances nor an amplifier's ends count. */
const middleHz = { low: 200, high: 5000 };

function reasonAgainst({ data, analysis }: CaptureRecord, modelOhm: number): string | null {
  const ohm = data.load ?? modelOhm;
  if (Math.abs(ohm / modelOhm - 1) > sameLoad) {
    return `It was taken into ${quantityText(ohm, 'Ω')}, and the model’s load is ${quantityText(modelOhm, 'Ω')}.`;
  }
  const hertz = frequencyOf(analysis, data.conditions);
  if (hertz !== null && (hertz < middleHz.low || hertz > middleHz.high)) {
    return `It was taken at ${quantityText(hertz, 'Hz')}, and the model is one for the middle of the band.`;
  }
  return null;
}

function frequencyOf(
  analysis: CaptureRecord['analysis'],
  conditions: CaptureRecord['data']['conditions'],
): number | null {
  if (analysis.kind === 'waveform') {
    return analysis.summary.channels.find(({ fundamental }) => fundamental)?.fundamental?.frequencyHz ?? null;
  }
  const stated = parseQuantity(conditions['frequency'] ?? '', 'frequency');
  return 'quantity' in stated ? stated.quantity.value : null;
}
