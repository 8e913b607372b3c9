import { printQuantity } from '../quantity/print.ts';

/** Volume offered, decibels re full scale for a sine. It begins very low. */
export const volumeDb = { lowest: -70, first: -54, highest: -20 } as const;

/** The gain of a volume in decibels re full scale. */
export function gainOf(decibels: number): number {
  return 10 ** (Math.min(decibels, volumeDb.highest) / 20);
}

/** A volume as it is read: "−54 dB". */
export function volumeText(decibels: number): string {
  const { number, unit } = printQuantity(decibels, 'dB', 2);
  return `${number}\u00a0${unit}`;
}
