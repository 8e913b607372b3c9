import type { SplitterSheet } from '../load/index.ts';
import { printNumber, quantityText } from '../quantity/index.ts';

/** What a follower or splitter has to compare with that of another version, printed. */
export function splitterValues({ device, points, outputs, balance }: SplitterSheet): [string, string][] {
  const values: [string, string][] = [['tube', device]];
  for (const { name, plateV, plateA } of points) {
    values.push([`plate of the ${name}`, `${quantityText(plateV, 'V')}, ${quantityText(plateA, 'A')}`]);
  }
  for (const { name, gain, outputOhm } of outputs) {
    values.push([`gain at the ${name}`, printNumber(gain)]);
    values.push([`output impedance at the ${name}, alone`, quantityText(outputOhm, 'Ω')]);
  }
  if (balance) values.push(['balance', quantityText(balance.db, 'dB', 2)]);
  return values;
}
