import { type Problem, problemAt } from '../../problem/index.ts';
import { resolveInside } from '../files.ts';
import { captureName, downloadOf } from '../ids.ts';
import type { RawRecord } from '../records.ts';
import type { LogData } from '../schemas/index.ts';
import { publishMessages as messages } from './publish-messages.ts';

/** Files that the site writes beside its pages, by their paths in it. */
const ofSite =
  /^(feed\.xml|colours\.css|sitemap-(index|\d+)\.xml|datapackage\.json|figures\.csv|card\.png|search\/index\/.+)$/;
const ofLogs = /^logs\/[^/]+\/figures\.csv$/;

/** True for the path of a file that the site writes beside its pages. */
export const isSiteFile = (path: string) => ofSite.test(path) || ofLogs.test(path);

interface Published {
  files: readonly string[];
  logs: readonly RawRecord<LogData>[];
}

/** What "new listening" writes for the helper at the switch. */
const sealedOrder = /^static\/(?:.+\/)?\d{4}-\d{2}-\d{2}-[^/]+\.(?:key|sheet)\.txt$/;

/**
 * Refuses a file of the journal that would be published in the place of one that the site writes itself, or that is not
 * meant to be read.
 */
export function checkReservedFiles({ files, logs }: Published): Problem[] {
  const fixed = files
    .filter((file) => file.startsWith('static/') && ofSite.test(file.slice('static/'.length)))
    .map((file) => problemAt({ file, line: 1, column: 1 }, messages.reserved(nameOf(file))));
  const sealed = files
    .filter((file) => sealedOrder.test(file))
    .map((file) => problemAt({ file, line: 1, column: 1 }, messages.sealedOrder()));
  return [...fixed, ...sealed, ...logs.flatMap(ofCaptures)];
}

function ofCaptures({ file: record, data, yaml }: RawRecord<LogData>): Problem[] {
  return data.captures.flatMap((capture, index) => {
    const file = resolveInside(record, capture.file);
    const published = file === null ? '' : downloadOf(file);
    if (!isSiteFile(published)) return [];
    const place = yaml.placeOf(['captures', index, 'file']);
    return [problemAt(place, messages.reserved(nameOf(published), `${captureName(capture)}-capture.csv`))];
  });
}

const nameOf = (file: string) => file.slice(file.lastIndexOf('/') + 1);
