import { quantityText } from '../../quantity/index.ts';
import { sheetBasis, spaceChargeBasis, unequalRatios, voltageOverCurrentBasis } from '../sheet-messages.ts';
import type { Connection, OperatingPoint, TubeLibrary, TypicalOperation } from '../types.ts';
import { ofRule, type Proposal } from './proposal.ts';

/** Of one tube. */
type Point = Pick<OperatingPoint, 'plateV' | 'plateA' | 'screenV'>;

/** Screen and plate voltage count as changed in one ratio where their ratios differ by no more than this share. */
const oneRatio = 0.05;

/** How `sheetLoads` recognises the rows that are of this stage's kind. */
export interface SheetUse {
  use: TypicalOperation['use'];
  /** True without a separately fed screen. */
  triode: boolean;
  /** Tubes in parallel, of a side in a pair. */
  count: number;
  /** Plate voltage to which the row that is moved is printed nearest. */
  nearV: number;
}

/** What data sheets print for a stage's type of tube; nothing for a tapped screen, which the rows are not of. */
export function printedFor(
  { device, connection }: { device: string | null; connection: Connection },
  library: TubeLibrary,
): readonly TypicalOperation[] {
  if (device === null || connection === 'distributed-load') return [];
  return library[device]?.typicalOperation ?? [];
}

/**
 * The loads that data sheets print for a stage of this kind, and the one printed nearest in plate voltage moved to a
 * point's voltage and current in two ways, which differ: by the three-halves-power law it falls as the voltage rises, by
 * voltage over current it rises. Empty where no row is known.
 * @source space charge: all electrode voltages times F give currents times F^(3/2), so loads times F^(−1/2); geometry of
 * the load line: loads go with voltage over current
 */
export function sheetLoads(typical: readonly TypicalOperation[], point: Point, of: SheetUse): Proposal[] {
  const rows = typical.filter(({ use, screenV }) => use === of.use && (screenV === null) === of.triode);
  const distance = ({ plateV }: TypicalOperation) => Math.abs(Math.log(plateV / of.nearV));
  const nearest = rows.toSorted((a, b) => distance(a) - distance(b))[0];
  const printed = rows.map((row) => {
    const others = rows.filter((other) => other !== row && other.plateV === row.plateV);
    return printedLoad(row, of.count, others.length === 0);
  });
  return nearest ? [...printed, ...movedLoads(nearest, point, of.count)] : [];
}

/** `alone`: no other row is printed for this plate voltage; where one is, the power tells them apart. */
function printedLoad(row: TypicalOperation, count: number, alone: boolean): Proposal {
  const { plateV, screenV, gridV, cathodeOhm, loadOhm, powerW } = row;
  const fixed = cathodeOhm === undefined;
  const bias = fixed
    ? `${quantityText(gridV ?? 0, 'V')} at the grid`
    : `${quantityText(cathodeOhm, 'Ω')} at the cathode`;
  const screen = screenV === null ? null : quantityText(screenV, 'V');
  const at = quantityText(plateV, 'V');
  const kind = fixed ? 'fixed bias' : 'cathode bias';
  const told = alone ? '' : `, ${quantityText(powerW, 'W')}`;
  return ofRule({
    method: `data sheet, ${at}, ${kind}${told}`,
    short: `sheet ${at}${told}`,
    loadOhm: loadOhm / count,
    basis: sheetBasis(at, screen, bias, quantityText(powerW, 'W')),
    source: sourceOf(row),
    status: 'published',
  });
}

function movedLoads(row: TypicalOperation, point: Point, count: number): Proposal[] {
  const rowA = row.use === 'single-ended class A' ? row.plateA : row.plateA / 2;
  const loadOhm = row.loadOhm / count;
  const factor = point.plateV / row.plateV;
  const together = inOneRatio(row, point);
  const source = sourceOf(row);
  return [
    ofRule({
      method: 'data-sheet load by the three-halves-power law',
      short: 'sheet by 3/2',
      loadOhm: together ? loadOhm / Math.sqrt(factor) : null,
      basis: together ? spaceChargeBasis(factor) : unequalRatios(),
      source: `space-charge law, from: ${source}`,
      status: 'derived',
    }),
    ofRule({
      method: 'data-sheet load by voltage over current',
      short: 'sheet by U/I',
      loadOhm: loadOhm * factor * (rowA / point.plateA),
      basis: voltageOverCurrentBasis(factor, point.plateA / rowA),
      source: `geometry of the load line, from: ${source}`,
      status: 'derived',
    }),
  ];
}

function inOneRatio(row: TypicalOperation, { plateV, screenV }: Point): boolean {
  if (row.screenV === null || screenV === null) return true;
  return Math.abs(screenV / row.screenV / (plateV / row.plateV) - 1) <= oneRatio;
}

const sourceOf = ({ source, status }: TypicalOperation) =>
  status === 'memory' ? `${source} (from memory)` : source;
