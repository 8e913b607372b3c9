import type { CaptureRecord } from '../journal/types.ts';
import { type Dimension, parseQuantity } from '../quantity/index.ts';

interface Taken {
  capture: CaptureRecord;
}

/** More captures of a version than this, under the very same conditions, are not set beside others one by one. */
const most = 4;

/** What is said where the newest stands for others. */
export const alikeText =
  'Where more than four captures of a version differ in no condition, the newest of them stands for all.';

/** Of more than four captures that differ in no condition and show no alternatives only the newest stays; the oldest come first. */
export function newestAlike<Source extends Taken>(
  sources: readonly Source[],
): { kept: Source[]; older: number } {
  const alike = Map.groupBy(sources, ({ capture }) => setUpOf(capture));
  const many = [...alike.values()].filter((group) => group.length > most);
  const older = new Set(many.flatMap((group) => group.slice(0, -1)));
  return { kept: sources.filter((source) => !older.has(source)), older: older.size };
}

/** Everything that is stated of how a capture was taken and of what: other units of a batch are other alternatives. */
function setUpOf(capture: CaptureRecord): string {
  const { conditions, columns } = capture.data;
  const alternatives = Object.entries(columns ?? {}).map(([name, { alternative }]) => [name, alternative]);
  return JSON.stringify([conditionsOf(capture), Object.entries(conditions).sort(), alternatives]);
}

/** What two measurements must share, as one text; quantities count as equal however they are written. */
export function conditionsOf({ kind, data }: CaptureRecord): string {
  const { instrument, load, harmonics, band, tones, atPower, secondary, conditions } = data;
  const level = quantityOf(conditions['level'], 'power', 'voltage', 'current');
  const frequency = quantityOf(conditions['frequency'], 'frequency');
  const settings = { harmonics, band, tones, atPower, secondary };
  return JSON.stringify([kind, instrument, load, level, frequency, settings]);
}

/** A condition in SI units with its unit; as written where it is no plain quantity. */
function quantityOf(text: string | undefined, ...dimensions: Dimension[]): string | undefined {
  if (text === undefined) return undefined;
  const readings = dimensions.map((dimension) => parseQuantity(text, dimension));
  const found = readings.find((reading) => 'quantity' in reading);
  return found && 'quantity' in found ? `${found.quantity.value} ${found.quantity.unit}` : text.trim();
}
