import { drawable } from './axis.ts';
import type { Run } from './readings.ts';

/** A place where a line passes a level. */
interface Crossing {
  x: number;
  rising: boolean;
}

/** How a line runs between two readings: straight on linear or on logarithmic axes. */
export interface Drawn {
  logX: boolean;
  logY: boolean;
}

/**
 * Where a line passes a level, read off the line as it is drawn: straight between readings on its axes.
 * A reading exactly on the level counts once, with the step that leads to it.
 */
export function crossings({ x, y }: Run, level: number, drawn: Drawn): Crossing[] {
  const found: Crossing[] = [];
  for (let i = 1; i < x.length; i++) {
    const [before, after] = [y[i - 1] ?? level, y[i] ?? level];
    if (before < level === after < level) continue;
    const share = (axisY(drawn, level) - axisY(drawn, before)) / (axisY(drawn, after) - axisY(drawn, before));
    found.push({ x: between(x[i - 1] ?? 0, x[i] ?? 0, share, drawn.logX), rising: after > before });
  }
  return found;
}

/** The value of a line at a place, straight between readings on its axes; null outside of its readings. */
export function valueAt({ x, y }: Run, place: number, drawn: Drawn): number | null {
  for (let i = 1; i < x.length; i++) {
    const [left, right] = [x[i - 1] ?? 0, x[i] ?? 0];
    if ((place - left) * (place - right) > 0) continue;
    const [from, to] = [axisX(drawn, left), axisX(drawn, right)];
    const share = from === to ? 0 : (axisX(drawn, place) - from) / (to - from);
    return between(y[i - 1] ?? 0, y[i] ?? 0, share, drawn.logY);
  }
  return null;
}

function between(from: number, to: number, share: number, log: boolean): number {
  return log && drawable('log', from) && drawable('log', to)
    ? from * (to / from) ** share
    : from + share * (to - from);
}

const axisX = ({ logX }: Drawn, value: number): number => (logX ? Math.log(value) : value);
const axisY = ({ logY }: Drawn, value: number): number => (logY ? Math.log(value) : value);
