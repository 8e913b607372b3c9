import type {
  Bias,
  FollowerDescription,
  FollowerSheet,
  OutputSheet,
  PushPullSheet,
  SplitterSheet,
  StageDescription,
  StageSheet,
  SwingLimit,
  TubeStageSheet,
} from '../types.ts';

/** What a chain needs to know of a stage. */
export interface StageTransfer {
  /** Small-signal voltage gain. */
  gain: number;
  largestVrms: number;
  /** At the input for the largest output. */
  driveVrms: number;
  limitedBy: SwingLimit | 'supply';
  /** Load at the primary of an output transformer; null without one. */
  primaryOhm: number | null;
  /** The real transformer and what it plays into; null where none is described. */
  transformer: { turnsRatio: number; speakerOhm: number; speakerVrms: number } | null;
}

/** A stage with its description. */
export interface DescribedSheet {
  description: StageDescription;
  sheet: StageSheet;
}

/** Gain and largest output of a stage; null where it lacks one of them. */
export function stageTransfer({ description, sheet }: DescribedSheet): StageTransfer | null {
  switch (sheet.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return description.topology === sheet.topology ? tubeTransfer(sheet, description.bias) : null;
    case 'cathode-follower':
    case 'split-load':
    case 'long-tailed':
      return splitterTransfer(sheet);
    case 'push-pull':
      return pairTransfer(sheet);
    case 'follower':
    case 'follower-pair':
      return description.topology === sheet.topology ? followerTransfer(sheet, description) : null;
  }
}

function tubeTransfer(sheet: TubeStageSheet, bias: Bias): StageTransfer | null {
  const { topology, gain: found, atLoad: at, output } = sheet;
  const follows = bias.kind === 'cathode-resistor' && !bias.bypassed;
  const gain = follows ? found?.unbypassed : found?.bypassed;
  if (!gain || !at) return null;
  return {
    gain,
    largestVrms: at.outputVrms,
    driveVrms: at.driveV / Math.SQRT2,
    limitedBy: at.limitedBy,
    primaryOhm: topology === 'single-ended' ? at.loadOhm : null,
    transformer: output ? transformerOf(output) : null,
  };
}

function transformerOf({ turnsRatio, speakerOhm, speakerW }: OutputSheet): StageTransfer['transformer'] {
  return speakerW === null ? null : { turnsRatio, speakerOhm, speakerVrms: Math.sqrt(speakerW * speakerOhm) };
}

/** From one grid to the whole primary, at small signals by the slopes at rest: both sides conduct there. */
function pairTransfer({
  operatingPoint: point,
  atLoad: at,
  count,
  output,
}: PushPullSheet): StageTransfer | null {
  if (!point || !at) return null;
  const { gmS, rpOhm } = point;
  const sideOhm = 1 / (1 / at.bothConductOhm + (rpOhm === null ? 0 : count / rpOhm));
  return {
    gain: 2 * count * gmS * sideOhm,
    largestVrms: at.outputVrms,
    driveVrms: at.driveV / Math.SQRT2,
    limitedBy: at.limitedBy,
    primaryOhm: at.loadOhm,
    transformer: output ? transformerOf(output) : null,
  };
}

/** The output of less gain counts: the next stage needs both sides. */
function splitterTransfer({ outputs, drive }: SplitterSheet): StageTransfer | null {
  const [weaker] = [...outputs].sort((a, b) => a.gain - b.gain);
  if (!weaker || !drive || weaker.largestVrms === null) return null;
  return {
    gain: weaker.gain,
    largestVrms: weaker.largestVrms,
    driveVrms: drive.driveV / Math.SQRT2,
    limitedBy: drive.limitedBy,
    primaryOhm: null,
    transformer: null,
  };
}

/** The transistor itself counts as a follower without loss: its emitter resistor and the load divide. */
function followerTransfer(
  { largest, limitedBy }: FollowerSheet,
  { loadOhm, emitterOhm, count }: FollowerDescription,
): StageTransfer | null {
  if (!largest || !limitedBy) return null;
  const gain = loadOhm / (loadOhm + emitterOhm / count);
  const largestVrms = largest.outputPeakV / Math.SQRT2;
  const driveVrms = largestVrms / gain;
  return { gain, largestVrms, driveVrms, limitedBy, primaryOhm: null, transformer: null };
}
