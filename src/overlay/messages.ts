const quoted = (text: string): string => `“${text}”`;

/** What the overlay page says, in full sentences. */
export const messages = {
  noView: (id: string) => `The address asks for the view ${quoted(id)}, which does not exist.`,
  noTrace: (id: string) => `The address names ${quoted(id)}, which this journal does not have.`,
  noCurve: (title: string, view: string) => `${title} has no curve of this kind: ${view}.`,
  noNorm: (id: string, view: string) =>
    `The address asks for the normalisation ${quoted(id)}, which is not there for this kind of curve: ${view}.`,
  unlikeUnits: (title: string, unit: string, first: string) =>
    `${title} is in ${unit} and the first trace in ${first}. Unlike units have no common axis, so that it is left out; normalised to its own value it can be shown.`,
  unlikeReference: (title: string, unit: string, reference: string) =>
    `${title} is in ${unit} and the reference in ${reference}, so that there is no difference between them.`,
  notAt: (title: string) => `${title} has no readings on both sides of 1 kHz, and nothing is extrapolated.`,
  noOverlap: (title: string) =>
    `${title} has no reading where the reference has any, and nothing is extrapolated.`,
  noCommon: 'These traces have no range in common, so that there is no mean level to hold equal.',
  noCarrier: (title: string) =>
    `No fundamental was found in ${title}, so that it has nothing to be held equal.`,
  noReading: (title: string) => `${title} has no reading that can be drawn.`,
  unread: (title: string) => `The curves of ${title} could not be read.`,
};
