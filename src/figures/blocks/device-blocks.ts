import type { TubeStageSheet } from '../../load/index.ts';
import { printNumber, quantityText } from '../../quantity/index.ts';
import type { Fact, FactBlock } from './fact-block.ts';

const percent = (ratio: number) => quantityText(100 * ratio, '%', 2);

/** What a tube stage is, in a few words: "2 × 6550 in parallel as pentode, single-ended". */
export function tubeHeadline({ device, connection, topology, count, tapRatio }: TubeStageSheet): string {
  const tubes = count === 1 ? device : `${count} × ${device} in parallel`;
  const joined =
    connection === 'distributed-load'
      ? `in distributed load${tapRatio === null ? '' : ` with the tap at ${percent(tapRatio)} of the turns`}`
      : `as ${connection}`;
  return `${tubes} ${joined}, ${topology}`;
}

/** Blocks on what the figures of a tube stage rest on, where that is more than a model. */
export function deviceBlocks(sheet: TubeStageSheet): FactBlock[] {
  return [...typedBlock(sheet), ...tapBlock(sheet), ...measuredBlock(sheet), ...fitBlock(sheet)];
}

function typedBlock({ typed, gain }: TubeStageSheet): FactBlock[] {
  if (!typed) return [];
  const { mu, rpOhm, gmS } = typed;
  const unbypassed =
    gain?.unbypassed == null ? '' : `, without the bypass capacitor ${printNumber(gain.unbypassed)}`;
  const facts: Fact[] = [
    { name: 'Amplification factor', value: mu === null ? 'none' : printNumber(mu) },
    { name: 'Plate resistance', value: rpOhm === null ? 'none' : quantityText(rpOhm, 'Ω') },
    { name: 'Transconductance', value: quantityText(gmS, 'S') },
    ...(gain ? [{ name: 'Gain', value: `${printNumber(gain.bypassed)}${unbypassed}` }] : []),
  ];
  return [{ title: 'Small-signal values as typed', method: 'typed-values', facts }];
}

function tapBlock({ tapRatio }: TubeStageSheet): FactBlock[] {
  if (tapRatio === null) return [];
  const facts: Fact[] = [
    { name: 'Tap, share of turns', value: percent(tapRatio) },
    { name: 'As a share of impedance', value: quantityText(100 * tapRatio ** 2, '%') },
  ];
  return [{ title: 'Distributed load', method: 'distributed-load', facts }];
}

function measuredBlock({ measured, curvesFrom }: TubeStageSheet): FactBlock[] {
  if (!measured) return [];
  const { plateA, modelA, factor, rescaled, at } = measured;
  const source = curvesFrom === null ? 'Model' : 'Curves';
  const facts: Fact[] = [
    { name: 'Measured, each tube', value: quantityText(plateA, 'A') },
    { name: `${source} there`, value: quantityText(modelA, 'A') },
    { name: 'Plate, grid', value: `${quantityText(at.plateV, 'V')}, ${quantityText(at.gridV, 'V')}` },
    {
      name: 'Measured over modelled',
      value: `${printNumber(factor)}${rescaled ? ', applied to all currents' : ', not applied'}`,
    },
  ];
  return [{ title: 'Measured', method: 'measured-current', facts }];
}

function fitBlock({ modelFit, curvesFrom }: TubeStageSheet): FactBlock[] {
  if (!modelFit || curvesFrom === null) return [];
  const { points, rmsRatio, largestRatio, largestAt, currentFactor, rmsRatioWithFactor } = modelFit;
  const place = `${quantityText(largestAt.plateV, 'V')}, ${quantityText(largestAt.gridV, 'V')}`;
  const facts: Fact[] = [
    { name: 'Curves', value: curvesFrom },
    { name: 'Points compared', value: String(points) },
    { name: 'Model off by, rms', value: percent(rmsRatio) },
    { name: 'At worst', value: `${percent(largestRatio)} at ${place}` },
    { name: 'Best factor on current', value: printNumber(currentFactor) },
    { name: 'Then off by, rms', value: percent(rmsRatioWithFactor) },
  ];
  return [{ title: 'Model against traced curves', method: 'traced-curves', facts }];
}
