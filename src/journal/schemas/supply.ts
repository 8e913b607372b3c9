import { z } from 'zod';
import type { ReservoirCapacitor, SupplyDescription } from '../../load/index.ts';
import { quantity } from './fields.ts';

const capacitor = {
  /** `47 µF`. */
  capacitance: quantity('capacitance'),
  /** Voltage printed on the capacitor: `450 V`. */
  ratedVoltage: quantity('voltage').optional(),
  /** Voltage across it in use: `340 V`. */
  workingVoltage: quantity('voltage').optional(),
  /** Resistor across it: `220 kΩ`. */
  bleeder: quantity('resistance').optional(),
};

/** A power supply, as far as load sheets and safety figures need it. */
export const supplySchema = z.strictObject({
  /** Plate supply under load: `320 V`. */
  plate: quantity('voltage').optional(),
  /** Voltage of one rail of a split supply: `18 V`. */
  rails: quantity('voltage').optional(),
  /** Current drawn from it: `70 mA`. */
  current: quantity('current').optional(),
  /** Resistance of winding and rectifier: `120 Ω`. */
  sourceResistance: quantity('resistance').optional(),
  /** `50 Hz`. */
  mains: quantity('frequency').optional(),
  /** Peak voltage with nothing connected: `410 V`; left out, it is estimated. */
  offLoad: quantity('voltage').optional(),
  reservoir: z.array(z.strictObject(capacitor)).default([]),
  filter: z
    .array(
      z.strictObject({
        kind: z.enum(['RC', 'LC']),
        resistance: quantity('resistance').optional(),
        inductance: quantity('inductance').optional(),
        ...capacitor,
      }),
    )
    .default([]),
});

export type SupplyData = z.infer<typeof supplySchema>;

/** The supply as the load room takes it; filter capacitors hold charge like the reservoir. */
export function supplyDescription(supply: SupplyData): SupplyDescription {
  return {
    plateV: supply.plate ?? supply.rails ?? null,
    currentA: supply.current ?? null,
    sourceResistanceOhm: supply.sourceResistance ?? null,
    mainsHz: supply.mains ?? null,
    offLoadV: supply.offLoad ?? null,
    capacitors: [
      ...supply.reservoir.map(reservoirCapacitor),
      ...supply.filter.map((section) => ({
        ...reservoirCapacitor(section),
        seriesOhm: section.resistance ?? null,
      })),
    ],
  };
}

type CapacitorData = SupplyData['reservoir'][number];

function reservoirCapacitor(part: CapacitorData): ReservoirCapacitor {
  return {
    capacitanceF: part.capacitance,
    ratedV: part.ratedVoltage ?? null,
    workingV: part.workingVoltage ?? null,
    bleederOhm: part.bleeder ?? null,
  };
}

/** The path in the record of a value that the load room names by its place among all capacitors. */
export function supplyPath(supply: SupplyData, path: readonly (string | number)[]): (string | number)[] {
  const [group, index, ...rest] = path;
  if (group === 'plate' && supply.plate === undefined) return ['rails'];
  if (group !== 'capacitors') return [...path];
  if (typeof index !== 'number') return [supply.reservoir.length > 0 ? 'reservoir' : 'filter'];
  const first = supply.reservoir.length;
  return index < first ? ['reservoir', index, ...rest] : ['filter', index - first, ...rest];
}
