import path from 'node:path';
import { openLoadFile } from '../../journal/index.ts';
import { hasErrors } from '../../problem/index.ts';
import { safetyNotice } from '../../site/safety.ts';
import { loadReport } from '../load-report.ts';
import type { Output } from '../output.ts';
import { fromCaller } from '../paths.ts';
import { problemReport } from '../problems.ts';

export interface LoadOptions {
  file: string;
  json: boolean;
}

/** The load sheet of one version record or of a stand-alone YAML description. */
export async function load({ file, json }: LoadOptions, output: Output): Promise<number> {
  const absolute = fromCaller(file);
  const folder = path.dirname(absolute);
  const { sheet, problems } = await openLoadFile(folder, path.basename(absolute));
  const failed = sheet === null || hasErrors(problems);
  if (json) {
    const body = failed
      ? { file }
      : {
          file,
          stages: sheet.stages,
          chain: sheet.chain,
          supply: sheet.supply,
          peakPlateV: sheet.peakPlateV,
        };
    output.result(
      JSON.stringify({ schema: 'quiescent/load@1', ...body, notice: safetyNotice, problems }, null, 2),
    );
    return failed ? 1 : 0;
  }
  if (problems.length > 0) output.notice(await problemReport(problems, folder));
  if (failed) return 1;
  output.result(loadReport(sheet));
  output.result(safetyNotice);
  return 0;
}
