import { type Place, type Problem, problemAt } from '../../problem/index.ts';
import { everyRecord, type RecordsByKind } from '../every-record.ts';
import { fileMessages } from '../file-messages.ts';
import { folded } from '../file-names.ts';
import { resolveInside } from '../files.ts';
import { captureName, downloadOf } from '../ids.ts';
import type { RawRecord } from '../records.ts';
import type { LogData, VersionData } from '../schemas/index.ts';
import { isSiteFile } from './reserved-files.ts';

type Raw = Omit<RecordsByKind<RawRecord<unknown>>, 'logs' | 'versions'> & {
  logs: readonly RawRecord<LogData>[];
  versions: readonly RawRecord<VersionData>[];
  files: readonly string[];
};

/** A file that the site would have, and where the journal asks for it. */
interface Published {
  path: string;
  place: Place;
}

/** Pages of the site that belong to no record, and folders that are its own. */
const pages =
  'logs amplifiers comparisons decisions expectations listening methods overlay pages parts safety search tags';
const ofSite = ['index.html', '404.html', '_astro', ...pages.split(' ').map((page) => `${page}/index.html`)];

/**
 * Refuses captures, lists of parts and fixed files that would be published in the place of a page, of the site's own files or of one
 * another, also where capitals are not told apart; and a file in the place of a folder.
 */
export function checkPublishedPaths(raw: Raw): Problem[] {
  const taken = new Set<string>();
  const folders = new Set<string>();
  const take = (path: string): void => {
    taken.add(folded(path));
    for (const folder of foldersOf(path)) folders.add(folded(folder));
  };
  for (const path of [...ofSite, ...everyRecord<RawRecord<unknown>>(raw).flatMap(ofRecord)]) take(path);
  const refuse = ({ path, place }: Published): Problem[] => {
    const isTaken = [path, ...foldersOf(path)].some((one) => taken.has(folded(one)));
    return isTaken || folders.has(folded(path)) ? [problemAt(place, fileMessages.takenPath(path))] : [];
  };
  const declared = [...ofCaptures(raw), ...declaredFiles(raw)].flatMap((one) => {
    const problems = refuse(one);
    if (problems.length === 0) take(one.path);
    return problems;
  });
  return [...declared, ...fixedFiles(raw).flatMap(refuse)];
}

/** What stands at a record's address. */
const ofRecord = ({ id }: RawRecord<unknown>) =>
  ['index.html', 'card.png', ...(id.startsWith('logs/') ? ['figures.csv'] : [])].map(
    (name) => `${id}/${name}`,
  );

/** The page of each capture; a name that stands twice in a log is told elsewhere. */
function ofCaptures({ logs }: Raw): Published[] {
  const pages = logs.flatMap(({ id, data, yaml }) =>
    data.captures.map((capture, index) => ({
      path: `${id}/${captureName(capture)}/index.html`,
      place: yaml.placeOf(['captures', index, 'file']),
    })),
  );
  return distinct(pages);
}

/** Captures and lists of parts, which several records may name. */
function declaredFiles({ logs, versions }: Raw): Published[] {
  const captures = logs.flatMap(({ file: record, data, yaml }) =>
    data.captures.map(({ file }, index) => named(record, file, yaml.placeOf(['captures', index, 'file']))),
  );
  const bills = versions.flatMap(({ file: record, data: { partsFile }, yaml }) =>
    partsFile === undefined ? [] : [named(record, partsFile, yaml.placeOf(['partsFile']))],
  );
  return distinct([...captures, ...bills].flatMap((one) => one ?? [])).filter(
    ({ path }) => !isSiteFile(path),
  );
}

const fixedFiles = ({ files }: Raw): Published[] =>
  files
    .filter((file) => file.startsWith('static/'))
    .map((file) => ({ path: file.slice('static/'.length), place: { file, line: 1, column: 1 } }))
    .filter(({ path }) => !isSiteFile(path));

function named(record: string, written: string, place: Place): Published | null {
  const file = resolveInside(record, written);
  return file === null ? null : { path: downloadOf(file), place };
}

/** The first of each path. */
const distinct = (all: readonly Published[]): Published[] => [
  ...new Map(all.toReversed().map((one) => [one.path, one])).values(),
];

/** Every folder that a path lies in. */
const foldersOf = (path: string) =>
  path
    .split('/')
    .slice(0, -1)
    .map((_, index, parts) => parts.slice(0, index + 1).join('/'));
