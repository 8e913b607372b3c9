import type { Capture, Column, ColumnQuantity } from '../../capture/index.ts';

/** The columns of a sweep that belong to one channel. */
export interface SweepChannel {
  name: string;
  /** The channel's own level, gain, power or impedance; null where only its distortion was measured. */
  level: Column | null;
  phase: Column | null;
  thd: Column | null;
  thdPlusNoise: Column | null;
  harmonics: (Column & { order: number })[];
}

const levels: readonly ColumnQuantity[] = ['voltage', 'current', 'power', 'gain', 'impedance'];

/**
 * Sorts a sweep's columns by channel. A stimulus is a channel only where nothing answers to it; a phase or
 * distortion column that names no channel belongs to the first.
 */
export function sweepChannels({ columns }: Pick<Capture, 'columns'>): SweepChannel[] {
  const measured = columns.filter(({ axis, quantity }) => !axis && levels.includes(quantity));
  const answering = measured.filter(({ role }) => role !== 'stimulus');
  const chosen = answering.length > 0 ? answering : measured;
  const names = chosen.length > 0 ? chosen.map(({ name }) => name) : distortionNames(columns);
  return names.map((name, index) => {
    const own = columns.filter(
      (column) => column.channel === name || (index === 0 && column.channel === undefined),
    );
    return channelOf(name, chosen.find((column) => column.name === name) ?? null, own);
  });
}

/** Names of channels of which only distortion was measured. */
function distortionNames(columns: readonly Column[]): string[] {
  const named = columns.flatMap(({ channel }) => channel ?? []);
  const first = columns.find(({ quantity }) => quantity === 'thd' || quantity === 'harmonic');
  return named.length > 0 ? [...new Set(named)] : first ? [first.name] : [];
}

function channelOf(name: string, level: Column | null, own: readonly Column[]): SweepChannel {
  const find = (quantity: ColumnQuantity) => own.find((column) => column.quantity === quantity) ?? null;
  return {
    name,
    level,
    phase: find('phase'),
    thd: find('thd'),
    thdPlusNoise: find('thd-plus-noise'),
    harmonics: own.flatMap((column) =>
      column.order === undefined ? [] : [{ ...column, order: column.order }],
    ),
  };
}
