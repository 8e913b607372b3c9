import type { OutputDescription, StageDescription } from '../../load/index.ts';
import { type Fault, nearestNames, type Problem, problemAt } from '../../problem/index.ts';
import { parseQuantity } from '../../quantity/index.ts';
import { nearestPaths } from '../nearest-paths.ts';
import type { PartData, StageData } from '../schemas/index.ts';
import type { CaptureRecord } from '../types.ts';
import type { YamlPath, YamlReading } from '../yaml.ts';
import { outputTransformer } from './output-transformer.ts';
import { partMessages as messages } from './part-messages.ts';
import { measuredSpeaker } from './speaker-sweep.ts';

/** What a stage's transformer and loudspeaker are looked up in. */
export interface OutputContext {
  /** Part records that can be used, by id. */
  parts: ReadonlyMap<string, PartData>;
  /** Ids of all part records, sound or not. */
  partIds: readonly string[];
  captures: readonly Pick<CaptureRecord, 'id' | 'analysis' | 'data'>[];
  /** Ids of all declared captures, sound or not. */
  captureIds: readonly string[];
}

interface Place {
  outputs: OutputContext;
  yaml: YamlReading;
  /** Load of the version's rating. */
  ratedLoad: number | null;
}

interface Asked {
  transformer?: string | undefined;
  tap?: string | undefined;
  primaryTurns?: number | undefined;
  speaker?: string | undefined;
}

type Found<T> = { value: T } | { key: keyof Asked; fault: Fault } | null;

/** The stages of a record with the transformers and loudspeakers that they name. */
export function withOutputs(
  descriptions: readonly StageDescription[],
  stages: readonly StageData[],
  place: Place,
): { descriptions: StageDescription[]; problems: Problem[] } {
  const found = descriptions.map((description, index) => {
    const stage = stages[index];
    if (!stage || !hasOutput(stage) || !isLoaded(description)) return { description, problems: [] };
    const { output, problems } = stageOutput(stage, ['stages', index], place);
    return { description: output ? { ...description, output } : description, problems };
  });
  return {
    descriptions: found.map(({ description }) => description),
    problems: found.flatMap(({ problems }) => problems),
  };
}

type Loaded = Extract<StageDescription, { output?: OutputDescription | null }>;

const hasOutput = (stage: StageData): stage is Extract<StageData, Asked> =>
  stage.topology === 'single-ended' ||
  stage.topology === 'resistance-coupled' ||
  stage.topology === 'push-pull';

const isLoaded = (description: StageDescription): description is Loaded =>
  description.topology === 'single-ended' ||
  description.topology === 'resistance-coupled' ||
  description.topology === 'push-pull';

/**
 * The transformer and loudspeaker that a stage names; null where it names none, or where what it names has faults
 * of its own, which are told at their place.
 */
function stageOutput(
  asked: Asked,
  path: YamlPath,
  { outputs, yaml, ratedLoad }: Place,
): { output: OutputDescription | null; problems: Problem[] } {
  const transformer = transformerOf(asked, outputs);
  const speaker = transformer && speakerOf(asked.speaker, outputs, ratedLoad);
  const problems = [transformer, speaker].flatMap((found) => {
    if (!found || !('fault' in found)) return [];
    const stated = asked[found.key] !== undefined;
    return [problemAt(stated ? yaml.placeOf([...path, found.key]) : yaml.placeOf(path), found.fault)];
  });
  if (!transformer || !speaker || 'fault' in transformer || 'fault' in speaker)
    return { output: null, problems };
  const output = { transformer: transformer.value, primaryShare: asked.primaryTurns ?? 1, ...speaker.value };
  return { output, problems };
}

function transformerOf(
  asked: Asked,
  { parts, partIds }: OutputContext,
): Found<OutputDescription['transformer']> {
  const { transformer: id, tap = null } = asked;
  if (id === undefined) {
    const key = (['speaker', 'tap', 'primaryTurns'] as const).find((one) => asked[one] !== undefined);
    return key ? { key, fault: messages.transformerMissing(key) } : null;
  }
  const part = parts.get(id);
  if (part) {
    const found = outputTransformer(part, tap);
    return 'fault' in found ? found : { value: found.transformer };
  }
  if (partIds.includes(id)) return null;
  return { key: 'transformer', fault: messages.unknownPart(id, nearestPaths(id, partIds), partIds) };
}

type Speaker = Pick<OutputDescription, 'speakerOhm' | 'sweep'>;

function speakerOf(
  written: string | undefined,
  { captures, captureIds }: OutputContext,
  ratedLoad: number | null,
): Found<Speaker> {
  const refuse = (fault: Fault): Found<Speaker> => ({ key: 'speaker', fault });
  if (written === undefined) return refuse(messages.speakerMissing());
  const reading = parseQuantity(written, 'resistance');
  if ('quantity' in reading) return { value: { speakerOhm: reading.quantity.value, sweep: null } };
  const capture = captures.find(({ id }) => id === written);
  if (!capture) {
    return captureIds.includes(written)
      ? null
      : refuse(messages.unknownSpeaker(written, nearestNames(written, captureIds)));
  }
  const measured = measuredSpeaker(capture);
  if (!measured) return refuse(messages.noSpeakerSweep(written));
  const { sweep, ratedOhm } = measured;
  if (sweep.ohm.length < 2) return refuse(messages.emptySpeakerSweep(written));
  return { value: { speakerOhm: ratedLoad ?? ratedOhm ?? Math.min(...sweep.ohm), sweep } };
}
