import type { DescribedSheet } from '../chain/chain-link.ts';
import type { DrawnRow, StageSheet, SupplyDescription } from '../types.ts';

interface Currents {
  restA: number;
  /** Null where full drive is not known. */
  fullA: number | null;
}

/** Direct current that a stage draws from the plate supply, or from each rail; null where not known. */
export function currentsOf(sheet: StageSheet): Currents | null {
  switch (sheet.topology) {
    case 'single-ended': {
      const { operatingPoint: point, atLoad: at } = sheet;
      const fullA = at && at.averagePlateA + (at.averageScreenA ?? 0);
      return point && { restA: point.plateA + (point.screenA ?? 0), fullA };
    }
    case 'resistance-coupled': {
      const { operatingPoint: point } = sheet;
      return point && steady(point.plateA + (point.screenA ?? 0));
    }
    case 'push-pull': {
      const { operatingPoint: point, atLoad: at, count } = sheet;
      const fullA = at && at.averagePlateA + (at.averageScreenA ?? 0);
      return point && { restA: 2 * count * (point.plateA + (point.screenA ?? 0)), fullA };
    }
    case 'cathode-follower':
    case 'split-load':
    case 'long-tailed':
      return sheet.points.length === 0
        ? null
        : steady(sheet.points.reduce((total, { plateA, screenA }) => total + plateA + (screenA ?? 0), 0));
    case 'follower':
    case 'follower-pair':
      return sheet.rest && { restA: sheet.rest.averageA, fullA: sheet.largest?.averageA ?? null };
  }
}

/** Stages in class A that drive others hardly change their mean current. */
const steady = (restA: number): Currents => ({ restA, fullA: restA });

/** What each stage and the bleeders draw, and the stages of which it is not known. */
export function drawnRows(
  supply: SupplyDescription,
  stages: readonly DescribedSheet[],
): { rows: DrawnRow[]; unknown: string[] } {
  const channels = supply.channels ?? 1;
  const found = stages.map(({ sheet }) => ({ stage: sheet.id, currents: currentsOf(sheet) }));
  const bleedersA = bleederCurrent(supply);
  const rows = found.flatMap(({ stage, currents }): DrawnRow[] => {
    if (!currents) return [];
    const { restA, fullA } = currents;
    return [{ stage, restA: channels * restA, fullA: fullA === null ? null : channels * fullA }];
  });
  return {
    rows: bleedersA > 0 ? [...rows, { stage: null, restA: bleedersA, fullA: bleedersA }] : rows,
    unknown: found.flatMap(({ stage, currents }) => (currents ? [] : [stage])),
  };
}

/** Each bleeder at its capacitor's working voltage, or at the supply's; of split rails that of one rail. */
function bleederCurrent({ capacitors, plateV, splitRails = false }: SupplyDescription): number {
  const total = capacitors.reduce((sum, { bleederOhm, workingV }) => {
    const across = workingV ?? plateV;
    return bleederOhm === null || across === null ? sum : sum + across / bleederOhm;
  }, 0);
  return splitRails ? total / 2 : total;
}
