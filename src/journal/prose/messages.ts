import type { Fault } from '../../problem/index.ts';

const orElse = (near: readonly string[], otherwise: string) =>
  near.length > 0 ? `Did you mean ${near.join(' or ')}?` : otherwise;

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
    hint: `It takes ${known.join(', ')}.`,
  }),
  missingAttribute: (name: string, directive: string): Fault => ({
    rule: 'missing-attribute',
    message: `"${directive}" needs the attribute "${name}".`,
    hint: `Write ${name}="…" with the name of a capture of this log.`,
  }),
  unknownCapture: (name: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-capture',
    message: `This log has no capture "${name}".`,
    hint: orElse(
      near,
      known.length > 0 ? `It has: ${known.join(', ')}.` : 'Declare it under captures: first.',
    ),
  }),
  unknownChart: (kind: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-chart',
    message: `A chart of the kind "${kind}" cannot be drawn from this capture.`,
    hint: orElse(near, `It gives: ${known.join(', ')}.`),
  }),
  badMaths: (detail: string): Fault => ({
    rule: 'maths',
    message: `The formula cannot be set: ${detail}`,
    hint: 'Mend the TeX here; a dollar sign that is money is written \\$.',
  }),
  htmlRefused: (tag: string): Fault => ({
    rule: 'html-refused',
    message: `HTML such as "${tag}" is not published from Markdown.`,
    hint: 'Use Markdown or a directive. Allowed without attributes: br, sub, sup, kbd, small, mark, del, ins, abbr, details, summary.',
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
  imageRemote: (src: string): Fault => ({
    rule: 'image-remote',
    message: `The picture "${src}" would be fetched from another host.`,
    hint: 'Copy the picture into the journal.',
  }),
  imageAlt: (src: string): Fault => ({
    rule: 'image-alt',
    severity: 'warning',
    message: `The picture "${src}" has no text for those who cannot see it.`,
    hint: 'Write what it shows between the square brackets: ![what it shows](picture.jpg).',
  }),
} as const;
