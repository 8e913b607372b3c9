import type { OperatingPoint, PushPullAtLoad, PushPullSheet } from '../../load/index.ts';
import { turnsRatio } from '../../load/index.ts';
import { printNumber, quantityText } from '../../quantity/index.ts';
import type { Fact, FactBlock } from './fact-block.ts';
import { outputBlocks } from './output-blocks.ts';

const percent = (ratio: number, digits = 3) => quantityText(100 * ratio, '%', digits);

/** What a pair is, in a few words: "2 × EL34 as pentode, push-pull". */
export function pushPullHeadline({ device, connection, count }: PushPullSheet): string {
  return `${2 * count} × ${device} as ${connection}, push-pull`;
}

/** Rest of one tube, the pair at its load, how the sides share the cycle, and its plates against drive. */
export function pushPullBlocks(sheet: PushPullSheet, ratedLoadOhm: number | null): FactBlock[] {
  const { operatingPoint, atLoad } = sheet;
  const rest: FactBlock[] = operatingPoint
    ? [{ title: 'Each tube at rest', method: 'operating-point', facts: pointFacts(operatingPoint) }]
    : [];
  if (!atLoad) return rest;
  return [
    ...rest,
    { title: 'At the load', method: 'push-pull', facts: loadFacts(atLoad, ratedLoadOhm) },
    { title: 'How the sides share the cycle', method: 'push-pull', facts: sharingFacts(atLoad) },
    { title: 'Current and heat with signal', method: 'push-pull', facts: heatFacts(sheet, atLoad) },
    ...(sheet.output ? outputBlocks(sheet.output) : []),
  ];
}

function pointFacts({ plateV, plateA, gridV, screenV, screenA, gmS, rpOhm, mu }: OperatingPoint): Fact[] {
  const screen = screenA === null ? '' : `, ${quantityText(screenA, 'A')}`;
  return [
    { name: 'Plate', value: `${quantityText(plateV, 'V')}, ${quantityText(plateA, 'A')}` },
    ...(screenV === null ? [] : [{ name: 'Screen', value: `${quantityText(screenV, 'V')}${screen}` }]),
    { name: 'Grid to cathode', value: quantityText(gridV, 'V') },
    { name: 'Transconductance', value: quantityText(gmS, 'S') },
    { name: 'Plate resistance', value: rpOhm === null ? 'none' : quantityText(rpOhm, 'Ω') },
    { name: 'Amplification factor', value: mu === null ? 'none' : printNumber(mu) },
  ];
}

function loadFacts(at: PushPullAtLoad, ratedLoadOhm: number | null): Fact[] {
  const ratio = ratedLoadOhm === null ? null : printNumber(turnsRatio(at.loadOhm, ratedLoadOhm));
  const turns = ratio === null ? [] : [{ name: 'Turns ratio', value: `${ratio} to 1` }];
  const order = (n: number) => percent(at.harmonics.find((harmonic) => harmonic.order === n)?.ratio ?? 0);
  return [
    { name: 'Load, plate to plate', value: quantityText(at.loadOhm, 'Ω') },
    ...turns,
    { name: 'Power', value: quantityText(at.powerW, 'W') },
    { name: 'Efficiency', value: percent(at.efficiency, 2) },
    { name: 'Output, plate to plate', value: `${quantityText(at.outputVrms, 'V')} rms` },
    { name: 'Swing of each plate', value: `${quantityText(at.halfPeakV, 'V')} peak` },
    { name: 'Swing of each grid', value: `${quantityText(at.driveV, 'V')} peak` },
    { name: 'Swing ends at', value: at.limitedBy === 'drive' ? 'drive as described' : at.limitedBy },
    { name: 'Second, third, fifth harmonic', value: `${order(2)}, ${order(3)}, ${order(5)}` },
    { name: 'THD', value: percent(at.thdRatio) },
  ];
}

function sharingFacts(at: PushPullAtLoad): Fact[] {
  const { bothConductOhm, oneConductsOhm, cutOffShare, classAPowerW } = at;
  return [
    { name: 'Class at this drive', value: at.class },
    { name: 'Each side cut off for', value: `${percent(cutOffShare, 2)} of the cycle` },
    { name: 'Both conduct up to', value: quantityText(classAPowerW, 'W') },
    { name: 'Load of a side, both conducting', value: quantityText(bothConductOhm, 'Ω') },
    { name: 'Load of a side alone', value: quantityText(oneConductsOhm, 'Ω') },
  ];
}

function heatFacts({ warmest, operatingPoint, count, limits }: PushPullSheet, at: PushPullAtLoad): Fact[] {
  const restA = 2 * count * (operatingPoint?.plateA ?? 0);
  const restW = limits.find(({ name }) => name === 'plate dissipation')?.value ?? 0;
  const unbalance = Math.abs(at.unbalanceA) > 1e-9 * at.averagePlateA;
  return [
    { name: 'Both sides at rest', value: quantityText(restA, 'A') },
    { name: 'Both sides at this drive', value: quantityText(at.averagePlateA, 'A') },
    { name: 'Crest in one side', value: quantityText(at.peakPlateA, 'A') },
    ...(unbalance ? [{ name: 'Unbalance', value: quantityText(Math.abs(at.unbalanceA), 'A') }] : []),
    ...(at.cathodeRiseV === 0 ? [] : [{ name: 'Bias moves by', value: quantityText(-at.cathodeRiseV, 'V') }]),
    { name: 'Each plate at this drive', value: quantityText(at.tubePlateW, 'W') },
    ...(warmest && warmest.tubePlateW > restW
      ? [
          {
            name: 'Each plate at most',
            value: `${quantityText(warmest.tubePlateW, 'W')} at ${quantityText(warmest.powerW, 'W')} of output`,
          },
        ]
      : []),
  ];
}
