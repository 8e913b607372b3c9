/** A stretch of HTML, or a place that the page fills with a chart or a summary. */
export type Piece =
  | { html: string }
  | { place: 'chart' | 'summary'; capture: string; kind: string | null; channel: string | null };

const placeholder = /<figure data-place="(chart|summary)"([^>]*)>\s*<\/figure>/g;

/** Cuts rendered prose at its placeholders. */
export function piecesOf(html: string): Piece[] {
  const pieces: Piece[] = [];
  let from = 0;
  for (const match of html.matchAll(placeholder)) {
    const [whole, name, attributes = ''] = match;
    pieces.push({ html: html.slice(from, match.index) });
    const of = (key: string) => new RegExp(` data-${key}="([^"]*)"`).exec(attributes)?.[1] ?? null;
    const asked = { capture: of('capture') ?? '', kind: of('kind'), channel: of('channel') };
    pieces.push({ place: name === 'summary' ? 'summary' : 'chart', ...asked });
    from = match.index + whole.length;
  }
  return [...pieces, { html: html.slice(from) }];
}
