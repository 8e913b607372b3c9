import { readFileSync, realpathSync, statSync } from 'node:fs';
import path from 'node:path';
import { type Capture, type Column, electrodeOf, maxBytes, readCapture } from '../../capture/index.ts';
import { type TracedFamily, tracedFamily } from '../../load/index.ts';
import { type Fault, type Problem, problemAt } from '../../problem/index.ts';
import { isInside, reasonOf, resolveInside } from '../files.ts';
import { messages } from '../messages.ts';
import type { YamlReading } from '../yaml.ts';
import { curvesColumn, curvesMissing, curvesNotRead, curvesTooLarge } from './traced-messages.ts';

/** Where a stage names its traced curves. */
interface CurvesReference {
  root: string;
  /** The record, relative to the root. */
  record: string;
  written: string;
  yaml: YamlReading;
  path: (string | number)[];
}

/**
 * Reads the traced curves that a stage names; null where they cannot be read. Faults of the name stand at its key, those
 * of the file at their line in it.
 */
export function readTracedCurves(reference: CurvesReference): {
  family: TracedFamily | null;
  problems: Problem[];
} {
  const { record, written, yaml } = reference;
  const refuse = (fault: Fault) => ({
    family: null,
    problems: [problemAt(yaml.placeOf(reference.path), fault)],
  });
  const file = resolveInside(record, written);
  if (file === null) return refuse(messages.leavesJournal(written));
  const bytes = bytesOf(reference.root, file, written);
  if ('fault' in bytes) return refuse(bytes.fault);
  const { capture, problems } = readCapture(bytes.bytes, file, { kind: 'plate-curves' });
  if (!capture) return { family: null, problems };
  const found = familyOf(capture, written);
  const place = { file, line: capture.table.firstDataLine, column: 1 };
  return {
    family: found.family,
    problems: [...problems, ...found.faults.map((fault) => problemAt(place, fault))],
  };
}

function bytesOf(root: string, file: string, written: string): { bytes: Uint8Array } | { fault: Fault } {
  try {
    const absolute = realpathSync(path.join(root, file));
    if (!isInside(realpathSync(root), absolute)) return { fault: messages.leavesJournal(written) };
    if (statSync(absolute).size > maxBytes) return { fault: curvesTooLarge(maxBytes / 1e6) };
    return { bytes: readFileSync(absolute) };
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException | null)?.code === 'ENOENT';
    return { fault: missing ? curvesMissing(written) : messages.unreadable(reasonOf(error)) };
  }
}

const wanted = [
  ['plate', 'voltage'],
  ['grid', 'voltage'],
  ['plate', 'current'],
] as const;

function familyOf(capture: Capture, name: string): { family: TracedFamily | null; faults: Fault[] } {
  const among = (electrode: string, quantity: string) =>
    capture.columns.filter((column) => column.quantity === quantity && electrodeIn(column) === electrode);
  const found = wanted.map(([electrode, quantity]) => among(electrode, quantity));
  const screens = among('screen', 'current');
  const faults = found.flatMap((columns, k) =>
    columns.length === 1
      ? []
      : [
          curvesColumn(
            (wanted[k] ?? []).join(' '),
            columns.map((column) => column.name),
          ),
        ],
  );
  const [plate, grid, current] = found.map((columns) => columns[0]);
  if (faults.length > 0 || !plate || !grid || !current) return { family: null, faults };
  const used = [plate, grid, current, screens[0]];
  const left = capture.columns.filter((column) => !used.includes(column)).map((column) => column.name);
  const points = {
    plateV: plate.values,
    gridV: grid.values,
    plateA: current.values,
    screenA: screens[0]?.values ?? null,
  };
  return { family: tracedFamily(name, points), faults: left.length > 0 ? [curvesNotRead(left)] : [] };
}

const electrodeIn = ({ name, header }: Column) => electrodeOf(name) ?? electrodeOf(header ?? '');
