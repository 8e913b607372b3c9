import { type FigureDifference, figureDifference, figureText, type Measured } from '../figures/index.ts';
import { printNumber, quantityText } from '../quantity/index.ts';
import type { TwoTitles } from './finding.ts';

/** How much louder one alternative is than the other at the same input, and what makes them equal. */
export interface LevelTrim {
  first: Measured;
  second: Measured;
  /** Gain of the second less that of the first, in decibels. */
  difference: FigureDifference;
  /** Which one is turned down, and the share of the voltage that its volume control then passes on. */
  louder: 'first' | 'second';
  share: number;
}

/** Below this, in decibels, no trim is worth setting. */
const nothing = 0.05;

/**
 * The difference of two gains in decibels, and the setting of a volume control that takes it out; null without a value.
 * @source 20 lg of a voltage ratio, derived.
 */
export function levelTrim(first: Measured, second: Measured): LevelTrim | null {
  const difference = figureDifference(first, second);
  if (difference.value === null) return null;
  const share = 10 ** (-Math.abs(difference.value) / 20);
  return { first, second, difference, louder: difference.value > 0 ? 'second' : 'first', share };
}

/** The difference and its trim in a few sentences. */
export function trimText({ difference, louder, share, first, second }: LevelTrim, titles: TwoTitles): string {
  const size = Math.abs(difference.value ?? 0);
  const [loud, soft] = louder === 'first' ? titles : [titles[1], titles[0]];
  const gains = [first, second].map(({ figure }, i) => `${figureText(figure)} with ${titles[i]}`);
  const basis = `The gains are ${gains.join(' and ')}.`;
  if (size < nothing) return `At the same input both are equally loud within 0.05\u00a0dB. ${basis}`;
  const decibels = quantityText(size, 'dB', size < 1 ? 2 : 3);
  const trim = `Equal at the speaker: ${loud} turned down by ${decibels}, which is a volume control that passes ${printNumber(100 * share)}\u00a0% of the voltage on.`;
  return `At the same input ${loud} is ${decibels} louder at the speaker than ${soft}. ${trim} ${basis}`;
}
