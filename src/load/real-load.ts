import { type Complex, degrees, modulus, real, times } from './complex.ts';
import { complexPeriod, highest, type Period } from './complex-period.ts';
import { turnsInUse } from './output-transformer.ts';
import { type SeenFromPlate, seenFromPlate } from './speaker-impedance.ts';
import type { LoadAtFrequency, OutputDescription, RealLoad, RestingStage } from './types.ts';

/** Band and spacing: third octaves of the nominal frequencies. */
const bandHz = { low: 20, high: 20e3 };
const perDecade = 10;
const highestOrder = 7;

interface Solved {
  row: LoadAtFrequency;
  period: Period;
}

/**
 * A stage at a fixed drive into a loudspeaker through its transformer, at third octaves from 20 Hz to 20 kHz and at
 * the extremes of the loudspeaker's sweep in that band. Null where no frequency has a solution.
 */
export function realLoad(stage: RestingStage, output: OutputDescription, driveV: number): RealLoad | null {
  const turns = turnsInUse(output.transformer, output.primaryShare);
  const solved: Solved[] = [];
  const unsolvedHz: number[] = [];
  for (const hz of frequenciesOf(output)) {
    const seen = Array.from({ length: highest + 1 }, (_, order) =>
      // At 0 Hz there is the winding's resistance alone, which is the stage's own.
      seenFromPlate(output, turns, Math.max(1, order) * hz),
    );
    const at = (order: number) => seen[order]?.plateOhm ?? real(0);
    const start = solved.at(-1)?.period.state ?? null;
    const period = complexPeriod(stage, at, driveV, start) ?? complexPeriod(stage, at, driveV);
    const row = period && rowOf(hz, seen, period);
    if (row) solved.push({ row, period });
    else unsolvedHz.push(hz);
  }
  const worst = solved.reduce<Solved | null>(
    (found, one) => (found && found.row.thdRatio >= one.row.thdRatio ? found : one),
    null,
  );
  if (!worst) return null;
  return {
    speaker: output.sweep?.name ?? null,
    withPhase: output.sweep === null || output.sweep.phaseDeg !== null,
    driveV,
    rows: solved.map(({ row }) => row),
    worst: worst.row,
    path: worst.period.instants.map(({ plateV, plateA }) => ({ plateV, plateA })),
    unsolvedHz,
  };
}

function frequenciesOf({ sweep }: OutputDescription): number[] {
  const count = Math.round(perDecade * Math.log10(bandHz.high / bandHz.low));
  const nominal = Array.from({ length: count + 1 }, (_, k) => bandHz.low * 10 ** (k / perDecade));
  return [...new Set([...nominal, ...extremesOf(sweep)])].sort((a, b) => a - b);
}

/** Where the loudspeaker's modulus is smallest and largest inside the band. */
function extremesOf(sweep: OutputDescription['sweep']): number[] {
  const points = (sweep?.frequencyHz ?? [])
    .map((hz, k) => ({ hz, ohm: sweep?.ohm[k] ?? 0 }))
    .filter(({ hz }) => hz >= bandHz.low && hz <= bandHz.high)
    .sort((a, b) => a.ohm - b.ohm);
  return [points[0], points.at(-1)].flatMap((point) => (point ? [point.hz] : []));
}

/** Null where nothing reaches the loudspeaker at the fundamental. */
function rowOf(
  frequencyHz: number,
  seen: readonly SeenFromPlate[],
  { currents, instants }: Period,
): LoadAtFrequency | null {
  const voltages = currents.map((current, order) => times(seen[order]?.transferOhm ?? real(0), current));
  const fundamental = modulus(voltages[1] ?? real(0));
  const plate = seen[1]?.plateOhm;
  if (!plate || !(fundamental > 0)) return null;
  const ratio = (order: number) => modulus(voltages[order] ?? real(0)) / fundamental;
  const volts = instants.map(({ plateV }) => plateV);
  return {
    frequencyHz,
    loadOhm: modulus(plate),
    phaseDeg: degrees(plate),
    speakerW: powerIn(seen[1]?.speakerOhm ?? real(0), fundamental),
    secondRatio: ratio(2),
    thirdRatio: ratio(3),
    thdRatio: Math.hypot(...Array.from({ length: highestOrder - 1 }, (_, k) => ratio(k + 2))),
    leastPlateV: Math.min(...volts),
    peakPlateV: Math.max(...volts),
    leastPlateA: Math.min(...instants.map(({ plateA }) => plateA)),
  };
}

const powerIn = (ohm: Complex, peakV: number) => (peakV ** 2 * ohm.re) / (2 * modulus(ohm) ** 2);
