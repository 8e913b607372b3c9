import { printDecimals, quantityText } from '../quantity/index.ts';
import type { DistortionLaw, LevelSweepDetails } from '../signal/index.ts';
import { harmonicName } from './registry.ts';

const watts = (value: number) => quantityText(value, 'W', 2);
const slope = (value: number) => printDecimals(value, 2);
const short = (order: number) => harmonicName(order).replace(' harmonic', '').toLowerCase();

/** What the harmonics of a level sweep follow, in one sentence; empty where no harmonic was measured. */
export function levelSweepFindings({ laws }: LevelSweepDetails): string[] {
  const clauses = laws.flatMap((law) => (law.order === null ? [] : [clauseOf(law, law.order)]));
  return clauses.length === 0 ? [] : [`${capital(clauses.join('; '))}.`];
}

function clauseOf(
  { slope: found, slopeLow, slopeHigh, clean, rangeW, leaves }: DistortionLaw,
  order: number,
): string {
  const name = `the ${short(order)}`;
  if (found === null || slopeLow === null || slopeHigh === null || !rangeW) {
    return `${name} follows no law that stands out of its scatter`;
  }
  const measured = `${slope(found)} ± ${slope((slopeHigh - slopeLow) / 2)} dB/dB`;
  const [from, to] = rangeW.map(watts);
  const range = leaves === 'end' ? `from ${from} to the end of the sweep at ${to}` : `from ${from} to ${to}`;
  const end =
    leaves === 'end' ? '' : leaves === 'upwards' ? ', and leaves it upwards' : ', and falls below it beyond';
  if (clean)
    return `${name} follows the amplitude as a clean ${short(order)} order (${measured}) ${range}${end}`;
  const wanted = `a clean ${short(order)} order would have ${order - 1}`;
  return found < 0
    ? `${name} falls as the level rises (${measured}) ${range}, as crossover distortion or noise does`
    : `${name} does not follow its order (${measured} ${range}; ${wanted})`;
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);
