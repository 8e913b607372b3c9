import type { FollowerSheet } from '../load/index.ts';
import { quantityText } from '../quantity/index.ts';

/** What a transistor stage has to compare with that of another version, printed. */
export function followerValues(sheet: FollowerSheet): [string, string][] {
  const { biasA, rest, largest, worst, classAW, loadOhm, thermal } = sheet;
  const values: [string, string][] = [];
  if (loadOhm !== null) values.push(['load', quantityText(loadOhm, 'Ω')]);
  if (biasA !== null) values.push(['current at rest, each transistor', quantityText(biasA, 'A')]);
  if (classAW !== null) values.push(['class A up to', quantityText(classAW, 'W')]);
  if (rest) values.push(['heat at rest, all transistors', quantityText(rest.balance.supplyW, 'W')]);
  if (largest) values.push(['largest sine', quantityText(largest.outputW, 'W')]);
  if (worst) values.push(['worst dissipation, each transistor', quantityText(worst.deviceW, 'W')]);
  if (thermal) {
    values.push(['sink at rest', quantityText(thermal.rest.sinkC, '°C')]);
    values.push(['sink at the worst output', quantityText(thermal.worst.sinkC, '°C')]);
    values.push(['junction at the worst output', quantityText(thermal.worst.junctionC, '°C')]);
  }
  return values;
}
