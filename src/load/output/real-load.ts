import { type PairMoment, pairPeriod } from '../push-pull/pair-period.ts';
import type { PairAtRest } from '../push-pull/push-pull-stage.ts';
import { tubePeriod } from '../stage/tube-period.ts';
import type { Instant, LoadAtFrequency, OutputDescription, RealLoad, RestingStage } from '../types.ts';
import { type Complex, degrees, modulus, real, times } from './complex.ts';
import { complexPeriod, highest, type Period, type PeriodStage } from './complex-period.ts';
import { turnsInUse } from './output-transformer.ts';
import { type SeenFromPlate, seenFromPlate } from './speaker-impedance.ts';

/** Band and spacing: third octaves of the nominal frequencies. */
const bandHz = { low: 20, high: 20e3 };
const perDecade = 10;
const highestOrder = 7;

/** A stage at a fixed drive, and how it stands at its transformer. */
export interface OnTransformer<Instant> {
  driveV: number;
  period: PeriodStage<Instant>;
  /** Turns that the load's current flows through, as a share of the primary in use: its impedance goes with the square. */
  turnsShare: number;
  /** Voltages and currents of every plate at an instant. */
  plates(instant: Instant): { plateV: number; plateA: number }[];
  /** Voltage and current of the load line at an instant. */
  place(instant: Instant): { plateV: number; plateA: number };
}

/** A tube with the whole primary in its plate lead. */
export function tubeOnTransformer(stage: RestingStage, driveV: number): OnTransformer<Instant> {
  const place = ({ plateV, plateA }: Instant) => ({ plateV, plateA });
  return {
    driveV,
    period: tubePeriod(stage, driveV),
    turnsShare: 1,
    plates: (instant) => [place(instant)],
    place,
  };
}

/** A pair, each side on half of the primary; its load line is that of the combined current at the first plate. */
export function pairOnTransformer(pair: PairAtRest, driveV: number): OnTransformer<PairMoment> {
  return {
    driveV,
    period: pairPeriod(pair, driveV),
    turnsShare: 0.5,
    plates: ({ first, second, firstA, secondA }) => [
      { plateV: first.plateV, plateA: firstA },
      { plateV: second.plateV, plateA: secondA },
    ],
    place: ({ first, firstA, secondA }) => ({ plateV: first.plateV, plateA: firstA - secondA }),
  };
}

interface Solved<Instant> {
  row: LoadAtFrequency;
  period: Period<Instant>;
}

/**
 * A stage at a fixed drive into a loudspeaker through its transformer, at third octaves from 20 Hz to 20 kHz and at
 * the extremes of the loudspeaker's sweep in that band. Null where no frequency has a solution.
 */
export function realLoad<Instant>(
  driven: OnTransformer<Instant>,
  output: OutputDescription,
): RealLoad | null {
  const turns = turnsInUse(output.transformer, output.primaryShare);
  const share = real(driven.turnsShare ** 2);
  const solved: Solved<Instant>[] = [];
  const unsolvedHz: number[] = [];
  for (const hz of frequenciesOf(output)) {
    const seen = Array.from({ length: highest + 1 }, (_, order) =>
      // At 0 Hz there is the winding's resistance alone, which is the stage's own.
      seenFromPlate(output, turns, Math.max(1, order) * hz),
    );
    const at = (order: number) => times(share, seen[order]?.plateOhm ?? real(0));
    const near = solved.at(-1)?.period ?? null;
    const period = complexPeriod(driven.period, at, near) ?? complexPeriod(driven.period, at);
    const row = period && rowOf(hz, { seen, period, driven });
    if (row) solved.push({ row, period });
    else unsolvedHz.push(hz);
  }
  const worst = solved.reduce<Solved<Instant> | null>(
    (found, one) => (found && found.row.thdRatio >= one.row.thdRatio ? found : one),
    null,
  );
  if (!worst) return null;
  return {
    speaker: output.sweep?.name ?? null,
    withPhase: output.sweep === null || output.sweep.phaseDeg !== null,
    driveV: driven.driveV,
    rows: solved.map(({ row }) => row),
    worst: worst.row,
    path: worst.period.instants.map(driven.place),
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
function rowOf<Instant>(
  frequencyHz: number,
  of: { seen: readonly SeenFromPlate[]; period: Period<Instant>; driven: OnTransformer<Instant> },
): LoadAtFrequency | null {
  const { seen, period, driven } = of;
  const voltages = period.currents.map((current, order) =>
    times(times(real(driven.turnsShare), seen[order]?.transferOhm ?? real(0)), current),
  );
  const fundamental = modulus(voltages[1] ?? real(0));
  const plate = seen[1]?.plateOhm;
  if (!plate || !(fundamental > 0)) return null;
  const ratio = (order: number) => modulus(voltages[order] ?? real(0)) / fundamental;
  const plates = period.instants.flatMap(driven.plates);
  const volts = plates.map(({ plateV }) => plateV);
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
    leastPlateA: Math.min(...plates.map(({ plateA }) => plateA)),
  };
}

const powerIn = (ohm: Complex, peakV: number) => (peakV ** 2 * ohm.re) / (2 * modulus(ohm) ** 2);
