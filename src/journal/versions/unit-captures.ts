import { type Place, type Problem, problemAt } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import type { UnitData } from '../schemas/index.ts';
import type { CaptureRecord, UnitCapture } from '../types.ts';
import { unitMessages as messages } from './unit-messages.ts';

/** A capture that a unit names, and where it does so. */
export interface NamedCapture extends UnitCapture {
  written: string;
  place: Place;
}

/**
 * The captures that a unit's record names, one by one or as all of a log; what could not be read is left out, as it is
 * told in its log.
 */
export function capturesOfUnit(
  { data, yaml }: RawRecord<UnitData>,
  captures: readonly CaptureRecord[],
): NamedCapture[] {
  return data.captures.flatMap((written, index) => {
    const [id, channel = null] = written.split('#');
    const place = yaml.placeOf(['captures', index]);
    return captures
      .filter((capture) => capture.id === id || capture.log === id)
      .map((capture) => ({ capture, channel, written, place }));
  });
}

/** Captures of another version, channels that are not there, and captures that another unit names as well. */
export function captureFaults(
  { data }: RawRecord<UnitData>,
  own: readonly NamedCapture[],
  others: readonly { serial: string; captures: readonly NamedCapture[] }[],
): Problem[] {
  return own.flatMap(({ capture, channel, written, place }) => {
    const channels = [...new Set(capture.figures.flatMap(({ subject }) => subject ?? []))];
    const { version } = capture;
    const other = others.find((one) => one.captures.some((theirs) => isSame(theirs, { capture, channel })));
    return [
      ...(version !== null && version !== data.version
        ? [messages.otherVersion(capture.id, version, data.version)]
        : []),
      ...(channel !== null && !channels.includes(channel) ? [messages.noChannel(channel, channels)] : []),
      ...(other ? [messages.captureTwice(written, other.serial)] : []),
    ].map((fault) => problemAt(place, fault));
  });
}

/** Two channels of one capture may show two units. */
const isSame = (one: UnitCapture, other: UnitCapture) =>
  one.capture.id === other.capture.id &&
  (one.channel === null || other.channel === null || one.channel === other.channel);
