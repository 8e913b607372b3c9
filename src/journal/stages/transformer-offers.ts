import {
  type OfferedLoad,
  type OfferedSpeaker,
  type OutputTransformer,
  offeredLoad,
  type StageDescription,
  speakersOfSweep,
} from '../../load/index.ts';
import { parseQuantity } from '../../quantity/index.ts';
import type { PartData, StageData } from '../schemas/index.ts';
import { outputTransformer } from './output-transformer.ts';
import { measuredSpeaker } from './speaker-sweep.ts';
import type { OutputContext } from './stage-output.ts';

interface Place {
  outputs: Pick<OutputContext, 'parts' | 'captures'>;
  /** Load of the version's rating. */
  ratedLoad: number | null;
}

type PowerStageDescription = Extract<StageDescription, { offers?: readonly OfferedLoad[] }>;

const choosesLoad = (description: StageDescription): description is PowerStageDescription =>
  description.topology === 'single-ended' || description.topology === 'push-pull';

/** The stages of a record with the loads that the journal's transformers would make for them. */
export function withOffers(
  descriptions: readonly StageDescription[],
  stages: readonly StageData[],
  place: Place,
): StageDescription[] {
  return descriptions.map((description, index) => {
    const stage = stages[index];
    if (!stage || !choosesLoad(description)) return description;
    const offers = [...place.outputs.parts].flatMap(([id, part]) => offersOf(id, part, stage, place));
    return { ...description, offers };
  });
}

interface Asked {
  transformer?: string | undefined;
  tap?: string | undefined;
  primaryTurns?: number | undefined;
  speaker?: string | undefined;
}

const asked = (stage: StageData): Asked => ('transformer' in stage || 'speaker' in stage ? stage : {});

/** What one part makes for a stage: nothing where it is no transformer, or one for the other kind of stage. */
function offersOf(id: string, part: PartData, stage: StageData, place: Place): OfferedLoad[] {
  const use = useOf(part);
  if (part.kind !== 'transformer' || (use !== null && use !== stage.topology)) return [];
  const { transformer: own, tap, primaryTurns, speaker } = asked(stage);
  const isOwn = own === id;
  const speakers = speakersOf(speaker, place);
  const chosen = tapFor(part, isOwn ? (tap ?? null) : null, speakers[0]?.ohm ?? null);
  if (!chosen) return [];
  const named = { part: id, name: chosen.name, unknownUse: use === null };
  const primaryShare = isOwn ? (primaryTurns ?? 1) : 1;
  const { nominalOhm } = chosen.transformer;
  const made: OfferedSpeaker | null = nominalOhm === null ? null : { ohm: nominalOhm, onto: null };
  const onto = speakers.length > 0 ? speakers : [made];
  return onto.map((one) => offeredLoad(named, { transformer: chosen.transformer, primaryShare }, one));
}

/** Null where the record does not tell. */
function useOf({ use, ratedDirectCurrent }: PartData): 'single-ended' | 'push-pull' | null {
  return use ?? (ratedDirectCurrent === undefined ? null : 'single-ended');
}

/** What the stage has on its secondary, else the rated load; empty where neither is known. */
function speakersOf(written: string | undefined, { outputs, ratedLoad }: Place): OfferedSpeaker[] {
  const rated: OfferedSpeaker[] = ratedLoad === null ? [] : [{ ohm: ratedLoad, onto: null }];
  if (written === undefined) return rated;
  const reading = parseQuantity(written, 'resistance');
  if ('quantity' in reading) return [{ ohm: reading.quantity.value, onto: null }];
  const capture = outputs.captures.find(({ id }) => id === written);
  const measured = capture && measuredSpeaker(capture);
  return measured ? speakersOfSweep(measured.sweep) : rated;
}

/** The secondary in use: the tap that is named, else the one made for a load nearest to the loudspeaker's. */
function tapFor(
  part: PartData,
  tap: string | null,
  speakerOhm: number | null,
): { name: string; transformer: OutputTransformer } | null {
  const { taps = [], title } = part;
  const names = tap === null && taps.length > 0 ? taps.map(({ name }) => name) : [tap];
  const found = names.flatMap((name) => {
    const read = outputTransformer(part, name);
    return 'fault' in read ? [] : [{ name, transformer: read.transformer }];
  });
  const octavesOff = ({ nominalOhm }: OutputTransformer) =>
    nominalOhm === null || speakerOhm === null ? 0 : Math.abs(Math.log2(nominalOhm / speakerOhm));
  const best = found.toSorted((a, b) => octavesOff(a.transformer) - octavesOff(b.transformer))[0];
  if (!best) return null;
  return { ...best, name: taps.length > 1 && best.name !== null ? `${title}, ${best.name} tap` : title };
}
