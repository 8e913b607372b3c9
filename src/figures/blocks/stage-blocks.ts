import type {
  AtLoad,
  LimitRow,
  OperatingPoint,
  StageGain,
  StageSheet,
  TubeStageSheet,
} from '../../load/index.ts';
import { turnsRatio } from '../../load/index.ts';
import { printNumber, quantityText } from '../../quantity/index.ts';
import { couplingBlocks } from './coupling-blocks.ts';
import { deviceBlocks, tubeHeadline } from './device-blocks.ts';
import type { Fact, FactBlock } from './fact-block.ts';
import { followerBlocks, followerHeadline } from './follower-blocks.ts';
import { outputBlocks } from './output-blocks.ts';
import { pushPullBlocks, pushPullHeadline } from './push-pull-blocks.ts';
import { splitterBlocks, splitterHeadline } from './splitter-blocks.ts';

/** What a stage is, in a few words: "2A3 as triode, single-ended". */
export function stageHeadline(sheet: StageSheet): string {
  switch (sheet.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return tubeHeadline(sheet);
    case 'push-pull':
      return pushPullHeadline(sheet);
    case 'cathode-follower':
    case 'split-load':
    case 'long-tailed':
      return splitterHeadline(sheet);
    case 'follower':
    case 'follower-pair':
      return followerHeadline(sheet);
  }
}

/** Where no limit says when it is met, all are met at rest; each of a transistor stage's says where in its name. */
export function limitsTitle({ topology, limits }: StageSheet): string {
  const told =
    topology === 'follower' || topology === 'follower-pair' || limits.some(({ when }) => when !== undefined);
  return told ? 'Limits' : 'Limits at rest';
}

/** A limit with when it is met. */
export const limitName = ({
  name,
  when,
}: Pick<LimitRow, 'name'> & { when?: LimitRow['when'] | undefined }): string =>
  when === undefined ? name : `${name}, ${when}`;

/** What a load sheet says of one stage, apart from its tables and charts; the same on a page and in a terminal. */
export function stageBlocks(sheet: StageSheet, ratedLoadOhm: number | null): FactBlock[] {
  switch (sheet.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return tubeBlocks(sheet, ratedLoadOhm);
    case 'push-pull':
      return pushPullBlocks(sheet, ratedLoadOhm);
    case 'cathode-follower':
    case 'split-load':
    case 'long-tailed':
      return splitterBlocks(sheet);
    case 'follower':
    case 'follower-pair':
      return followerBlocks(sheet);
  }
}

function tubeBlocks(sheet: TubeStageSheet, ratedLoadOhm: number | null): FactBlock[] {
  const { operatingPoint, atLoad, gain } = sheet;
  const rest = operatingPoint && { facts: [...pointFacts(operatingPoint), ...gainFacts(gain)] };
  const load = atLoad && { facts: loadFacts(atLoad, sheet, ratedLoadOhm) };
  return [
    ...(rest ? [{ title: 'Operating point', method: 'operating-point' as const, ...rest }] : []),
    ...deviceBlocks(sheet),
    ...(sheet.topology === 'resistance-coupled' ? couplingBlocks(sheet.coupling) : []),
    ...(load ? [{ title: 'At the load', method: 'large-signal' as const, ...load }] : []),
    ...(sheet.output ? outputBlocks(sheet.output) : []),
  ];
}

function pointFacts({ plateV, plateA, gridV, screenV, screenA, gmS, rpOhm, mu }: OperatingPoint): Fact[] {
  const pair = (volts: number, amperes: number | null) =>
    amperes === null
      ? quantityText(volts, 'V')
      : `${quantityText(volts, 'V')}, ${quantityText(amperes, 'A')}`;
  return [
    { name: 'Plate', value: pair(plateV, plateA) },
    ...(screenV === null ? [] : [{ name: 'Screen', value: pair(screenV, screenA) }]),
    { name: 'Grid to cathode', value: quantityText(gridV, 'V') },
    { name: 'Transconductance', value: quantityText(gmS, 'S') },
    { name: 'Plate resistance', value: rpOhm === null ? 'none' : quantityText(rpOhm, 'Ω') },
    { name: 'Amplification factor', value: mu === null ? 'none' : printNumber(mu) },
  ];
}

function gainFacts(gain: StageGain | null): Fact[] {
  if (!gain) return [];
  const { bypassed, unbypassed } = gain;
  const without = unbypassed === null ? '' : `, without the bypass capacitor ${printNumber(unbypassed)}`;
  return [{ name: 'Gain', value: `${printNumber(bypassed)}${without}` }];
}

function loadFacts(at: AtLoad, { topology, output }: TubeStageSheet, ratedLoadOhm: number | null): Fact[] {
  const withTransformer = topology === 'single-ended';
  const order = (n: number) => percent(at.harmonics.find((harmonic) => harmonic.order === n)?.ratio ?? 0);
  const turns =
    withTransformer && ratedLoadOhm !== null && !output
      ? `, a turns ratio of ${printNumber(turnsRatio(at.loadOhm, ratedLoadOhm))} to 1 into the rated load`
      : '';
  const power = [
    { name: 'Power', value: quantityText(at.powerW, 'W') },
    { name: 'Efficiency', value: percent(at.efficiency, 2) },
  ];
  return [
    { name: 'Load at the plate', value: `${quantityText(at.loadOhm, 'Ω')}${turns}` },
    ...(withTransformer ? power : []),
    { name: 'Output', value: `${quantityText(at.outputVrms, 'V')} rms` },
    { name: 'Grid swing', value: `${quantityText(at.driveV, 'V')} peak, set by ${at.limitedBy}` },
    { name: 'Second, third harmonic', value: `${order(2)}, ${order(3)}` },
    { name: 'THD', value: percent(at.thdRatio) },
  ];
}

const percent = (ratio: number, digits = 3) => quantityText(100 * ratio, '%', digits);
