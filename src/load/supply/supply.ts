import {
  noCapacitors,
  noDischarge,
  noRipple,
  noSupplyVoltage,
  offLoadEstimated,
  offLoadFromSupply,
  offLoadFromWorking,
  offLoadStated,
} from '../messages.ts';
import { thresholdsOf } from '../solving/thresholds.ts';
import type { Absent, CapacitorSheet, SupplyDescription, SupplySheet } from '../types.ts';
import { bleederNeeded, bleederPowers, capacitanceHigh } from './bleeders.ts';
import { dischargeTime } from './discharge.ts';
import { rippleSheet, sectionOf } from './ripple.ts';
import { explainSupply } from './supply-explanation.ts';
import { bleederOfRails, noBleederNeeded, noReservoir, sectionsOfRails } from './supply-messages.ts';

/** Mains voltage above nominal that the cautious figures allow for. */
export const mainsHigh = 1.1;
/**
 * Energy of a charged capacitor, ½CV², in joules.
 * @source electrostatics
 */
export function storedEnergy(capacitanceF: number, voltageV: number): number {
  return (capacitanceF * voltageV * voltageV) / 2;
}

/**
 * What a supply holds, how long it holds it, where that stands against named limits, and its ripple; by itself,
 * without the stages and heaters on it.
 */
export function supplySheet(supply: SupplyDescription): SupplySheet {
  const offLoad = offLoadVoltage(supply);
  const highestV = offLoad && mainsHigh * offLoad.value;
  const capacitors = highestV === null ? [] : supply.capacitors.map((one) => capacitorSheet(one, highestV));
  const ripple = rippleSheet(supply);
  const sheet = {
    highestV,
    offLoadV: offLoad?.value ?? null,
    offLoadBasis: offLoad?.basis ?? null,
    ...energies(capacitors),
    ...times(supply, highestV),
    timeTo60VoltsWithoutBleederS: null,
    rippleVrms: ripple?.points[0]?.rippleVrms ?? null,
    ripple,
    bleederNeeded: bleederNeeded(supply, highestV),
    bleeders: bleederPowers(supply, highestV),
    heaters: [],
    drawn: null,
    hum: [],
    capacitors,
  };
  const thresholds = thresholdsOf(sheet);
  return { ...sheet, thresholds, explanation: explainSupply(sheet), absent: absentOf(supply, sheet) };
}

/** The largest of what is stated, estimated and written at the capacitors, so that the figure errs upwards. */
function offLoadVoltage(supply: SupplyDescription): { value: number; basis: string } | null {
  const { offLoadV, plateV, currentA, sourceResistanceOhm, capacitors } = supply;
  const working = capacitors.flatMap(({ workingV }) => (workingV === null ? [] : [workingV]));
  const estimated =
    plateV === null || currentA === null || sourceResistanceOhm === null
      ? null
      : plateV + currentA * sourceResistanceOhm;
  const options = [
    { value: offLoadV, basis: offLoadStated() },
    { value: estimated, basis: offLoadEstimated() },
    { value: plateV, basis: offLoadFromSupply() },
    { value: working.length > 0 ? Math.max(...working) : null, basis: offLoadFromWorking() },
  ];
  return options.reduce<{ value: number; basis: string } | null>(
    (best, { value, basis }) => (value !== null && (!best || value > best.value) ? { value, basis } : best),
    null,
  );
}

function capacitorSheet(
  { capacitanceF, ratedV }: SupplyDescription['capacitors'][number],
  highestV: number,
): CapacitorSheet {
  const storedEnergyJ = storedEnergy(capacitanceF, highestV);
  return { capacitanceF, ratedV, storedEnergyJ, storedEnergyAtToleranceJ: capacitanceHigh * storedEnergyJ };
}

function energies(capacitors: readonly CapacitorSheet[]) {
  if (capacitors.length === 0) return { storedEnergyJ: null, storedEnergyAtToleranceJ: null };
  const storedEnergyJ = capacitors.reduce((total, one) => total + one.storedEnergyJ, 0);
  return { storedEnergyJ, storedEnergyAtToleranceJ: capacitanceHigh * storedEnergyJ };
}

function times({ capacitors }: SupplyDescription, highestV: number | null) {
  const time = (limitV: number) => (highestV === null ? null : dischargeTime(capacitors, highestV, limitV));
  const longer = (timeS: number | null) => (timeS === null ? null : capacitanceHigh * timeS);
  const to60 = time(60);
  const to50 = time(50);
  return {
    timeTo60VoltsS: to60,
    timeTo50VoltsS: to50,
    timeTo60VoltsAtToleranceS: longer(to60),
    timeTo50VoltsAtToleranceS: longer(to50),
  };
}

function absentOf(
  supply: SupplyDescription,
  sheet: Omit<SupplySheet, 'explanation' | 'absent' | 'thresholds'>,
): Absent {
  const { highestV, storedEnergyJ, timeTo60VoltsS, bleederNeeded: needed } = sheet;
  const { capacitors, splitRails = false } = supply;
  const why = highestV === null ? noSupplyVoltage() : noCapacitors();
  const nothing = highestV === null || capacitors.length === 0;
  const reasons: [string, string | null][] = [
    ['timeTo60VoltsWithoutBleederS', noDischarge()],
    ['highestV', highestV === null ? noSupplyVoltage() : null],
    ['storedEnergyJ', storedEnergyJ === null ? why : null],
    ['timeTo60VoltsS', timeTo60VoltsS === null ? (nothing ? why : noDischarge()) : null],
    ['bleederNeeded', needed === null ? (nothing ? why : withoutBleeder(splitRails)) : null],
    ...rippleReasons(supply, sheet),
  ];
  return Object.fromEntries(reasons.flatMap(([name, reason]) => (reason === null ? [] : [[name, reason]])));
}

const withoutBleeder = (splitRails: boolean) => (splitRails ? bleederOfRails() : noBleederNeeded());

function rippleReasons(
  { capacitors, splitRails = false }: SupplyDescription,
  { ripple }: Pick<SupplySheet, 'ripple'>,
): [string, string | null][] {
  const [first] = capacitors;
  if (ripple) {
    const lost = splitRails && capacitors.some((capacitor) => sectionOf(capacitor) !== null);
    return [['rippleOfSections', lost ? sectionsOfRails() : null]];
  }
  const why = first && sectionOf(first) !== null ? noReservoir() : noRipple();
  return [
    ['rippleVrms', why],
    ['ripple', why],
  ];
}
