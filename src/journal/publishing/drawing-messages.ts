import type { Fault } from '../../problem/index.ts';

const refused = (message: string, hint: string): Fault => ({ rule: 'drawing-refused', message, hint });
const plain = 'Export it as plain SVG, with pictures and fonts embedded.';

/** Every sentence about what an SVG drawing may not hold. */
export const drawingMessages = {
  element: (name: string) =>
    refused(
      `The element <${name}> is not published in a drawing, as it runs code or brings in other documents.`,
      'Remove it, or export the drawing as plain SVG.',
    ),
  handler: (name: string) =>
    refused(
      `"${name}" would run code or change where a link leads, and no drawing of a journal does.`,
      'Remove the attribute.',
    ),
  address: (name: string) =>
    refused(
      `"${name}" leads out of the drawing; only places in it (#…) and pictures written out in it are published.`,
      plain,
    ),
  style: () =>
    refused(
      'A style here asks for a file outside the drawing, or is written so that this cannot be told.',
      plain,
    ),
  entities: () =>
    refused('The drawing declares entities of its own, which are not read.', 'Export it as plain SVG.'),
  instruction: () =>
    refused(
      'The drawing names a style sheet, or an encoding that is not UTF-8.',
      'Save it as UTF-8, with its styles within it.',
    ),
  broken: () => refused('The drawing is not well-formed from here on.', 'Export it again.'),
  tooLarge: (bytes: number, most: number): Fault => ({
    rule: 'too-large',
    message: `The drawing has ${size(bytes)}, and at most ${size(most)} are published.`,
    hint: 'Simplify its paths, or export it as a picture.',
  }),
} as const;

const size = (bytes: number) => `${Number((bytes / 1e6).toPrecision(3))} MB`;
