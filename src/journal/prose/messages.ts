import type { Fault } from '../../problem/index.ts';

const orElse = (near: readonly string[], otherwise: string) =>
  near.length > 0 ? `Did you mean ${near.join(' or ')}?` : otherwise;

/** A text up to its first line break, so that a message stays one line. */
const firstLine = (text: string) => text.trimEnd().replace(/\n[\s\S]*/, ' …');

const millions = (count: number) => Number((count / 1e6).toPrecision(3));

/** Every sentence about what stands in the prose of a record. */
export const proseMessages = {
  unknownDirective: (name: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-directive',
    message: `The directive "${name}" is not known.`,
    hint: orElse(near, `Directives that can stand here: ${known.join(', ')}.`),
  }),
  unknownAttribute: (name: string, directive: string, known: readonly string[]): Fault => ({
    rule: 'unknown-attribute',
    message: `"${directive}" has no attribute "${name}".`,
    hint: known.length > 0 ? `It takes ${known.join(', ')}.` : 'It takes none.',
  }),
  missingAttribute: (name: string, directive: string): Fault => ({
    rule: 'missing-attribute',
    message: `"${directive}" does not say which ${name} it shows.`,
    hint: `Write ${name}="…" with the name of a capture of this log.`,
  }),
  figureUnnamed: (written: string): Fault => ({
    rule: 'missing-attribute',
    message: `"${written}" does not say which figure it prints.`,
    hint: 'Write :figure[thd]{of="capture#channel"}, or <FigureValue figure="thd" of="capture#channel" /> in MDX.',
  }),
  figureOfNothing: (written: string): Fault => ({
    rule: 'missing-attribute',
    message: `"${written}" does not say what the figure is of.`,
    hint: 'Write of="capture#channel", or of="version#stage" for a load sheet.',
  }),
  labelled: (directive: string): Fault => ({
    rule: 'directive-label',
    message: `"${directive}" takes no text in square brackets.`,
    hint: 'Write the text as a sentence before or after it.',
  }),
  notClosed: (directive: string): Fault => ({
    rule: 'directive-open',
    message: `"${directive}" is not closed, so that everything after it belongs to it.`,
    hint: 'End it with a line of three colons.',
  }),
  unknownComponent: (name: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-component',
    message: `The component "${name}" is neither known nor imported.`,
    hint: orElse(near, `Known are ${known.join(', ')}; others are imported at the top of the file.`),
  }),
  inParagraph: (component: string): Fault => ({
    rule: 'component-in-paragraph',
    message: `"${component}" stands inside a paragraph.`,
    hint: 'Put it on lines of its own, with an empty line before and after.',
  }),
  computedAttribute: (component: string): Fault => ({
    rule: 'computed-attribute',
    message: `"${component}" takes its attributes as texts; what is computed cannot be checked before the page is made.`,
    hint: 'Write the attribute in quotes, for example capture="tone-1w".',
  }),
  importMissing: (target: string, near: readonly string[]): Fault => ({
    rule: 'import-missing',
    message: `The file "${target}" that is imported here does not exist.`,
    hint: orElse(near, 'Write the relative path of a file of the journal.'),
  }),
  unknownCapture: (name: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-capture',
    message: `There is no capture "${name}" to show here.`,
    hint: orElse(
      near,
      known.length > 0 ? `There are: ${known.slice(0, 12).join(', ')}.` : 'Declare it under captures: first.',
    ),
  }),
  unknownChart: (kind: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-chart',
    message: `A chart of the kind "${kind}" cannot be drawn from this capture.`,
    hint: orElse(near, `It gives: ${known.join(', ')}.`),
  }),
  textTooLong: (found: number, most: number): Fault => ({
    rule: 'text-size',
    message: `The text has ${found} characters, and at most ${most} are set as one page.`,
    hint: 'Make several records of it.',
  }),
  lineTooLong: (found: number, most: number): Fault => ({
    rule: 'text-size',
    message: `This line has ${found} characters, and at most ${most} are read.`,
    hint: 'Break it; one line end within a paragraph does not show on the page.',
  }),
  textTooDeep: (most: number): Fault => ({
    rule: 'text-depth',
    message: `Quotes, lists, notes or brackets stand in one another here more than ${most} deep.`,
    hint: 'Take some of them apart, or put a backslash before brackets that are text.',
  }),
  tableTooWide: (most: number): Fault => ({
    rule: 'text-size',
    message: `This table has more than ${most} columns.`,
    hint: 'Publish it as a CSV file in the folder static, and link to it.',
  }),
  tooManyMarks: (): Fault => ({
    rule: 'text-size',
    message: 'This paragraph has too many backticks or dollar signs without their other halves.',
    hint: 'Divide it by empty lines, or put it between lines of three backticks as a block of code.',
  }),
  badMaths: (detail: string): Fault => ({
    rule: 'maths',
    message: `The formula cannot be set: ${detail.replace(/\.?$/, '.')}`,
    hint: 'Mend the TeX here; a dollar sign that is money is written \\$.',
  }),
  htmlRefused: (tag: string, allowed: readonly string[]): Fault => ({
    rule: 'html-refused',
    message: `HTML such as "${firstLine(tag)}" is not published from prose.`,
    hint: `Use Markdown or a directive. Allowed without attributes: ${allowed.join(', ')}.`,
  }),
  linkScheme: (href: string): Fault => ({
    rule: 'link-scheme',
    message: `A link to "${href}" is refused.`,
    hint: 'Links may begin with https:, http: or mailto:, or name a record or file of the journal.',
  }),
  linkDangling: (href: string, near: readonly string[]): Fault => ({
    rule: 'dangling-link',
    message: `The link "${href}" leads to nothing in this journal.`,
    hint: orElse(near, 'Write the relative path of a record, capture or static file.'),
  }),
  linkFragment: (href: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'dangling-link',
    message: `The link "${href}" leads to a page, but not to a place on it.`,
    hint: orElse(
      near.map((place) => `#${place}`),
      known.length > 0
        ? `Headings there: ${known.map((place) => `#${place}`).join(', ')}.`
        : 'Leave out the # and what follows it.',
    ),
  }),
  headingTaken: (text: string, slug: string): Fault => ({
    rule: 'heading-taken',
    severity: 'warning',
    message: `The heading "${text}" would have the address #${slug}, which pages of this kind keep for a section of their own.`,
    hint: 'Word the heading differently.',
  }),
  linkUnpublished: (href: string): Fault => ({
    rule: 'dangling-link',
    message: `The file "${href}" is part of the journal, but it is not published.`,
    hint: 'Declare it under captures: of a log, or put it into the folder static.',
  }),
  linkOutside: (href: string): Fault => ({
    rule: 'outside-journal',
    message: `"${href}" leads out of the journal's folder; nothing outside is published.`,
    hint: 'Copy the file into the journal.',
  }),
  imageMissing: (src: string, near: readonly string[]): Fault => ({
    rule: 'image-missing',
    message: `The picture "${src}" does not exist.`,
    hint: orElse(near, 'Put the file beside the record and name it by a relative path.'),
  }),
  imageKind: (src: string): Fault => ({
    rule: 'image-kind',
    message: `The file "${src}" is not a picture that a page can show.`,
    hint: 'Pictures end in .svg, .png, .jpg, .webp, .avif, .gif or .tiff.',
  }),
  pictureBroken: (src: string): Fault => ({
    rule: 'image-broken',
    message: `The picture "${src}" cannot be read as a picture.`,
    hint: 'Export it again.',
  }),
  pictureBytes: (src: string, bytes: number, most: number): Fault => ({
    rule: 'too-large',
    message: `The picture "${src}" has ${millions(bytes)} MB, and at most ${millions(most)} MB are published.`,
    hint: 'Export it smaller; a page shows at most some 2000 pixels across.',
  }),
  picturePixels: (
    src: string,
    { width, height, pages }: { width: number; height: number; pages: number },
    most: number,
  ): Fault => ({
    rule: 'too-large',
    message: `The picture "${src}" has ${width} by ${height} pixels${pages > 1 ? ` in ${pages} frames` : ''}, and at most ${millions(most)} million pixels are published.`,
    hint: 'Export it smaller; a page shows at most some 2000 pixels across.',
  }),
  drawingSize: (src: string): Fault => ({
    rule: 'image-broken',
    message: `The drawing "${src}" does not state its size.`,
    hint: 'Give its svg element a viewBox, or a width and a height.',
  }),
  imageRemote: (src: string): Fault => ({
    rule: 'image-remote',
    message: `The picture "${src}" is not a file of this journal.`,
    hint: 'Copy the picture into the journal.',
  }),
  imageAlt: (src: string): Fault => ({
    rule: 'image-alt',
    severity: 'warning',
    message: `The picture "${src}" has no text for those who cannot see it.`,
    hint: 'Write what it shows between the square brackets: ![what it shows](picture.jpg).',
  }),
} as const;
