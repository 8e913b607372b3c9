import { hasErrors } from '../../problem/index.ts';
import { safetyNotice } from '../../site/safety.ts';
import { type Inspected, inspectAll } from '../capture-inputs.ts';
import { inspectDocument } from '../inspect-document.ts';
import { inspectReport } from '../inspect-report.ts';
import type { Output } from '../output.ts';
import { problemReport } from '../problems.ts';
import type { InspectOptions } from './inspect-arguments.ts';

/** How captures are read outside any journal, and their summaries. */
export async function inspect(options: InspectOptions, output: Output): Promise<number> {
  const all = await inspectAll(options.files, options);
  const sound = all.filter((one) => !failed(one));
  const code = sound.length === all.length ? 0 : 1;
  if (options.json) {
    output.result(JSON.stringify(documentOf(all), null, 2));
    return code;
  }
  for (const { inspection, folder } of all) {
    if (inspection.problems.length > 0) output.notice(await problemReport(inspection.problems, folder));
  }
  if (sound.length === 0) return code;
  output.result(options.declare ? await declared(sound) : reports(sound));
  output.notice(`\n${safetyNotice}`);
  return code;
}

const failed = ({ inspection }: Inspected) => inspection.capture === null || hasErrors(inspection.problems);

/** One capture as a document of its own, several as a list of such documents. */
function documentOf(all: readonly Inspected[]): object {
  const captures = all.map(({ inspection }) => ({ ...inspectDocument(inspection), notice: safetyNotice }));
  const [first, ...others] = captures;
  return first && others.length === 0 ? first : { schema: 'quiescent/inspections@1', captures };
}

const reports = (all: readonly Inspected[]) =>
  all.map(({ inspection }) => inspectReport(inspection)).join('\n\n');

/** The declarations as YAML, whose writer is brought in for them alone. */
async function declared(all: readonly Inspected[]): Promise<string> {
  const { declarationText } = await import('../declaration-text.ts');
  return declarationText(all.map(({ inspection }) => inspection));
}
