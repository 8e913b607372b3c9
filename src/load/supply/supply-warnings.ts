import { noBleeder, overRatedCapacitor } from '../messages.ts';
import type { LoadFault, ReservoirCapacitor, SupplyDescription, SupplySheet } from '../types.ts';
import { sectionOf } from './ripple.ts';
import { overRatedBleeder, resonanceNearRipple, sectionWithoutSeries } from './supply-messages.ts';

/** A filter is told to resonate near the ripple from this share of its frequency on: it then takes 10 dB at most. */
const nearRipple = 0.5;

/** Warnings of a supply by itself; the path of a capacitor is its place in the list, from 0. */
export function supplyWarnings({ capacitors }: SupplyDescription, sheet: SupplySheet): LoadFault[] {
  const each = capacitors.flatMap((capacitor, index) => [
    ...ratingWarnings(capacitor, index, sheet.highestV),
    ...sectionWarnings(capacitor, index, sheet),
  ]);
  const bleeders = capacitors.some(({ bleederOhm }) => bleederOhm !== null);
  return capacitors.length > 0 && !bleeders ? [...each, noBleeder()] : each;
}

function ratingWarnings(
  { ratedV, bleederOhm, bleederRatedW = null }: ReservoirCapacitor,
  index: number,
  highestV: number | null,
): LoadFault[] {
  if (highestV === null) return [];
  const watt = bleederOhm === null ? 0 : highestV ** 2 / bleederOhm;
  return [
    ...(ratedV !== null && highestV > ratedV
      ? [overRatedCapacitor(['capacitors', index, 'ratedVoltage'], ratedV, highestV)]
      : []),
    ...(bleederRatedW !== null && watt > bleederRatedW
      ? [overRatedBleeder(['capacitors', index, 'bleederPower'], watt, bleederRatedW)]
      : []),
  ];
}

function sectionWarnings(capacitor: ReservoirCapacitor, index: number, { ripple }: SupplySheet): LoadFault[] {
  const kind = sectionOf(capacitor);
  const { seriesOhm = null, seriesH = null, capacitanceF } = capacitor;
  if (kind === null) return [];
  const missing = kind === 'RC' ? seriesOhm === null : seriesH === null;
  const path = ['capacitors', index, 'kind'];
  if (missing) return [sectionWithoutSeries(path, kind)];
  const resonanceHz = seriesH === null ? 0 : 1 / (2 * Math.PI * Math.sqrt(seriesH * capacitanceF));
  return ripple && resonanceHz > nearRipple * ripple.frequencyHz
    ? [resonanceNearRipple(path, resonanceHz, ripple.frequencyHz)]
    : [];
}
