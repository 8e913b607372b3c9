import { balanceRows } from '../solving/period-jacobian.ts';
import { periodOf, phasors } from '../solving/spectrum.ts';
import { type Complex, modulus, plus, real, times } from './complex.ts';
import { solveLinear } from './linear-system.ts';

/** Orders whose impedance counts; above them the load is taken as a resistance. */
export const highest = 12;
const mostSteps = 40;
/** Of the current at rest. */
const settled = 1e-9;

/** How a current of an instant follows a voltage added at the load, and each of the averages. */
export interface Influence {
  perVolt: number;
  perAverage: readonly number[];
}

/**
 * What harmonic balance asks of a stage. Its averages are mean currents that its load line depends on; `flows` are
 * the currents of an instant whose means they must be, in the same order.
 */
export interface PeriodStage<Instant> {
  restA: number;
  averages: readonly number[];
  /** The instants of a period on a load of `ohm`, with voltages added at the load; those of a similar one save work. */
  period(line: PeriodLine, near: readonly Instant[] | null): Instant[];
  /** The current that flows through the load. */
  loadA(instant: Instant): number;
  flows(instant: Instant): readonly number[];
  /** Of the load's current first, then of each of the flows. */
  influences(instant: Instant, ohm: number): Influence[];
}

export interface PeriodLine {
  ohm: number;
  averages: readonly number[];
  shiftV: Float64Array;
}

/** A steady period of a stage on a load that differs from order to order. */
export interface Period<Instant> {
  /** From the crest of the drive on, evenly spaced in phase. */
  instants: Instant[];
  averages: readonly number[];
  /** Voltages by which each order's load differs from a resistance. */
  added: Complex[];
  /** Current through the load by order, 0 to 12, re the crest of the drive. */
  currents: Complex[];
}

interface Task<Instant> {
  stage: PeriodStage<Instant>;
  /** Resistance in the middle of the solution. */
  ohm: number;
  /** Impedance less that resistance, by order from 1 up. */
  excess: Complex[];
}

interface Trial<Instant> {
  period: Period<Instant>;
  /** By unknown: averages, then each order's voltage as two. */
  residual: number[];
  error: number;
}

/**
 * The steady period of a driven stage into an impedance given by order; null where no solution is found. Each
 * instant lies on a load line of one resistance, shifted by the voltages that the impedances add to it; these and the
 * averages are found by Newton's method. A period that is `near` saves work.
 * @source harmonic balance: currents of the device in time, voltages of the load by order
 */
export function complexPeriod<Instant>(
  stage: PeriodStage<Instant>,
  impedance: (order: number) => Complex,
  near: Period<Instant> | null = null,
): Period<Instant> | null {
  const first = impedance(1);
  const ohm = Math.max(first.re, 0.2 * modulus(first));
  const excess = Array.from({ length: highest }, (_, k) => plus(impedance(k + 1), real(-ohm)));
  const task = { stage, ohm, excess };
  const start = near ?? { averages: stage.averages, added: excess.map(() => real(0)), instants: null };
  let best = trialOf(task, start);
  for (let step = 0; step < mostSteps; step++) {
    if (best.error < settled * stage.restA) return best.period;
    const next = improved(task, best);
    if (next === null) return null;
    best = next;
  }
  return null;
}

type State<Instant> = Pick<Period<Instant>, 'averages' | 'added'> & { instants: readonly Instant[] | null };

function trialOf<Instant>(
  { stage, ohm, excess }: Task<Instant>,
  { averages, added, instants: near }: State<Instant>,
): Trial<Instant> {
  const instants = stage.period({ ohm, averages, shiftV: periodOf(added) }, near);
  const currents = phasors(instants.map(stage.loadA), highest);
  const misses = excess.flatMap((one, k) => {
    const { re, im } = plus(added[k] ?? real(0), times(one, currents[k + 1] ?? real(0)));
    return [re, im];
  });
  const drift = driftOf(stage, averages, instants);
  const largest = (values: readonly number[]) => Math.max(0, ...values.map(Math.abs));
  return {
    period: { instants, averages, added, currents },
    residual: [...drift, ...misses],
    error: Math.max(largest(drift), largest(misses) / ohm),
  };
}

/** By how much the mean of each flow differs from the average that the instants were computed with. */
function driftOf<Instant>(
  stage: PeriodStage<Instant>,
  averages: readonly number[],
  instants: readonly Instant[],
): number[] {
  const flows = instants.map(stage.flows);
  return averages.map(
    (average, index) => flows.reduce((sum, flow) => sum + (flow[index] ?? 0), 0) / flows.length - average,
  );
}

/** A Newton step, halved until it helps; null where none does. */
function improved<Instant>(
  task: Task<Instant>,
  { period, residual, error }: Trial<Instant>,
): Trial<Instant> | null {
  const { stage, ohm, excess } = task;
  const influences = period.instants.map((instant) => stage.influences(instant, ohm));
  const rows = balanceRows(influences, excess).map((row, k) => [...row, -(residual[k] ?? 0)]);
  const step = solveLinear(rows);
  if (step === null) return null;
  const count = period.averages.length;
  for (let share = 1; share > 1e-3; share /= 2) {
    const at = (k: number) => share * (step[k] ?? 0);
    const averages = period.averages.map((average, k) => average + at(k));
    const added = period.added.map((one, k) =>
      plus(one, { re: at(count + 2 * k), im: at(count + 2 * k + 1) }),
    );
    const next = trialOf(task, { averages, added, instants: period.instants });
    if (next.error < error) return next;
  }
  return null;
}
