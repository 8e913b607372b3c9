import { definitionOf, type Figure, type FigureDifference, figureText, sizeText } from '../figures/index.ts';
import { asShown, type Claim, type Judgement } from './claim.ts';
import { marginText } from './margin.ts';

/** What is asked of a figure, in words that its reference follows: "at least 10 dB lower than". */
export function askedText({ relation, margin }: Claim): string {
  if (relation === 'equal') return 'equal to';
  if (margin === null) return `${relation} than`;
  return relation === 'within'
    ? `within ${marginText(margin)} of`
    : `at least ${marginText(margin)} ${relation} than`;
}

/** The numbers behind a judgement in one sentence, or why there are none. */
export function foundText({ decisive, places, alike, absent, outcome }: Judgement): string {
  if (!decisive || outcome === 'no data') return absent ?? 'There is nothing to compare.';
  const { at, mean, of, reference, difference } = decisive;
  const name = definitionOf(of.id)?.name ?? of.id;
  const where = mean === undefined ? (at === null ? '' : ` at ${at}`) : `, mean from ${mean},`;
  const apart = difference.decibels === null ? '' : `, a difference of ${decibelText(difference.decibels)}`;
  const among = places > 1 ? ` (the first of ${alike} such places out of ${places})` : '';
  return `${name}${where} is ${valueText(of)}, compared with ${valueText(reference)}${apart}${among}.${basisText(difference)}`;
}

const basisText = ({ declared }: FigureDifference) =>
  declared === 'neither' ? '' : ' It is judged by a scatter that was declared from earlier captures.';

const valueText = (figure: Figure) => figureText(asShown(figure));

const decibelText = (value: number) => sizeText({ id: 'sinad', value, unit: 'dB' }, 3);
