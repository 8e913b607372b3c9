import type { PushPullSheet } from '../load/index.ts';
import { printNumber, quantityText } from '../quantity/index.ts';

/** What tells two push-pull stages apart, each value by its name. */
export function pushPullValues(sheet: PushPullSheet): [string, string][] {
  const { device, connection, count, operatingPoint: point, atLoad } = sheet;
  const values: [string, string][] = [['tubes', `${2 * count} × ${device} as ${connection}`]];
  if (point) {
    values.push(['plate voltage', quantityText(point.plateV, 'V')]);
    values.push(['plate current of each', quantityText(point.plateA, 'A')]);
    values.push(['grid voltage', quantityText(point.gridV, 'V')]);
  }
  if (atLoad) {
    values.push(['load', quantityText(atLoad.loadOhm, 'Ω')], ['power', quantityText(atLoad.powerW, 'W')]);
    values.push(['class at full drive', atLoad.class]);
    values.push(['THD by the model', `${printNumber(100 * atLoad.thdRatio)}\u00a0%`]);
  }
  return values;
}
