import type { FittedRecord } from '../fit/fit-record.ts';
import type { ChannelAnalysis } from '../fit/fitted-summary.ts';
import { type Finding, detailMessages as messages } from '../messages.ts';
import type { ChannelSummary, Harmonic, Withheld } from '../types.ts';
import { type FoldedOrder, foldedOrders } from './folded-orders.ts';

/**
 * What sampling may have put onto the lines of a channel. A harmonic that a folded order cannot be told from carries
 * that order, and the sums that it is part of are withheld. An instrument whose bandwidth ends below half the sampling
 * rate lets nothing fold.
 */
export function withFolding(
  summary: ChannelSummary,
  { cycles, residual, fit }: FittedRecord,
  { rateHz, harmonics: asked, bandwidthHz }: ChannelAnalysis,
): { summary: ChannelSummary; findings: Finding[] } {
  const rows = residual.length;
  if (bandwidthHz !== null && bandwidthHz <= rateHz / 2) return { summary, findings: [] };
  const folded = foldedOrders({ cycles, rows, fitted: fit.cosine.length, asked });
  const met = folded.filter(({ onto }) => onto !== null);
  const alone = folded.filter(({ onto }) => onto === null);
  const hertz = alone.map((order) => (order.cycles * rateHz) / rows);
  return {
    summary: withMarks(summary, met),
    findings: [
      ...(met.length === 0 ? [] : [messages.foldedOnto(met.map(orderOf), linesOf(met))]),
      ...(alone.length === 0
        ? []
        : [messages.foldedInto(alone.map(orderOf), [Math.min(...hertz), Math.max(...hertz)])]),
    ],
  };
}

const orderOf = ({ order }: FoldedOrder) => order;

/** The lines that folded orders meet, in ascending order. */
const linesOf = (met: readonly FoldedOrder[]) =>
  [...new Set(met.flatMap(({ onto }) => onto ?? []))].toSorted((a, b) => a - b);

function withMarks(summary: ChannelSummary, met: readonly FoldedOrder[]): ChannelSummary {
  const harmonics = summary.harmonics.map((harmonic) => marked(harmonic, met));
  const spoilt = harmonics.filter(({ foldedOrders }) => foldedOrders).map(({ order }) => order);
  if (spoilt.length === 0) return summary;
  const lost = (parity: number) => spoilt.some((order) => order % 2 === parity);
  const sums: [keyof ChannelSummary & ('thd' | 'evenHarmonics' | 'oddHarmonics'), boolean][] = [
    ['thd', true],
    ['evenHarmonics', lost(0)],
    ['oddHarmonics', lost(1)],
  ];
  const gone = sums.filter(([, applies]) => applies).map(([figure]) => figure);
  const withheld = [
    ...gone.map((figure): Withheld => ({ figure, reason: messages.foldedTotal(spoilt) })),
    ...harmonics.flatMap(({ order, foldedOrders }): Withheld[] =>
      foldedOrders ? [{ figure: `harmonic-${order}`, reason: messages.foldedOntoLine(foldedOrders) }] : [],
    ),
  ];
  return {
    ...summary,
    harmonics,
    ...Object.fromEntries(gone.map((figure) => [figure, null])),
    withheld: [
      ...summary.withheld.filter(({ figure }) => !gone.some((name) => name === figure)),
      ...withheld,
    ],
  };
}

function marked(harmonic: Harmonic, met: readonly FoldedOrder[]): Harmonic {
  const onto = met.filter(({ onto: line }) => line === harmonic.order).map(orderOf);
  return onto.length === 0 ? harmonic : { ...harmonic, foldedOrders: onto };
}
