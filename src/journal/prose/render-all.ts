import path from 'node:path';
import type { Problem } from '../../problem/index.ts';
import { everyRecord } from '../every-record.ts';
import { linkContext } from '../link-context.ts';
import type { Memory } from '../memory.ts';
import { pictureFault } from '../picture-files.ts';
import type { RawRecord } from '../records.ts';
import type { RawJournal } from '../resolve.ts';
import type { Prose } from '../types.ts';
import { answersTo, type Questions } from './asked-links.ts';
import { pictureProblems } from './render.ts';
import { type TextOptions, textsIn } from './texts.ts';

interface Rendering extends TextOptions {
  base: string;
  memory: Memory;
  /** Collects every problem found on the way. */
  problems: Problem[];
}

/**
 * Renders the prose of every record. A text that was rendered before is taken as it was, unless what it asked about
 * the other files of the journal is answered differently now.
 */
export async function renderAll(
  raw: RawJournal,
  { base, memory, store, onText, problems }: Rendering,
): Promise<Map<string, Prose>> {
  const context = linkContext(raw, base);
  const textOf = await textsIn(context, { store, onText });
  const prose = new Map<string, Prose>();
  for (const record of everyRecord<RawRecord<unknown>>(raw)) {
    if (record.file.endsWith('.mdx') && !raw.settings.mdx) continue;
    const known = memory.remember(`questions of ${record.id}`, [record], unasked);
    if (known.questions && answersTo(known.questions, context) !== known.answers) known.turn += 1;
    const rendered = await memory.remember(`prose ${record.id}`, [record, known.turn], async () => {
      const { rendered: made, ...asked } = await textOf(record.source);
      Object.assign(known, asked);
      return made;
    });
    const pictures = await pictureProblems(record.file, rendered.pictures, (picture, written) =>
      memory.remember(`picture ${written} of ${record.id}`, [raw.stamps.get(picture)], () =>
        pictureFault(path.join(raw.root, picture), written),
      ),
    );
    problems.push(...rendered.problems, ...pictures);
    prose.set(record.id, rendered.prose);
  }
  return prose;
}

interface Known {
  /** Null before the text is rendered. */
  questions: Questions | null;
  answers: string;
  /** Counts the renderings of the same text under other answers. */
  turn: number;
}

const unasked = (): Known => ({ questions: null, answers: '', turn: 0 });

/** The prose of a record; of one that is not rendered, its text alone. */
export function proseIn(prose: ReadonlyMap<string, Prose>): (record: RawRecord<unknown>) => Prose {
  return ({ id, source: { body, bodyLine } }) =>
    prose.get(id) ?? { format: 'md', body, bodyLine, html: '', ...nothing };
}

const nothing = {
  headings: [],
  headingPlaces: [],
  imagePaths: [],
  mentions: [],
  figures: [],
  fragments: [],
};
