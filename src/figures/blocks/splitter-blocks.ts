import type { Balance, NamedPoint, SplitterSheet, StageOutput } from '../../load/index.ts';
import { printNumber, quantityText } from '../../quantity/index.ts';
import type { Fact, FactBlock } from './fact-block.ts';

const names = {
  'cathode-follower': 'cathode follower',
  'split-load': 'split-load phase splitter',
  'long-tailed': 'long-tailed pair',
} as const;

/** What a follower or splitter is, in a few words: "12AU7 as split-load phase splitter". */
export function splitterHeadline({ device, topology }: SplitterSheet): string {
  return `${device} as ${names[topology]}`;
}

/** Tubes at rest, each output, and how they balance. */
export function splitterBlocks({ points, cathodeV, outputs, drive, balance }: SplitterSheet): FactBlock[] {
  const ofSignals = (title: string, facts: Fact[]): FactBlock => ({
    title,
    method: 'followers-splitters',
    facts,
  });
  const rest = points.map(
    (point): FactBlock => ({
      title: points.length === 1 ? 'Operating point' : `Operating point, ${point.name}`,
      method: 'operating-point',
      facts: [...pointFacts(point), ...cathodeFacts(cathodeV)],
    }),
  );
  const swing: Fact[] = drive
    ? [{ name: 'Largest drive', value: `${quantityText(drive.driveV, 'V')} peak, set by ${drive.limitedBy}` }]
    : [];
  return [
    ...rest,
    ...outputs.map((output) =>
      ofSignals(`Output at the ${output.name}`, [
        ...outputFacts(output),
        ...(outputs.length === 1 ? swing : []),
      ]),
    ),
    ...(balance ? [ofSignals('Balance', [...balanceFacts(balance), ...swing])] : []),
  ];
}

function pointFacts({ plateV, plateA, gridV, gmS, rpOhm, mu }: NamedPoint): Fact[] {
  return [
    { name: 'Plate to cathode', value: `${quantityText(plateV, 'V')}, ${quantityText(plateA, 'A')}` },
    { name: 'Grid to cathode', value: quantityText(gridV, 'V') },
    { name: 'Transconductance', value: quantityText(gmS, 'S') },
    { name: 'Plate resistance', value: rpOhm === null ? 'none' : quantityText(rpOhm, 'Ω') },
    { name: 'Amplification factor', value: mu === null ? 'none' : printNumber(mu) },
  ];
}

const cathodeFacts = (cathodeV: number | null): Fact[] =>
  cathodeV === null ? [] : [{ name: 'Cathode to ground', value: quantityText(cathodeV, 'V') }];

function outputFacts(output: StageOutput): Fact[] {
  const { gain, inverting, loadOhm, outputOhm, togetherOhm, largestVrms, thdRatio, harmonics } = output;
  const order = (n: number) => percent(harmonics.find((harmonic) => harmonic.order === n)?.ratio ?? 0);
  const large =
    largestVrms === null || thdRatio === null
      ? []
      : [
          { name: 'Largest output', value: `${quantityText(largestVrms, 'V')} rms` },
          { name: 'Second, third harmonic', value: `${order(2)}, ${order(3)}` },
          { name: 'THD', value: percent(thdRatio) },
        ];
  return [
    { name: 'Gain', value: `${printNumber(gain)}${inverting ? ', inverted' : ''}` },
    { name: 'Load for signals', value: quantityText(loadOhm, 'Ω') },
    { name: 'Output impedance, alone', value: quantityText(outputOhm, 'Ω') },
    ...(togetherOhm === null
      ? []
      : [{ name: 'Output impedance, both loaded alike', value: quantityText(togetherOhm, 'Ω') }]),
    ...large,
  ];
}

function balanceFacts({ ratio, db, equalOhm, adjusted }: Balance): Fact[] {
  return [
    { name: 'Second output over first', value: `${printNumber(ratio, 4)}, ${quantityText(db, 'dB', 2)}` },
    ...(equalOhm === null
      ? []
      : [{ name: `Equal with, at the ${adjusted}`, value: quantityText(equalOhm, 'Ω', 4) }]),
  ];
}

const percent = (ratio: number) => quantityText(100 * ratio, '%', 3);
