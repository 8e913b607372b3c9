import { z } from 'zod';
import type { HeaterWinding, ReservoirCapacitor, SupplyDescription } from '../../load/index.ts';
import { line, quantity, slug, wholeNumber } from './fields.ts';

const capacitor = {
  /** `47 µF`. */
  capacitance: quantity('capacitance'),
  /** Voltage printed on the capacitor: `450 V`. */
  ratedVoltage: quantity('voltage').optional(),
  /** Voltage across it in use: `340 V`. */
  workingVoltage: quantity('voltage').optional(),
  /** Resistor across it: `220 kΩ`. */
  bleeder: quantity('resistance').optional(),
  /** What the bleeder is rated for: `5 W`. */
  bleederPower: quantity('power').optional(),
  /** Ids of the stages that draw their plate current here: `[output]`; left out, all from the last capacitor. */
  feeds: z.array(slug).default([]),
};

/** Heaters on one winding. */
const winding = z.strictObject({
  /** `first`. */
  name: line,
  /** `6.3 V`. */
  voltage: quantity('voltage'),
  /** `4 A`. */
  ratedCurrent: quantity('current').optional(),
  feeds: z
    .array(
      z.strictObject({
        /** Tube type: `EL84`. */
        device: line,
        /** How many of them: `4`; left out, one. */
        count: wholeNumber(1, 100).default(1),
        /** Of each at this voltage: `0.76 A`; left out, from the data of the type. */
        current: quantity('current').optional(),
      }),
    )
    .min(1),
});

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
  /** Capacitors behind the rectifier. */
  reservoir: z.array(z.strictObject(capacitor)).default([]),
  /** Sections behind the reservoir, in their order. */
  filter: z
    .array(
      z.strictObject({
        kind: z.enum(['RC', 'LC']),
        resistance: quantity('resistance').optional(),
        inductance: quantity('inductance').optional(),
        /** Direct current through the section: `4 mA`; left out, all that the supply gives. */
        current: quantity('current').optional(),
        ...capacitor,
      }),
    )
    .default([]),
  /** `full-wave` (two halves of a centre-tapped winding), `bridge` or `half-wave`; left out, full-wave. */
  rectifier: z.enum(['full-wave', 'half-wave', 'bridge']).default('full-wave'),
  /** How many like sets of the stages it feeds: `2`; left out, one. */
  channels: wholeNumber(1, 16).default(1),
  /** Heater windings with the tubes on them. */
  heaters: z.strictObject({ windings: z.array(winding).min(1) }).optional(),
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
        section: section.kind,
        seriesOhm: section.resistance ?? null,
        seriesH: section.inductance ?? null,
        sectionA: section.current ?? null,
      })),
    ],
    rectifier: supply.rectifier,
    splitRails: supply.plate === undefined && supply.rails !== undefined,
    channels: supply.channels,
    heaters: supply.heaters?.windings.map(heaterWinding) ?? [],
  };
}

const heaterWinding = ({ name, voltage, ratedCurrent, feeds }: z.infer<typeof winding>): HeaterWinding => ({
  name,
  voltageV: voltage,
  ratedA: ratedCurrent ?? null,
  feeds: feeds.map(({ device, count, current }) => ({ device, count, currentA: current ?? null })),
});

type CapacitorData = SupplyData['reservoir'][number];

function reservoirCapacitor(part: CapacitorData): ReservoirCapacitor {
  return {
    capacitanceF: part.capacitance,
    ratedV: part.ratedVoltage ?? null,
    workingV: part.workingVoltage ?? null,
    bleederOhm: part.bleeder ?? null,
    bleederRatedW: part.bleederPower ?? null,
    feeds: part.feeds,
  };
}

/** The path in the record of a value that the load room names by its place among all capacitors. */
export function supplyPath(supply: SupplyData, path: readonly (string | number)[]): (string | number)[] {
  const [group, index, ...rest] = path;
  if (group === 'plate' && supply.plate === undefined) return ['rails'];
  if (group === 'heaters') return ['heaters', 'windings', ...path.slice(1)];
  if (group !== 'capacitors') return [...path];
  if (typeof index !== 'number') return [supply.reservoir.length > 0 ? 'reservoir' : 'filter'];
  const first = supply.reservoir.length;
  return index < first ? ['reservoir', index, ...rest] : ['filter', index - first, ...rest];
}
