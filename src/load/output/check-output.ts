import { type Checked, faultsOf } from '../stage/check-description.ts';
import type { LoadFault, OutputDescription, StageDescription } from '../types.ts';
import { loadStatedTwice, noTransformerHere, shareOutOfRange } from './output-messages.ts';

/** Faults of a stage's transformer and loudspeaker; paths lead from the stage. */
export function checkOutput(description: StageDescription): LoadFault[] {
  if (!('output' in description) || !description.output) return [];
  const { output, loadOhm, topology } = description;
  return [
    ...(topology === 'resistance-coupled' ? [noTransformerHere()] : []),
    ...(loadOhm === null ? [] : [loadStatedTwice()]),
    ...(output.primaryShare > 0 && output.primaryShare <= 1 ? [] : [shareOutOfRange()]),
    ...faultsOf([...valuesOf(output), ...sweepValues(output)]),
  ];
}

const winding = [0, 1e5] as const;

function valuesOf({ transformer, speakerOhm }: OutputDescription): Checked[] {
  const { turnsRatio, nominalOhm, primaryOhm, secondaryOhm, primaryH, leakageH, ratedPower, ratedDirectA } =
    transformer;
  const path = ['transformer'];
  return [
    { path, value: turnsRatio, unit: '' },
    { path, value: nominalOhm, unit: 'Ω' },
    { path, value: primaryOhm, unit: 'Ω', range: winding },
    { path, value: secondaryOhm, unit: 'Ω', range: winding },
    { path, value: primaryH, unit: 'H' },
    { path, value: leakageH, unit: 'H' },
    { path, value: ratedPower?.watt ?? null, unit: 'W' },
    { path, value: ratedPower?.frequencyHz ?? null, unit: 'Hz' },
    { path, value: ratedDirectA, unit: 'A' },
    { path: ['speaker'], value: speakerOhm, unit: 'Ω' },
  ];
}

/** The first value of each column that no passive loudspeaker has. */
function sweepValues({ sweep }: OutputDescription): Checked[] {
  if (!sweep) return [];
  const path = ['speaker'];
  const phase = sweep.phaseDeg?.find((value) => !(Math.abs(value) <= 90)) ?? null;
  const ohm = sweep.ohm.find((value) => !(value >= 0.1 && value <= 1e4)) ?? null;
  return [
    { path, value: phase, unit: '°' },
    { path, value: ohm, unit: 'Ω', range: [0.1, 1e4] },
  ];
}
