import type { DescribedSheet } from '../chain/chain-link.ts';
import { smallSignal } from '../device/small-signal.ts';
import { resolvePair } from '../push-pull/push-pull-stage.ts';
import { resolveStage, signalLoad } from '../stage/resting-stage.ts';
import type { HumRow, PushPullDescription, StageContext, TubeStageDescription } from '../types.ts';
import * as messages from './supply-messages.ts';

type LoadHum = { ratio: number; loadOhm: number } | { absent: string };

/** Ripple of the supply at the output of an output stage; null for any other stage. */
export function humOf(
  { description, sheet }: DescribedSheet,
  context: StageContext,
  rippleVrms: number,
): HumRow | null {
  const found = loadHum(description, context);
  if (!found) return null;
  const stage = { stage: sheet.id, rippleVrms };
  if ('absent' in found) return { ...stage, loadVrms: null, dbReWatt: null, absent: found.absent };
  const loadVrms = rippleVrms * found.ratio;
  const powerW = loadVrms ** 2 / found.loadOhm;
  return { ...stage, loadVrms, dbReWatt: powerW > 0 ? 10 * Math.log10(powerW) : null };
}

function loadHum(description: DescribedSheet['description'], context: StageContext): LoadHum | null {
  switch (description.topology) {
    case 'single-ended':
      return singleEnded(description, context);
    case 'push-pull':
      return pushPull(description, context);
    case 'follower':
    case 'follower-pair':
      return { absent: messages.railsOfFollower() };
    default:
      return null;
  }
}

/**
 * The load hangs between supply and plate, so it divides the ripple with the plate resistance, grid and cathode
 * being at rest: RL/(RL + rp), with an unbypassed cathode resistor rp + (mu + 1)·Rk in place of rp.
 * @source equivalent circuit of a stage with its load between supply and plate
 */
function singleEnded(description: TubeStageDescription, context: StageContext): LoadHum {
  const loadOhm = signalLoad(description);
  const found = resolveStage(description, context);
  if ('faults' in found || loadOhm === null) return { absent: messages.noLoadForHum() };
  const { tubes, stage } = found;
  const stillScreen = (description.screenResistorOhm ?? null) !== null;
  if (tubes.separateScreen && !stillScreen) return { absent: messages.screenRippleUnknown() };
  const { rpOhm, mu } = smallSignal(stage.device, stage.rest);
  if (rpOhm === null || mu === null) return { absent: messages.noLoadForHum() };
  const { cathode } = stage;
  const plateOhm = cathode && !cathode.bypassed ? rpOhm + (mu + 1) * cathode.ohm : rpOhm;
  return { ratio: loadOhm / (loadOhm + plateOhm), loadOhm };
}

/**
 * Both plates see the ripple and only what one side draws more of it than the other reaches the load. With
 * conductances g(1 ± m/2) of the sides, plate to plate: 2·m·g / (4/Raa + 2·g).
 * @source node equations of two sides on a centre-tapped primary
 */
function pushPull(description: PushPullDescription, context: StageContext): LoadHum {
  const { mismatchRatio } = description;
  const found = resolvePair(description, context);
  if ('faults' in found) return { absent: messages.noLoadForHum() };
  const { loadOhm } = found;
  if (mismatchRatio === 0) return { absent: messages.sidesCancel() };
  if (found.tubes.separateScreen) return { absent: messages.screenRippleUnknown() };
  const { rpOhm } = smallSignal(found.device, found.pair.rest);
  if (rpOhm === null) return { absent: messages.noLoadForHum() };
  return { ratio: (2 * mismatchRatio) / rpOhm / (4 / loadOhm + 2 / rpOhm), loadOhm };
}
