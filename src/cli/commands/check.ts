import { openJournal } from '../../journal/index.ts';
import { hasErrors } from '../../problem/index.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import { countProblems, countText, problemReport } from '../problems.ts';

export interface CheckOptions {
  journal: string;
  json: boolean;
}

/** Everything `build` would refuse, without writing a site. */
export async function check({ journal, json }: CheckOptions, output: Output): Promise<number> {
  const folder = fromCaller(journal);
  const { problems } = await openJournal(folder);
  if (json) {
    output.result(
      JSON.stringify({ schema: 'quiescent/check@1', problems, counts: countProblems(problems) }, null, 2),
    );
  } else {
    if (problems.length > 0) output.notice(await problemReport(problems, folder));
    output.notice(`${shownPath(folder)}: ${countText(countProblems(problems))}`);
  }
  return hasErrors(problems) ? 1 : 0;
}
