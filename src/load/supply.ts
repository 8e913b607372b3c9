import { dischargeTime } from './discharge.ts';
import {
  noCapacitors,
  noDischarge,
  noRipple,
  noSupplyVoltage,
  offLoadEstimated,
  offLoadFromSupply,
  offLoadFromWorking,
  offLoadStated,
} from './messages.ts';
import { explainSupply } from './supply-explanation.ts';
import { thresholdsOf } from './thresholds.ts';
import type { Absent, CapacitorSheet, SupplyDescription, SupplySheet } from './types.ts';

/** Mains voltage above nominal that the cautious figures allow for. */
export const mainsHigh = 1.1;
/** Capacitance above nominal that the cautious figures allow for. */
const capacitanceHigh = 1.2;

/**
 * Energy of a charged capacitor, ½CV², in joules.
 * @source electrostatics
 */
export function storedEnergy(capacitanceF: number, voltageV: number): number {
  return (capacitanceF * voltageV * voltageV) / 2;
}

/**
 * Ripple across a reservoir capacitor behind a full-wave rectifier, V rms: I/(4√3·f·C), a triangle whose
 * capacitor discharges the whole time. At 60 Hz that is the handbooks' 2.4·I/C (mA, µF), at 50 Hz 2.887·I/C.
 * @source triangular ripple; worked numbers in shared/checks/load.json
 */
export function rippleVrms(currentA: number, capacitanceF: number, mainsHz: number): number {
  return currentA / (4 * Math.sqrt(3) * mainsHz * capacitanceF);
}

/** What a supply holds, how long it holds it, and where that stands against named limits. */
export function supplySheet(supply: SupplyDescription): SupplySheet {
  const offLoad = offLoadVoltage(supply);
  const highestV = offLoad && mainsHigh * offLoad.value;
  const capacitors = highestV === null ? [] : supply.capacitors.map((one) => capacitorSheet(one, highestV));
  const sheet = {
    highestV,
    offLoadV: offLoad?.value ?? null,
    offLoadBasis: offLoad?.basis ?? null,
    ...energies(capacitors),
    ...times(supply, highestV),
    timeTo60VoltsWithoutBleederS: null,
    rippleVrms: rippleOf(supply),
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

function rippleOf({ currentA, mainsHz, capacitors }: SupplyDescription): number | null {
  const first = capacitors[0];
  return first && currentA !== null && mainsHz !== null
    ? rippleVrms(currentA, first.capacitanceF, mainsHz)
    : null;
}

function absentOf(
  supply: SupplyDescription,
  sheet: Pick<SupplySheet, 'highestV' | 'storedEnergyJ' | 'timeTo60VoltsS' | 'rippleVrms'>,
): Absent {
  const absent: Record<string, string> = { timeTo60VoltsWithoutBleederS: noDischarge() };
  const why = sheet.highestV === null ? noSupplyVoltage() : noCapacitors();
  if (sheet.highestV === null) absent.highestV = noSupplyVoltage();
  if (sheet.storedEnergyJ === null) absent.storedEnergyJ = why;
  if (sheet.timeTo60VoltsS === null) {
    absent.timeTo60VoltsS = sheet.highestV === null || supply.capacitors.length === 0 ? why : noDischarge();
  }
  if (sheet.rippleVrms === null) absent.rippleVrms = noRipple();
  return absent;
}
