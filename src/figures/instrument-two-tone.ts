import type { CombinationLine, IntermodulationFigure, TwoToneChannelSummary } from '../signal/index.ts';
import { intermodulationId } from './two-tone-definitions.ts';

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
  const { tones, products } = channel;
  if (!tones) return null;
  const ratioOf = (name: string) => {
    const line = products.find((product) => product.name === name);
    return line ? ownLineRatio(line, tones, own) : 0;
  };
  const single = products.find(({ name }) => intermodulationId(name) === id);
  if (single) return ratioOf(single.name);
  const { modulation, differenceFrequency: difference } = channel;
  const ofFigure = (figure: IntermodulationFigure | null | undefined) =>
    figure ? totalOf(figure, figure.lines.map(ratioOf)) * referenceFactor(figure, tones) : null;
  switch (id) {
    case 'modulation-second':
      return ofFigure(modulation?.second);
    case 'modulation-third':
      return ofFigure(modulation?.third);
    case 'modulation-total':
      return Math.hypot(ofFigure(modulation?.second) ?? 0, ofFigure(modulation?.third) ?? 0);
    case 'modulation-sidebands':
      return ofFigure(modulation?.sidebands);
    case 'difference-second':
      return ofFigure(difference?.second);
    case 'difference-second-one-tone':
      return ofFigure(difference?.secondOneTone);
    case 'difference-third':
      return ofFigure(difference?.third);
    case 'difference-third-rss':
      return ofFigure(difference?.thirdRss);
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
