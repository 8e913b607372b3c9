import { type Complex, complex, minus, over, plus, times } from './complex.ts';
import { zeroOfFalling } from './solve.ts';
import { cosineTone, periodOf, shaped, type Tone, toneOf } from './tone.ts';

const thermalV = 0.026;
const loadOhm = 8;
/** Emitter resistors with their leads; the two halves are never quite alike. */
const upperOhm = 0.1;
const lowerOhm = 0.108;
/** Voltage left across driver and output transistor at the end of the swing, and how softly it ends. */
const reachV = 15.2;
const roundV = 0.25;
/** Loop gain well below the corner of the voltage stage. */
const loopGain = 5;
const cornerHz = 8000;
/** Second-order curvature of the input stage, per volt at the output, inside the loop. */
const inputCurve = 4e-5;

/**
 * Current of one half for a voltage across its junction and emitter resistor, re what it has at rest.
 * @source Shockley, Bell System Technical Journal 28(3) (1949), p. 435: the exponential law of a junction.
 */
function halfCurrent(idleA: number, emitterOhm: number, extraV: number): number {
  const spare = (logCurrent: number) =>
    extraV - thermalV * logCurrent - emitterOhm * idleA * (Math.exp(logCurrent) - 1);
  return idleA * Math.exp(zeroOfFalling(spare, -60, 12));
}

/** Voltage between input and output of the follower that a load current asks for. */
function followerDrop(idleA: number, loadA: number): number {
  const spare = (dropV: number) =>
    loadA - halfCurrent(idleA, upperOhm, dropV) + halfCurrent(idleA, lowerOhm, -dropV);
  return zeroOfFalling(spare, -12, 12);
}

/** What the pair and the input stage take off a volt at the output, before the loop takes it back. */
export const outputError = (idleA: number) => (v: number) =>
  followerDrop(idleA, v / loadOhm) + inputCurve * v * v;

/**
 * How much of an error inside the loop is left at a frequency.
 * @source Black, Bell System Technical Journal 13(1) (1934), p. 1: an error is divided by one plus the loop gain.
 */
export function left(hz: number): Complex {
  const loop = over(complex(loopGain), complex(1, hz / cornerHz));
  return over(complex(1), plus(complex(1), loop));
}

/** The ends of the swing. */
export const limited = (v: number): number => {
  const above = roundV * Math.log1p(Math.exp((Math.abs(v) - reachV) / roundV));
  return Math.sign(v) * (Math.abs(v) - above);
};

/** Output of Slate at an idle current, for a fundamental of about `speakerRms` volts at 8 Ω. */
export function slate(idleA: number, frequencyHz: number, speakerRms: number): Tone {
  const wanted = cosineTone(frequencyHz, speakerRms * Math.SQRT2);
  const swing = shaped(wanted, limited);
  const error = periodOf(swing).map(outputError(idleA));
  const lost = toneOf(frequencyHz, error).lines.map((line, n) => (n === 1 ? complex(0) : line));
  const lines = swing.lines.map((line, n) =>
    minus(line, times(lost[n] ?? complex(0), left(n * frequencyHz))),
  );
  return { frequencyHz, lines };
}
