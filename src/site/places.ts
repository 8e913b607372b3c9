/** A stretch of HTML, or a place that the page fills with a chart, a summary or a figure in running text. */
export type Piece =
  | { html: string }
  | { place: 'chart' | 'summary'; capture: string; kind: string | null; channel: string | null }
  | { place: 'figure'; figure: string; of: string };

const placeholder = /<(figure|span) data-place="(chart|summary|figure)"([^>]*)>\s*<\/\1>/g;

/** Cuts rendered prose at its placeholders. */
export function piecesOf(html: string): Piece[] {
  const pieces: Piece[] = [];
  let from = 0;
  for (const match of html.matchAll(placeholder)) {
    const [whole, , name = '', attributes = ''] = match;
    pieces.push({ html: html.slice(from, match.index) }, pieceOf(name, attributes));
    from = match.index + whole.length;
  }
  return [...pieces, { html: html.slice(from) }];
}

function pieceOf(name: string, attributes: string): Piece {
  const of = (key: string) => new RegExp(` data-${key}="([^"]*)"`).exec(attributes)?.[1] ?? null;
  if (name === 'figure') return { place: 'figure', figure: of('figure') ?? '', of: of('of') ?? '' };
  const asked = { capture: of('capture') ?? '', kind: of('kind'), channel: of('channel') };
  return { place: name === 'summary' ? 'summary' : 'chart', ...asked };
}
