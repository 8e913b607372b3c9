import type { SupplySheet, Threshold } from '../types.ts';

const laboratory = 'Berkeley Lab electrical safety manual (DOE), table 2.2.13';

/** A limit of voltage that a discharge is timed against. */
export const touchLimits = { sixty: 'IEC 60204-1', fifty: 'OSHA and NFPA 70E' } as const;

/** Seconds within which IEC 60204-1 wants live parts at 60 V or less. */
export const secondsAllowed = 5;

/**
 * The supply against limits that standards name; none of them is a standard for audio amplifiers. Energy and
 * time are those with capacitance 20 % above nominal.
 * @source IEC 60204-1 (60 V within 5 s); OSHA and NFPA 70E (50 V); DOE/LBNL (100 V and 10 J; below 100 V, 100 J)
 */
export function thresholdsOf(
  sheet: Pick<
    SupplySheet,
    'highestV' | 'storedEnergyAtToleranceJ' | 'timeTo60VoltsS' | 'timeTo60VoltsAtToleranceS'
  >,
): Threshold[] {
  const { highestV, storedEnergyAtToleranceJ: energyJ, timeTo60VoltsAtToleranceS: timeS } = sheet;
  if (highestV === null) return [];
  const voltage = (limit: number, source: string): Threshold => ({
    name: 'highest voltage',
    value: highestV,
    limit,
    unit: 'V',
    above: highestV >= limit,
    source,
    status: 'seen',
  });
  const rows = [voltage(50, touchLimits.fifty), voltage(100, laboratory)];
  return energyJ === null ? rows : [...rows, energyRow(energyJ, highestV), timeRow(timeS)];
}

/** Below 100 V it is not the shock but the heat of a short circuit that counts, from 100 J. */
function energyRow(energyJ: number, highestV: number): Threshold {
  const [limit, source] =
    highestV < 100
      ? [100, 'Berkeley Lab electrical safety manual (DOE), table 2.3.3, below 100 V']
      : [10, laboratory];
  return {
    name: 'stored energy',
    value: energyJ,
    limit,
    unit: 'J',
    above: energyJ >= limit,
    source,
    status: 'seen',
  };
}

/** Without a bleeder there is no time, and the limit is passed. */
const timeRow = (timeS: number | null): Threshold => ({
  name: 'time to 60 V',
  value: timeS,
  limit: secondsAllowed,
  unit: 's',
  above: timeS === null || timeS > secondsAllowed,
  source: touchLimits.sixty,
  status: 'secondary',
});
