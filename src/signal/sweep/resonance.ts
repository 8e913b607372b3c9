import { placeOf, powerBlend } from './interpolate.ts';

/** One reading of an impedance. */
export interface ImpedancePoint {
  atHz: number;
  ohm: number;
  phaseDeg: number | null;
}

/** A resonance: the lowest hill of the modulus. */
export interface Resonance {
  atHz: number;
  ohm: number;
  /** Zero crossing of the phase where there is one within the hill, else the top of the hill. */
  by: 'phase' | 'modulus';
  /** Measured points next to it, between which it was placed. */
  betweenHz: [number, number];
}

/** A hill stands out by 2 dB on both sides, and the lowest one counts up to 1 kHz. */
const prominence = 10 ** (2 / 20);
const highestHz = 1000;

/**
 * The first hill of the modulus as frequency rises, up to 1 kHz. Where the phase falls through zero within the hill,
 * that is the resonance and the modulus is read there; else it is the top of a parabola through the highest reading
 * and its neighbours on log-log paper. Null for a sweep without such a hill.
 * @source a parallel resonance has phase zero at its natural frequency: circuit theory.
 */
export function resonanceOf(points: readonly ImpedancePoint[]): Resonance | null {
  const hill = firstHill(points);
  if (!hill || (points[hill.top]?.atHz ?? 0) > highestHz) return null;
  return phaseCrossing(points, hill) ?? vertex(points, hill.top);
}

interface Hill {
  foot: number;
  top: number;
  end: number;
}

function firstHill(points: readonly ImpedancePoint[]): Hill | null {
  let [foot, top] = [0, 0];
  for (const [i, { ohm }] of points.entries()) {
    const [low, high] = [points[foot]?.ohm ?? 0, points[top]?.ohm ?? 0];
    const risen = high >= prominence * low && top > foot;
    if (risen && ohm <= high / prominence) return { foot, top, end: i };
    if (!risen && ohm < low) [foot, top] = [i, i];
    else if (ohm > high) top = i;
  }
  return null;
}

/** The fall of the phase through zero that is nearest to the top of the hill. */
function phaseCrossing(points: readonly ImpedancePoint[], { foot, top, end }: Hill): Resonance | null {
  const falls: number[] = [];
  for (let i = foot; i < end; i++) {
    const [from, to] = [points[i]?.phaseDeg ?? null, points[i + 1]?.phaseDeg ?? null];
    if (from !== null && to !== null && from > 0 && to <= 0) falls.push(i);
  }
  const nearest = falls.sort((a, b) => Math.abs(a + 0.5 - top) - Math.abs(b + 0.5 - top))[0];
  const [from, to] = [points[nearest ?? -1], points[(nearest ?? -2) + 1]];
  if (!from || !to) return null;
  const place = (point: ImpedancePoint) => ({ axis: point.atHz, value: point.phaseDeg ?? 0 });
  const atHz = placeOf(0, place(from), place(to));
  const share = Math.log(atHz / from.atHz) / Math.log(to.atHz / from.atHz);
  return { atHz, ohm: powerBlend(from.ohm, to.ohm, share), by: 'phase', betweenHz: [from.atHz, to.atHz] };
}

function vertex(points: readonly ImpedancePoint[], top: number): Resonance | null {
  const [before, at, after] = [points[top - 1], points[top], points[top + 1]];
  if (!before || !at || !after) return null;
  const [x0, x2] = [Math.log(before.atHz / at.atHz), Math.log(after.atHz / at.atHz)];
  const [y0, y2] = [Math.log(before.ohm / at.ohm), Math.log(after.ohm / at.ohm)];
  const bend = (y0 / x0 - y2 / x2) / (x0 - x2);
  const rise = y0 / x0 - bend * x0;
  const x = bend < 0 ? -rise / (2 * bend) : 0;
  return {
    atHz: at.atHz * Math.exp(x),
    ohm: at.ohm * Math.exp(rise * x + bend * x * x),
    by: 'modulus',
    betweenHz: [before.atHz, after.atHz],
  };
}
