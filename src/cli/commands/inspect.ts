import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { maxBytes, readCapture, tooLarge } from '../../capture/index.ts';
// Not by way of the room's index, which brings the whole of Markdown with it.
import { analyse } from '../../journal/analyse.ts';
import { sha256Of } from '../../journal/analysis-cache.ts';
import { reasonOf } from '../../journal/files.ts';
import { hasErrors, type Problem, problemAt } from '../../problem/index.ts';
import { safetyNotice } from '../../site/safety.ts';
import { declarationText } from '../declaration-text.ts';
import { type Inspection, inspectDocument } from '../inspect-document.ts';
import { inspectReport } from '../inspect-report.ts';
import type { Output } from '../output.ts';
import { fromCaller } from '../paths.ts';
import { problemReport } from '../problems.ts';
import type { InspectOptions } from './inspect-arguments.ts';

/** How one capture is read outside any journal, and its summary. */
export async function inspect(options: InspectOptions, output: Output): Promise<number> {
  const absolute = fromCaller(options.file);
  const inspection = await read(absolute, options);
  const failed = inspection.capture === null || hasErrors(inspection.problems);
  if (options.json) {
    output.result(JSON.stringify({ ...inspectDocument(inspection), notice: safetyNotice }, null, 2));
    return failed ? 1 : 0;
  }
  if (inspection.problems.length > 0)
    output.notice(await problemReport(inspection.problems, path.dirname(absolute)));
  if (failed) return 1;
  output.result(options.declare ? declarationText(inspection) : inspectReport(inspection));
  output.notice(`\n${safetyNotice}`);
  return 0;
}

async function read(
  absolute: string,
  { declaration, harmonics, mainsHz }: InspectOptions,
): Promise<Inspection> {
  const file = path.basename(absolute);
  const bytes = await readBytes(absolute, file);
  if (!(bytes instanceof Uint8Array))
    return { file, sha256: null, capture: null, analysed: null, declaration: null, problems: [bytes] };
  const { capture, problems, declaration: understood } = readCapture(bytes, file, declaration);
  const analysed = capture && analyse(capture, { harmonics, mainsHz, loadOhm: declaration.loadOhm });
  const warnings = analysed?.warnings.map((warning) =>
    problemAt(
      { file, line: capture?.table.firstDataLine ?? 1, column: 1 },
      { ...warning, severity: 'warning' },
    ),
  );
  return {
    ...{ file, capture, analysed, declaration: understood },
    sha256: sha256Of(bytes),
    problems: [...problems, ...(warnings ?? [])],
  };
}

/** The file's bytes, or the problem that keeps them from being read. */
async function readBytes(absolute: string, file: string): Promise<Uint8Array | Problem> {
  const place = { file, line: 1, column: 1 };
  try {
    const { size } = await stat(absolute);
    if (size > maxBytes) return problemAt(place, tooLarge(size, maxBytes));
    return await readFile(absolute);
  } catch (error) {
    return problemAt(place, { rule: 'unreadable', message: `The file cannot be read: ${reasonOf(error)}` });
  }
}
