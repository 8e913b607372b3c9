import type { Fact } from '../figures/stages.ts';
import type { PartData } from '../journal/schemas/index.ts';
import type { Version } from '../journal/types.ts';
import { printNumber, quantityText } from '../quantity/index.ts';

/** Versions whose stages or list of parts name a part's record. */
export function versionsWith(part: string, versions: readonly Version[]): Version[] {
  return versions.filter(
    ({ data, bill }) =>
      bill.lines.some(({ record }) => record === part) ||
      data.stages.some((stage) => 'transformer' in stage && stage.transformer === part),
  );
}

/** What a part's record states, printed. */
export function partFacts(data: PartData): Fact[] {
  const { use, price, delivery, supplier, taps = [] } = data;
  const texts = { 'Made for': use, Price: price, Delivery: delivery, Supplier: supplier };
  return [
    ...Object.entries(texts).flatMap(([name, value]) => (value === undefined ? [] : [{ name, value }])),
    ...windingFacts(data),
    ...taps.map(({ name, turnsRatio, resistance }) => ({
      name: `Tap ${name}`,
      value: `${printNumber(turnsRatio)} to 1${resistance === undefined ? '' : `, ${quantityText(resistance, 'Ω')}`}`,
    })),
    ...ratingFacts(data),
  ];
}

function windingFacts(data: PartData): Fact[] {
  const ohms = (name: string, value: number | undefined) =>
    value === undefined ? [] : [{ name, value: quantityText(value, 'Ω') }];
  const share =
    data.screenTap === undefined
      ? []
      : [{ name: 'Screen tap', value: quantityText(100 * data.screenTap, '%') }];
  const turns =
    data.turnsRatio === undefined
      ? []
      : [{ name: 'Turns ratio', value: `${printNumber(data.turnsRatio)} to 1` }];
  return [
    ...ohms('Primary', data.primary),
    ...ohms('Secondary', data.secondary),
    ...turns,
    ...ohms('Resistance of the primary', data.primaryResistance),
    ...ohms('Resistance of the secondary', data.secondaryResistance),
    ...share,
  ];
}

function ratingFacts({
  primaryInductance,
  leakageInductance,
  ratedPower,
  ratedDirectCurrent,
}: PartData): Fact[] {
  const hertz = (value: number) => quantityText(value, 'Hz');
  const fact = (name: string, value: string | undefined) => (value === undefined ? [] : [{ name, value }]);
  const open = primaryInductance;
  const leakage = leakageInductance;
  return [
    ...fact(
      'Primary inductance, secondary open',
      open &&
        `${quantityText(open.value, 'H')} at ${quantityText(open.level, 'V')}, ${hertz(open.frequency)}`,
    ),
    ...fact(
      'Leakage inductance, secondary shorted',
      leakage && `${quantityText(leakage.value, 'H')} at ${hertz(leakage.frequency)}`,
    ),
    ...fact(
      'Rated power',
      ratedPower && `${quantityText(ratedPower.value, 'W')} at ${hertz(ratedPower.frequency)}`,
    ),
    ...fact(
      'Rated direct current',
      ratedDirectCurrent === undefined ? undefined : quantityText(ratedDirectCurrent, 'A'),
    ),
  ];
}
