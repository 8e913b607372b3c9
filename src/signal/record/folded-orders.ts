/** An order of the fundamental above half the sampling rate. */
export interface FoldedOrder {
  order: number;
  /** Where sampling puts it. */
  cycles: number;
  /** The fitted order whose line it cannot be told from, 0 for the constant; null where it stands alone. */
  onto: number | null;
}

export interface FoldingOptions {
  /** Cycles of the fundamental in the record. */
  cycles: number;
  /** Samples in the record. */
  rows: number;
  /** Highest order that is fitted. */
  fitted: number;
  /** Highest order asked for. */
  asked: number;
}

/** Lines nearer than this, in cycles per record, are not told apart. */
const resolution = 1;

/**
 * Where the orders asked for that lie above half the sampling rate appear in a record, unless something ahead of the
 * converter keeps them out.
 * @source sampling theorem: a line at f appears at the distance of f from the nearest multiple of the rate.
 */
export function foldedOrders({ cycles, rows, fitted, asked }: FoldingOptions): FoldedOrder[] {
  const above = Array.from({ length: Math.max(0, asked - fitted) }, (_, i) => fitted + 1 + i);
  return above.map((order) => {
    const turns = (order * cycles) / rows;
    const place = Math.abs(turns - Math.round(turns)) * rows;
    const nearest = Math.round(place / cycles);
    const meets = Math.abs(place - nearest * cycles) < resolution && nearest <= fitted;
    return { order, cycles: place, onto: meets ? nearest : null };
  });
}
