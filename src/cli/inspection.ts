import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { type CaptureDeclaration, maxBytes, readCapture, tooLarge } from '../capture/index.ts';
// Not by way of the room's index, which brings the whole of Markdown with it.
import { analyse } from '../journal/analysis/analyse.ts';
import { sha256Of } from '../journal/analysis/sha256.ts';
import { reasonOf } from '../journal/files.ts';
import { type Problem, problemAt } from '../problem/index.ts';
import type { Inspection } from './inspect-document.ts';

export interface InspectionSettings {
  declaration: CaptureDeclaration;
  harmonics?: number | undefined;
  mainsHz?: number | undefined;
}

/** Reads and summarises one capture file outside any journal. */
export async function inspectFile(absolute: string, settings: InspectionSettings): Promise<Inspection> {
  const file = path.basename(absolute);
  const bytes = await readBytes(absolute, file);
  return bytes instanceof Uint8Array ? inspectBytes(bytes, file, settings) : unread(bytes);
}

/** Reads and summarises the bytes of a capture; `file` is what it is called. */
export function inspectBytes(bytes: Uint8Array, file: string, settings: InspectionSettings): Inspection {
  const { harmonics, mainsHz, declaration } = settings;
  if (bytes.length > maxBytes)
    return unread(problemAt({ file, line: 1, column: 1 }, tooLarge(bytes.length, maxBytes)));
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

/** What there is to say of a capture that could not be read at all. */
export function unread(problem: Problem): Inspection {
  const { file } = problem;
  return { file, sha256: null, capture: null, analysed: null, declaration: null, problems: [problem] };
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
