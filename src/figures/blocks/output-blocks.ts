import type { Corner, OutputSheet, RealLoad } from '../../load/index.ts';
import { printDecimals, printNumber, quantityText } from '../../quantity/index.ts';
import type { Fact, FactBlock } from './fact-block.ts';

const watts = (value: number) => quantityText(value, 'W');
const ohms = (value: number) => quantityText(value, 'Ω');
const hertz = (value: number) => quantityText(value, 'Hz');
const percent = (ratio: number) => quantityText(100 * ratio, '%');

/** Output transformer of a stage, and what the load does over frequency. */
export function outputBlocks(sheet: OutputSheet): FactBlock[] {
  return [
    { title: 'Output transformer', method: 'output-transformer', facts: transformerFacts(sheet) },
    ...(sheet.realLoad
      ? [
          {
            title: 'Over frequency, at full drive',
            method: 'real-load' as const,
            facts: realFacts(sheet.realLoad),
          },
        ]
      : []),
  ];
}

function transformerFacts(sheet: OutputSheet): Fact[] {
  const { turnsRatio, speakerOhm, reflectedOhm, loadOhm, efficiency, lossDb, speakerW, outputOhm, core } =
    sheet;
  const fact = (name: string, value: string | null): Fact[] => (value === null ? [] : [{ name, value }]);
  return [
    ...fact('Turns ratio', `${printNumber(turnsRatio)} to 1`),
    ...fact('Loudspeaker, reflected', `${ohms(speakerOhm)}, ${ohms(reflectedOhm)}`),
    ...fact('With the windings', ohms(loadOhm)),
    ...fact(
      'Loss in the windings',
      efficiency === null || lossDb === null
        ? null
        : `${quantityText(lossDb, 'dB', 2)}, ${percent(efficiency)} passed`,
    ),
    ...fact('Power in the loudspeaker', speakerW === null ? null : watts(speakerW)),
    ...fact('Impedance at the loudspeaker', outputOhm === null ? null : ohms(outputOhm)),
    ...cornerFacts('Low end', sheet.low),
    ...cornerFacts('High end, leakage alone', sheet.high),
    ...fact('Full power down to', core && hertz(core.fullPowerHz)),
    ...fact(core ? `Core carries at ${hertz(core.ratedHz)}` : '', core && watts(core.powerAtRatedHzW)),
    ...fact('Direct current’s share of the flux', core && percent(core.directShare)),
  ];
}

const cornerFacts = (name: string, corners: readonly Corner[]): Fact[] =>
  corners.map(({ lossDb, frequencyHz }) => ({
    name: `${name}, −${quantityText(lossDb, 'dB', 1)}`,
    value: hertz(frequencyHz),
  }));

function realFacts({ rows, worst }: RealLoad): Fact[] {
  const powers = rows.toSorted((a, b) => a.speakerW - b.speakerW);
  const [least, most] = [powers[0] ?? worst, powers.at(-1) ?? worst];
  return [
    { name: 'Least power', value: `${watts(least.speakerW)} at ${hertz(least.frequencyHz)}` },
    { name: 'Most power', value: `${watts(most.speakerW)} at ${hertz(most.frequencyHz)}` },
    { name: 'Most distortion', value: `${percent(worst.thdRatio)} at ${hertz(worst.frequencyHz)}` },
    { name: 'Load there', value: `${ohms(worst.loadOhm)} at ${printDecimals(worst.phaseDeg, 0)}°` },
  ];
}
