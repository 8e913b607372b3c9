import { pairPoint } from '../push-pull/pair-point.ts';
import type { PairForRules, PairQuestion } from '../push-pull/push-pull-candidates.ts';
import { type PairAtRest, type ResolvedPair, sidesOf } from '../push-pull/push-pull-stage.ts';
import type { LoadFault, PushPullDescription, SweepRow, TubeLibrary } from '../types.ts';
import { printedFor } from './sheet-loads.ts';
import { biasResistor, type Varied, variedRest } from './varied-rest.ts';

/** What the rules of load are asked about a described pair. */
export function pairQuestion(
  description: PushPullDescription,
  found: Exclude<ResolvedPair, { faults: LoadFault[] }>,
  { library, loads, sweep }: { library: TubeLibrary; loads: readonly number[]; sweep: readonly SweepRow[] },
): PairQuestion {
  const { pair, device, tubes } = found;
  const { driveV, powerW, statedDistortionRatio = null, offers = [] } = description;
  const moved = (varied: Varied): PairForRules | null => {
    const at = variedRest(description, { library, rest: pair.rest, factor: 1 }, varied);
    return at && { ...at, pair: pairAt(pair, at, description), point: pairPoint({ ...at, tubes }) };
  };
  return {
    pairs: {
      here: { pair, device, point: pairPoint({ tubes, device, rest: pair.rest }) },
      voltage: moved('voltage'),
      current: moved('current'),
    },
    count: tubes.count,
    triode: !tubes.separateScreen,
    ...{ loads, sweep, offers },
    describedV: driveV,
    aims: { powerW, distortionRatio: statedDistortionRatio },
    typical: printedFor(description, library),
  };
}

/** The pair at another point of rest, with the cathode resistor that belongs to it. */
function pairAt(
  pair: PairAtRest,
  { rest, device }: Pick<PairForRules, 'device'> & Pick<PairAtRest, 'rest'>,
  { mismatchRatio }: PushPullDescription,
): PairAtRest {
  return {
    ...pair,
    rest,
    sides: sidesOf(device, mismatchRatio),
    cathodeOhm: pair.cathodeOhm === 0 ? 0 : biasResistor(rest) / 2,
  };
}
