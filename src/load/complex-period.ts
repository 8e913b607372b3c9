import { type Complex, modulus, plus, real, times } from './complex.ts';
import { solveLinear } from './linear-system.ts';
import { instantAt, type LoadLine } from './load-line.ts';
import { responseOf } from './period-response.ts';
import type { Instant, RestingStage } from './types.ts';

/** As many instants of a period as a resistive load's half period has, both ways. */
const samples = 128;
/** Orders whose impedance counts; above them the load is taken as a resistance. */
export const highest = 12;
const mostSteps = 40;
/** Of the current at rest. */
const settled = 1e-9;

/** A steady period of a stage on a load that differs from order to order. */
export interface Period {
  /** From the crest of the drive on, evenly spaced in phase. */
  instants: Instant[];
  averageA: number;
  /** Plate current by order, 0 to 12, re the crest of the drive. */
  currents: Complex[];
  /** What the next frequency's solution starts from. */
  state: PeriodState;
}

/** Average current, average screen current, and the voltages by which each order's load differs from a resistance. */
interface PeriodState {
  averageA: number;
  screenA: number;
  added: Complex[];
}

interface Task {
  stage: RestingStage;
  driveV: number;
  /** Resistance in the middle of the solution. */
  ohm: number;
  /** Impedance less that resistance, by order from 1 up. */
  excess: Complex[];
}

/**
 * The steady period under a cosine drive into an impedance given by order; null where no solution is found. Each
 * instant lies on a load line of one resistance, shifted by the voltages that the impedances add to it; these and the
 * averages are found by Newton's method.
 * @source harmonic balance: currents of the device in time, voltages of the load by order
 */
export function complexPeriod(
  stage: RestingStage,
  impedance: (order: number) => Complex,
  driveV: number,
  start: PeriodState | null = null,
): Period | null {
  const first = impedance(1);
  const ohm = Math.max(first.re, 0.2 * modulus(first));
  const excess = Array.from({ length: highest }, (_, k) => plus(impedance(k + 1), real(-ohm)));
  const task = { stage, driveV, ohm, excess };
  const { plateA, screenA } = stage.rest;
  let best = trialOf(task, start ?? { averageA: plateA, screenA, added: excess.map(() => real(0)) });
  for (let step = 0; step < mostSteps; step++) {
    if (best.error < settled * plateA) return best.period;
    const next = improved(task, best);
    if (next === null) return null;
    best = next;
  }
  return null;
}

interface Trial {
  period: Period;
  line: LoadLine;
  /** By unknown: average current, then each order's voltage as two. */
  residual: number[];
  error: number;
}

function trialOf({ stage, driveV, ohm, excess }: Task, state: PeriodState): Trial {
  const { cathode, rest } = stage;
  const steadyOhm = cathode?.bypassed ? cathode.ohm : 0;
  const { averageA, screenA, added } = state;
  const cathodeRiseV = steadyOhm * (averageA - rest.plateA + screenA - rest.screenA);
  const line = { loadOhm: ohm, averagePlateA: averageA, cathodeRiseV };
  const instants = Array.from({ length: samples }, (_, k) => {
    const shifted = { ...line, plateShiftV: sumAt(added, k) };
    return instantAt(stage, shifted, driveV * (cosines[k] ?? 0));
  });
  const currents = phasors(instants.map(({ plateA }) => plateA));
  const meanScreenA = instants.reduce((sum, instant) => sum + instant.screenA, 0) / samples;
  const residual = [(currents[0]?.re ?? 0) - averageA, ...differences({ excess, added, currents })];
  const screenError = steadyOhm === 0 ? 0 : Math.abs(meanScreenA - screenA);
  const error = Math.max(screenError, ...residual.map((value, k) => Math.abs(value) / (k === 0 ? 1 : ohm)));
  const settledState = { ...state, screenA: meanScreenA };
  return { period: { instants, averageA, currents, state: settledState }, line, residual, error };
}

/** By how much each added voltage misses the one that its current asks for. */
function differences({
  excess,
  added,
  currents,
}: Pick<Task, 'excess'> & { added: Complex[]; currents: Complex[] }): number[] {
  return excess.flatMap((ohm, k) => {
    const asked = times(ohm, currents[k + 1] ?? real(0));
    const miss = plus(added[k] ?? real(0), asked);
    return [miss.re, miss.im];
  });
}

/** A Newton step, halved until it helps; null where none does. */
function improved(task: Task, from: Trial): Trial | null {
  const step = solveLinear(jacobian(task, from));
  if (step === null) return null;
  const { state } = from.period;
  for (let share = 1; share > 1e-3; share /= 2) {
    const at = (k: number) => share * (step[k] ?? 0);
    const added = state.added.map((one, k) => plus(one, { re: at(2 * k + 1), im: at(2 * k + 2) }));
    const next = trialOf(task, { ...state, averageA: state.averageA + at(0), added });
    if (next.error < from.error) return next;
  }
  return null;
}

/** Rows of the linear system of a Newton step. */
function jacobian({ stage, ohm, excess }: Task, { period, line, residual }: Trial): number[][] {
  const responses = period.instants.map((instant) => responseOf(stage, { ...line, loadOhm: ohm }, instant));
  const columns = [
    phasors(responses.map(({ perAverage }) => perAverage)),
    ...excess.flatMap((_, k) => {
      const shifts = responses.map(({ perVolt }) => perVolt);
      return [
        phasors(shifts.map((value, n) => value * (cosines[((k + 1) * n) % samples] ?? 0))),
        phasors(shifts.map((value, n) => -value * (sines[((k + 1) * n) % samples] ?? 0))),
      ];
    }),
  ];
  const mean = columns.map((column, k) => (column[0]?.re ?? 0) - (k === 0 ? 1 : 0));
  const orders = excess.flatMap((one, k) => {
    const moved = columns.map((column) => times(one, column[k + 1] ?? real(0)));
    const own = (part: number) => (column: number) => (column === 2 * k + 1 + part ? 1 : 0);
    return [moved.map(({ re }, c) => re + own(0)(c)), moved.map(({ im }, c) => im + own(1)(c))];
  });
  return [mean, ...orders].map((row, k) => [...row, -(residual[k] ?? 0)]);
}

const cosines = Array.from({ length: samples }, (_, k) => Math.cos((2 * Math.PI * k) / samples));
const sines = Array.from({ length: samples }, (_, k) => Math.sin((2 * Math.PI * k) / samples));

/** Phasors of a period's samples, order 0 (the mean) to the highest. */
function phasors(values: readonly number[]): Complex[] {
  return Array.from({ length: highest + 1 }, (_, order) => {
    let re = 0;
    let im = 0;
    for (let k = 0; k < samples; k++) {
      const value = values[k] ?? 0;
      re += value * (cosines[(order * k) % samples] ?? 0);
      im -= value * (sines[(order * k) % samples] ?? 0);
    }
    const scale = (order === 0 ? 1 : 2) / samples;
    return { re: re * scale, im: im * scale };
  });
}

/** Sum of some phasors, from order 1 up, at one instant. */
function sumAt(orders: readonly Complex[], instant: number): number {
  return orders.reduce((sum, { re, im }, k) => {
    const at = ((k + 1) * instant) % samples;
    return sum + re * (cosines[at] ?? 0) - im * (sines[at] ?? 0);
  }, 0);
}
