import type { RatedOutput } from '../../signal/index.ts';
import type { RawRecord } from '../records.ts';
import type { CaptureData, JournalSettings, VersionData } from '../schemas/index.ts';

/** What a journal says about measuring besides the captures themselves. */
export interface Bench {
  settings: Pick<JournalSettings, 'mains' | 'instruments'>;
  versions: readonly Pick<RawRecord<VersionData>, 'id' | 'data'>[];
}

/** What the analysis of a capture of some version takes from the journal. */
export function benchSettings(
  { settings, versions }: Bench,
  { instrument }: Pick<CaptureData, 'instrument'>,
  version: string | null,
): { mainsHz: number; rated: RatedOutput | undefined; bandwidthHz: number | undefined } {
  const measured = versions.find(({ id }) => id === version)?.data;
  return {
    mainsHz: settings.mains,
    rated: measured && ratedOutput(measured),
    bandwidthHz: settings.instruments.find(({ id }) => id === instrument)?.bandwidth,
  };
}

function ratedOutput({ ratedPower, ratedLoad }: VersionData): RatedOutput | undefined {
  return ratedPower === undefined || ratedLoad === undefined
    ? undefined
    : { powerW: ratedPower, loadOhm: ratedLoad };
}
