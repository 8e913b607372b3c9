import { printDecimals, printNumber, quantityText } from '../../quantity/index.ts';
import type { DistortionLaw, DistortionMakeUp, LevelSweepDetails, RestShare } from '../../signal/index.ts';
import { harmonicName } from '../registry.ts';

const watts = (value: number) => quantityText(value, 'W', 2);
const slope = (value: number) => printDecimals(value, 2);
const short = (order: number) => harmonicName(order).replace(' harmonic', '').toLowerCase();

/**
 * What the harmonics of a level sweep follow, and what total distortion consists of, in a sentence each; empty where no
 * harmonic was measured.
 */
export function levelSweepFindings({ laws, makeUp }: LevelSweepDetails): string[] {
  const clauses = laws.flatMap((law) => (law.order === null ? [] : [clauseOf(law, law.order)]));
  const followed = clauses.length === 0 ? [] : [`${capital(clauses.join('; '))}.`];
  return [...followed, ...(makeUp ? [makeUpText(makeUp)] : [])];
}

/** Which orders THD is made of, and from where on of others. */
function makeUpText({ orders, rangeW, below, above }: DistortionMakeUp): string {
  const names = orders.map(short);
  const last = names.pop() ?? '';
  const those = names.length === 0 ? `The ${last} alone makes` : `The ${names.join(', ')} and ${last} make`;
  const [from, to] = rangeW?.map(watts) ?? [];
  const made = rangeW
    ? `${those} up THD from ${from} to ${to}, all but a twentieth of its square`
    : `${those} up THD nowhere over three readings`;
  const rest = [
    ...(below ? [`at ${watts(below.powerW)} noise or other orders are ${share(below)} of it`] : []),
    ...(above ? [`at ${watts(above.powerW)} other orders are ${share(above)} of it`] : []),
  ];
  return `${[made, ...rest].join('; ')}.`;
}

const share = (rest: RestShare) => `${printNumber(100 * rest.share, 2)} %`;

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
