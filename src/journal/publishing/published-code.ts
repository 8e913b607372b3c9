import { type Problem, problemAt } from '../../problem/index.ts';
import { fileMessages } from '../file-messages.ts';
import type { RawJournal } from '../resolve.ts';
import { drawingProblems, isDrawing } from './drawings.ts';
import { isSiteFile } from './reserved-files.ts';

/** Files that a browser opens as a page with scripts, or runs as one. */
const runs = /\.(?:x?html?|xht|shtml|mhtml?|xml|xslt?|m?js|cjs|wasm|swf|jar|hta)$/i;

/**
 * Looks into what is published as it is: in a journal without code no fixed file that a browser runs, and no drawing that
 * runs something or brings in other files.
 */
export async function checkPublishedCode({
  root,
  files,
  settings,
}: Pick<RawJournal, 'root' | 'files' | 'settings'>): Promise<Problem[]> {
  const isAllowed = (file: string) => settings.mdx && file.startsWith('static/');
  const wanted = files.filter((file) => !isAllowed(file));
  const running = wanted
    .filter(
      (file) => file.startsWith('static/') && runs.test(file) && !isSiteFile(file.slice('static/'.length)),
    )
    .map((file) => problemAt({ file, line: 1, column: 1 }, fileMessages.runsInBrowser(nameOf(file))));
  const drawings = await Promise.all(wanted.filter(isDrawing).map((file) => drawingProblems(root, file)));
  return [...running, ...drawings.flat()];
}

const nameOf = (file: string) => file.slice(file.lastIndexOf('/') + 1);
