import { quantityText } from '../quantity/index.ts';
import type { AmplitudeSpectrum } from '../signal/index.ts';

/** What a reader of a drawn spectrum must know of its window, and that no figure comes from it. */
export function windowText({ window, enbwHz, scallopingDb }: AmplitudeSpectrum): string {
  const [bandwidth, loss] = [quantityText(enbwHz, 'Hz'), quantityText(scallopingDb, 'dB', 1)];
  return `${window} window, equivalent noise bandwidth ${bandwidth}, between two of its lines at most ${loss} low. Marked lines stand at the levels of the fit, which no window changes.`;
}
