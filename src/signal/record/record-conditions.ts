import { quantityText } from '../../quantity/index.ts';
import { straightTrend } from '../fit/locate-fundamental.ts';
import { type Finding, detailMessages as messages } from '../messages.ts';
import { squaresOf } from '../statistics/statistics.ts';
import type { FittedParts } from './channel-details.ts';

/** Rise over the record, re the fundamental's peak, from which a drift is worth a sentence. */
const worthSaying = 0.05;
/** Share of what the fit leaves that a straight line must account for to be called drift. */
const mostly = 0.25;

/** What a reader must know of a record whose direct part is large or moves. */
export function conditionFindings(parts: FittedParts): Finding[] {
  return [...driftOf(parts), ...directPartOf(parts)];
}

function driftOf({ fitted: { residual, amplitude }, channel: { unit }, scale }: FittedParts): Finding[] {
  const rise = straightTrend(residual).slope * residual.length;
  const explained = (rise * rise * residual.length) / 12 / Math.max(squaresOf(residual), Number.MIN_VALUE);
  if (Math.abs(rise) < worthSaying * amplitude || explained < mostly) return [];
  return [messages.baselineDrift(quantityText(rise * scale, unit, 2), Math.abs(rise) / amplitude)];
}

function directPartOf({ fitted: { fit, amplitude }, channel: { unit }, scale }: FittedParts): Finding[] {
  if (Math.abs(fit.constant) <= amplitude) return [];
  const printed = (value: number) => quantityText(value * scale, unit, 3);
  return [messages.largeDirectPart(printed(fit.constant), printed(amplitude))];
}
