import type {
  BleederPower,
  CurrentDrawn,
  DrawnRow,
  HeaterRow,
  HeaterSheet,
  HumRow,
  RipplePoint,
  SupplySheet,
} from '../../load/index.ts';
import { quantityText } from '../../quantity/index.ts';
import type { Fact, FactBlock } from './fact-block.ts';

const volts = (value: number) => quantityText(value, 'V');
const amperes = (value: number) => quantityText(value, 'A');
const watts = (value: number) => quantityText(value, 'W');
const ohms = (value: number) => quantityText(value, 'Ω');
const percent = (ratio: number) => quantityText(100 * ratio, '%', 2);
const decibels = (value: number) => quantityText(value, 'dB');

/** What a load sheet says of the supply, apart from its limits; the same on a page and in a terminal. */
export function supplyBlocks({
  ripple,
  bleederNeeded,
  bleeders,
  drawn,
  hum,
  heaters,
}: SupplySheet): FactBlock[] {
  const known = hum.filter(({ loadVrms }) => loadVrms !== null);
  const bleederFacts = [...(bleederNeeded ? neededFacts(bleederNeeded) : []), ...bleeders.map(bleederFact)];
  const blocks: FactBlock[] = [
    ...(ripple
      ? [block('Ripple', 'ripple', [...ripple.points.flatMap(rippleFacts), ...reservoirFacts(ripple)])]
      : []),
    ...(drawn ? [block('Current drawn', 'current-drawn', drawnFacts(drawn))] : []),
    block('Bleeders', 'discharge', bleederFacts),
    block('Hum from the supply, re 1 W', 'supply-hum', known.map(humFact)),
    ...heaters.map((winding) => block(`Heaters, ${winding.name}`, 'heaters', heaterFacts(winding))),
  ];
  return blocks.filter(({ facts }) => facts.length > 0);
}

const block = (title: string, method: FactBlock['method'], facts: Fact[]): FactBlock => ({
  title,
  method,
  facts,
});

const firstLetter = (name: string) => `${name.charAt(0).toUpperCase()}${name.slice(1)}`;

function rippleFacts({
  name,
  kind,
  rippleVrms,
  attenuationDb,
  sectionA,
  dropV,
  resonanceHz,
}: RipplePoint): Fact[] {
  const less = attenuationDb === null ? '' : `, ${decibels(attenuationDb)} less`;
  const place = kind === 'reservoir' ? 'At the reservoir' : `Behind ${name}, ${kind}`;
  const drop = dropV === null || sectionA === null ? [] : [`${volts(dropV)} at ${amperes(sectionA)}`];
  const resonance = resonanceHz === null ? [] : [quantityText(resonanceHz, 'Hz')];
  return [
    { name: place, value: `${volts(rippleVrms)} rms${less}` },
    ...drop.map((value) => ({ name: `Drop in ${name}`, value })),
    ...resonance.map((value) => ({ name: `Resonance of ${name}`, value })),
  ];
}

function reservoirFacts({
  peakToPeakV,
  belowCrestV,
  rectifier,
  frequencyHz,
}: NonNullable<SupplySheet['ripple']>): Fact[] {
  return [
    { name: 'Peak to peak', value: `${volts(peakToPeakV)}, the mean ${volts(belowCrestV)} below the crests` },
    { name: 'Rectifier', value: `${rectifier}, ${quantityText(frequencyHz, 'Hz')}` },
  ];
}

function drawnFacts({
  rows,
  restA,
  fullA,
  statedA,
  differenceRatio,
  restV,
  fullV,
  sag,
}: CurrentDrawn): Fact[] {
  const stated =
    statedA === null || differenceRatio === null ? [] : [{ name: 'Stated', value: amperes(statedA) }];
  const off = differenceRatio === null ? '' : `, ${percent(differenceRatio)} from the stated`;
  return [
    ...rows.map(drawnFact),
    { name: 'Together, at rest', value: `${amperes(restA)}${off}` },
    ...(fullA === null ? [] : [{ name: 'Together, at full drive', value: amperes(fullA) }]),
    ...stated,
    ...(restV === null || fullV === null
      ? []
      : [
          {
            name: 'Supply',
            value: `${quantityText(restV, 'V', 4)} at rest, ${quantityText(fullV, 'V', 4)} at full drive`,
          },
        ]),
    ...sag.map(({ stage, powerW, saggedPowerW }) => ({
      name: `Power of ${stage}`,
      value: `${watts(powerW)}, sagged ${watts(saggedPowerW)}`,
    })),
  ];
}

function drawnFact({ stage, restA, fullA }: DrawnRow): Fact {
  const full = fullA === null || fullA === restA ? '' : `, ${amperes(fullA)} at full drive`;
  return { name: firstLetter(stage ?? 'bleeders'), value: `${amperes(restA)}${full}` };
}

function neededFacts({
  ohm,
  watt,
  atToleranceOhm,
  atToleranceW,
}: NonNullable<SupplySheet['bleederNeeded']>): Fact[] {
  return [
    { name: 'All together for 60 V in 5 s', value: `${ohms(ohm)}, ${watts(watt)}` },
    { name: 'The same, capacitance 20 % high', value: `${ohms(atToleranceOhm)}, ${watts(atToleranceW)}` },
  ];
}

function bleederFact({ ohm, watt, ratedW, share }: BleederPower): Fact {
  const rating = ratedW === null || share === null ? '' : ` of ${watts(ratedW)}, ${percent(share)}`;
  return { name: `${ohms(ohm)} fitted`, value: `${watts(watt)}${rating}` };
}

function humFact({ stage, loadVrms, dbReWatt }: HumRow): Fact {
  const level = dbReWatt === null ? 'none' : decibels(dbReWatt);
  const across = loadVrms === null ? '' : `, ${volts(loadVrms)} across the load`;
  return { name: firstLetter(stage), value: `${level}${across}` };
}

function heaterFacts({ rows, totalA, ratedA, share, voltageV }: HeaterSheet): Fact[] {
  const rating = ratedA === null || share === null ? '' : ` of ${amperes(ratedA)}, ${percent(share)}`;
  const total = totalA === null ? 'not known' : `${amperes(totalA)}${rating}`;
  return [...rows.map(heaterFact), { name: `Together at ${volts(voltageV)}`, value: total }];
}

function heaterFact({ device, count, currentA }: HeaterRow): Fact {
  return {
    name: `${count} × ${device}`,
    value: currentA === null ? 'not known' : amperes(currentA),
  };
}
