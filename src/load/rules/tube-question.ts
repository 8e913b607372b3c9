import type { ResolvedTubes } from '../stage/resting-stage.ts';
import type { RestingStage, SweepRow, TubeLibrary, TubeStageDescription } from '../types.ts';
import type { LoadQuestion } from './candidates.ts';
import { printedFor } from './sheet-loads.ts';
import { biasResistor, type Varied, variedRest } from './varied-rest.ts';

/** What the rules of load are asked about a described stage. */
export function tubeQuestion(
  description: TubeStageDescription,
  { tubes, stage, measured }: ResolvedTubes,
  { library, loads, sweep }: { library: TubeLibrary; loads: readonly number[]; sweep: readonly SweepRow[] },
): LoadQuestion {
  const { driveV, statedPowerW = null, statedDistortionRatio = null, offers = [] } = description;
  const factor = measured?.rescaled ? measured.factor : 1;
  const moved = (varied: Varied): RestingStage | null => {
    const at = variedRest(description, { library, rest: stage.rest, factor }, varied);
    const cathode = at && stage.cathode && { ...stage.cathode, ohm: biasResistor(at.rest) };
    return at && { ...at, feedOhm: stage.feedOhm, cathode };
  };
  return {
    stages: { here: stage, voltage: moved('voltage'), current: moved('current') },
    triode: !tubes.separateScreen,
    ...{ loads, sweep, offers },
    describedV: driveV,
    aims: { powerW: statedPowerW, distortionRatio: statedDistortionRatio },
    typical: printedFor(description, library),
    count: tubes.count,
  };
}
