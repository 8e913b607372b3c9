import type { AtLoad, OperatingPoint, StageGain, StageSheet, TubeStageSheet } from '../load/index.ts';
import { turnsRatio } from '../load/index.ts';
import { printNumber, quantityText } from '../quantity/index.ts';
import type { MethodId } from './methods.ts';

/** One printed value with its name. */
export interface Fact {
  name: string;
  value: string;
}

/** Values of a stage that belong together, under a heading that leads to their method. */
export interface FactBlock {
  title: string;
  method: MethodId;
  facts: Fact[];
}

/** What a stage is, in a few words: "2A3 as triode, single-ended". */
export function stageHeadline({ device, connection, topology }: StageSheet): string {
  return `${device} as ${connection}, ${topology}`;
}

/** What a load sheet says of one stage, apart from its tables and charts; the same on a page and in a terminal. */
export function stageBlocks(sheet: StageSheet, ratedLoadOhm: number | null): FactBlock[] {
  switch (sheet.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return tubeBlocks(sheet, ratedLoadOhm);
  }
}

function tubeBlocks(sheet: TubeStageSheet, ratedLoadOhm: number | null): FactBlock[] {
  const { operatingPoint, atLoad, gain } = sheet;
  const rest = operatingPoint && { facts: [...pointFacts(operatingPoint), ...gainFacts(gain)] };
  const load = atLoad && { facts: loadFacts(atLoad, sheet, ratedLoadOhm) };
  return [
    ...(rest ? [{ title: 'Operating point', method: 'operating-point' as const, ...rest }] : []),
    ...(load ? [{ title: 'At the load', method: 'large-signal' as const, ...load }] : []),
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

function loadFacts(at: AtLoad, { topology }: TubeStageSheet, ratedLoadOhm: number | null): Fact[] {
  const withTransformer = topology === 'single-ended';
  const order = (n: number) => percent(at.harmonics.find((harmonic) => harmonic.order === n)?.ratio ?? 0);
  const turns =
    withTransformer && ratedLoadOhm !== null
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
    { name: 'Second, third', value: `${order(2)}, ${order(3)}` },
    { name: 'THD', value: percent(at.thdRatio) },
  ];
}

const percent = (ratio: number, digits = 3) => quantityText(100 * ratio, '%', digits);
