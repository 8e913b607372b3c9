/** Tones below or above are heard badly, or by few. */
const lowestHz = 40;
const highestHz = 8000;
/** Where tones outside are moved to. */
const oneToneHz = 1000;
const upperToneHz = 4000;

/**
 * What every frequency of a sound is multiplied by so that its tones can be heard: 1 for tones from 40 Hz to 8 kHz; null
 * for two tones too far apart for that range.
 */
export function transposition(tonesHz: readonly number[]): number | null {
  const [lower, upper] = [Math.min(...tonesHz), Math.max(...tonesHz)];
  if (lower >= lowestHz && upper <= highestHz) return 1;
  if (tonesHz.length === 1) return oneToneHz / upper;
  const factor = upperToneHz / upper;
  return lower * factor >= lowestHz ? factor : null;
}
