import type { CombinationLine, IntermodulationFigure, TwoToneChannelSummary } from '../../signal/index.ts';
import { intermodulationId } from '../two-tone/two-tone-definitions.ts';

type Tones = NonNullable<TwoToneChannelSummary['tones']>;

/**
 * What one line of order n = |p| + |q| is, over the upper tone, in a device whose curve has a single term of that order
 * and gives one sine of the same peak as both tones together the distortion `own`:
 * own · (A/A₂) · n!/(|p|! |q|!) · (A₁/A)^|p| (A₂/A)^|q|, with A = A₁ + A₂.
 * @source binomial theorem applied to a₁cos α + a₂cos β, as in tests/figures/instrument.test.ts.
 */
export function ownLineRatio(
  { first, second }: Pick<CombinationLine, 'first' | 'second'>,
  { lower, upper }: Pick<Tones, 'lower' | 'upper'>,
  own: number,
): number {
  const [p, q] = [Math.abs(first), Math.abs(second)];
  const sum = lower.rms + upper.rms;
  const [low, high] = [lower.rms / sum, upper.rms / sum];
  return (own * binomial(p + q, p) * low ** p * high ** q) / high;
}

/** The largest that the instrument's own lines can add to a figure of a two-tone channel; null for other figures. */
export function ownIntermodulation(id: string, channel: TwoToneChannelSummary, own: number): number | null {
  const { tones, modulation } = channel;
  if (!tones) return null;
  const ratioOf = (line: CombinationLine) => ownLineRatio(line, tones, own);
  const single = channel.products.find(({ name }) => intermodulationId(name) === id);
  if (single) return ratioOf(single);
  const ofFigure = (figure: IntermodulationFigure) =>
    totalOf(figure, linesOf(figure, channel).map(ratioOf)) * referenceFactor(figure, tones);
  if (id === 'modulation-total') {
    const orders = [modulation?.second, modulation?.third].flatMap((order) => order ?? []);
    return Math.hypot(...orders.map(ofFigure));
  }
  const figure = intermodulationFigure(id, channel);
  return figure ? ofFigure(figure) : null;
}

/** The lines that a figure of a two-tone channel is made of; none for other figures. */
export function intermodulationLines(id: string, channel: TwoToneChannelSummary): CombinationLine[] {
  const single = channel.products.find(({ name }) => intermodulationId(name) === id);
  if (single) return [single];
  const figure = intermodulationFigure(id, channel);
  return figure ? linesOf(figure, channel) : [];
}

const linesOf = ({ lines }: IntermodulationFigure, { products }: TwoToneChannelSummary): CombinationLine[] =>
  lines.flatMap((name) => products.find((product) => product.name === name) ?? []);

/** The figure of a channel by its id; null where it has none. */
function intermodulationFigure(
  id: string,
  { modulation, differenceFrequency: difference }: TwoToneChannelSummary,
): IntermodulationFigure | null {
  switch (id) {
    case 'modulation-second':
      return modulation?.second ?? null;
    case 'modulation-third':
      return modulation?.third ?? null;
    case 'modulation-total':
      return modulation?.total ?? null;
    case 'modulation-sidebands':
      return modulation?.sidebands ?? null;
    case 'difference-second':
      return difference?.second ?? null;
    case 'difference-second-one-tone':
      return difference?.secondOneTone ?? null;
    case 'difference-third':
      return difference?.third ?? null;
    case 'difference-third-rss':
      return difference?.thirdRss ?? null;
    default:
      return null;
  }
}

const totalOf = ({ form }: IntermodulationFigure, ratios: readonly number[]) =>
  form === 'root sum of squares' ? Math.hypot(...ratios) : ratios.reduce((sum, ratio) => sum + ratio, 0);

/** From a ratio re the upper tone to one re the figure's own reference. */
function referenceFactor({ reference }: IntermodulationFigure, { lower, upper }: Tones): number {
  const sum = lower.rms + upper.rms;
  if (reference === 'upper tone') return 1;
  return (reference === 'sum of both tones' ? 1 : 2) * (upper.rms / sum);
}

function binomial(n: number, k: number): number {
  let product = 1;
  for (let i = 1; i <= k; i++) product *= (n - k + i) / i;
  return product;
}
