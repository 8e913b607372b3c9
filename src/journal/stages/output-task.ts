import { type Fault, nearestNames, type Problem, problemAt } from '../../problem/index.ts';
import { captureName } from '../ids.ts';
import type { RawRecord } from '../records.ts';
import type { LogData } from '../schemas/index.ts';
import type { CaptureRecord } from '../types.ts';
import { outputMessages as messages } from './output-messages.ts';

/** A log with the captures that could be read. */
export interface ReadLog {
  record: RawRecord<LogData>;
  captures: readonly CaptureRecord[];
}

/** One capture with what it may refer to. */
export interface OutputTask {
  log: ReadLog;
  capture: CaptureRecord;
  /** Every capture of the journal that could be read. */
  every: readonly CaptureRecord[];
}

/** A value, or the problem that keeps it from being there; null where nothing is asked for. */
export type Found<T> = { value: T } | { problem: Problem } | null;

/**
 * The capture that a key names: by its name in this log, or by its whole id. Null where it is declared but could not
 * be read, which is told elsewhere.
 */
export function captureOf(
  task: OutputTask,
  key: 'loudspeaker' | 'otherLoad' | 'responseSweep',
  wanted: string,
): Found<CaptureRecord> {
  const { log, every } = task;
  const found = every.find(({ id }) => id === wanted || id === `${log.record.id}/${wanted}`);
  if (found) return { value: found };
  const declared = log.record.data.captures.map(captureName);
  if (declared.includes(wanted)) return null;
  const known = [...declared, ...every.map(({ id }) => id)];
  return { problem: faultAt(task, key, messages.noCapture(wanted, nearestNames(wanted, known), declared)) };
}

/** A fault at a key of the task's capture. */
export function faultAt({ log: { record }, capture }: OutputTask, key: string, fault: Fault): Problem {
  const index = record.data.captures.findIndex((data) => captureName(data) === capture.name);
  return problemAt(record.yaml.placeOf(['captures', index, key]), fault);
}
