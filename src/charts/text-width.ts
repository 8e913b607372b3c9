/**
 * Advance widths of IBM Plex Sans Regular in thousandths of the font size, characters of equal width together.
 * @source IBM Plex Sans 3.201 (SIL Open Font License 1.1), hmtx table of the fonts in the npm package
 * @fontsource/ibm-plex-sans 5.3.0
 */
const advances: Record<number, string> = {
  118: '\u2009',
  236: ' \u00a0',
  250: 'ij',
  272: 'l,.',
  292: ':;',
  314: '|',
  324: 'f',
  326: '·',
  335: '()',
  346: '²³',
  351: 't',
  359: '¹',
  367: 'r',
  383: '/',
  399: '-',
  400: 'I',
  464: 'z',
  468: '°',
  487: 's',
  492: 'v',
  499: 'y',
  501: 'L',
  503: 'c',
  507: 'x',
  510: 'J',
  527: 'k',
  528: 'g',
  534: 'a',
  549: 'e',
  559: 'F',
  560: 'o',
  565: '_',
  568: 'hnu',
  572: 'T',
  573: 'µ',
  580: 'bdpqZ',
  581: 'S',
  583: 'E',
  588: '–',
  593: 'Y',
  600: '0123456789+<=>±×−',
  606: 'P',
  609: 'V',
  613: 'X',
  621: 'C',
  634: 'K',
  640: 'R',
  641: 'A',
  653: 'B',
  671: 'D',
  678: 'U',
  695: 'G',
  707: 'HN',
  708: 'OQ',
  713: '#',
  716: 'Ω',
  768: 'w',
  803: '…',
  812: 'M',
  873: 'm',
  891: 'W',
  927: '%',
};

/** A character outside the table counts as a wide letter, so that text is never longer than expected. */
const otherAdvance = 700;

const widthOf = new Map(
  Object.entries(advances).flatMap(([width, characters]) =>
    [...characters].map((character) => [character, Number(width)] as const),
  ),
);

/** Width of a line of text in the chart's font, in the unit of `size`. */
export function textWidth(text: string, size: number): number {
  let sum = 0;
  for (const character of text) sum += widthOf.get(character) ?? otherAdvance;
  return (sum * size) / 1000;
}

/** Breaks a text at spaces into lines no wider than `most`; a word that is wider is cut with an ellipsis. */
export function wrapText(text: string, size: number, most: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ').map((part) => shorten(part, size, most))) {
    const joined = `${lines.at(-1) ?? ''} ${word}`;
    if (lines.length > 0 && textWidth(joined, size) <= most) lines[lines.length - 1] = joined;
    else lines.push(word);
  }
  return lines;
}

/** Cuts a text to a width; what is cut shows as an ellipsis. */
function shorten(text: string, size: number, most: number): string {
  if (textWidth(text, size) <= most) return text;
  let kept = [...text];
  while (kept.length > 1 && textWidth(`${kept.join('')}…`, size) > most) kept = kept.slice(0, -1);
  return `${kept.join('')}…`;
}
