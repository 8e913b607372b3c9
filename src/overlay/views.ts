import { capital, ordinal } from '../charts/format.ts';
import { type Norm, norms } from './norms.ts';

/** What can be laid over one another: curves of one quantity along one axis. */
export interface View {
  id: string;
  name: string;
  along: 'frequency' | 'power';
  /** What stands at the vertical axis, without its unit. */
  quantity: string;
  /** What the curves may be normalised to, the first unless another is chosen. */
  norms: readonly [Norm, ...Norm[]];
}

const overFrequency = [norms.none, norms.oneKilohertz, norms.difference] as const;

/** The view of a page that asks for none. */
export const firstView: View = {
  ...{ id: 'response', name: 'Response', along: 'frequency', quantity: 'Level' },
  norms: [norms.oneKilohertz, norms.none, norms.meanLevel, norms.difference],
};

const fixedViews: readonly View[] = [
  firstView,
  {
    ...{ id: 'spectrum', name: 'Spectrum', along: 'frequency', quantity: 'Level' },
    norms: [norms.carrier, norms.none],
  },
  {
    ...{ id: 'impedance', name: 'Impedance', along: 'frequency', quantity: 'Impedance' },
    norms: overFrequency,
  },
];

const distortion = /^(thd|thd-plus-noise|harmonic-(\d{1,2}))-(frequency|power)$/;

/** The view of an id; null where there is none. */
export function viewOf(id: string): View | null {
  const fixed = fixedViews.find((view) => view.id === id);
  if (fixed) return fixed;
  const [, what = '', order, along] = distortion.exec(id) ?? [];
  if (along !== 'frequency' && along !== 'power') return null;
  const quantity = quantityOf(what, order);
  const name = `${quantity} against ${along === 'power' ? 'output power' : 'frequency'}`;
  return {
    ...{ id, name, along, quantity },
    norms: along === 'power' ? [norms.none, norms.difference] : overFrequency,
  };
}

function quantityOf(what: string, order: string | undefined): string {
  if (order !== undefined) return `${capital(ordinal(Number(order)))} harmonic`;
  return what === 'thd' ? 'THD' : 'THD+N';
}

/** Id of the view of a harmonic. */
export const harmonicView = (order: number, along: View['along']): string => `harmonic-${order}-${along}`;

const rank = (id: string): number =>
  ['response', 'thd', 'harmonic', 'spectrum', 'impedance'].findIndex((start) => id.startsWith(start)) * 1000 +
  (id.endsWith('power') ? 500 : 0) +
  Number(/\d+/.exec(id)?.[0] ?? 0);

/** The views that some traces have, in reading order. */
export function viewsOf(traces: readonly { views: readonly string[] }[]): View[] {
  const ids = [...new Set(traces.flatMap(({ views }) => views))].toSorted((a, b) => rank(a) - rank(b));
  return ids.flatMap((id) => viewOf(id) ?? []);
}
