import { openJournal } from '../../journal/index.ts';
import { byPlace, hasErrors, type Problem } from '../../problem/index.ts';
import { withEngine } from '../engine/with-engine.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import { countProblems, countText, problemReport } from '../problems.ts';
import { sarifLog } from '../sarif.ts';

export interface CheckOptions {
  journal: string;
  /** For people, as one JSON document, or as one SARIF log. */
  form: 'text' | 'json' | 'sarif';
  /** Says where the time went. */
  timings: boolean;
}

/** Everything `build` would refuse, without writing a site. */
export async function check({ journal, form, timings }: CheckOptions, output: Output): Promise<number> {
  const folder = fromCaller(journal);
  const problems = await problemsOf(folder, timings, output);
  if (form === 'text') {
    if (problems.length > 0) output.notice(await problemReport(problems, folder));
    output.notice(`${shownPath(folder)}: ${countText(countProblems(problems))}`);
  } else {
    const document =
      form === 'sarif'
        ? sarifLog([...problems].sort(byPlace), shownPath(folder))
        : { schema: 'quiescent/check@1', problems, counts: countProblems(problems) };
    output.result(JSON.stringify(document, null, 2));
  }
  return hasErrors(problems) ? 1 : 0;
}

/** Everything wrong with a journal; what its captures were found to hold is kept for the next command. */
function problemsOf(folder: string, timings: boolean, output: Output): Promise<Problem[]> {
  return withEngine({ folder, timings }, output, async ({ engine, work }) => {
    const { problems } = await openJournal(folder, { ...engine.opening, onStage: work.begin });
    return problems;
  });
}
