import { cp, mkdir, readdir } from 'node:fs/promises';
import path from 'node:path';
import { sentenceOf } from '../../journal/files.ts';
import { safetyNotice } from '../../site/safety.ts';
import type { Output } from '../output.ts';
import { fromCaller, packageFolder, shownPath } from '../paths.ts';

/** Begins a journal in a new or empty folder: one commented example of each record, all invented. */
export async function init(written: string, output: Output): Promise<number> {
  const folder = fromCaller(written);
  const failure = await begin(folder);
  if (failure !== null) {
    output.notice(`${shownPath(folder)} ${failure} Nothing was written.`);
    return 1;
  }
  output.result(nextSteps(shownPath(folder)));
  output.notice(`\n${safetyNotice}`);
  return 0;
}

/** Writes the journal; the reason where that is refused. */
async function begin(folder: string): Promise<string | null> {
  try {
    await mkdir(folder, { recursive: true });
    if ((await readdir(folder)).length > 0) return 'is not empty; name a new or empty folder.';
    await cp(path.join(packageFolder, 'shared', 'starter'), folder, { recursive: true });
    return null;
  } catch (error) {
    return `cannot become a journal: ${sentenceOf(error)}`;
  }
}

/** What to do with a new journal, with its folder as the commands take it. */
function nextSteps(folder: string): string {
  const journal = folder === 'content' ? '' : ` --journal ${/\s/.test(folder) ? `"${folder}"` : folder}`;
  const rows = [
    [`npx quiescent dev${journal}`, 'a live site that follows the files as you edit them'],
    [`npx quiescent check${journal}`, 'what build would refuse, with its line'],
    [`npx quiescent build${journal}`, 'writes the site into dist/'],
    ['npx quiescent inspect FILE', 'how a capture of yours is read, and its summary'],
    [`npx quiescent new log "Title"${journal} --captures FILE …`, 'a log with your captures declared'],
  ];
  return [
    `${folder} is a journal now, with one commented example of each record. All of it is invented.`,
    'Begin with journal.yaml. Next:',
    ...rows.flatMap(([command, does]) => [`  ${command}`, `      ${does}`]),
  ].join('\n');
}
