import { methods } from '../../figures/index.ts';
import type { Journal, JudgedClaim, Prose } from '../types.ts';

/** Places that links can lead to on one page. */
export interface PagePlaces {
  /** Headings of the record's own text. */
  headings: readonly string[];
  /** What the page has besides; some of these only where the record gives rise to them. */
  others: readonly string[];
}

type Kind = 'amplifier' | 'version' | 'log' | 'capture' | 'decision' | 'listening' | 'comparison' | 'part';

/** Sections that the pages of a kind may have beside the text of the record. */
const sections: Readonly<Record<Kind, readonly string[]>> = {
  amplifier: ['open-questions', 'not-in-hand', 'units', 'decisions', 'comparisons', 'listening', 'logs'],
  version: [
    ...['predicted', 'gain-budget', 'supply', 'changes', 'measured', 'claims', 'units', 'parts'],
    ...['decisions', 'comparisons', 'listening', 'logs'],
  ],
  log: [
    ...['expectations', 'captures', 'repeats', 'repeatability', 'list-of-captures', 'comparisons'],
    ...['decisions'],
  ],
  capture: [
    ...['summary', 'hear', 'instrument', 'repeatability', 'bands', 'harmonics', 'added', 'hum', 'contested'],
    ...['claims', 'comparisons', 'listening', 'reading', 'provenance'],
  ],
  decision: ['options', 'expectations', 'evidence', 'comparisons', 'listening', 'consequences'],
  listening: ['result', 'set-up', 'levels', 'notes', 'bands'],
  comparison: ['findings', 'alternatives', 'criteria', 'listening'],
  part: ['comparisons'],
};

/** Where every page keeps what is its own, below the navigation. */
const everywhere: readonly string[] = ['content'];

/** Sections that a comparison has of each pair; the second pair's are numbered 2, and so on. */
const ofPair: readonly string[] = ['curves', 'bands', 'levels', 'figures'];

/** The places on the page of every record and capture, by id, where they are known; and on the methods page. */
export function pagePlaces(journal: Journal): ReadonlyMap<string, PagePlaces> {
  const pages = [
    ...journal.amplifiers.map((one) => recordPage(one, sections.amplifier)),
    ...journal.versions.map((one) => recordPage(one, [...sections.version, ...ofVersion(one, journal)])),
    ...journal.units.map((one) => recordPage(one, [])),
    ...journal.logs.map((one) =>
      recordPage(one, [...sections.log, ...anchorsOf(one.expectations), ...anchorsOf(one.repeats)]),
    ),
    ...journal.decisions.map((one) =>
      recordPage(one, [...sections.decision, ...anchorsOf(one.expectations), ...anchorsOf(one.evidence)]),
    ),
    ...journal.listening.map((one) => recordPage(one, sections.listening)),
    ...journal.comparisons.map((one) =>
      recordPage(one, [
        ...sections.comparison,
        ...one.compared.pairs.flatMap((_, index) => pairPlaces(index)),
      ]),
    ),
    ...journal.parts.map((one) => recordPage(one, sections.part)),
    ...journal.pages.map((one) => recordPage(one, [])),
    ...journal.logs.flatMap(({ captures }) =>
      captures.map(({ id }) => [id, { headings: [], others: [...everywhere, ...sections.capture] }] as const),
    ),
  ];
  const others = [...everywhere, ...methods.map(({ id }) => id)];
  return new Map([...pages.flatMap((page) => (page ? [page] : [])), ['methods', { headings: [], others }]]);
}

function recordPage(
  { id, prose }: { id: string; prose: Prose },
  others: readonly string[],
): readonly [string, PagePlaces] | null {
  if (bringsComponents(prose) || isUnread(prose)) return null;
  return [id, { headings: prose.headings.map(({ slug }) => slug), others: [...everywhere, ...others] }];
}

/** Components of the journal's own may have places that only the built page shows. */
const bringsComponents = ({ format, body }: Prose) =>
  format === 'mdx' && /^\s*(?:import|export)\s/m.test(body);

/** Headings that were not found are those of a text that could not be set, which is told elsewhere. */
const isUnread = ({ body, headings }: Prose) => headings.length === 0 && /^#{1,6}\s/m.test(body);

const ofVersion = ({ id, data }: Journal['versions'][number], { versions }: Journal): string[] => [
  ...data.stages.map((stage) => stage.id),
  ...versions
    .filter((other) => other.data.follows === id)
    .map((newer) => `newer-${newer.id.slice(newer.id.lastIndexOf('/') + 1)}`),
];

const anchorsOf = (placed: readonly Pick<JudgedClaim, 'anchor'>[]) => placed.map(({ anchor }) => anchor);

const pairPlaces = (index: number) => ofPair.map((place) => (index === 0 ? place : `${place}-${index + 1}`));
