import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { findRoot, firstNegative } from '../solving/solve.ts';
import type { ReservoirCapacitor } from '../types.ts';

/** Capacitors joined without resistance; conductances to ground and to the node before (0 at the first). */
interface Node {
  capacitanceF: number;
  leakS: number;
  joinS: number;
}

/** Series resistance below this share of the bleeders' is left out: it adds less than that share to the time. */
const negligible = 1e-4;

/**
 * Seconds until every capacitor of a supply has fallen from `startV` below `limitV` through the bleeders,
 * the rectifier and the load being gone. Filter resistors are allowed for. Null without a bleeder.
 * @source t = R·C·ln(V/Vlimit) for one node; for several, the modes of the resistor-capacitor ladder
 */
export function dischargeTime(
  capacitors: readonly ReservoirCapacitor[],
  startV: number,
  limitV: number,
): number | null {
  const nodes = ladderOf(capacitors);
  const leakS = sum(nodes.map((node) => node.leakS));
  if (leakS === 0) return null;
  if (startV <= limitV) return 0;
  const joined = sum(nodes.map(({ capacitanceF }) => capacitanceF)) / leakS;
  const timeS = joined * Math.log(startV / limitV);
  return nodes.length === 1 ? timeS : ladderTime(nodes, { limit: limitV / startV, timeS });
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);

function ladderOf(capacitors: readonly ReservoirCapacitor[]): Node[] {
  const leakS = sum(capacitors.map(conductance));
  const nodes: Node[] = [];
  for (const capacitor of capacitors) {
    const seriesOhm = capacitor.seriesOhm ?? 0;
    const last = nodes.at(-1);
    if (last && seriesOhm * leakS <= negligible) {
      last.capacitanceF += capacitor.capacitanceF;
      last.leakS += conductance(capacitor);
    } else {
      const joinS = last ? 1 / seriesOhm : 0;
      nodes.push({ capacitanceF: capacitor.capacitanceF, leakS: conductance(capacitor), joinS });
    }
  }
  return nodes;
}

const conductance = ({ bleederOhm }: ReservoirCapacitor) => (bleederOhm === null ? 0 : 1 / bleederOhm);

/** Time until the slowest node is at `limit` times the common start; `timeS` is where the search begins. */
function ladderTime(
  nodes: readonly Node[],
  { limit, timeS }: { limit: number; timeS: number },
): number | null {
  const slowest = slowestNode(nodes);
  const excess = (at: number) => slowest(at) - limit;
  const high = firstNegative(excess, timeS);
  return high === null ? null : findRoot(excess, { low: 0, high });
}

/**
 * Highest node voltage against time for a start at 1 V everywhere. With x = √C·V the equations are
 * symmetric, so that the modes are orthogonal and decay.
 */
function slowestNode(nodes: readonly Node[]): (timeS: number) => number {
  const roots = nodes.map(({ capacitanceF }) => Math.sqrt(capacitanceF));
  const modes = new EigenvalueDecomposition(new Matrix(scaledConductances(nodes, roots)), {
    assumeSymmetric: true,
  });
  const shapes = modes.eigenvectorMatrix.to2DArray();
  const start = modes.realEigenvalues.map((_, mode) =>
    sum(roots.map((root, node) => root * (shapes[node]?.[mode] ?? 0))),
  );
  return (timeS) => {
    const decayed = modes.realEigenvalues.map((rate, mode) => (start[mode] ?? 0) * Math.exp(-rate * timeS));
    const voltages = roots.map(
      (root, node) => sum(decayed.map((size, mode) => size * (shapes[node]?.[mode] ?? 0))) / root,
    );
    return Math.max(...voltages);
  };
}

function scaledConductances(nodes: readonly Node[], roots: readonly number[]): number[][] {
  return nodes.map((node, row) =>
    nodes.map((_, column) => {
      const scale = (roots[row] ?? 1) * (roots[column] ?? 1);
      const next = nodes[row + 1]?.joinS ?? 0;
      if (column === row) return (node.leakS + node.joinS + next) / scale;
      if (column === row + 1) return -next / scale;
      return column === row - 1 ? -node.joinS / scale : 0;
    }),
  );
}
