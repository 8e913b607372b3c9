import type { GetStaticPaths } from 'astro';
import { currentJournal } from '../journal/current.ts';
import { slugOf } from './names.ts';

/** The logs that have captures, as routes below `logs/`. */
export const logsWithData = (() =>
  currentJournal()
    .logs.filter(({ captures }) => captures.length > 0)
    .map((log) => ({ params: { log: slugOf(log.id) }, props: { log } }))) satisfies GetStaticPaths;
