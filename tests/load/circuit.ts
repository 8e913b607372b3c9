/** Two triodes as sources behind their plate resistance, solved node by node: an outside check of closed forms. */

export interface Triode {
  mu: number;
  rpOhm: number;
}

/** A tube that is not there. */
export const noTube: Triode = { mu: 0, rpOhm: 1e30 };

interface Circuit {
  tubes: [Triode, Triode];
  /** From each plate to ground. */
  plateOhms: [number, number];
  /** From the joined cathodes to ground. */
  cathodeOhm: number;
}

/** Voltages of first plate, second plate and cathodes for a voltage at the first grid and currents into the nodes. */
export function nodeVoltages(
  { tubes, plateOhms, cathodeOhm }: Circuit,
  { gridV = 0, into = [0, 0, 0] }: { gridV?: number; into?: [number, number, number] },
): [number, number, number] {
  const [a, b] = tubes.map(({ mu, rpOhm }) => ({
    plate: 1 / rpOhm,
    both: (mu + 1) / rpOhm,
    grid: mu / rpOhm,
  }));
  if (!a || !b) throw new Error('two tubes are needed');
  return solve([
    [1 / plateOhms[0] + a.plate, 0, -a.both, into[0] - a.grid * gridV],
    [0, 1 / plateOhms[1] + b.plate, -b.both, into[1]],
    [-a.plate, -b.plate, 1 / cathodeOhm + a.both + b.both, into[2] + a.grid * gridV],
  ]);
}

type Row = [number, number, number, number];

/** Cramer's rule. */
function solve(rows: [Row, Row, Row]): [number, number, number] {
  const column = (k: 0 | 1 | 2 | 3) => rows.map((row) => row[k]);
  const columns = [column(0), column(1), column(2)];
  const all = determinant(columns);
  const of = (k: number) => determinant(columns.map((own, index) => (index === k ? column(3) : own))) / all;
  return [of(0), of(1), of(2)];
}

function determinant(columns: readonly (readonly number[])[]): number {
  const at = (row: number, k: number) => columns[k]?.[row] ?? Number.NaN;
  const minor = (k: number, l: number) => at(1, k) * at(2, l) - at(1, l) * at(2, k);
  return at(0, 0) * minor(1, 2) - at(0, 1) * minor(0, 2) + at(0, 2) * minor(0, 1);
}
