import type { Part, Version } from '../journal/types.ts';

type StageData = Version['data']['stages'][number];

/** Id of the transformer's record that a stage names. */
const transformerIn = (stage: StageData | undefined): string | null =>
  stage && 'transformer' in stage ? (stage.transformer ?? null) : null;

/** The record of the transformer that a stage names; null where it names none. */
export function transformerOf(stage: StageData | undefined, parts: readonly Part[]): Part | null {
  return parts.find(({ id }) => id === transformerIn(stage)) ?? null;
}

/** Stages of a version that name a part as their transformer, with their places on the version's page. */
export function stagesWith(part: string, { data }: Version): { id: string; title: string }[] {
  return data.stages
    .filter((stage) => transformerIn(stage) === part)
    .map(({ id, title }) => ({ id, title: title ?? id }));
}
